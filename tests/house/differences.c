/* Criterion's library for the differences of texts, when one is shown: built
 * as a library of the same name, which is found before it.
 *
 * The real one brings thirteen others, for networks, keys and certificates,
 * which each test would load and make ready: a third of its time. Only an
 * assertion eq(str, ...) that fails asks for it, and gets it from here.
 * DIFFERENCES is its path.
 */
#include <dlfcn.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>

typedef int initer(void);
typedef int differ(const void *one, size_t one_size, const char *one_name,
		   const void *other, size_t other_size, const char *other_name,
		   const void *options, void (*file)(void),
		   void (*binary)(void), void (*hunk)(void), void (*line)(void),
		   void *context);

initer git_libgit2_init, git_libgit2_shutdown;
differ git_diff_buffers;

int
git_libgit2_init(void)
{
	return 1;
}

int
git_libgit2_shutdown(void)
{
	return 0;
}

static void *
real(void *library, const char *name)
{
	void *found = library == NULL ? NULL : dlsym(library, name);

	if (found != NULL)
		return found;
	fprintf(stderr, "%s\n", dlerror());
	abort();
}

int
git_diff_buffers(const void *one, size_t one_size, const char *one_name,
		 const void *other, size_t other_size, const char *other_name,
		 const void *options, void (*file)(void), void (*binary)(void),
		 void (*hunk)(void), void (*line)(void), void *context)
{
	void *library = dlopen(DIFFERENCES, RTLD_NOW | RTLD_LOCAL);
	initer *init;
	differ *diff;

	*(void **)&init = real(library, "git_libgit2_init");
	*(void **)&diff = real(library, "git_diff_buffers");
	init();
	return diff(one, one_size, one_name, other, other_size, other_name,
		    options, file, binary, hunk, line, context);
}
