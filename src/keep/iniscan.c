/* iniscan.c: the program's own scan of an INI file, line by line. */
#include "keep/iniscan.h"

#include "base/text.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

struct scan {
	struct ini *ini;
	fault_hear *hear;
	void *context;
	int line;
	bool told;		     /* a fault of this line; one is enough */
	bool started;		     /* a section line has been seen */
	bool full;		     /* too many entries, and told so */
	int header;		     /* place of the last section line kept */
	char section[INI_NAME_SIZE]; /* "" = its keys are not kept */
};

/* Stands for a name that cannot be made out; no name may hold it. */
static const char unknown_name[] = "?";

void
ini_tell(const struct ini *ini, int line, fault_hear *hear, void *context,
	 const char *format, ...)
{
	char sentence[FAULT_SENTENCE_SIZE];
	struct fault one;
	va_list arguments;

	va_start(arguments, format);
	vsnprintf(sentence, sizeof sentence, format, arguments);
	va_end(arguments);
	fault_set(&one, FAULT_POLICY, "%s", sentence);
	if (line == 0)
		fault_at(&one, "%s", ini->name);
	else
		fault_at(&one, "%s:%d", ini->name, line);
	hear(context, &one);
}

__attribute__((format(printf, 2, 3))) static void
tell(struct scan *scan, const char *format, ...)
{
	char sentence[FAULT_SENTENCE_SIZE];
	va_list arguments;

	if (scan->told)
		return;
	va_start(arguments, format);
	vsnprintf(sentence, sizeof sentence, format, arguments);
	va_end(arguments);
	ini_tell(scan->ini, scan->line, scan->hear, scan->context, "%s",
		 sentence);
	scan->told = true;
	scan->ini->faults++;
}

/* Most lines are keys, so that few names have to be compared. */
static const struct ini_entry *
find_section(const struct ini *ini, const char *section)
{
	for (int i = 0; i < ini->count; i++)
		if (ini->entry[i].key[0] == '\0' &&
		    strcmp(ini->entry[i].section, section) == 0)
			return &ini->entry[i];
	return NULL;
}

const struct ini_entry *
ini_find(const struct ini *ini, const char *section, const char *key)
{
	const struct ini_entry *entry = find_section(ini, section);

	while (entry != NULL && strcmp(entry->key, key) != 0)
		entry = ini_next(ini, entry);
	return entry;
}

const struct ini_entry *
ini_next(const struct ini *ini, const struct ini_entry *entry)
{
	const struct ini_entry *next = entry + 1;

	return next < ini->entry + ini->count && next->key[0] != '\0' ? next
								      : NULL;
}

/* The key as it stands already in the section being read. */
static const struct ini_entry *
find_key(const struct scan *scan, const char *key)
{
	const struct ini *ini = scan->ini;

	for (int i = scan->header + 1; i < ini->count; i++)
		if (strcmp(ini->entry[i].key, key) == 0)
			return &ini->entry[i];
	return NULL;
}

static void
keep(struct scan *scan, const char *key, struct span value, bool quoted)
{
	struct ini *ini = scan->ini;
	struct ini_entry *entry = &ini->entry[ini->count];

	if (ini->count == INI_ENTRIES_MOST) {
		if (!scan->full)
			tell(scan,
			     "there are more than %d sections and keys; "
			     "shorten the file",
			     INI_ENTRIES_MOST);
		scan->full = true;
		return;
	}
	entry->line = scan->line;
	entry->refused = scan->told;
	entry->quoted = quoted;
	entry->section = ini->entry[scan->header].name;
	entry->key = key[0] == '\0' ? "" : entry->name;
	text_copy(entry->name, sizeof entry->name,
		  key[0] == '\0' ? scan->section : key);
	entry->value = "";
	if (!scan->told && value.length > 0) {
		/* Behind a value come a quote, a space, the line's end or the
		 * NUL after the last byte: nothing that is still to be read. */
		value.at[value.length] = '\0';
		entry->value = value.at;
	}
	ini->count++;
}

static void
keep_section(struct scan *scan, const char *name)
{
	text_copy(scan->section, sizeof scan->section, name);
	scan->header = scan->ini->count;
	keep(scan, "", (struct span){NULL, 0}, false);
}

