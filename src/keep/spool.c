/* spool.c: what became of each file, put aside in a file without a name. */
#include "keep/spool.h"

#include <errno.h>
#include <stdint.h>
#include <string.h>

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

bool
spool_begin(struct spool *spool, struct fault *why)
{
	spool->file = tmpfile();
	spool->end = 0;
	spool->writing = true;
	if (spool->file != NULL)
		return true;
	return fault_set(why, FAULT_OUTPUT, "no temporary file can be made: %s",
			 strerror(errno));
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
	char bytes[sizeof *record + sizeof head], *at = bytes;

	if (units >= UINT32_MAX - spool->end)
		return fault_set(why, FAULT_INTERNAL,
				 "there are too many files; collate fewer at "
				 "once");
	*number = spool->end;
	spool->end += (unsigned)units;
	put(&at, &head, sizeof head);
	put(&at, record->path, head.path);
	put(&at, record->column, head.column);
	put(&at, record->reason, head.reason);
	memset(at, 0, units * UNIT - size);
	if (fwrite(bytes, UNIT, units, spool->file) != units)
		return not_written(why);
	return true;
}

static bool
read_text(FILE *file, char *text, size_t length, size_t size)
{
	if (length >= size || fread(text, 1, length, file) != length)
		return false;
	text[length] = '\0';
	return true;
}

/* To where a record begins; records one behind the other need no seek. */
static bool
go_to(struct spool *spool, unsigned number, struct fault *why)
{
	long long at = (long long)number * UNIT;

	if (spool->writing && fflush(spool->file) != 0)
		return not_written(why);
	if ((spool->writing || ftello(spool->file) != at) &&
	    fseeko(spool->file, at, SEEK_SET) != 0)
		return not_written(why);
	spool->writing = false;
	return true;
}

bool
spool_read(struct spool *spool, unsigned number, struct spool_record *record,
	   unsigned *next, struct fault *why)
{
	struct record_head head;
	char rest[UNIT];
	size_t size, left;

	if (!go_to(spool, number, why))
		return false;
	if (fread(&head, sizeof head, 1, spool->file) != 1 ||
	    !read_text(spool->file, record->path, head.path,
		       sizeof record->path) ||
	    !read_text(spool->file, record->column, head.column,
		       sizeof record->column) ||
	    !read_text(spool->file, record->reason, head.reason,
		       sizeof record->reason))
		return fault_set(why, FAULT_INTERNAL,
				 "the temporary file could not be read");
	size = sizeof head + head.path + head.column + head.reason;
	left = (UNIT - size % UNIT) % UNIT;
	if (fread(rest, 1, left, spool->file) != left)
		return fault_set(why, FAULT_INTERNAL,
				 "the temporary file could not be read");
	record->kind = (enum spool_kind)head.kind;
	record->row = head.row;
	record->status.st_dev = head.device;
	record->status.st_ino = head.inode;
	record->status.st_size = head.size;
	record->status.st_mtim = head.changed;
	*next = number + (unsigned)((size + UNIT - 1) / UNIT);
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
