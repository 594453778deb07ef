/* Tests of clinic/angle: what is said of an angle about which nothing is. */
#include "clinic/angle.h"

#include <criterion/criterion.h>

Test(angle, closed_or_not_is_told_only_where_all_that_may_be_says_so)
{
	static const struct {
		enum angle_class least, most;
		enum known closed;
	} rows[] = {
		{ANGLE_NOT_DERIVABLE, ANGLE_NOT_DERIVABLE, KNOWN_NOT},
		{ANGLE_OPEN, ANGLE_OPEN, KNOWN_NO},
		{ANGLE_OPEN, ANGLE_SUSPECT, KNOWN_NOT},
		{ANGLE_OPEN, ANGLE_CLOSURE_GLAUCOMA, KNOWN_NOT},
		{ANGLE_SUSPECT, ANGLE_SUSPECT, KNOWN_YES},
		{ANGLE_SUSPECT, ANGLE_CLOSURE, KNOWN_YES},
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct angle angle = {.least = rows[i].least,
				      .most = rows[i].most};

		cr_expect_eq(angle_is_closed(&angle), rows[i].closed, "row %zu",
			     i);
	}
}
