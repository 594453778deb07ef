/* walk.c: every file in the folders given, in one order. */
#include "keep/walk.h"

#include "base/text.h"
#include "keep/safefile.h"
#include "keep/walkname.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum {
	HOW_TO_OPEN = O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC | O_NOCTTY
};

/* --- the names of a level ------------------------------------------------- */

static bool
add_name(struct walk_level *names, const char *name, bool is_folder)
{
	size_t length = strlen(name), size = names->size;
	char *text;

	while (names->used + length + 2 > size)
		size = size == 0 ? 4096 : size * 2;
	if (size != names->size) {
		text = realloc(names->text, size);
		if (text == NULL)
			return false;
		names->text = text;
		names->size = size;
	}
	memcpy(names->text + names->used, name, length);
	names->used += length;
	if (is_folder)
		names->text[names->used++] = '/';
	names->text[names->used++] = '\0';
	names->count++;
	return true;
}

static int
compare_names(const void *one, const void *other)
{
	return strcmp(*(const char *const *)one, *(const char *const *)other);
}

static bool
no_memory(struct fault *why)
{
	return fault_set(why, FAULT_INTERNAL,
			 "no memory for the names in a folder");
}

/* The level above the others, not one of them yet. */
static struct walk_level *
begin_level(struct walk *walk, int handle, size_t prefix)
{
	struct walk_level *level = &walk->level[walk->levels];

	memset(level, 0, sizeof *level);
	level->handle = handle;
	level->prefix = prefix;
	return level;
}

static void
release(struct walk_level *level)
{
	if (level->folder != NULL)
		closedir(level->folder);
	else if (level->handle >= 0)
		close(level->handle);
	free(level->text);
	free(level->name);
}

/* All its names are there. */
static bool
push(struct walk *walk, struct fault *why)
{
	struct walk_level *level = &walk->level[walk->levels];
	const char *at = level->text;

	level->name = calloc(level->count + 1, sizeof *level->name);
	if (level->name == NULL)
		return no_memory(why);
	for (size_t i = 0; i < level->count; i++) {
		level->name[i] = at;
		at += strlen(at) + 1;
	}
	if (level->count > 1)
		qsort(level->name, level->count, sizeof *level->name,
		      compare_names);
	walk->levels++;
	return true;
}

static void
pop(struct walk *walk)
{
	release(&walk->level[--walk->levels]);
}

static bool
is_folder_at(int handle, const char *name)
{
	struct stat status;

	return fstatat(handle, name, &status, AT_SYMLINK_NOFOLLOW) == 0 &&
	       S_ISDIR(status.st_mode);
}

/* What was given, without slashes at the end: behind a slash the system would
 * follow a link. */
static bool
add_given(struct walk_level *names, const char *given)
{
	char path[WALK_PATH_SIZE];
	size_t length = strlen(given);

	while (length > 1 && given[length - 1] == '/')
		length--;
	if (length >= sizeof path)
		return add_name(names, given, false);
	memcpy(path, given, length);
	path[length] = '\0';
	if (strcmp(path, "/") == 0)
		return add_name(names, "", true);
	return add_name(names, path, is_folder_at(AT_FDCWD, path));
}

bool
walk_begin(struct walk *walk, const char *const path[], size_t count,
	   struct fault *why)
{
	struct walk_level *names;
	bool done = true;

	walk->levels = 0;
	walk->handle = -1;
	names = begin_level(walk, -1, 0);
	for (size_t i = 0; done && i < count; i++)
		done = add_given(names, path[i]) || no_memory(why);
	if (done && push(walk, why))
		return true;
	release(names);
	return false;
}

void
walk_release(struct walk *walk)
{
	while (walk->levels > 0)
		pop(walk);
}

/* --- meeting them --------------------------------------------------------- */

static enum walk_kind
refuse(struct walk *walk, const char *reason)
{
	fault_set(&walk->reason, FAULT_INPUT, "%s", reason);
	return WALK_REFUSED;
}

static enum walk_kind
refuse_errno(struct walk *walk)
{
	if (errno == ELOOP)
		return refuse(walk, "it is a link, and links are not followed");
	if (errno == ENOENT)
		return refuse(walk, "there is no such file");
	if (errno == ENXIO) /* a socket, or a device that is not there */
		return refuse(walk, "it is no plain file");
	fault_set(&walk->reason, FAULT_INPUT, "it cannot be read: %s",
		  strerror(errno));
	return WALK_REFUSED;
}

