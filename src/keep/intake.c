/* intake.c: standard input put aside, so that it can be read twice. */
#include "keep/intake.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

enum { PIECE = 65536 };

/* One piece, whole but for the last; how many bytes, 0 at the end, -1 on an
 * error. */
static ssize_t
read_piece(int input, char *bytes)
{
	ssize_t used = 0, got = 1;

	while (used < PIECE && got != 0) {
		got = read(input, bytes + used, (size_t)(PIECE - used));
		if (got < 0 && errno != EINTR)
			return -1;
		if (got > 0)
			used += got;
	}
	return used;
}

/* The first column of every table here; without it in the first piece there is
 * no header. */
static bool
has_header(char *bytes, size_t count)
{
	bytes[count] = '\0';
	return strstr(bytes, "schema") != NULL;
}

/* Whether another table's line could stand here: `*line` counts the bytes of
 * the line that goes on from the piece before. */
static bool
is_text(const char *bytes, size_t count, size_t *line)
{
	size_t tail = 0;

	while (tail < count && bytes[count - 1 - tail] != '\n')
		tail++;
	*line = tail == count ? *line + count : tail;
	return *line <= PIECE && memchr(bytes, '\0', count) == NULL;
}

static bool
copy(int input, FILE *out, struct fault *why)
{
	char bytes[PIECE + 1];
	long long size = 0;
	size_t line = 0;
	ssize_t got;
	bool text = true;

	while (text && (got = read_piece(input, bytes)) != 0) {
		if (got < 0)
			return fault_set(why, FAULT_INPUT,
					 "standard input cannot be read: %s",
					 strerror(errno));
		size += got;
		if (size > INTAKE_MOST)
			return fault_set(why, FAULT_INPUT,
					 "standard input has more than 4 GiB; "
					 "give it as a file");
		if (fwrite(bytes, 1, (size_t)got, out) != (size_t)got)
			return fault_set(why, FAULT_OUTPUT,
					 "the temporary file could not be "
					 "written: %s",
					 strerror(errno));
		text = is_text(bytes, (size_t)got, &line) &&
		       (size > got || has_header(bytes, (size_t)got));
	}
	return true;
}

static int
put_aside(int input, struct fault *why)
{
	FILE *out = tmpfile();
	int handle = -1;

	if (out == NULL) {
		fault_set(why, FAULT_OUTPUT,
			  "no temporary file can be made: %s", strerror(errno));
		return -1;
	}
	if (!copy(input, out, why)) {
		fclose(out);
		return -1;
	}
	if (fflush(out) == 0)
		handle = dup(fileno(out));
	if (handle < 0)
		fault_set(why, FAULT_OUTPUT,
			  "the temporary file could not be written: %s",
			  strerror(errno));
	fclose(out);
	return handle;
}

int
intake_open(int input, struct stat *status, struct fault *why)
{
	int handle;

	if (fstat(input, status) == 0 && S_ISREG(status->st_mode) &&
	    lseek(input, 0, SEEK_CUR) == 0)
		handle = dup(input);
	else
		handle = put_aside(input, why);
	if (handle >= 0 && fstat(handle, status) == 0)
		return handle;
	if (handle >= 0)
		close(handle);
	return -1;
}
