/* folder.h: a folder of its own for a test, and what stands in it. */
#ifndef SHOAL_TESTS_KEEP_FOLDER_H
#define SHOAL_TESTS_KEEP_FOLDER_H

#include <dirent.h>
#include <ftw.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { FOLDER_SIZE = 32, FOLDER_PATH = 256 };

/* Makes one, in memory where there is such a place: hundreds of registers are
 * synced there. `folder` holds FOLDER_SIZE bytes. */
static inline bool
folder_make(char *folder)
{
	snprintf(folder, FOLDER_SIZE, "%s/shoal-test-XXXXXX",
		 access("/dev/shm", W_OK) == 0 ? "/dev/shm" : "/tmp");
	return mkdtemp(folder) != NULL;
}

static inline int
folder_remove_one(const char *path, const struct stat *status, int type,
		  struct FTW *walk)
{
	(void)status;
	(void)type;
	(void)walk;
	return remove(path);
}

static inline void
folder_remove(const char *folder)
{
	nftw(folder, folder_remove_one, 8, FTW_DEPTH | FTW_PHYS);
}

/* The path of a file in it, in `path` of FOLDER_PATH bytes. */
static inline const char *
folder_path(const char *folder, const char *name, char *path)
{
	snprintf(path, FOLDER_PATH, "%s/%s", folder, name);
	return path;
}

/* How many files and folders stand in it. */
static inline int
folder_count(const char *folder)
{
	DIR *listing = opendir(folder);
	int count = -2; /* . and .. */

	if (listing == NULL)
		return -1;
	while (readdir(listing) != NULL)
		count++;
	closedir(listing);
	return count;
}

static inline bool
folder_put(const char *path, const char *bytes, size_t length)
{
	FILE *out = fopen(path, "wb");
	bool done = out != NULL && fwrite(bytes, 1, length, out) == length;

	return out != NULL && fclose(out) == 0 && done;
}

/* Reads up to `size` bytes; how many, or -1. A pipe is not waited for. */
static inline long
folder_get(const char *path, char *bytes, size_t size)
{
	struct stat status;
	FILE *in;
	long length;

	if (stat(path, &status) != 0 || !S_ISREG(status.st_mode))
		return -1;
	in = fopen(path, "rb");
	if (in == NULL)
		return -1;
	length = (long)fread(bytes, 1, size, in);
	fclose(in);
	return length;
}

static inline bool
folder_holds(const char *path, const char *text)
{
	char bytes[4096];
	long length = folder_get(path, bytes, sizeof bytes);

	return length == (long)strlen(text) &&
	       memcmp(bytes, text, (size_t)length) == 0;
}

/* Permission bits, or -1. */
static inline int
folder_mode(const char *path)
{
	struct stat status;

	return lstat(path, &status) == 0 ? (int)(status.st_mode & 07777) : -1;
}

#endif
