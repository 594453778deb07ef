/* memory.c: preloaded; the Nth request for memory is refused. */

/*
 * MEMORY_AT=N refuses the Nth request, counted from the program's start, and
 * with MEMORY_FOR_GOOD all after it; MEMORY_REPORT names the file into which
 * the count is written at the end. The C library's own requests come here as
 * well, and those of the libraries that are loaded later.
 */
#include <errno.h>
#include <fcntl.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

void *__libc_malloc(size_t size);
void *__libc_calloc(size_t count, size_t size);
void *__libc_realloc(void *memory, size_t size);

static long seen, at;
static bool counting, for_good;

__attribute__((constructor)) static void
begin(void)
{
	const char *number = getenv("MEMORY_AT");

	at = number == NULL ? 0 : strtol(number, NULL, 10);
	for_good = getenv("MEMORY_FOR_GOOD") != NULL;
	counting = true;
}

__attribute__((destructor)) static void
end(void)
{
	const char *report = getenv("MEMORY_REPORT");
	char text[24];
	int length, handle;

	counting = false;
	if (report == NULL)
		return;
	length = snprintf(text, sizeof text, "%ld\n", seen);
	handle = open(report, O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);
	if (handle >= 0 && write(handle, text, (size_t)length) == length)
		close(handle);
}

static bool
is_refused(void)
{
	if (!counting)
		return false;
	seen++;
	if (at == 0 || (for_good ? seen < at : seen != at))
		return false;
	errno = ENOMEM;
	return true;
}

void *
malloc(size_t size)
{
	return is_refused() ? NULL : __libc_malloc(size);
}

/* iniparser does not look whether it gets its three tables of so many places.
 * The program asks for more just before it calls it, which is refused as any
 * other request. */
static bool
is_for_iniparser(size_t count, size_t size)
{
	return count == 128 && (size == sizeof(char *) || size == 4);
}

void *
calloc(size_t count, size_t size)
{
	return !is_for_iniparser(count, size) && is_refused()
		       ? NULL
		       : __libc_calloc(count, size);
}

void *
realloc(void *memory, size_t size)
{
	return is_refused() ? NULL : __libc_realloc(memory, size);
}
