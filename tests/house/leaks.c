/* What the programs built with the sanitizers are linked with, so that a
 * process of theirs costs less; nothing is checked less.
 *
 * LeakSanitizer looks for pointers in every page of every library's variables,
 * its own 11 MB included, most of which no test ever touches: half the time of
 * a short test. Here the pointers are gathered from the touched pages of all
 * libraries but the sanitizers' own, and that list alone is searched. What is
 * gathered too little would be told as a leak, never the reverse.
 *
 * SHOAL_TEST_LEAK in the environment makes a leak, to try the alarm.
 */
#define _GNU_SOURCE /* dl_iterate_phdr */
#include <fcntl.h>
#include <link.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <unistd.h>

#ifdef __SANITIZE_ADDRESS__
#include <sanitizer/lsan_interface.h>

enum { PAGES_AT_ONCE = 256, SPARE = 64 };

/* The program as it was loaded; the linker sets both. */
extern const char __executable_start[], _end[];

struct roots {
	int pagemap; /* one 64-bit word per page of this process */
	uintptr_t page_size;
	uintptr_t *word;
	size_t count, limit;
};

const char *__lsan_default_options(void);

const char *
__lsan_default_options(void)
{
	return "use_globals=0";
}

/* Whether it may point to memory from malloc: user space, not this program. */
static bool
word_may_point(uintptr_t word)
{
	return word >> 12 != 0 && word >> 48 == 0 &&
	       (word < (uintptr_t)__executable_start || word > (uintptr_t)_end);
}

/* Red zones between variables are read as well: no sanitizing here. */
__attribute__((no_sanitize("address", "undefined"))) static void
page_search(struct roots *roots, const uintptr_t *page)
{
	for (size_t i = 0; i < roots->page_size / sizeof *page; i++) {
		if (!word_may_point(page[i]))
			continue;
		if (roots->count < roots->limit)
			roots->word[roots->count] = page[i];
		roots->count++;
	}
}

/* Search the pages that are there (bit 63) or swapped out (bit 62); one that
 * was never touched is zero. Unknown: search all. */
static void
pages_search(struct roots *roots, uintptr_t from, uintptr_t to)
{
	uint64_t page[PAGES_AT_ONCE];
	uintptr_t size = roots->page_size;

	for (uintptr_t at = from; at < to; at += PAGES_AT_ONCE * size) {
		size_t pages = (to - at + size - 1) / size;
		if (pages > PAGES_AT_ONCE)
			pages = PAGES_AT_ONCE;
		ssize_t want = (ssize_t)(pages * sizeof *page);
		if (pread(roots->pagemap, page, (size_t)want,
			  (off_t)(at / size * sizeof *page)) != want)
			memset(page, 0xff, sizeof page);
		for (size_t i = 0; i < pages; i++)
			if (page[i] >> 62 != 0)
				page_search(roots, (void *)(at + i * size));
	}
}

static int
library_search(struct dl_phdr_info *library, size_t size, void *context)
{
	struct roots *roots = context;
	uintptr_t mask = roots->page_size - 1;

	(void)size;
	if (strstr(library->dlpi_name, "/libasan.so") != NULL ||
	    strstr(library->dlpi_name, "/libubsan.so") != NULL)
		return 0;
	for (int i = 0; i < library->dlpi_phnum; i++) {
		const ElfW(Phdr) *part = &library->dlpi_phdr[i];
		if (part->p_type != PT_LOAD || (part->p_flags & PF_W) == 0)
			continue;
		uintptr_t from = library->dlpi_addr + part->p_vaddr;
		pages_search(roots, from & ~mask,
			     (from + part->p_memsz + mask) & ~mask);
	}
	return 0;
}

/* The last thing before the sanitizer looks. The memory of the list comes from
 * the system and is left to it. */
__attribute__((destructor(101))) static void
roots_gather(void)
{
	struct roots roots = {.pagemap = open("/proc/self/pagemap", O_RDONLY),
			      .page_size = (uintptr_t)sysconf(_SC_PAGESIZE)};

	dl_iterate_phdr(library_search, &roots);
	size_t limit = roots.count + SPARE;
	void *list = mmap(NULL, limit * sizeof *roots.word,
			  PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS,
			  -1, 0);
	if (list == MAP_FAILED)
		return;
	roots.word = list;
	roots.limit = limit;
	roots.count = 0;
	dl_iterate_phdr(library_search, &roots);
	close(roots.pagemap);
	__lsan_register_root_region(list, limit * sizeof *roots.word);
}

__attribute__((constructor)) static void
leak_on_demand(void)
{
	if (getenv("SHOAL_TEST_LEAK") != NULL) {
		char *volatile lost = malloc(16);
		lost = NULL;
		(void)lost;
	}
}
#endif
