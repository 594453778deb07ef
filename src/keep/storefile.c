/* storefile.c: a store's file, looked at before SQLite sees it. */
#include "keep/storefile.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* The header, by https://www.sqlite.org/fileformat.html section 1.3. */
enum {
	HEADER_SIZE = 100,
	MAGIC_SIZE = 16,
	AT_PAGE_SIZE = 16,
	AT_WRITE_VERSION = 18,
	AT_READ_VERSION = 19,
	AT_PAGES = 28,
	AT_VERSION = 60,
	AT_APPLICATION = 68
};

__attribute__((format(printf, 3, 4))) static bool
refused(const char *path, struct fault *why, const char *format, ...)
{
	char sentence[FAULT_SENTENCE_SIZE];
	va_list arguments;

	va_start(arguments, format);
	vsnprintf(sentence, sizeof sentence, format, arguments);
	va_end(arguments);
	return fault_set(why, FAULT_REGISTER, "'%.*s' %s", STOREFILE_SHOWN,
			 path, sentence);
}

static uint32_t
big_endian(const unsigned char *bytes)
{
	return (uint32_t)bytes[0] << 24 | (uint32_t)bytes[1] << 16 |
	       (uint32_t)bytes[2] << 8 | (uint32_t)bytes[3];
}

bool
storefile_check_form(const char *path, const struct storefile_form *form,
		     const struct storefile_form *found, struct fault *why)
{
	if (found->application_id != form->application_id)
		return refused(path, why,
			       "is a file of another program and stays as it "
			       "is");
	if (found->version > form->version)
		return refused(path, why,
			       "was written by a newer version of this program "
			       "(form %ld; this one knows forms up to %ld); "
			       "use the newer one",
			       found->version, form->version);
	if (found->version < 1)
		return refused(path, why,
			       "is damaged: there is no form "
			       "%ld" STOREFILE_KEEP_IT,
			       found->version);
	return true;
}

static bool
cut_short(const char *path, off_t size, struct fault *why)
{
	return refused(path, why,
		       "is damaged: it is cut short at %lld "
		       "bytes" STOREFILE_KEEP_IT,
		       (long long)size);
}

/* `header` holds HEADER_SIZE bytes, zeros after the end of a shorter file. */
static bool
check_header(const char *path, const unsigned char *header, off_t size,
	     const struct storefile_form *form, struct fault *why)
{
	static const unsigned char zeros[HEADER_SIZE];
	static const char magic[MAGIC_SIZE] = "SQLite format 3";
	struct storefile_form found;
	size_t there = size < MAGIC_SIZE ? (size_t)size : MAGIC_SIZE;

	if (memcmp(header, zeros, HEADER_SIZE) == 0)
		return refused(path, why,
			       "is damaged: it begins with "
			       "zeros" STOREFILE_KEEP_IT);
	if (memcmp(header, magic, there) != 0)
		return refused(path, why,
			       "is no register, or damaged from its first "
			       "byte on; keep it as it is");
	if (size < HEADER_SIZE)
		return cut_short(path, size, why);
	if (header[AT_WRITE_VERSION] != 1 || header[AT_READ_VERSION] != 1)
		return refused(path, why,
			       "is kept in a way that this program does not "
			       "use, and stays as it is");
	found.application_id = (int32_t)big_endian(header + AT_APPLICATION);
	found.version = (int32_t)big_endian(header + AT_VERSION);
	return storefile_check_form(path, form, &found, why);
}

/* With anything of that name in it; SQLite makes it a plain file. */
static bool
has_journal(const char *path)
{
	char journal[STOREFILE_PATH_SIZE + sizeof "-journal"];
	struct stat status;

	snprintf(journal, sizeof journal, "%s-journal", path);
	return lstat(journal, &status) == 0 && status.st_size > 0;
}

