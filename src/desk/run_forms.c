/* run_forms.c: forms to print, for days without the laptop. */
#include "desk/run.h"

#include "base/number.h"
#include "keep/safefile.h"
#include "paper/formregister.h"
#include "paper/forms.h"
#include "paper/qrcode.h"

enum { PAD_PEOPLE = 2 * REGISTER_LINES, PADS_MOST = 50 };

static bool
write_file(const char *folder, const char *name, struct safefile *file,
	   struct fault *why)
{
	char path[DESK_PATH_SIZE];

	return safefile_join(path, sizeof path, folder, name, why) &&
	       safefile_open(file, path, why);
}

static bool
write_form(const char *folder, enum form form, const struct form_facts *facts,
	   struct fault *why)
{
	struct safefile file;

	if (!write_file(folder, form_file(form), &file, why))
		return false;
	if (!form_write(form, facts, file.out, why)) {
		safefile_drop(&file);
		return false;
	}
	return safefile_commit(&file, SAFEFILE_RENAMED, why);
}

/* The first line of the sheet that is typed from the register. */
static bool
write_header(const char *folder, struct fault *why)
{
	struct safefile file;

	if (!write_file(folder, "paper-register.csv", &file, why))
		return false;
	form_write_header(file.out);
	fputc('\n', file.out);
	return safefile_commit(&file, SAFEFILE_RENAMED, why);
}

static bool
read_count(const struct given *given, const char *name, long least, long most,
	   int *value, struct fault *why)
{
	const char *text = given_value(given, name);
	long number;

	if (text == NULL)
		return true;
	if (!number_read(text, least, most, "", &number, why))
		return fault_at(why, "--%s", name);
	*value = (int)number;
	return true;
}

static bool
read_range(const struct given *given, struct form_facts *facts,
	   struct fault *why)
{
	int pads = 1;

	if (!read_count(given, "pads", 1, PADS_MOST, &pads, why) ||
	    !read_count(given, "from", REFNUM_PAPER_FIRST, REFNUM_SERIAL_MOST,
			&facts->from, why))
		return false;
	facts->people = pads * PAD_PEOPLE;
	if (facts->from + facts->people - 1 <= REFNUM_SERIAL_MOST)
		return true;
	return fault_set(why, FAULT_USAGE,
			 "%d pads from %d on would need numbers above %d; "
			 "print fewer",
			 pads, facts->from, REFNUM_SERIAL_MOST);
}

/* Paper numbers that somebody has already. */
struct used {
	int from, to; /* serials to be printed */
	int station, count, highest;
	struct refnum first;
};

static bool
see(void *context, const struct visit *visit, const char *reason,
    struct fault *why)
{
	struct used *used = context;
	struct refnum number = visit->number;

	(void)reason;
	(void)why;
	if (number.station != used->station || !refnum_is_paper(number))
		return true;
	if (number.serial > used->highest)
		used->highest = number.serial;
	if (number.serial >= used->from && number.serial <= used->to &&
	    used->count++ == 0)
		used->first = number;
	return true;
}

/* Void entries too: their paper is somewhere. */
static bool
find_used(struct desk *desk, struct used *used, struct fault *why)
{
	bool done;

	if (!register_open(&desk->book, desk->folder, BOOK_READ, why))
		return false;
	done = register_visit_day(&desk->book, day_none(), see, used, why);
	register_close(&desk->book);
	return done;
}

/* A number printed twice is given to two people, and the second of them is
 * refused when the paper day is typed in. */
static bool
refuse_used(const struct used *used, struct fault *why)
{
	int pads = (used->highest - REFNUM_PAPER_FIRST) / PAD_PEOPLE + 1;
	int next = REFNUM_PAPER_FIRST + pads * PAD_PEOPLE;
	char number[REFNUM_SIZE];

	refnum_write(used->first, number);
	if (next + PAD_PEOPLE - 1 > REFNUM_SERIAL_MOST)
		return fault_set(why, FAULT_INPUT,
				 "%s is in the register already (of these "
				 "numbers, %d are); print numbers that nobody "
				 "has, with --from",
				 number, used->count);
	return fault_set(why, FAULT_INPUT,
			 "%s is in the register already (of these numbers, %d "
			 "are); print pads that were never printed, with "
			 "--from %d or higher",
			 number, used->count, next);
}

/* Where the register cannot be read now the forms are needed all the more. */
static bool
check_unused(struct desk *desk, const struct form_facts *facts,
	     struct fault *why)
{
	struct used used = {.from = facts->from,
			    .to = facts->from + facts->people - 1,
			    .station = desk->station.code};
	struct fault unread;

	if (find_used(desk, &used, &unread))
		return used.count == 0 || refuse_used(&used, why);
	fprintf(desk->talk,
		"Whether these numbers are given out already is not known:\n"
		"%s\n",
		unread.sentence);
	return true;
}

static void
tell(struct desk *desk, const char *folder, const struct form_facts *facts)
{
	char first[REFNUM_SIZE], last[REFNUM_SIZE];
	int next = facts->from + facts->people;

	refnum_write(form_number(facts, 0), first);
	refnum_write(form_number(facts, facts->people - 1), last);
	fprintf(desk->out, "Forms in %s, numbers %s to %s\n", folder, first,
		last);
	if (next <= REFNUM_SERIAL_MOST)
		fprintf(desk->out, "Next pad: --from %d\n", next);
}

bool
run_forms(struct desk *desk, const struct given *given, struct fault *why)
{
	const char *folder = given->argument[0];
	const char *language = given_value(given, "language");
	struct form_facts facts = {&desk->station, &desk->wording,
				   &desk->policy.age_bands, REFNUM_PAPER_FIRST,
				   0};
	struct fault missing;

	if (!read_range(given, &facts, why) || !check_unused(desk, &facts, why))
		return false;
	if (language != NULL && !wording_read(&desk->wording, desk->folder,
					      language, desk_hear, desk, why))
		return false;
	if (!safefile_make_folder(folder, why))
		return false;
	for (int i = 0; i < FORM_COUNT; i++)
		if (!write_form(folder, (enum form)i, &facts, why))
			return false;
	if (!write_header(folder, why))
		return false;
	if (!qrcode_is_there(&missing))
		desk_hear(desk, &missing);
	tell(desk, folder, &facts);
	return true;
}
