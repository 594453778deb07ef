/* sets.h: a record filled from "name=value|name=value", as a file would. */
#ifndef TESTS_CLINIC_SETS_H
#define TESTS_CLINIC_SETS_H

#include "base/field.h"

#include <criterion/criterion.h>
#include <string.h>

/* Fails the test at a name that is no field and a value that is refused. What
 * is not named stays as it is. */
static inline void
sets_read(struct fields fields, void *record, const char *sets)
{
	char set[900], *value;
	struct fault why = {0};

	while (*sets != '\0') {
		size_t length = strcspn(sets, "|");
		const struct field *field;

		cr_assert_lt(length, sizeof set);
		memcpy(set, sets, length);
		set[length] = '\0';
		value = strchr(set, '=');
		cr_assert_not_null(value, "%s", set);
		*value++ = '\0';
		field = fields_find(fields, set);
		cr_assert_not_null(field, "%s", set);
		cr_assert(field_read(field, value, record, &why), "%s",
			  why.sentence);
		sets += length + (sets[length] == '|');
	}
}

#endif
