/* hold.c: who may have the register of a folder open. */
#include "keep/hold.h"

#include "keep/safefile.h"

#include <errno.h>
#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

void
hold_end(int *hold)
{
	if (*hold > 0)
		close(*hold - 1);
	*hold = 0;
}

bool
hold_take(const char *folder, enum hold_how how, int *hold, struct fault *why)
{
	char path[SAFEFILE_PATH_SIZE];
	struct fault ignored;
	int handle = -1;

	*hold = 0;
	if (safefile_join(path, sizeof path, folder, "slips", &ignored))
		handle = open(path, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
	if (handle < 0)
		return true;
	*hold = handle + 1;
	if (flock(handle, LOCK_NB | (how == HOLD_ALONE ? LOCK_EX : LOCK_SH)) ==
		    0 ||
	    errno != EWOULDBLOCK)
		return true;
	hold_end(hold);
	return fault_set(why, FAULT_REGISTER,
			 how == HOLD_ALONE
				 ? "the register in '%.300s' is open in "
				   "another program; end that one first"
				 : "the register in '%.300s' is just being "
				   "restored, mended or purged by another "
				   "program; try again when it has ended",
			 folder);
}
