/* salvage.c: rows read from the pages of a damaged store. */
#include "keep/salvage.h"

#include <errno.h>
#include <fcntl.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum {
	FILE_HEADER = 100,
	AT_PAGE_SIZE = 16,
	USUAL_PAGE = 4096,
	LEAST_PAGE = 512,
	INDEX_INSIDE = 2,
	INDEX_LEAF = 10,
	TABLE_LEAF = 13,
	VARINT_MOST = 9,
	NUMBER_TEXT = 24
};

struct salvage {
	int handle;
	size_t page_size;
	long pages;
	unsigned char page[SALVAGE_PAGE_MOST];
	unsigned char further[SALVAGE_PAGE_MOST]; /* an overflow page */
	unsigned char row[SALVAGE_ROW_MOST];
	/* The texts of a row, each with its NUL. */
	char text[SALVAGE_ROW_MOST + SALVAGE_VALUES_MOST * NUMBER_TEXT];
};

static uint64_t
big_endian(const unsigned char *bytes, int count)
{
	uint64_t number = 0;

	for (int i = 0; i < count; i++)
		number = number << 8 | bytes[i];
	return number;
}

/* Bytes taken, 0 when it goes on after the end. */
static size_t
read_varint(const unsigned char *bytes, size_t left, uint64_t *number)
{
	*number = 0;
	for (size_t i = 0; i < left && i < VARINT_MOST; i++) {
		if (i == VARINT_MOST - 1) {
			*number = *number << 8 | bytes[i];
			return i + 1;
		}
		*number = *number << 7 | (bytes[i] & 0x7f);
		if ((bytes[i] & 0x80) == 0)
			return i + 1;
	}
	return 0;
}

static bool
read_page(const struct salvage *salvage, long number, unsigned char *page)
{
	off_t at = (off_t)(number - 1) * (off_t)salvage->page_size;

	return number >= 1 && number <= salvage->pages &&
	       pread(salvage->handle, page, salvage->page_size, at) ==
		       (ssize_t)salvage->page_size;
}

/* --- records -------------------------------------------------------------- */

/* Bytes of a value of that serial type; -1 for one that no row of ours has. */
static long
value_size(uint64_t type)
{
	static const signed char sizes[] = {0, 1, 2, 3, 4, 6, 8, -1, 0, 0};

	if (type < sizeof sizes)
		return sizes[type];
	return type >= 13 && type % 2 == 1 && type < 2ULL * SALVAGE_ROW_MOST
		       ? (long)(type - 13) / 2
		       : -1;
}

static long long
read_number(const unsigned char *bytes, uint64_t type, int size)
{
	uint64_t number = big_endian(bytes, size);
	int unused = 64 - 8 * size;

	if (type >= 8)
		return (long long)type - 8;
	return size == 0 ? 0 : (long long)(number << unused) >> unused;
}

/* Writes the value behind `*text` and moves that on. A text with a NUL in it is
 * none of ours. */
static bool
take_value(const unsigned char *bytes, uint64_t type, long size, char **text)
{
	if (type == 0) {
		**text = '\0';
	} else if (type < 13) {
		snprintf(*text, NUMBER_TEXT, "%lld",
			 read_number(bytes, type, (int)size));
	} else {
		if (memchr(bytes, 0, (size_t)size) != NULL)
			return false;
		memcpy(*text, bytes, (size_t)size);
		(*text)[size] = '\0';
	}
	*text += strlen(*text) + 1;
	return true;
}

/* A record: the size of its head, the types, the values. */
static bool
take_record(struct salvage *salvage, size_t length, struct salvage_row *row)
{
	const unsigned char *bytes = salvage->row;
	uint64_t head, type;
	size_t at = read_varint(bytes, length, &head), value;
	char *text = salvage->text;

	if (at == 0 || head < at || head > length)
		return false;
	value = (size_t)head;
	for (row->count = 0; at < head; row->count++) {
		size_t used = read_varint(bytes + at, (size_t)head - at, &type);
		long size = used == 0 ? -1 : value_size(type);

		if (size < 0 || row->count == SALVAGE_VALUES_MOST ||
		    length - value < (size_t)size)
			return false;
		row->value[row->count] = text;
		row->is_text[row->count] = type >= 13;
		if (!take_value(bytes + value, type, size, &text))
			return false;
		at += used;
		value += (size_t)size;
	}
	return value == length;
}

/* --- cells ---------------------------------------------------------------- */

