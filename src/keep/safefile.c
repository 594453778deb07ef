/* safefile.c: whole files, read and written so that nothing is half. */
#include "keep/safefile.h"

#include "base/text.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { TEMPORARY_TRIES = 100 };

static bool
not_written(const char *path, const char *reason, struct fault *why)
{
	return fault_set(why, FAULT_OUTPUT, "'%s' was not written: %s", path,
			 reason);
}

bool
safefile_is_own(const char *name)
{
	const char *at = strstr(name, SAFEFILE_UNFINISHED);

	return at != NULL && strtol(at + strlen(SAFEFILE_UNFINISHED), NULL,
				    10) == (long)getpid();
}

bool
safefile_exists(const char *path)
{
	struct stat status;

	return lstat(path, &status) == 0;
}

bool
safefile_join(char *path, size_t size, const char *folder, const char *name,
	      struct fault *why)
{
	size_t length = strlen(folder);
	bool parted = length == 0 || folder[length - 1] == '/';
	int needed =
		snprintf(path, size, "%s%s%s", folder, parted ? "" : "/", name);

	if (needed >= 0 && (size_t)needed < size)
		return true;
	path[0] = '\0';
	return fault_set(why, FAULT_INPUT,
			 "the path of '%.40s' is too long; at most %zu bytes "
			 "are allowed",
			 name, size - 1);
}

/* --- writing -------------------------------------------------------------- */

/* A name that is taken belongs to another program or was left by one that was
 * killed; it is left alone and the next one is tried. */
static int
create_temporary(struct safefile *file)
{
	for (int i = 0; i < TEMPORARY_TRIES; i++) {
		int handle, needed;

		needed = snprintf(file->temporary, sizeof file->temporary,
				  "%s" SAFEFILE_UNFINISHED "%ld-%d", file->path,
				  (long)getpid(), i);
		if (needed < 0 || (size_t)needed >= sizeof file->temporary) {
			errno = ENAMETOOLONG;
			return -1;
		}
		handle =
			open(file->temporary,
			     O_RDWR | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC,
			     S_IRUSR | S_IWUSR);
		if (handle >= 0 || errno != EEXIST)
			return handle;
	}
	return -1;
}

/* Whether what stands at the path, if anything, may be replaced. */
static bool
may_replace(const char *path, struct fault *why)
{
	struct stat status;

	if (lstat(path, &status) != 0) {
		if (errno == ENOENT)
			return true;
		return not_written(path, strerror(errno), why);
	}
	if (S_ISLNK(status.st_mode))
		return not_written(path,
				   "a link stands there, and files are never "
				   "written through links",
				   why);
	if (!S_ISREG(status.st_mode))
		return not_written(path, "what stands there is no plain file",
				   why);
	return true;
}

bool
safefile_open(struct safefile *file, const char *path, struct fault *why)
{
	int handle;

	file->out = NULL;
	if (!text_copy(file->path, sizeof file->path, path))
		return not_written(path, strerror(ENAMETOOLONG), why);
	if (!may_replace(path, why))
		return false;
	handle = create_temporary(file);
	if (handle < 0)
		return not_written(path, strerror(errno), why);
	file->out = fdopen(handle, "w");
	if (file->out != NULL)
		return true;
	not_written(path, strerror(errno), why);
	close(handle);
	unlink(file->temporary);
	return false;
}

/* Closes in any case; 0 or the first error number. A stream's error flag may
 * stem from an earlier write whose number is gone. */
static int
close_stream(FILE *out, bool synced)
{
	int error = 0;

	errno = 0;
	if (fflush(out) != 0 || ferror(out))
		error = errno != 0 ? errno : EIO;
	if (error == 0 && synced && fsync(fileno(out)) != 0)
		error = errno;
	if (fclose(out) != 0 && error == 0)
		error = errno;
	return error;
}

/* Makes the entry of `path` in its folder last. */
static int
sync_folder_of(const char *path)
{
	const char *slash = strrchr(path, '/');
	char folder[SAFEFILE_PATH_SIZE] = ".";
	int handle, error = 0;

	if (slash != NULL)
		snprintf(folder, sizeof folder, "%.*s",
			 slash == path ? 1 : (int)(slash - path), path);
	handle = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
	if (handle < 0)
		return errno;
	/* EINVAL: a file system whose folders cannot be synced. */
	if (fsync(handle) != 0 && errno != EINVAL)
		error = errno;
	close(handle);
	return error;
}

/* Unlike rename, link never replaces what another program put there since. The
 * file systems of most sticks (FAT) have no links. */
static int
put_in_place(const struct safefile *file, enum safefile_care care)
{
	if (care == SAFEFILE_FIRST) {
		if (link(file->temporary, file->path) == 0) {
			unlink(file->temporary);
			return 0;
		}
		if (errno != EPERM && errno != EOPNOTSUPP && errno != ENOSYS)
			return errno;
		if (safefile_exists(file->path))
			return EEXIST;
	}
	return rename(file->temporary, file->path) == 0 ? 0 : errno;
}

/* Only what is on the disk can be forgotten, and not all systems do. */
static void
forget(int handle)
{
	posix_fadvise(handle, 0, 0, POSIX_FADV_DONTNEED);
}

