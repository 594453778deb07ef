/* spool.c: what became of each file, put aside in a file without a name. */
#include "keep/spool.h"

#include <errno.h>
#include <stdint.h>
#include <string.h>
#include <unistd.h>

enum { UNIT = 16 }; /* bytes: numbers of records count these */

/* As written, the three texts without NUL behind it. */
struct record_head {
	dev_t device;
	ino_t inode;
	off_t size;
	struct timespec changed;
	long row;
	uint16_t kind, path, column, reason;
};

/* The most bytes of a record. */
enum {
	RECORD_MOST = sizeof(struct record_head) + SPOOL_PATH_SIZE +
		      SPOOL_COLUMN_SIZE + FAULT_SENTENCE_SIZE
};

bool
spool_begin(struct spool *spool, struct fault *why)
{
	spool->file = tmpfile();
	spool->end = spool->next = 0;
	spool->writing = true;
	spool->at = 0;
	spool->filled = 0;
	if (spool->file == NULL)
		return fault_set(why, FAULT_OUTPUT,
				 "no temporary file can be made: %s",
				 strerror(errno));
	setvbuf(spool->file, spool->bytes, _IOFBF, sizeof spool->bytes);
	return true;
}

void
spool_release(struct spool *spool)
{
	if (spool->file != NULL)
		fclose(spool->file);
	spool->file = NULL;
}

static bool
not_written(struct fault *why)
{
	return fault_set(why, FAULT_OUTPUT,
			 "the temporary file could not be written: %s",
			 strerror(errno));
}

static void
put(char **at, const void *bytes, size_t count)
{
	memcpy(*at, bytes, count);
	*at += count;
}

bool
spool_add(struct spool *spool, const struct spool_record *record,
	  unsigned *number, struct fault *why)
{
	struct record_head head = {.device = record->status.st_dev,
				   .inode = record->status.st_ino,
				   .size = record->status.st_size,
				   .changed = record->status.st_mtim,
				   .row = record->row,
				   .kind = (uint16_t)record->kind,
				   .path = (uint16_t)strlen(record->path),
				   .column = (uint16_t)strlen(record->column),
				   .reason = (uint16_t)strlen(record->reason)};
	size_t size = sizeof head + head.path + head.column + head.reason;
	size_t units = (size + UNIT - 1) / UNIT;
	char bytes[RECORD_MOST + UNIT], *at = bytes;

	if (units >= UINT32_MAX - spool->end)
		return fault_set(why, FAULT_INTERNAL,
				 "there are too many files; collate fewer at "
				 "once");
	*number = spool->end;
	spool->end += (unsigned)units;
	spool->writing = true;
	spool->filled = 0;
	put(&at, &head, sizeof head);
	put(&at, record->path, head.path);
	put(&at, record->column, head.column);
	put(&at, record->reason, head.reason);
	memset(at, 0, units * UNIT - size);
	if (fwrite(bytes, UNIT, units, spool->file) != units)
		return not_written(why);
	return true;
}

/* Reads what there is from `place` on; how many bytes, fewer on an error. */
static size_t
read_at(struct spool *spool, long long place, char *bytes, size_t size)
{
	size_t used = 0;
	ssize_t got = 1;

	while (used < size && got != 0) {
		got = pread(fileno(spool->file), bytes + used, size - used,
			    (off_t)(place + (long long)used));
		if (got < 0 && errno != EINTR)
			break;
		if (got > 0)
			used += (size_t)got;
	}
	return used;
}

/* The bytes of a record, `*left` of them with what is behind it. Records one
 * behind the other come from the spool's own bytes; one out of turn is read
 * into `aside`, which holds RECORD_MOST, so that the others stay. */
static const char *
find_bytes(struct spool *spool, unsigned number, char *aside, size_t *left)
{
	long long place = (long long)number * UNIT;
	long long end = spool->at + (long long)spool->filled;
	bool begins = place >= spool->at && place <= end;

	if (!begins && number != spool->next) {
		*left = read_at(spool, place, aside, RECORD_MOST);
		return aside;
	}
	if (!begins ||
	    (place + RECORD_MOST > end && end < (long long)spool->end * UNIT)) {
		spool->at = place;
		spool->filled = read_at(spool, place, spool->bytes,
					sizeof spool->bytes);
		end = place + (long long)spool->filled;
	}
	*left = (size_t)(end - place);
	return spool->bytes + (place - spool->at);
}

static bool
take(const char **at, size_t *left, void *bytes, size_t count)
{
	if (count > *left)
		return false;
	memcpy(bytes, *at, count);
	*at += count;
	*left -= count;
	return true;
}

static bool
take_text(const char **at, size_t *left, char *text, size_t length, size_t size)
{
	if (length >= size || !take(at, left, text, length))
		return false;
	text[length] = '\0';
	return true;
}

bool
spool_read(struct spool *spool, unsigned number, struct spool_record *record,
	   unsigned *next, struct fault *why)
{
	struct record_head head;
	char aside[RECORD_MOST];
	const char *at, *begin;
	size_t left;

	if (spool->writing && fflush(spool->file) != 0)
		return not_written(why);
	spool->writing = false;
	begin = at = find_bytes(spool, number, aside, &left);
	if (!take(&at, &left, &head, sizeof head) ||
	    !take_text(&at, &left, record->path, head.path,
		       sizeof record->path) ||
	    !take_text(&at, &left, record->column, head.column,
		       sizeof record->column) ||
	    !take_text(&at, &left, record->reason, head.reason,
		       sizeof record->reason))
		return fault_set(why, FAULT_INTERNAL,
				 "the temporary file could not be read");
	record->kind = (enum spool_kind)head.kind;
	record->row = head.row;
	record->status.st_dev = head.device;
	record->status.st_ino = head.inode;
	record->status.st_size = head.size;
	record->status.st_mtim = head.changed;
	*next = number + (unsigned)((at - begin + UNIT - 1) / UNIT);
	spool->next = *next;
	return true;
}

bool
spool_is_same(const struct spool_record *record, const struct stat *status)
{
	const struct stat *was = &record->status;

	return was->st_dev == status->st_dev && was->st_ino == status->st_ino &&
	       was->st_size == status->st_size &&
	       was->st_mtim.tv_sec == status->st_mtim.tv_sec &&
	       was->st_mtim.tv_nsec == status->st_mtim.tv_nsec;
}
