/* aside.c: a small text put aside in the station's folder. */
#include "keep/aside.h"

#include "base/text.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/file.h>
#include <unistd.h>

enum { UNREAD_MOST = 99 };

/* What a power cut left of a text that was being written holds a name; nobody
 * else writes here while the folder is locked. */
static void
clear_leftovers(const struct aside *aside, const char *name)
{
	size_t length = strlen(name);
	int copy = openat(aside->folder, ".", O_RDONLY | O_CLOEXEC);
	DIR *folder = copy < 0 ? NULL : fdopendir(copy);
	struct dirent *entry;

	if (folder == NULL)
		return;
	/* cppcheck-suppress readdirCalled */
	while ((entry = readdir(folder)) != NULL)
		if (strncmp(entry->d_name, name, length) == 0 &&
		    strncmp(entry->d_name + length, ".tmp-", 5) == 0)
			unlinkat(aside->folder, entry->d_name, 0);
	closedir(folder);
}

bool
aside_open(struct aside *aside, const char *folder, const char *name,
	   struct fault *why)
{
	aside->folder = -1;
	if (!safefile_join(aside->path, sizeof aside->path, folder, name, why))
		return false;
	aside->folder = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
	if (aside->folder < 0)
		return fault_set(why, FAULT_OUTPUT, "'%s' cannot be opened: %s",
				 folder, strerror(errno));
	if (flock(aside->folder, LOCK_EX | LOCK_NB) == 0) {
		clear_leftovers(aside, name);
		return true;
	}
	aside_close(aside);
	return fault_set(why, FAULT_OUTPUT,
			 "another program is at work in '%s'", folder);
}

void
aside_close(struct aside *aside)
{
	if (aside->folder >= 0)
		close(aside->folder);
	aside->folder = -1;
}

bool
aside_read(const struct aside *aside, char *text, struct fault *why)
{
	size_t length;

	text[0] = '\0';
	if (!safefile_exists(aside->path))
		return true;
	if (!safefile_read(aside->path, text, ASIDE_TEXT_SIZE, &length,
			   FAULT_OUTPUT, why))
		return false;
	return strlen(text) == length ||
	       fault_set(why, FAULT_OUTPUT, "'%s' holds a NUL byte",
			 aside->path);
}

bool
aside_write(const struct aside *aside, const char *text, struct fault *why)
{
	struct safefile file;

	if (!safefile_open(&file, aside->path, why))
		return false;
	fputs(text, file.out);
	return safefile_commit(&file, SAFEFILE_SYNCED, why);
}

bool
aside_set_by(const struct aside *aside, char *kept, struct fault *why)
{
	for (int i = 1; i <= UNREAD_MOST; i++) {
		int needed = snprintf(kept, SAFEFILE_PATH_SIZE, "%s.unread-%d",
				      aside->path, i);

		if (needed >= SAFEFILE_PATH_SIZE || safefile_exists(kept))
			continue;
		if (rename(aside->path, kept) == 0 && fsync(aside->folder) == 0)
			return true;
		return fault_set(why, FAULT_OUTPUT,
				 "'%s' cannot be moved out of the way: %s",
				 aside->path, strerror(errno));
	}
	return fault_set(why, FAULT_OUTPUT,
			 "no name is left for '%s'; move the files "
			 "'....unread-...' beside it to another place",
			 aside->path);
}

/* A removal that a power cut undoes would bring somebody back who was saved. */
bool
aside_remove(const struct aside *aside, struct fault *why)
{
	if (unlink(aside->path) != 0 && errno == ENOENT)
		return true;
	if (!safefile_exists(aside->path) && fsync(aside->folder) == 0)
		return true;
	return fault_set(why, FAULT_OUTPUT, "'%s' cannot be removed: %s",
			 aside->path, strerror(errno));
}
