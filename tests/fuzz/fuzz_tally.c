/* fuzz_tally.c: whatever bytes a file holds, the fast reader of tallies and the
 * reader of CSV come to the same answer, and a yield is read or refused.
 *
 * seeds: tests/fixtures/tallies
 * options: -max_len=3000
 */
#include "base/mark.h"
#include "fuzz.h"
#include "keep/batchfile.h"

enum { SIZE = 8192, BATCHES = 64 };

/* What one reader told. */
struct told {
	enum tallyfile_end end;
	int count;
	struct {
		struct batch batch;
		long long place;
		uint64_t values; /* of the rows as they are handed on */
	} one[BATCHES];
	struct refusal refusal;
	const struct batchfile *file;
};

static uint64_t
mixed(uint64_t sum, const void *bytes, size_t count)
{
	for (size_t i = 0; i < count; i++)
		sum = (sum ^ ((const unsigned char *)bytes)[i]) *
		      1099511628211U;
	return sum;
}

static uint64_t
mixed_text(uint64_t sum, const char *text)
{
	return mixed(sum, text, strlen(text) + 1);
}

static uint64_t
values_of(const struct gather *tally)
{
	uint64_t sum = 0;

	for (int i = 0; i < tally->batch.count; i++) {
		const struct counted *row = &tally->row[i];

		sum = mixed(sum, &row->date, sizeof row->date);
		sum = mixed(sum, &row->station, sizeof row->station);
		sum = mixed_text(sum, row->programme);
		sum = mixed_text(sum, row->site);
		sum = mixed_text(sum, row->policy);
		sum = mixed_text(sum, row->age_band);
		sum = mixed(sum, &row->sex, sizeof row->sex);
		sum = mixed(sum, &row->closed, sizeof row->closed);
		sum = mixed(sum, &row->counts, sizeof row->counts);
	}
	return sum;
}

static bool
see(void *context, const struct batch *batch, long long place,
    struct fault *why)
{
	struct told *told = context;
	int at = told->count++;

	(void)why;
	FUZZ_HOLD(batch_is_whole(batch) && batch->people == batch->total);
	if (at >= BATCHES)
		return true;
	told->one[at].batch = *batch;
	told->one[at].place = place;
	told->one[at].values =
		batchfile_holds_yields(told->file)
			? 0
			: values_of(&told->file->of.tally.gather);
	return true;
}

static void
read_by(struct batchfile *file, int handle, size_t length, bool as_csv,
	struct told *told)
{
	struct fault why = {FAULT_NONE, ""};

	told->file = file;
	told->count = 0;
	told->refusal.column = "";
	told->refusal.fault.sentence[0] = '\0';
	told->end = batchfile_read(file, handle, (long long)length, as_csv, see,
				   told, &told->refusal, &why);
	FUZZ_HOLD(told->end != TALLYFILE_STOPPED);
	if (told->end == TALLYFILE_REFUSED)
		fuzz_sentence(&told->refusal.fault, FAULT_INPUT);
	else
		FUZZ_HOLD(told->count > 0);
}

static bool
same_batch(const struct batch *one, const struct batch *other)
{
	return one->count == other->count && one->rows == other->rows &&
	       one->total == other->total && one->revision == other->revision &&
	       one->station == other->station &&
	       one->date.number == other->date.number &&
	       one->people == other->people && one->mark == other->mark &&
	       strcmp(one->device, other->device) == 0;
}

static void
compare(struct batchfile *file, int handle, const struct told *fast,
	const struct told *csv)
{
	FUZZ_HOLD(fast->end == csv->end && fast->count == csv->count);
	if (fast->end == TALLYFILE_REFUSED) {
		FUZZ_HOLD(fast->refusal.row == csv->refusal.row);
		FUZZ_HOLD(strcmp(fast->refusal.column, csv->refusal.column) ==
			  0);
		FUZZ_HOLD(strcmp(fast->refusal.fault.sentence,
				 csv->refusal.fault.sentence) == 0);
	}
	for (int i = 0; i < fast->count && i < BATCHES; i++) {
		const struct batch *again;

		FUZZ_HOLD(same_batch(&fast->one[i].batch, &csv->one[i].batch));
		FUZZ_HOLD(fast->one[i].values == csv->one[i].values);
		if (fast->one[i].place < 0)
			continue;
		again = batchfile_read_at(file, handle, fast->one[i].place);
		FUZZ_HOLD(again != NULL);
		FUZZ_HOLD(same_batch(again, &csv->one[i].batch));
		FUZZ_HOLD(values_of(&file->of.tally.gather) ==
			  csv->one[i].values);
	}
}

/* --- letters that fit ----------------------------------------------------- */

/* Random letters never fit, so each line is signed anew: in the place of its
 * last seven bytes stand those of the values before, parted by commas. */
static void
sign_line(char *line, size_t length)
{
	char letters[MARK_ROW_LETTERS + 1];
	struct mark mark;
	size_t last;

	if (length < MARK_ROW_LETTERS + 2)
		return;
	last = length - MARK_ROW_LETTERS;
	if (line[last - 1] != ',')
		return;
	mark_init(&mark);
	for (size_t at = 0; at < last;) {
		char *end = memchr(line + at, ',', last - at);
		size_t value = (size_t)(end - line);

		*end = '\0';
		mark_add(&mark, line + at);
		*end = ',';
		at = value + 1;
	}
	mark_write(&mark, MARK_ROW_LETTERS, letters);
	memcpy(line + last, letters, MARK_ROW_LETTERS);
}

static void
sign(char *text, size_t length)
{
	char *line = memchr(text, '\n', length);
	const char *end = text + length;

	while (line != NULL && ++line < end) {
		char *next = memchr(line, '\n', (size_t)(end - line));

		sign_line(line, (size_t)((next == NULL ? end : next) - line));
		line = next;
	}
}

static void
try_both(struct batchfile *file, FILE *bytes, const char *text, size_t length)
{
	static struct told fast, csv;
	int handle = fileno(bytes);

	FUZZ_HOLD(ftruncate(handle, 0) == 0 &&
		  pwrite(handle, text, length, 0) == (ssize_t)length);
	batchfile_begin(file, &gather_kind);
	read_by(file, handle, length, false, &fast);
	read_by(file, handle, length, true, &csv);
	compare(file, handle, &fast, &csv);
	batchfile_begin(file, &yieldgather_kind);
	read_by(file, handle, length, false, &fast);
}

int
LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
	static struct batchfile file;
	static FILE *room;
	static char text[SIZE];

	if (length > sizeof text)
		return 0;
	if (room == NULL)
		room = tmpfile();
	FUZZ_HOLD(room != NULL);
	if (length > 0)
		memcpy(text, bytes, length);
	try_both(&file, room, text, length);
	sign(text, length);
	try_both(&file, room, text, length);
	return 0;
}
