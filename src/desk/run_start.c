/* run_start.c: setting up a station's folder. */
#include "desk/run.h"

#include "base/embedded.h"
#include "base/text.h"
#include "desk/ask.h"
#include "desk/interview.h"
#include "keep/policyfile.h"
#include "keep/safefile.h"

#include <string.h>

/* A value of station.ini that start asks for or takes as an option. */
struct start_item {
	const char *option;
	const char *section, *key;
	const char *question;
};

static const struct start_item items[] = {
	{"station", "station", "code",
	 "Station code, four digits, a different one on each laptop"},
	{"programme", "station", "programme", "Name of the programme"},
	{"site", "station", "site", "Site of the camp"},
	{"camp-phone", "station", "phone", "Phone of the camp"},
	{"clinic", "clinic", "name", "Name of the eye clinic"},
	{"address", "clinic", "address", "Where the clinic is"},
	{"days", "clinic", "days", "Days and hours of the clinic"},
	{"door", "clinic", "door", "Which door or desk"},
	{"cost", "clinic", "cost", "What the visit costs"},
	{"phone", "clinic", "phone", "Phone of the clinic"},
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

/* Quotes and backslashes would not survive the file. */
static bool
take(const struct start_item *item, const char *text, struct station *station,
     struct fault *why)
{
	if (strpbrk(text, "\"\\") != NULL)
		fault_set(why, FAULT_INPUT,
			  "it may not hold a double quote or a backslash");
	else if (field_read(item_field(item), text, station, why))
		return true;
	return fault_at(why, "%s", item->option);
}

static bool
ask_item(const struct asker *asker, const struct start_item *item,
	 struct station *station, struct fault *why)
{
	bool needed = item_field(item)->need == FIELD_NEEDED;
	char answer[ASK_ANSWER_SIZE];
	struct fault one;

	for (;;) {
		if (ask(asker, item->question, needed ? "" : "leave empty",
			answer) == ASK_ENDED)
			return fault_set(why, FAULT_INPUT,
					 "the input ended; no station was set "
					 "up");
		if (take(item, answer, station, &one))
			return true;
		fprintf(asker->talk, "Not taken: %s\n", one.sentence);
	}
}

/* Options first; then, on a terminal, whatever is missing. */
static bool
gather(struct desk *desk, const struct given *given, struct station *station,
       struct fault *why)
{
	struct asker asker = interview_asker(desk);

	for (size_t i = 0; i < sizeof items / sizeof items[0]; i++) {
		const char *value = given_value(given, items[i].option);
		bool needed = item_field(&items[i])->need == FIELD_NEEDED;

		if (value != NULL) {
			if (!take(&items[i], value, station, why))
				return false;
		} else if (desk->in_is_terminal) {
			if (!ask_item(&asker, &items[i], station, why))
				return false;
		} else if (needed) {
			return fault_set(why, FAULT_USAGE,
					 "--%s is missing, and there is no "
					 "terminal to ask on",
					 items[i].option);
		}
	}
	return true;
}

static bool
refuse(const char *path, struct fault *why)
{
	return fault_set(why, FAULT_REGISTER,
			 "'%.300s' is there already; a station that exists is "
			 "never set up again",
			 path);
}

static bool
see_somebody(void *somebody, const struct visit *visit, const char *reason,
	     struct fault *why)
{
	(void)visit;
	(void)reason;
	(void)why;
	*(bool *)somebody = true;
	return true;
}

/* What a set-up leaves that was cut off: station.ini comes last. */
static bool
holds_nobody(struct desk *desk, int *code)
{
	bool somebody = false;
	struct fault ignored;

	if (!register_open(&desk->book, desk->folder, BOOK_READ, &ignored))
		return false;
	if (!register_visit_day(&desk->book, day_none(), see_somebody,
				&somebody, &ignored))
		somebody = true;
	*code = desk->book.station;
	register_close(&desk->book);
	return !somebody;
}

/* `*code` is that of an empty register to go on with, or 0. */
static bool
refuse_existing(struct desk *desk, int *code, struct fault *why)
{
	char book[DESK_PATH_SIZE], station[DESK_PATH_SIZE];

	*code = 0;
	if (!desk_path(desk, "register.db", book, why) ||
	    !desk_path(desk, "station.ini", station, why))
		return false;
	if (safefile_exists(station))
		return refuse(safefile_exists(book) ? book : station, why);
	return !safefile_exists(book) || holds_nobody(desk, code) ||
	       refuse(book, why);
}

/* Unless a set-up that was cut off has made it. */
static bool
make_register(const struct desk *desk, int found, int code, struct fault *why)
{
	if (found == 0)
		return register_create(desk->folder, code, why);
	return found == code || fault_set(why, FAULT_REGISTER,
					  "the empty register in '%.300s' is "
					  "of station %04d; "
					  "set that one up, or take another "
					  "folder",
					  desk->folder, found);
}

static bool
write_station(const struct desk *desk, const struct station *station,
	      struct fault *why)
{
	char path[DESK_PATH_SIZE];
	struct safefile file;

	if (!desk_path(desk, "station.ini", path, why) ||
	    !safefile_open(&file, path, why))
		return false;
	if (!stationfile_write(station, file.out, why)) {
		safefile_drop(&file);
		return false;
	}
	return safefile_commit(&file, SAFEFILE_SYNCED, why);
}

/* A policy that the supervisor has put there already is kept, once it reads
 * without a fault. */
static bool
write_policy(struct desk *desk, struct fault *why)
{
	char path[DESK_PATH_SIZE];
	struct safefile file;

	if (!desk_path(desk, "policy.ini", path, why))
		return false;
	if (safefile_exists(path))
		return policyfile_read(path, &desk->policy, desk->policy_text,
				       sizeof desk->policy_text, desk_hear,
				       desk, why);
	if (!safefile_open(&file, path, why))
		return false;
	fwrite(embedded_policy, 1, embedded_policy_size, file.out);
	return safefile_commit(&file, SAFEFILE_SYNCED, why);
}

static bool
make_folders(const struct desk *desk, struct fault *why)
{
	static const char *const names[] = {".", "slips", "tallies"};
	char path[DESK_PATH_SIZE];

	for (int i = 0; i < 3; i++)
		if (!desk_path(desk, names[i], path, why) ||
		    !safefile_make_folder(path, why))
			return false;
	return true;
}

bool
run_start(struct desk *desk, const struct given *given, struct fault *why)
{
	struct station station;
	int found;

	station_init(&station);
	if (!refuse_existing(desk, &found, why) ||
	    !gather(desk, given, &station, why) || !make_folders(desk, why) ||
	    !write_policy(desk, why) ||
	    !make_register(desk, found, station.code, why) ||
	    !write_station(desk, &station, why))
		return false;
	fprintf(desk->out,
		"Station %04d is set up in %s\n"
		" policy.ini   the referral rules, for the supervisor\n"
		" station.ini  site and clinic, as printed on the slips\n"
		" register.db  everybody screened (empty now)\n"
		"Screen the first person with: shoal screen\n",
		station.code, desk->folder);
	return true;
}