/* How much of a row of `length` bytes stands in its page (section 1.6). */
static size_t
local_size(const struct salvage *salvage, size_t length, bool is_index)
{
	size_t usable = salvage->page_size;
	size_t most = is_index ? (usable - 12) * 64 / 255 - 23 : usable - 35;
	size_t least = (usable - 12) * 32 / 255 - 23;
	size_t fits;

	if (length <= most)
		return length;
	fits = least + (length - least) % (usable - 4);
	return fits <= most ? fits : least;
}

/* The rest of a row, from page to page. There are never more pages than the
 * length needs, so a ring of them ends too. */
static bool
take_rest(struct salvage *salvage, long next, size_t have, size_t length)
{
	while (have < length) {
		size_t room = salvage->page_size - 4;
		size_t count = length - have < room ? length - have : room;

		if (!read_page(salvage, next, salvage->further))
			return false;
		memcpy(salvage->row + have, salvage->further + 4, count);
		have += count;
		next = (long)big_endian(salvage->further, 4);
	}
	return true;
}

static bool
take_cell(struct salvage *salvage, size_t at, int kind, struct salvage_row *row)
{
	const unsigned char *page = salvage->page;
	size_t end = salvage->page_size, used, local;
	uint64_t length, rowid = 0;

	row->is_index = kind != TABLE_LEAF;
	if (kind == INDEX_INSIDE)
		at += 4;
	if (at >= end)
		return false;
	used = read_varint(page + at, end - at, &length);
	at += used;
	if (used == 0 || length == 0 || length > SALVAGE_ROW_MOST)
		return false;
	if (kind == TABLE_LEAF) {
		used = read_varint(page + at, end - at, &rowid);
		at += used;
		if (used == 0)
			return false;
	}
	row->rowid = (long long)rowid;
	local = local_size(salvage, (size_t)length, row->is_index);
	if (end - at < local || (local < length && end - at - local < 4))
		return false;
	memcpy(salvage->row, page + at, local);
	if (local < length &&
	    !take_rest(salvage, (long)big_endian(page + at + local, 4), local,
		       (size_t)length))
		return false;
	return take_record(salvage, (size_t)length, row);
}

static bool
visit_page(struct salvage *salvage, long number, salvage_see *see,
	   void *context, struct fault *why)
{
	size_t from = number == 1 ? FILE_HEADER : 0;
	const unsigned char *head = salvage->page + from;
	size_t cells = (size_t)big_endian(head + 3, 2), first;
	struct salvage_row row;
	int kind = head[0];

	if (kind != TABLE_LEAF && kind != INDEX_LEAF && kind != INDEX_INSIDE)
		return true;
	first = from + (kind == INDEX_INSIDE ? 12 : 8);
	if (cells > (salvage->page_size - first) / 2)
		return true;
	for (size_t i = 0; i < cells; i++) {
		size_t at =
			(size_t)big_endian(salvage->page + first + 2 * i, 2);

		if (at >= first && take_cell(salvage, at, kind, &row) &&
		    !see(context, &row, why))
			return false;
	}
	return true;
}

/* --- the file ------------------------------------------------------------- */

/* The size that stands in its header, or, where that is none, the one that
 * this program's stores have. */
static bool
measure(struct salvage *salvage)
{
	unsigned char head[FILE_HEADER] = {0};
	struct stat status;
	size_t size;

	if (fstat(salvage->handle, &status) != 0 || !S_ISREG(status.st_mode) ||
	    pread(salvage->handle, head, sizeof head, 0) < 0)
		return false;
	size = (size_t)big_endian(head + AT_PAGE_SIZE, 2);
	if (size == 1)
		size = SALVAGE_PAGE_MOST;
	if (size < LEAST_PAGE || (size & (size - 1)) != 0)
		size = USUAL_PAGE;
	salvage->page_size = size;
	salvage->pages = (long)(status.st_size / (off_t)size);
	return true;
}

bool
salvage_visit(const char *path, salvage_see *see, void *context,
	      struct fault *why)
{
	struct salvage salvage;
	bool done = true;

	salvage.handle =
		open(path, O_RDONLY | O_NOFOLLOW | O_CLOEXEC | O_NONBLOCK);
	if (salvage.handle < 0 || !measure(&salvage)) {
		fault_set(why, FAULT_REGISTER, "'%.300s' cannot be read: %s",
			  path, strerror(errno));
		done = false;
	}
	for (long i = 1; done && i <= salvage.pages; i++)
		if (read_page(&salvage, i, salvage.page))
			done = visit_page(&salvage, i, see, context, why);
	if (salvage.handle >= 0)
		close(salvage.handle);
	return done;
}
