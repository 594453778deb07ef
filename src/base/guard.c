/* guard.c: what the system is told to keep from this process. */
#include "base/guard.h"

#include <sys/prctl.h>
#include <sys/resource.h>

void
guard_memory(void)
{
	struct rlimit none = {0, 0};

	setrlimit(RLIMIT_CORE, &none);
	prctl(PR_SET_DUMPABLE, 0, 0, 0, 0);
	prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0);
}