/* The section line, or what stands in its place, cannot be made out: the keys
 * below are nobody's. */
static void
keep_unknown_section(struct scan *scan)
{
	keep_section(scan, unknown_name);
	scan->section[0] = '\0';
}

static void
scan_section(struct scan *scan, const struct iniline *line)
{
	const struct ini_entry *first;

	scan->started = true;
	if (line->name[0] == '\0') {
		keep_unknown_section(scan);
		return;
	}
	first = find_section(scan->ini, line->name);
	if (first == NULL) {
		keep_section(scan, line->name);
		return;
	}
	tell(scan,
	     "section [%s] stands twice, first on line %d; keep one of them%s",
	     line->name, first->line,
	     strchr(line->name, ' ') == NULL ? ""
					     : ", or give one another name");
	scan->section[0] = '\0';
}

static void
scan_key(struct scan *scan, const struct iniline *line)
{
	const char *key = line->name[0] == '\0' ? unknown_name : line->name;
	const struct ini_entry *first = NULL;

	if (!scan->started) {
		tell(scan,
		     "key '%s' stands before any section; put the line of its "
		     "section, such as [name], above it",
		     key);
		scan->started = true;
		keep_unknown_section(scan);
	}
	if (scan->section[0] == '\0')
		return;
	if (line->name[0] != '\0')
		first = find_key(scan, key);
	if (first != NULL) {
		tell(scan,
		     "key '%s' stands twice in [%s], first on line %d; keep "
		     "one of them",
		     key, scan->section, first->line);
		return;
	}
	keep(scan, key, line->value, line->quoted);
}

static void
scan_line(struct scan *scan, struct span text)
{
	struct iniline line;
	struct fault why;

	scan->told = false;
	if (!iniline_read(text, &line, &why))
		tell(scan, "%s", why.sentence);
	if (line.what == INILINE_SECTION)
		scan_section(scan, &line);
	else if (line.what == INILINE_KEY)
		scan_key(scan, &line);
}

/* Takes the next line off the front; its LF or CRLF is left out. */
static struct span
next_line(struct span *text)
{
	char *end = memchr(text->at, '\n', text->length);
	struct span line = *text;

	if (end == NULL) {
		*text = (struct span){text->at + text->length, 0};
		return line;
	}
	line.length = (size_t)(end - line.at);
	*text = (struct span){end + 1, text->length - line.length - 1};
	if (line.length > 0 && line.at[line.length - 1] == '\r')
		line.length--;
	return line;
}

/* By its byte-order mark, or by the empty half of its first letter. */
static bool
is_utf16(struct span text)
{
	const unsigned char *at = (const unsigned char *)text.at;

	return text.length >= 2 && ((at[0] == 0xff && at[1] == 0xfe) ||
				    (at[0] == 0xfe && at[1] == 0xff) ||
				    (at[0] == 0) != (at[1] == 0));
}

/* Whether the bytes have lines at all. */
static bool
has_lines(struct scan *scan, struct span text)
{
	if (is_utf16(text)) {
		tell(scan, "it is saved as UTF-16; save it as plain text in "
			   "UTF-8");
		return false;
	}
	scan->line = 1;
	for (size_t i = 0; i < text.length; i++) {
		if (text.at[i] == '\n')
			scan->line++;
		if (text.at[i] != '\r' || text.at[i + 1] == '\n')
			continue;
		tell(scan, "the line ends in CR alone; save the file with LF "
			   "or CRLF line ends");
		return false;
	}
	return true;
}

int
ini_scan(struct ini *ini, fault_hear *hear, void *context)
{
	struct scan scan = {.ini = ini, .hear = hear, .context = context};
	struct span text = {ini->bytes, ini->length};

	ini->faults = 0;
	ini->count = 0;
	ini->bytes[ini->length] = '\0';
	if (!has_lines(&scan, text))
		return ini->faults;
	if (text.length >= 3 && memcmp(text.at, "\xef\xbb\xbf", 3) == 0)
		text = (struct span){text.at + 3, text.length - 3};
	for (scan.line = 1; text.length > 0; scan.line++)
		scan_line(&scan, next_line(&text));
	return ini->faults;
}
