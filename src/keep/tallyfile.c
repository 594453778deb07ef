/* tallyfile.c: the tallies of one file, each checked whole. */
#include "keep/tallyfile.h"

#include <errno.h>
#include <string.h>
#include <unistd.h>

enum { PIECE_AGAIN = 8192 }; /* holds most tallies */

/* One file being read by lines. */
struct reading {
	struct tallyfile *file;
	int handle;
	long long size; /* 0 = not known */
	size_t piece;	/* bytes read at once */
	batch_see *see;
	void *context;
	struct fault *why;
	bool stopped;
	long long place; /* of the tally under way */
};

/* Moves what is left to the front and reads on; false at the end of the file,
 * or when it cannot be read, which the reader of CSV will find out too. */
static bool
fill(struct reading *reading)
{
	struct tallyfile *file = reading->file;
	size_t room;
	ssize_t got;

	if (reading->size > 0 &&
	    file->offset + (long long)file->filled == reading->size)
		return false;
	memmove(file->bytes, file->bytes + file->used,
		file->filled - file->used);
	file->offset += (long long)file->used;
	file->filled -= file->used;
	file->used = 0;
	room = sizeof file->bytes - file->filled;
	do
		got = pread(reading->handle, file->bytes + file->filled,
			    room < reading->piece ? room : reading->piece,
			    (off_t)(file->offset + (long long)file->filled));
	while (got < 0 && errno == EINTR);
	if (got <= 0)
		return false;
	file->filled += (size_t)got;
	return true;
}

/* The next line without its LF, which the last one need not have; NULL at the
 * end, or when it is longer than any row. */
static char *
next_line(struct reading *reading, size_t *length)
{
	struct tallyfile *file = reading->file;
	size_t seen = 0;

	for (;;) {
		char *line = file->bytes + file->used;
		size_t left = file->filled - file->used;
		const char *end = memchr(line + seen, '\n', left - seen);

		if (end != NULL) {
			*length = (size_t)(end - line);
			file->used += *length + 1;
			return line;
		}
		seen = left;
		if (left <= TALLYLINE_MOST && fill(reading))
			continue;
		*length = left;
		file->used = file->filled;
		return left == 0 ? NULL : file->bytes + file->used - left;
	}
}

static void
start(struct tallyfile *file, long long offset)
{
	file->offset = offset;
	file->filled = 0;
	file->used = 0;
	file->tallies = 0;
	gather_begin(&file->gather);
}

/* One row; false when it is to be left to the reader of CSV. */
static bool
take_line(struct reading *reading, char *line, size_t length)
{
	struct tallyfile *file = reading->file;
	const char *column;
	struct fault why;
	uint32_t crc;
	bool same_head;

	if (file->gather.batch.count == 0)
		reading->place = file->offset + (line - file->bytes);
	if (tallyline_read(&file->line, line, length, &file->row, &crc,
			   &same_head) &&
	    gather_add(&file->gather, &file->row, crc, same_head, &column,
		       &why))
		return true;
	tallyline_forget(&file->line);
	return false;
}

/* Whether the whole file is in the program's own form. */
static bool
read_lines(struct reading *reading)
{
	struct tallyfile *file = reading->file;
	size_t length;
	char *line = next_line(reading, &length);

	if (line == NULL || !tallyline_is_header(line, length))
		return false;
	while ((line = next_line(reading, &length)) != NULL) {
		if (!take_line(reading, line, length))
			return false;
		if (!batch_is_whole(&file->gather.batch))
			continue;
		file->tallies++;
		if (!reading->see(reading->context, &file->gather.batch,
				  reading->place, reading->why)) {
			reading->stopped = true;
			return true;
		}
		gather_begin(&file->gather);
	}
	return file->tallies > 0 && file->gather.batch.count == 0;
}

enum tallyfile_end
tallyfile_read(struct tallyfile *file, int handle, long long size, bool as_csv,
	       batch_see *see, void *context, struct refusal *refusal,
	       struct fault *why)
{
	struct reading reading = {.file = file,
				  .handle = handle,
				  .size = size,
				  .piece = TALLYFILE_BUFFER,
				  .see = see,
				  .context = context,
				  .why = why};
	struct batchtable table = {.kind = &gather_kind,
				   .gather = &file->gather.batch,
				   .row = &file->row,
				   .see = see,
				   .context = context,
				   .refusal = refusal};

	start(file, 0);
	if (!as_csv && read_lines(&reading))
		return reading.stopped ? TALLYFILE_STOPPED : TALLYFILE_READ;
	table.told = file->tallies;
	if (batchtable_read(&table, handle, why))
		return TALLYFILE_READ;
	return table.stopped ? TALLYFILE_STOPPED : TALLYFILE_REFUSED;
}

void
tallyfile_begin(struct tallyfile *file)
{
	tallyline_begin(&file->line);
}

bool
tallyfile_read_at(struct tallyfile *file, int handle, long long place)
{
	struct reading reading = {
		.file = file, .handle = handle, .piece = PIECE_AGAIN};
	size_t length;
	char *line;

	start(file, place);
	while ((line = next_line(&reading, &length)) != NULL)
		if (!take_line(&reading, line, length) ||
		    batch_is_whole(&file->gather.batch))
			break;
	return batch_is_whole(&file->gather.batch);
}
