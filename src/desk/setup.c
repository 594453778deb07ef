/* setup.c: what a new station is told about itself. */
#include "desk/setup.h"

#include "base/text.h"
#include "desk/dialog.h"
#include "desk/interview.h"

#include <string.h>

/* A value of station.ini that start asks for or takes as an option. */
struct start_item {
	const char *option;
	const char *section, *key;
	const char *question, *help;
};

static const struct start_item items[] = {
	{"station", "station", "code",
	 "Station code, four digits, a different one on each laptop",
	 "0001 to 9999. It begins every referral number: two laptops with the "
	 "same code would give two people the same number."},
	{"programme", "station", "programme", "Name of the programme",
	 "The tallies are counted under it: alike on all laptops."},
	{"site", "station", "site", "Site of the camp",
	 "The village, school or hall where the camp stands. It is printed on "
	 "every slip."},
	{"camp-phone", "station", "phone", "Phone of the camp",
	 "Whom the clinic or a patient can call about this camp."},
	{"clinic", "clinic", "name", "Name of the eye clinic",
	 "Where people are sent to. Left empty, each slip has a line to write "
	 "on by hand."},
	{"address", "clinic", "address", "Where the clinic is",
	 "Town, street, or the bus stop beside it."},
	{"days", "clinic", "days", "Days and hours of the clinic",
	 "Such as: Monday to Friday, 8 to 12. Left empty, the slip tells "
	 "people "
	 "to ask."},
	{"door", "clinic", "door", "Which door or desk",
	 "Where to go once there, such as: green gate, room 4."},
	{"cost", "clinic", "cost", "What the visit costs",
	 "In the words people use, such as: free. The fear of cost is a common "
	 "reason for staying away."},
	{"phone", "clinic", "phone", "Phone of the clinic",
	 "The clinic's own telephone."},
};

enum { ITEMS = sizeof items / sizeof items[0] };

/* A station on the way: what was given as an option is not asked. */
struct setup {
	struct desk *desk;
	struct station *station;
	bool given[ITEMS], answered[ITEMS];
};

static const struct field *
item_field(const struct start_item *item)
{
	for (int i = 0; i < STATION_SECTIONS; i++)
		if (strcmp(station_sections[i].name, item->section) == 0)
			return fields_find(station_sections[i].fields,
					   item->key);
	return NULL;
}

/* The key in station.ini is nobody's word for it who is asked. */
static bool
without_key(const struct field *field, struct fault *why)
{
	size_t length = strlen(field->name);
	struct fault whole = *why;

	if (strncmp(whole.sentence, field->name, length) != 0 ||
	    strncmp(whole.sentence + length, ": ", 2) != 0)
		return false;
	return fault_set(why, whole.kind, "%s", whole.sentence + length + 2);
}

/* Quotes and backslashes would not survive the file; < and ? are keys. */
static bool
take(const struct start_item *item, const char *text, struct station *station,
     struct fault *why)
{
	const struct field *field = item_field(item);

	if (strcmp(text, "<") == 0 || strcmp(text, "?") == 0)
		return fault_set(why, FAULT_INPUT,
				 "'%s' is a key and cannot be the answer",
				 text);
	if (strpbrk(text, "\"\\") != NULL)
		return fault_set(why, FAULT_INPUT,
				 "it may not hold a double quote or a "
				 "backslash");
	return field_read(field, text, station, why) || without_key(field, why);
}

void
setup_tell_clinic(const struct desk *desk, const struct station *station)
{
	if (station->clinic_name[0] != '\0')
		return;
	text_write_wrapped(desk->talk,
			   "No eye clinic is named in station.ini: fill in "
			   "name under [clinic], or write the clinic on each "
			   "slip by hand.",
			   desk->columns, 0, 0);
}

/* --- as a dialog ---------------------------------------------------------- */

static int
next(const void *form, int question)
{
	const struct setup *setup = form;

	do
		question++;
	while (question < ITEMS && setup->given[question]);
	return question;
}

static int
back(const void *form, int question)
{
	const struct setup *setup = form;

	for (int before = question - 1; before >= 0; before--)
		if (!setup->given[before])
			return before;
	return question;
}

