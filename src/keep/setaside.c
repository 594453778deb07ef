/* setaside.c: another register put in the place of the one there. */
#include "keep/setaside.h"

#include "base/text.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
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

static bool
is_same_file(const char *one, const char *other)
{
	struct stat status, other_status;

	return lstat(one, &status) == 0 && lstat(other, &other_status) == 0 &&
	       status.st_dev == other_status.st_dev &&
	       status.st_ino == other_status.st_ino;
}

/* False when another one stands there already: it was put in place, and only
 * whether a power cut takes it away again is not known. The one before stays
 * aside. */
static bool
bring_back(const char *path, const char *aside)
{
	if (!safefile_exists(path)) {
		move_journal(aside, path);
		return rename(aside, path) == 0;
	}
	if (!is_same_file(path, aside))
		return false;
	move_journal(aside, path);
	return unlink(aside) == 0;
}

static void
tell_kept(const char *aside, struct fault *why)
{
	char sentence[FAULT_SENTENCE_SIZE];

	text_copy(sentence, sizeof sentence, why->sentence);
	fault_set(why, FAULT_REGISTER,
		  "%.300s; the one before is kept as '%.250s'", sentence,
		  aside);
}

/* Keeps the old one aside, then puts the new one there. */
static bool
exchange(struct safefile *file, struct setaside *done, struct fault *why)
{
	if (!keep(file->path, done->aside) ||
	    !move_journal(file->path, done->aside)) {
		fault_set(why, FAULT_REGISTER,
			  "'%.300s' could not be kept aside: %s", file->path,
			  strerror(errno));
		bring_back(file->path, done->aside);
		safefile_drop(file);
		return false;
	}
	if (safefile_commit(file, SAFEFILE_SYNCED, why))
		return true;
	done->is_there = !bring_back(file->path, done->aside);
	if (done->is_there)
		tell_kept(done->aside, why);
	return false;
}

bool
setaside_commit(struct safefile *file, struct day today, struct setaside *done,
		struct fault *why)
{
	bool exchanged;

	done->aside[0] = '\0';
	done->is_there = false;
	if (!safefile_exists(file->path)) {
		exchanged = safefile_commit(file, SAFEFILE_FIRST, why);
		done->is_there = safefile_exists(file->path);
	} else if (!find_name(file->path, today, done->aside, why)) {
		exchanged = false;
		safefile_drop(file);
	} else {
		exchanged = exchange(file, done, why);
	}
	done->is_there |= exchanged;
	if (!exchanged)
		why->kind = FAULT_REGISTER;
	return exchanged;
}
