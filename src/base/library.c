/* library.c: shared libraries that are loaded when they are first needed. */
#include "base/library.h"

#include <dlfcn.h>
#include <string.h>

void *
library_open(const char *name)
{
	return dlopen(name, RTLD_NOW | RTLD_LOCAL);
}

/* ISO C has no way from one kind of pointer to the other; POSIX promises that
 * they are alike. */
bool
library_find(void *library, const char *name, void *function)
{
	void *found = library == NULL ? NULL : dlsym(library, name);

	memcpy(function, &found, sizeof found);
	return found != NULL;
}