static bool
is_open(const void *form, int question)
{
	const struct setup *setup = form;

	return !setup->given[question] && !setup->answered[question];
}

static bool
is_keyed(int question)
{
	(void)question;
	return false;
}

static void
title(int question, char *text)
{
	text_copy(text, DIALOG_TITLE_SIZE, items[question].question);
}

static void
show(const void *form, int question, char *shown)
{
	const struct setup *setup = form;
	const struct field *field = item_field(&items[question]);

	field_write(field, setup->station, shown, DIALOG_SHOWN_SIZE);
	if (shown[0] == '\0' && field->need != FIELD_NEEDED)
		text_copy(shown, DIALOG_SHOWN_SIZE,
			  setup->answered[question] ? "none" : "leave empty");
}

static void
help(int question, int columns, FILE *out)
{
	const struct field *field = item_field(&items[question]);

	text_write_wrapped(out, items[question].help, columns, 0, 0);
	if (field->need != FIELD_NEEDED)
		text_write_wrapped(out,
				   "Enter alone keeps what stands in brackets, "
				   "- takes it away.",
				   columns, 0, 0);
}

static bool
answer(void *form, int question, const char *text, int *last, struct fault *why)
{
	struct setup *setup = form;
	const struct start_item *item = &items[question];
	bool needed = item_field(item)->need == FIELD_NEEDED;

	*last = question;
	if (text[0] == '\0') {
		if (needed && field_is_blank(item_field(item), setup->station))
			return fault_set(why, FAULT_INPUT,
					 "an answer is needed here");
	} else if (!take(item, !needed && strcmp(text, "-") == 0 ? "" : text,
			 setup->station, why)) {
		return false;
	}
	setup->answered[question] = true;
	return true;
}

static void
after(void *form, int question)
{
	(void)form;
	(void)question;
}

static bool
judge(void *form)
{
	const struct setup *setup = form;

	setup_tell_clinic(setup->desk, setup->station);
	return true;
}

static bool
is_begun(const struct setup *setup)
{
	for (int i = 0; i < ITEMS; i++)
		if (setup->answered[i])
			return true;
	return false;
}

/* A station is set up once, so that all is seen before; one "<" too many loses
 * nothing of it. */
static bool
ask_rest(struct setup *setup, struct fault *why)
{
	static const struct dialog_kind kind = {ITEMS,	 "what was typed",
						next,	 back,
						is_open, is_keyed,
						title,	 show,
						NULL,	 help,
						answer,	 after,
						NULL,	 NULL,
						judge};
	struct asker asker = interview_asker(setup->desk);

	for (;;) {
		switch (dialog(&asker, &kind, setup, false)) {
		case DIALOG_SAVE:
			return true;
		case DIALOG_ENDED:
			return fault_set(why, FAULT_INPUT,
					 "the input ended; no station was set "
					 "up");
		case DIALOG_LEAVE:
			if (!is_begun(setup))
				break;
			text_write_wrapped(asker.talk,
					   "This is the first question; 0 at "
					   "the end leaves.",
					   asker.columns, 0, 0);
			continue;
		default:
			break;
		}
		return fault_set(why, FAULT_INPUT, "no station was set up");
	}
}

/* Options first; then, on a terminal, whatever is missing. */
static bool
take_given(struct setup *setup, const struct given *given, struct fault *why)
{
	for (int i = 0; i < ITEMS; i++) {
		const char *value = given_value(given, items[i].option);
		bool needed = item_field(&items[i])->need == FIELD_NEEDED;

		setup->given[i] = value != NULL;
		if (value != NULL &&
		    !take(&items[i], value, setup->station, why))
			return fault_at(why, "--%s", items[i].option);
		if (value == NULL && needed && !setup->desk->in_is_terminal)
			return fault_set(why, FAULT_USAGE,
					 "--%s is missing, and there is no "
					 "terminal to ask on",
					 items[i].option);
	}
	return true;
}

bool
setup_gather(struct desk *desk, const struct given *given,
	     struct station *station, struct fault *why)
{
	struct setup setup = {.desk = desk, .station = station};

	station_init(station);
	if (!take_given(&setup, given, why))
		return false;
	return !desk->in_is_terminal || next(&setup, -1) == ITEMS ||
	       ask_rest(&setup, why);
}
