/* run_start.c: setting up a station's folder. */
#include "desk/run.h"

#include "base/embedded.h"
#include "desk/setup.h"
#include "keep/policyfile.h"
#include "keep/safefile.h"

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

/* Only the folder that was named is not found by itself. */
static void
tell_next(const struct desk *desk, const struct given *given)
{
	const char *book = given_value(given, "book");

	if (book == NULL)
		fprintf(desk->out, "Screen the first person with: shoal "
				   "screen\n");
	else
		fprintf(desk->out,
			"Screen the first person with: shoal --book '%s' "
			"screen\n",
			book);
}

bool
run_start(struct desk *desk, const struct given *given, struct fault *why)
{
	struct station station;
	int found;

	if (!refuse_existing(desk, &found, why) ||
	    !setup_gather(desk, given, &station, why) ||
	    !make_folders(desk, why) || !write_policy(desk, why) ||
	    !make_register(desk, found, station.code, why) ||
	    !write_station(desk, &station, why))
		return false;
	fprintf(desk->out,
		"Station %04d is set up in %s\n"
		" policy.ini   the referral rules, for the supervisor\n"
		" station.ini  site and clinic, as printed on the slips\n"
		" register.db  everybody screened (empty now)\n",
		station.code, desk->folder);
	/* At a terminal the summary has said so. */
	if (!desk->in_is_terminal)
		setup_tell_clinic(desk, &station);
	tell_next(desk, given);
	return true;
}
