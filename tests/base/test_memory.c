/* test_memory.c: memory that grows with what it holds. */
#include "base/memory.h"

#include <criterion/criterion.h>
#include <stdint.h>
#include <stdlib.h>

Test(memory, what_is_there_stays_while_it_grows)
{
	void *memory = NULL;
	size_t room = 0;
	long *kept;

	for (long i = 0; i < 1000; i++) {
		cr_assert(memory_grow(&memory, &room, (size_t)i + 1,
				      sizeof *kept));
		cr_assert_gt(room, (size_t)i);
		kept = memory;
		kept[i] = i;
	}
	kept = memory;
	for (long i = 0; i < 1000; i++)
		cr_expect_eq(kept[i], i, "element %ld", i);
	cr_expect_lt(room, 2048 + 1, "it only doubles");
	free(memory);
}

Test(memory, more_than_can_be_counted_changes_nothing)
{
	static const size_t needed[] = {SIZE_MAX, SIZE_MAX / 8,
					SIZE_MAX / 8 + 1};
	void *memory = NULL;
	size_t room = 0;
	const void *before;

	cr_assert(memory_grow(&memory, &room, 1, 8));
	before = memory;
	for (size_t i = 0; i < sizeof needed / sizeof needed[0]; i++) {
		cr_expect_not(memory_grow(&memory, &room, needed[i], 8),
			      "row %zu", i);
		cr_expect(memory == before && room >= 1 && room < 1000,
			  "row %zu", i);
	}
	free(memory);
}
