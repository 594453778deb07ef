/* fault.h: what went wrong, as a finished sentence handed up to the caller. */
#ifndef SHOAL_BASE_FAULT_H
#define SHOAL_BASE_FAULT_H

#include <stdbool.h>

/*
 * A function that can fail returns bool and takes a `struct fault *why` last:
 * true means done and `why` untouched; false means that `why` holds the kind
 * and one sentence in lower case without a full stop, its subject in single
 * quotes and the allowed range given. Callers put the place in front with
 * fault_at ("row 3", "policy.ini:14"). Only the desk prints. The kind is the
 * exit status of the program.
 */
enum fault_kind {
	FAULT_NONE = 0,
	FAULT_INTERNAL = 1, /* a fault of the program itself */
	FAULT_USAGE = 2,    /* the command line */
	FAULT_INPUT = 3,    /* input refused, wholly or in part */
	FAULT_POLICY = 4,   /* policy, station or wording file refused */
	FAULT_REGISTER = 5, /* the register could not be read or written */
	FAULT_OUTPUT = 6    /* output could not be written */
};

/* Bytes; longer sentences and places are cut. */
enum { FAULT_SENTENCE_SIZE = 600, FAULT_PLACE_SIZE = 200 };

struct fault {
	enum fault_kind kind;
	char sentence[FAULT_SENTENCE_SIZE];
};

/* Where many faults are told one by one; `place` in front is up to the teller.
 * Called once per fault with the `context` given beside it. */
typedef void fault_hear(void *context, const struct fault *one);

/* Sets kind and sentence, whose control characters, bidirectional marks and
 * broken bytes become '?'; always returns false, so that a
 * caller may write `return fault_set(...)`. */
__attribute__((format(printf, 3, 4))) bool fault_set(struct fault *why,
						     enum fault_kind kind,
						     const char *format, ...);

/* Puts a place and ": " in front of the sentence; always returns false. */
__attribute__((format(printf, 2, 3))) bool fault_at(struct fault *why,
						    const char *format, ...);

#endif
