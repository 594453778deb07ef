/* telling.h: phrases handed one by one to whoever prints them. */
#ifndef SHOAL_PAPER_TELLING_H
#define SHOAL_PAPER_TELLING_H

#include "base/day.h"
#include "paper/phrase.h"
#include "paper/slip.h"

#include <stddef.h>

/* Called per phrase; what it points to lasts until the call returns. */
typedef void slip_see(void *context, const struct phrase *phrase);

/* One walk over one part of a slip; `eye` where the part is of one eye. */
struct telling {
	const struct slip *slip;
	enum eye eye;
	slip_see *see;
	void *context;
};

enum { TELL_DATE_SIZE = 128 };

/* A phrase without values; with one that the program made; with one that
 * somebody typed. */
void tell(const struct telling *to, const char *key);
void tell_with(const struct telling *to, const char *key, const char *name,
	       const char *text);
void tell_typed(const struct telling *to, const char *key, const char *name,
		const char *text);

/* The phrase urgency.PREFIX_URGENCY, with the day to be seen by or the month
 * to be screened again in. */
void tell_when(const struct telling *to, const char *prefix);

/* The words of section.name, for use as a value; "" when there are none. */
const char *tell_words(const struct telling *to, const char *section,
		       const char *name);

/* Writes a day by the pattern date.full, date.with_digits or
 * date.month_of_year, "" for none;
 * `text` holds TELL_DATE_SIZE bytes. */
void tell_date(const struct telling *to, struct day day, const char *key,
	       char *text);

/* "same_day", "urgent", "routine" or "no_referral". */
const char *tell_urgency_name(const struct slip *slip);

#endif
