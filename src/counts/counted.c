/* counted.c: a row of a tally that was read, checked and accepted. */
#include "counts/counted.h"

const char *
ledger_status_word(enum ledger_status status)
{
	static const char *const words[LEDGER_STATUSES] = {
		"counted",  "same",    "superseded",
		"conflict", "refused", "passed over"};

	return words[status];
}
