/* outfile.c: the file that a person named for what is printed. */
#include "desk/outfile.h"

#include "base/text.h"

#include <string.h>
#include <strings.h>

enum { PEEK_SIZE = 64 };

static bool
refuse(const char *option, const char *path, const char *what,
       struct fault *why)
{
	return fault_set(why, FAULT_USAGE,
			 "'%.300s' %s, and --%s would write over it; name a "
			 "new file behind --%s",
			 path, what, option, option);
}

static bool
begins_as(const char *text, const char *beginning)
{
	return strncmp(text, beginning, strlen(beginning)) == 0;
}

/* A spreadsheet puts a mark before the first letter, and quotes. */
static bool
is_batch(const char *text)
{
	if (begins_as(text, "\xef\xbb\xbf"))
		text += 3;
	if (text[0] == '"')
		text++;
	return begins_as(text, "schema") && strchr(",;\t\"", text[6]) != NULL;
}

/* What a file is that must stay, by its first bytes; NULL when they do not
 * say. */
static const char *
known_content(const char *text)
{
	static const struct {
		const char *begins, *what;
	} known[] = {
		{"SQLite format 3", "is a register or a copy of one"},
		{"shoal sealed copy ", "is a sealed copy of a register"},
		{"shoal private key", "is a private key"},
		{"shoal-draft-", "is an unfinished person"},
	};

	for (size_t i = 0; i < sizeof known / sizeof known[0]; i++)
		if (begins_as(text, known[i].begins))
			return known[i].what;
	return is_batch(text) ? "is a tally or a yield" : NULL;
}

static bool
ends_in(const char *name, const char *ending)
{
	size_t length = strlen(name), its = strlen(ending);

	return length >= its && strcasecmp(name + length - its, ending) == 0;
}

static bool
is_stations_own(const char *path)
{
	static const char *const names[] = {"register.db", "station.ini",
					    "policy.ini", "draft.txt"};
	const char *slash = strrchr(path, '/');
	const char *name = slash == NULL ? path : slash + 1;

	for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
		if (strcasecmp(name, names[i]) == 0)
			return true;
	return strncasecmp(name, "wording-", 8) == 0 && ends_in(name, ".ini");
}

static bool
is_read(const struct desk *desk, const struct given *given, const char *path)
{
	const char *const also[] = {desk->policy_path, desk->station_path};

	for (size_t i = 0; i < sizeof also / sizeof also[0]; i++)
		if (also[i] != NULL && safefile_is_same(path, also[i]))
			return true;
	for (int i = 0; i < given->arguments; i++)
		if (safefile_is_same(path, given->argument[i]))
			return true;
	return false;
}

/* Why what stands there has to stay, or NULL. */
static const char *
reason_to_stay(const char *path, const char *begins)
{
	char text[PEEK_SIZE + 1];
	long length = safefile_peek(path, text, PEEK_SIZE);

	if (length < 0)
		return "is there already and cannot be read";
	if (length == 0)
		return NULL;
	text[length] = '\0';
	if (known_content(text) != NULL)
		return known_content(text);
	if (is_stations_own(path))
		return "is a station's own file";
	if (begins == NULL ? ends_in(path, ".csv") || ends_in(path, ".ini")
			   : !begins_as(text, begins))
		return "holds something else already";
	return NULL;
}

/* Two results in one file: the second would be all of it. */
static bool
is_named_twice(const struct given *given, const char *option, const char *path,
	       struct fault *why)
{
	for (int i = 0; i < given->options; i++) {
		const struct given_option *other = &given->option[i];

		if (strcmp(other->name, option) == 0 ||
		    strcmp(other->value, path) != 0)
			continue;
		fault_set(why, FAULT_USAGE,
			  "--%s and --%s name the same file, '%.300s'; give "
			  "each its own",
			  other->name, option, path);
		return true;
	}
	return false;
}

bool
outfile_open(struct safefile *file, const struct desk *desk,
	     const struct given *given, const char *option, const char *begins,
	     struct fault *why)
{
	const char *path = given_value(given, option), *reason;

	file->out = NULL;
	if (strcmp(path, "-") == 0)
		return fault_set(why, FAULT_USAGE,
				 "'--%s -' cannot be: the sums go to standard "
				 "output; give a file name",
				 option);
	if (is_named_twice(given, option, path, why))
		return false;
	reason = is_read(desk, given, path) ? "is one of the files to be read"
					    : reason_to_stay(path, begins);
	if (reason != NULL)
		return refuse(option, path, reason, why);
	return safefile_open(file, path, why);
}