bool
storefile_check_absent(const char *path, struct fault *why)
{
	struct stat status;

	if (lstat(path, &status) == 0)
		return refused(path, why,
			       "is there already, and a register is never "
			       "made over another file");
	if (has_journal(path))
		return refused(path, why,
			       "is gone, but its -journal file is there: "
			       "bring the register back beside it, or move "
			       "that file away");
	return true;
}

static bool
check_kind_of_file(const char *path, struct fault *why)
{
	struct stat status;

	if (lstat(path, &status) != 0 && errno == ENOENT)
		return refused(path, why,
			       "is not there; 'shoal start' makes a new "
			       "register");
	if (lstat(path, &status) != 0)
		return refused(path, why, "cannot be read: %s",
			       strerror(errno));
	if (S_ISLNK(status.st_mode))
		return refused(path, why,
			       "is a link; the register itself has to stand "
			       "there");
	if (!S_ISREG(status.st_mode))
		return refused(path, why, "is no plain file");
	/* SQLite would take it for a new store and drop its journal. */
	if (status.st_size == 0)
		return refused(path, why,
			       "is damaged: it is empty" STOREFILE_KEEP_IT);
	return true;
}

/* Reads HEADER_SIZE bytes, or all of a shorter file, over the zeros there. */
static bool
read_header(const char *path, unsigned char *header, off_t *size,
	    struct fault *why)
{
	int handle = open(path, O_RDONLY | O_NOFOLLOW | O_CLOEXEC | O_NONBLOCK);
	struct stat status;
	ssize_t got = -1;
	int error;

	if (handle >= 0 && fstat(handle, &status) == 0)
		got = read(handle, header, HEADER_SIZE);
	error = errno;
	if (handle >= 0)
		close(handle);
	if (got < 0)
		return refused(path, why, "cannot be read: %s",
			       strerror(error));
	*size = status.st_size;
	return true;
}

bool
storefile_check(const char *path, const struct storefile_form *form,
		struct fault *why)
{
	unsigned char header[HEADER_SIZE] = {0};
	off_t size = 0;

	if (!check_kind_of_file(path, why))
		return false;
	if (has_journal(path))
		return true;
	return read_header(path, header, &size, why) &&
	       check_header(path, header, size, form, why);
}

bool
storefile_check_length(const char *path, struct fault *why)
{
	unsigned char header[HEADER_SIZE] = {0};
	off_t size = 0, page, pages;

	if (!read_header(path, header, &size, why))
		return false;
	page = header[AT_PAGE_SIZE] << 8 | header[AT_PAGE_SIZE + 1];
	if (page == 1)
		page = 65536;
	pages = (off_t)big_endian(header + AT_PAGES);
	return size >= page * pages || cut_short(path, size, why);
}

void
storefile_drop(struct safefile *file)
{
	char journal[SAFEFILE_PATH_SIZE + sizeof "-journal"];

	snprintf(journal, sizeof journal, "%s-journal", file->temporary);
	unlink(journal);
	safefile_drop(file);
}

bool
storefile_path(const char *folder, const char *name, char *path,
	       struct fault *why)
{
	char real[PATH_MAX];

	if (realpath(folder, real) == NULL)
		return fault_set(why, FAULT_REGISTER,
				 "the folder '%.*s' cannot be used: %s",
				 STOREFILE_SHOWN, folder, strerror(errno));
	if (safefile_join(path, STOREFILE_PATH_SIZE, real, name, why))
		return true;
	why->kind = FAULT_REGISTER;
	return false;
}

bool
storefile_resolve(const char *file, char *path, struct fault *why)
{
	const char *slash = strrchr(file, '/');
	char folder[STOREFILE_PATH_SIZE];
	int length = slash == NULL ? 1 : (int)(slash - file + 1);

	if (snprintf(folder, sizeof folder, "%.*s", length,
		     slash == NULL ? "." : file) >= (int)sizeof folder)
		return fault_set(why, FAULT_REGISTER,
				 "the path of a copy is too long");
	return storefile_path(folder, slash == NULL ? file : slash + 1, path,
			      why);
}