bool
safefile_settle(struct safefile *file, struct fault *why)
{
	int handle = fileno(file->out);

	if (fflush(file->out) != 0 || ferror(file->out) || fsync(handle) != 0)
		return not_written(file->path, strerror(errno), why);
	forget(handle);
	return true;
}

void
safefile_forget(const char *path)
{
	int handle = open(path, O_RDONLY | O_NOFOLLOW | O_CLOEXEC);

	if (handle < 0)
		return;
	forget(handle);
	close(handle);
}

bool
safefile_commit(struct safefile *file, enum safefile_care care,
		struct fault *why)
{
	bool synced = care != SAFEFILE_RENAMED;
	int error = close_stream(file->out, synced);

	file->out = NULL;
	if (error == 0)
		error = put_in_place(file, care);
	if (error != 0) {
		unlink(file->temporary);
		return not_written(file->path, strerror(error), why);
	}
	if (synced && (error = sync_folder_of(file->path)) != 0)
		return fault_set(why, FAULT_OUTPUT,
				 "'%s' was written, but may not survive a "
				 "power cut: %s",
				 file->path, strerror(error));
	return true;
}

void
safefile_drop(struct safefile *file)
{
	if (file->out == NULL)
		return;
	fclose(file->out);
	file->out = NULL;
	unlink(file->temporary);
}

/* --- reading -------------------------------------------------------------- */

/* O_NONBLOCK, so that a pipe is refused and not waited for. */
static int
open_regular(const char *path, enum fault_kind kind, struct fault *why)
{
	int handle = open(path, O_RDONLY | O_CLOEXEC | O_NOCTTY | O_NONBLOCK);
	struct stat status;

	if (handle < 0) {
		fault_set(why, kind, "'%s' cannot be read: %s", path,
			  strerror(errno));
		return -1;
	}
	if (fstat(handle, &status) == 0 && S_ISREG(status.st_mode))
		return handle;
	fault_set(why, kind, "'%s' cannot be read: it is no plain file", path);
	close(handle);
	return -1;
}

/* Reads up to `size` bytes; how many, or -1. */
static ssize_t
read_up_to(int handle, char *bytes, size_t size)
{
	size_t length = 0;

	while (length < size) {
		ssize_t got = read(handle, bytes + length, size - length);

		if (got < 0 && errno == EINTR)
			continue;
		if (got < 0)
			return -1;
		if (got == 0)
			break;
		length += (size_t)got;
	}
	return (ssize_t)length;
}

bool
safefile_is_same(const char *path, const char *other)
{
	struct stat one, two;

	return stat(path, &one) == 0 && stat(other, &two) == 0 &&
	       one.st_dev == two.st_dev && one.st_ino == two.st_ino;
}

long
safefile_peek(const char *path, char *bytes, size_t size)
{
	struct stat status;
	ssize_t got;
	int handle;

	if (lstat(path, &status) != 0 || !S_ISREG(status.st_mode))
		return 0;
	handle = open(path, O_RDONLY | O_NOFOLLOW | O_CLOEXEC | O_NONBLOCK);
	if (handle < 0)
		return -1;
	got = read_up_to(handle, bytes, size);
	close(handle);
	return (long)got;
}

bool
safefile_read(const char *path, char *bytes, size_t size, size_t *length,
	      enum fault_kind kind, struct fault *why)
{
	bool is_input = strcmp(path, "-") == 0;
	int handle = is_input ? STDIN_FILENO : open_regular(path, kind, why);
	const char *name = is_input ? "standard input" : path;
	int error;
	ssize_t got;

	if (handle < 0)
		return false;
	got = read_up_to(handle, bytes, size);
	error = errno;
	if (!is_input)
		close(handle);
	if (got < 0)
		return fault_set(why, kind, "'%s' cannot be read: %s", name,
				 strerror(error));
	if ((size_t)got == size)
		return fault_set(why, kind,
				 "'%s' is too large; at most %zu bytes are "
				 "allowed",
				 name, size - 1);
	bytes[got] = '\0';
	*length = (size_t)got;
	return true;
}

/* --- folders -------------------------------------------------------------- */

static bool
make_one_folder(const char *path, struct fault *why)
{
	struct stat status;
	int error;

	if (mkdir(path, S_IRWXU) == 0) {
		error = sync_folder_of(path);
		if (error == 0)
			return true;
		return not_written(path, strerror(error), why);
	}
	error = errno;
	if (stat(path, &status) != 0)
		return not_written(path, strerror(error), why);
	if (!S_ISDIR(status.st_mode))
		return not_written(path, "what stands there is no folder", why);
	return true;
}

bool
safefile_make_folder(const char *path, struct fault *why)
{
	char part[SAFEFILE_PATH_SIZE];

	if (!text_copy(part, sizeof part, path) || part[0] == '\0')
		return not_written(path, "its path has to have 1 to 4095 bytes",
				   why);
	for (char *slash = part + 1; *slash != '\0'; slash++) {
		if (*slash != '/' || slash[-1] == '/')
			continue;
		*slash = '\0';
		if (!make_one_folder(part, why))
			return false;
		*slash = '/';
	}
	return make_one_folder(part, why);
}
