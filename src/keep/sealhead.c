/* sealhead.c: the line with which a sealed file begins. */
#include "keep/sealhead.h"

#include "base/mark.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static const char begins[] = "shoal sealed copy ";

/* Blanks up to the mark, so that the line has always the same length. */
void
sealhead_write(const struct sealhead *head, char *line)
{
	char text[SEALHEAD_SIZE], letters[MARK_ROW_LETTERS + 1];
	struct mark mark;

	snprintf(text, sizeof text,
		 "%s1; station %04u; device %.6s; entries %lld; bytes %lld; "
		 "key %.7s",
		 begins, (unsigned)head->label.station % 10000,
		 head->label.device, head->label.entries, head->size,
		 head->key);
	mark_init(&mark);
	mark_add(&mark, text);
	mark_write(&mark, MARK_ROW_LETTERS, letters);
	snprintf(line, SEALHEAD_SIZE + 1, "%-*.*s;%s\n", SEALHEAD_SIZE - 9,
		 SEALHEAD_SIZE - 9, text, letters);
}

/* Digits behind a word of the line; -1 without any, or too many. */
static long long
number_after(const char *line, const char *word)
{
	const char *at = strstr(line, word);
	long long number = 0;
	size_t length;

	if (at == NULL)
		return -1;
	at += strlen(word);
	length = strspn(at, "0123456789");
	if (length == 0 || length > 12)
		return -1;
	for (size_t i = 0; i < length; i++)
		number = 10 * number + (at[i] - '0');
	return number;
}

static void
letters_after(const char *line, const char *word, char *letters, size_t size)
{
	const char *at = strstr(line, word);

	snprintf(letters, size, "%s", at == NULL ? "" : at + strlen(word));
}

/* What a line says counts only when writing that again gives the same line: so
 * the mark holds, and nothing stands in it that is not understood. */
static bool
read_line(const char *line, struct sealhead *head)
{
	char again[SEALHEAD_SIZE + 1];

	head->label.station = (int)(number_after(line, "station ") % 10000);
	head->label.entries = number_after(line, "entries ");
	head->size = number_after(line, "bytes ");
	letters_after(line, "device ", head->label.device,
		      sizeof head->label.device);
	letters_after(line, "key ", head->key, sizeof head->key);
	sealhead_write(head, again);
	return head->size >= 0 && head->label.entries >= 0 &&
	       memcmp(line, again, SEALHEAD_SIZE) == 0;
}

bool
sealhead_refuse(const char *path, const char *words, struct fault *why)
{
	return fault_set(why, FAULT_INPUT, "'%.300s' %s", path, words);
}

bool
sealhead_cut_short(const char *path, struct fault *why)
{
	return sealhead_refuse(path,
			       "is cut short, so it was not copied "
			       "whole" SEALHEAD_ANOTHER,
			       why);
}

bool
sealhead_altered(const char *path, struct fault *why)
{
	return sealhead_refuse(
		path, "was altered since it was sealed" SEALHEAD_ANOTHER, why);
}

/* Reads the line of a file that is open. */
bool
sealhead_take(FILE *in, const char *path, char *line, bool *sealed,
	      struct sealhead *head, struct fault *why)
{
	size_t got = fread(line, 1, SEALHEAD_SIZE, in);

	line[got] = '\0';
	*sealed = strncmp(line, begins, strlen(begins)) == 0;
	if (ferror(in))
		return sealhead_refuse(path, strerror(errno), why);
	if (!*sealed)
		return true;
	if (got < SEALHEAD_SIZE)
		return sealhead_cut_short(path, why);
	if (strlen(line) == SEALHEAD_SIZE && read_line(line, head))
		return true;
	return sealhead_refuse(path,
			       "was altered in its first line, or sealed by a "
			       "newer version of this program",
			       why);
}

FILE *
sealhead_open(const char *path, struct fault *why)
{
	int handle = open(path, O_RDONLY | O_CLOEXEC | O_NOCTTY | O_NONBLOCK);
	struct stat status;
	FILE *in = NULL;

	if (handle >= 0 && fstat(handle, &status) == 0 &&
	    !S_ISREG(status.st_mode))
		sealhead_refuse(path, "is no plain file", why);
	else if (handle < 0 || (in = fdopen(handle, "rb")) == NULL)
		fault_set(why, FAULT_INPUT, "'%.300s' cannot be read: %s", path,
			  strerror(errno));
	if (in == NULL && handle >= 0)
		close(handle);
	return in;
}
