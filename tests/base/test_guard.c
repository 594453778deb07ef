/* test_guard.c: what the system is told to keep from this process. */
#include "base/guard.h"

#include <criterion/criterion.h>
#include <sys/prctl.h>
#include <sys/resource.h>

Test(guard, memory_is_not_written_to_a_core_nor_read_by_others)
{
	struct rlimit limit;

	/* As it is without: else this says nothing. */
	cr_assert_eq(prctl(PR_GET_DUMPABLE, 0, 0, 0, 0), 1);
	guard_memory();
	cr_expect_eq(prctl(PR_GET_DUMPABLE, 0, 0, 0, 0), 0);
	cr_expect_eq(prctl(PR_GET_NO_NEW_PRIVS, 0, 0, 0, 0), 1);
	cr_assert_eq(getrlimit(RLIMIT_CORE, &limit), 0);
	cr_expect(limit.rlim_cur == 0 && limit.rlim_max == 0);
}
