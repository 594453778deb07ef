/* stationrow.h: what the register knows about its station, by name. */
#ifndef SHOAL_KEEP_STATIONROW_H
#define SHOAL_KEEP_STATIONROW_H

#include "base/fault.h"
#include "keep/store.h"

#include <stddef.h>

/* The value of the row found by `rest` of a SELECT from the table station
 * ("name = 'device'"), "" when there is none; `form` is the register's. One
 * that does not fit its mark (rowmark.h), or its place, is FAULT_REGISTER. */
bool stationrow_ask(struct store *store, int form, const char *rest,
		    char *value, size_t size, struct fault *why);

/* Adds a row to a register of the newest form, in the caller's transaction or
 * in one of its own. */
bool stationrow_add(struct store *store, const char *name, const char *value,
		    struct fault *why);

/* The same under the first of NAME_1, NAME_2, ... that is free. */
bool stationrow_add_next(struct store *store, const char *name,
			 const char *value, struct fault *why);

/* Puts another value in the place of a row's, in the caller's transaction. */
bool stationrow_change(struct store *store, const char *name, const char *value,
		       struct fault *why);

#endif
