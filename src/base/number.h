/* number.h: whole numbers and decimal fractions, read strictly. */
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

/*
 * Reads a number such as 6.8 as whole units of its last place: with 2 places
 * 6.8 is 680. Plain ASCII digits, perhaps one decimal point with 1 to `places`
 * (at most 4) digits behind it; no comma, no point without digits on either
 * side, and nothing else that number_read refuses. `least` and `most` are in
 * whole numbers, both included. FAULT_INPUT on refusal; `*value` is then
 * untouched.
 */
bool number_read_decimal(const char *text, long least, long most, int places,
			 const char *unit, long *value, struct fault *why);

#endif
