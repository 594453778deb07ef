/* setaside.c: another register put in the place of the one there. */
#include "keep/setaside.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

enum { ASIDES_MOST = 999 };

static bool
find_name(const char *path, struct day today, char *aside, struct fault *why)
{
	char day[DAY_SIZE];

	day_write(today, day);
	for (int i = 1; i <= ASIDES_MOST; i++) {
		int needed = snprintf(aside, SAFEFILE_PATH_SIZE,
				      "%s.aside-%s-%d", path, day, i);

		if (needed >= SAFEFILE_PATH_SIZE)
			break;
		if (!safefile_exists(aside))
			return true;
	}
	return fault_set(why, FAULT_REGISTER,
			 "no name is left to keep the register aside; move the "
			 "files '%.300s.aside-...' to another place",
			 path);
}

/* A journal belongs to the file that it was left beside, and would be played
 * back into another one. */
static bool
move_journal(const char *from, const char *to)
{
	char journal[SAFEFILE_PATH_SIZE + sizeof "-journal"];
	char aside[SAFEFILE_PATH_SIZE + sizeof "-journal"];

	snprintf(journal, sizeof journal, "%s-journal", from);
	snprintf(aside, sizeof aside, "%s-journal", to);
	return rename(journal, aside) == 0 || errno == ENOENT;
}

/* By a second name, so that the first one is never without a file; on a file
 * system without them, by moving it. */
static bool
keep(const char *path, const char *aside)
{
	if (link(path, aside) == 0)
		return true;
	if (errno != EPERM && errno != EOPNOTSUPP && errno != ENOSYS)
		return false;
	return rename(path, aside) == 0;
}

static void
bring_back(const char *path, const char *aside)
{
	move_journal(aside, path);
	if (safefile_exists(path))
		unlink(aside);
	else
		rename(aside, path);
}

bool
setaside_commit(struct safefile *file, struct day today, char *aside,
		struct fault *why)
{
	bool done = true;

	aside[0] = '\0';
	if (!safefile_exists(file->path)) {
		done = safefile_commit(file, SAFEFILE_FIRST, why);
	} else if (!find_name(file->path, today, aside, why)) {
		safefile_drop(file);
		return false;
	} else if (!keep(file->path, aside) ||
		   !move_journal(file->path, aside)) {
		done = fault_set(why, FAULT_REGISTER,
				 "'%.300s' could not be kept aside: %s",
				 file->path, strerror(errno));
		bring_back(file->path, aside);
		safefile_drop(file);
	} else if (!safefile_commit(file, SAFEFILE_SYNCED, why)) {
		done = false;
		bring_back(file->path, aside);
	}
	if (!done)
		why->kind = FAULT_REGISTER;
	return done;
}
