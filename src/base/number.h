/* number.h: whole numbers, read strictly. */
#ifndef SHOAL_BASE_NUMBER_H
#define SHOAL_BASE_NUMBER_H

#include "base/fault.h"

/*
 * Reads a whole number of plain ASCII digits between `least` and `most`, both
 * included, neither negative. No sign, space, comma, point, exponent, leading
 * zero or unit: what looks like a number but is not one is refused, never
 * read as another number. `unit` ("years", "mmHg", or "") follows the range in
 * the sentence. FAULT_INPUT on refusal; `*value` is then untouched.
 */
bool number_read(const char *text, long least, long most, const char *unit,
		 long *value, struct fault *why);

#endif
