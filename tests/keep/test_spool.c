/* Tests of keep/spool and keep/intake: what is put aside comes back whole. */
#include "keep/intake.h"
#include "keep/spool.h"

#include <criterion/criterion.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { RECORDS = 300 };

/* Lengths of texts from none to the most, so that every rest of a unit comes.
 */
static void
make_record(struct spool_record *record, int i)
{
	memset(record, 0, sizeof *record);
	record->kind = (enum spool_kind)(i % 3);
	record->row = i * 1000003L;
	record->status.st_ino = (ino_t)i;
	record->status.st_size = (off_t)i * i;
	memset(record->path, 'p', (size_t)(i == 7 ? SPOOL_PATH_SIZE - 1 : i));
	memset(record->column, 'c', (size_t)(i % SPOOL_COLUMN_SIZE));
	memset(record->reason, 'r',
	       (size_t)(i == 9 ? FAULT_SENTENCE_SIZE - 1 : i % 37));
}

static void
expect_record(const struct spool_record *record, int i)
{
	struct spool_record made;

	make_record(&made, i);
	cr_expect_eq(record->kind, made.kind, "record %d", i);
	cr_expect_eq(record->row, made.row, "record %d", i);
	cr_expect(spool_is_same(record, &made.status), "record %d", i);
	cr_expect_str_eq(record->path, made.path, "record %d", i);
	cr_expect_str_eq(record->column, made.column, "record %d", i);
	cr_expect_str_eq(record->reason, made.reason, "record %d", i);
}

/* One after the other, then by number from the last to the first. */
Test(spool, records_come_back_in_any_order)
{
	unsigned number[RECORDS], next = 0;
	struct spool_record record;
	struct spool spool;
	struct fault why;

	cr_assert(spool_begin(&spool, &why));
	for (int i = 0; i < RECORDS; i++) {
		make_record(&record, i);
		cr_assert(spool_add(&spool, &record, &number[i], &why));
	}
	for (int i = 0; i < RECORDS; i++) {
		cr_expect_eq(next, number[i], "record %d", i);
		cr_assert(spool_read(&spool, number[i], &record, &next, &why));
		expect_record(&record, i);
	}
	cr_expect_eq(next, spool.end);
	for (int i = RECORDS - 1; i >= 0; i--) {
		cr_assert(spool_read(&spool, number[i], &record, &next, &why));
		expect_record(&record, i);
	}
	spool_release(&spool);
}

/* Another record is looked at between each two, and after some more are added;
 * enough of them for what is read at once to end within records. */
Test(spool, records_come_one_by_one_with_others_between)
{
	struct spool_record record;
	unsigned number[2 * RECORDS], next = 0, other;
	struct spool spool;
	struct fault why;

	cr_assert(spool_begin(&spool, &why));
	for (int round = 1; round <= 2; round++) {
		for (int i = (round - 1) * RECORDS; i < round * RECORDS; i++) {
			make_record(&record, i);
			cr_assert(spool_add(&spool, &record, &number[i], &why));
		}
		cr_assert_gt(spool.end, 4096U * (unsigned)round);
		next = 0;
		for (int i = 0; i < round * RECORDS; i++) {
			int its = (i * 7) % (round * RECORDS);

			cr_assert_eq(next, number[i], "record %d", i);
			cr_assert(spool_read(&spool, number[i], &record, &next,
					     &why));
			expect_record(&record, i);
			cr_assert(spool_read(&spool, number[its], &record,
					     &other, &why));
			expect_record(&record, its);
		}
		cr_expect_eq(next, spool.end);
	}
	spool_release(&spool);
}

Test(spool, a_changed_file_is_noticed)
{
	struct spool_record record;
	struct stat now;

	make_record(&record, 5);
	now = record.status;
	cr_expect(spool_is_same(&record, &now));
	now.st_size++;
	cr_expect_not(spool_is_same(&record, &now));
	now = record.status;
	now.st_mtim.tv_nsec++;
	cr_expect_not(spool_is_same(&record, &now));
	now = record.status;
	now.st_ino++;
	cr_expect_not(spool_is_same(&record, &now));
}

/* --- standard input ------------------------------------------------------- */

/* How many bytes of `count` of `byte` written into a pipe are put aside: in
 * lines when `lines`, with a column `schema` when 2. */
static long long
put_aside(char byte, int lines, size_t count)
{
	struct stat status = {.st_size = -1};
	struct fault why;
	int ends[2], handle;

	cr_assert(pipe(ends) == 0);
	if (fork() == 0) {
		char line[1000];

		close(ends[0]);
		memset(line, byte, sizeof line);
		if (lines) {
			memcpy(line, lines > 1 ? "schema," : "scheme,", 7);
			line[sizeof line - 1] = '\n';
		}
		for (size_t i = 0; i < count; i += sizeof line) {
			if (write(ends[1], line, sizeof line) < 0)
				break;
		}
		_exit(0);
	}
	close(ends[1]);
	handle = intake_open(ends[0], &status, &why);
	cr_assert(handle >= 0, "%s", why.sentence);
	close(handle);
	close(ends[0]);
	return status.st_size;
}

Test(spool, a_pipe_is_put_aside_until_it_is_no_table, .timeout = 20)
{
	cr_expect_eq(put_aside('a', 2, 1000000), 1000000);
	/* Without an end, or as good as: given up early. */
	cr_expect_lt(put_aside('\0', 2, 1UL << 40), 1 << 20);
	cr_expect_lt(put_aside('a', 0, 1UL << 40), 1 << 20);
	cr_expect_lt(put_aside('a', 1, 1UL << 40), 1 << 20);
}

/* A file is read where it is; from its middle it is copied, as a pipe is. */
Test(spool, a_file_as_input_is_read_in_place)
{
	FILE *file = tmpfile();
	struct stat status, its;
	struct fault why;
	int handle;

	cr_assert_not_null(file);
	fputs("one\ntwo\n", file);
	fflush(file);
	rewind(file);
	fstat(fileno(file), &its);
	handle = intake_open(fileno(file), &status, &why);
	cr_expect(handle >= 0 && status.st_ino == its.st_ino);
	close(handle);
	lseek(fileno(file), 4, SEEK_SET);
	handle = intake_open(fileno(file), &status, &why);
	cr_expect(handle >= 0 && status.st_size == 4 &&
		  status.st_ino != its.st_ino);
	close(handle);
	fclose(file);
}