static enum walk_kind
open_file(struct walk *walk, int folder, const char *name)
{
	walk->handle = openat(folder, name, HOW_TO_OPEN);
	if (walk->handle < 0)
		return refuse_errno(walk);
	if (fstat(walk->handle, &walk->status) == 0 &&
	    S_ISREG(walk->status.st_mode))
		return WALK_FILE;
	close(walk->handle);
	walk->handle = -1;
	return refuse(walk, "it is no plain file");
}

static enum walk_kind
meet_file(struct walk *walk, const struct walk_level *level, const char *name)
{
	bool was_given = level->handle < 0;
	const char *reason = was_given ? NULL : walkname_leftover(name);
	struct stat status;

	if (was_given && strcmp(name, "-") == 0)
		return WALK_INPUT;
	if (reason != NULL) {
		refuse(walk, reason);
		return WALK_PASSED_OVER;
	}
	reason = walkname_no_table(name, was_given);
	if (reason == NULL)
		return open_file(walk, was_given ? AT_FDCWD : level->handle,
				 name);
	if (fstatat(was_given ? AT_FDCWD : level->handle, name, &status,
		    AT_SYMLINK_NOFOLLOW) != 0)
		return refuse_errno(walk);
	if (S_ISLNK(status.st_mode)) {
		errno = ELOOP;
		return refuse_errno(walk);
	}
	return refuse(walk, reason);
}

/* All names in an open folder; false with errno set. */
static bool
list_folder(struct walk_level *names)
{
	struct dirent *entry;

	names->folder = fdopendir(names->handle);
	if (names->folder == NULL)
		return false;
	errno = 0;
	/* cppcheck-suppress readdirCalled */
	while ((entry = readdir(names->folder)) != NULL) {
		const char *name = entry->d_name;
		bool is_folder = entry->d_type == DT_DIR ||
				 (entry->d_type == DT_UNKNOWN &&
				  is_folder_at(names->handle, name));

		if (strcmp(name, ".") != 0 && strcmp(name, "..") != 0 &&
		    !safefile_is_own(name) && !add_name(names, name, is_folder))
			return false;
		errno = 0;
	}
	return errno == 0;
}

/* WALK_END when its names are to be met next; `*why` is set when all ends. */
static enum walk_kind
meet_folder(struct walk *walk, const struct walk_level *level, const char *name,
	    struct fault *why)
{
	struct walk_level *names;
	char folder[WALK_PATH_SIZE];
	enum walk_kind kind;
	int handle;

	if (level->handle >= 0 && name[0] == '.') {
		refuse(walk, "the folder is hidden");
		return WALK_PASSED_OVER;
	}
	if (walk->levels == WALK_LEVELS)
		return refuse(walk, "folders stand in one another more than 30 "
				    "deep");
	/* Without the slash, unless it is the root. */
	text_copy(folder, sizeof folder, name);
	if (strlen(folder) > 1)
		folder[strlen(folder) - 1] = '\0';
	handle = openat(level->handle < 0 ? AT_FDCWD : level->handle, folder,
			HOW_TO_OPEN | O_DIRECTORY);
	if (handle < 0)
		return refuse_errno(walk);
	names = begin_level(walk, handle, strlen(walk->path));
	if (list_folder(names)) {
		if (push(walk, why))
			return WALK_END;
		kind = WALK_END;
	} else {
		kind = refuse_errno(walk);
	}
	release(names);
	return kind;
}

bool
walk_next(struct walk *walk, enum walk_kind *kind, struct fault *why)
{
	struct fault fault = {FAULT_NONE, ""};

	while (walk->levels > 0) {
		struct walk_level *level = &walk->level[walk->levels - 1];
		const char *name;
		size_t length;

		if (level->next == level->count) {
			pop(walk);
			continue;
		}
		name = level->name[level->next++];
		length = strlen(name);
		if (level->prefix + length >= sizeof walk->path) {
			walk->path[level->prefix] = '\0';
			*kind = refuse(walk, "a path here is too long");
			return true;
		}
		memcpy(walk->path + level->prefix, name, length + 1);
		if (length == 0 || name[length - 1] != '/')
			*kind = meet_file(walk, level, name);
		else
			*kind = meet_folder(walk, level, name, &fault);
		if (fault.kind != FAULT_NONE) {
			*why = fault;
			return false;
		}
		if (*kind != WALK_END)
			return true;
	}
	*kind = WALK_END;
	return true;
}

int
walk_open_again(const char *path, struct stat *status)
{
	int handle = open(path, HOW_TO_OPEN);

	if (handle >= 0 && fstat(handle, status) != 0) {
		close(handle);
		return -1;
	}
	return handle;
}
