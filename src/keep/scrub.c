/* scrub.c: files that held names, removed for good. */
#include "keep/scrub.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static bool
write_zeros(int handle, off_t size)
{
	static const char zeros[4096];

	for (off_t done = 0; done < size;) {
		off_t left = size - done;
		ssize_t written = write(handle, zeros,
					left < (off_t)sizeof zeros
						? (size_t)left
						: sizeof zeros);

		if (written < 0 && errno == EINTR)
			continue;
		if (written <= 0)
			return false;
		done += written;
	}
	return fsync(handle) == 0;
}

static bool
overwrite(const char *path)
{
	int handle = open(path, O_WRONLY | O_NOFOLLOW | O_CLOEXEC | O_NONBLOCK);
	struct stat status;
	bool done;
	int error;

	if (handle < 0)
		return false;
	done = fstat(handle, &status) == 0 &&
	       (!S_ISREG(status.st_mode) || status.st_nlink > 1 ||
		write_zeros(handle, status.st_size));
	error = errno;
	close(handle);
	errno = error;
	return done;
}

bool
scrub_file(const char *path, struct fault *why)
{
	struct stat status;

	if (lstat(path, &status) != 0 && errno == ENOENT)
		return true;
	if ((S_ISREG(status.st_mode) && !overwrite(path)) || unlink(path) != 0)
		return fault_set(why, FAULT_OUTPUT,
				 "'%.300s' could not be removed: %s", path,
				 strerror(errno));
	return true;
}
