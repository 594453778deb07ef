/* mistyped.h: a number of the register that somebody types. */
#ifndef SHOAL_DESK_MISTYPED_H
#define SHOAL_DESK_MISTYPED_H

#include "base/fault.h"
#include "base/refnum.h"
#include "desk/desk.h"

/*
 * Whether `typed` and `meant`, digits of one length, are one slip of the
 * keyboard apart: one digit another, two neighbours swapped, two digits
 * swapped over the one between them, or a pair of equal digits typed as
 * another pair. Equal ones are not.
 */
bool mistyped_by_one_slip(const char *typed, const char *meant);

/*
 * Reads a referral number. When its check digits are wrong and exactly one
 * number of the register is one slip away, the sentence asks whether that one
 * is meant; nothing is put right by itself. A number of another station is
 * refused as one that this register does not have.
 */
bool mistyped_read(struct desk *desk, const char *text, struct refnum *number,
		   struct fault *why);

#endif
