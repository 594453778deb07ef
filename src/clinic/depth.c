/* depth.c: how deep the chamber is at the limbus, as a grade. */
#include "clinic/depth.h"

#include "base/number.h"

#include <stdio.h>
#include <string.h>

static const int grade_percent[DEPTH_GRADES] = {0, 5, 15, 25, 40, 75, 100};

static const char may_be_typed[] = "allowed are 0 5 15 25 40 75 100 (also 25%, "
				   "1/4 or 0.25), x for could "
				   "not be graded, - for no eye";

enum depth
depth_of_percent(long percent)
{
	for (int i = 0; i < DEPTH_GRADES; i++)
		if (grade_percent[i] == percent)
			return (enum depth)i;
	return DEPTH_BLANK;
}

int
depth_percent(enum depth depth)
{
	return grade_percent[depth];
}

bool
depth_is_graded(enum depth depth)
{
	return depth >= DEPTH_0 && depth <= DEPTH_100;
}

bool
depth_is_at_or_below(enum depth depth, enum depth cutoff)
{
	return depth_is_graded(depth) && depth <= cutoff;
}

int
depth_steps_apart(enum depth one, enum depth other)
{
	return one < other ? (int)other - (int)one : (int)one - (int)other;
}

static bool
refuse(const char *text, struct fault *why)
{
	return fault_set(why, FAULT_INPUT, "'%.20s' is not a depth; %s", text,
			 may_be_typed);
}

/* The grade of so many per cent, or the two grades around it in a sentence. */
static bool
grade(const char *text, long percent, enum depth *depth, struct fault *why)
{
	enum depth found = depth_of_percent(percent);
	int above = 1; /* 0 % is a grade itself */

	if (found != DEPTH_BLANK) {
		*depth = found;
		return true;
	}
	while (above < DEPTH_GRADES && grade_percent[above] < percent)
		above++;
	if (above == DEPTH_GRADES)
		return fault_set(why, FAULT_INPUT,
				 "'%.20s' is off the scale; 100 stands for as "
				 "deep as the cornea is thick, or deeper",
				 text);
	return fault_set(why, FAULT_INPUT,
			 "'%.20s' is not a grade on the scale; the nearest are "
			 "%d and %d",
			 text, grade_percent[above - 1], grade_percent[above]);
}

/* "0.25", "0.4", "1.0": one digit, a point, one or two digits. */
static bool
read_decimal(const char *text, enum depth *depth, struct fault *why)
{
	size_t length = strlen(text);
	long percent;

	if (strspn(text, "0123456789.") != length || text[0] == '.' ||
	    text[1] != '.' || strchr(text + 2, '.') != NULL || length < 3 ||
	    length > 4)
		return refuse(text, why);
	percent = 100 * (text[0] - '0') + 10 * (text[2] - '0');
	if (length == 4)
		percent += text[3] - '0';
	return grade(text, percent, depth, why);
}

/* "1/4": two plain numbers whose quotient is a whole per cent. */
static bool
read_fraction(const char *text, enum depth *depth, struct fault *why)
{
	const char *slash = strchr(text, '/');
	char above[4] = "";
	struct fault ignored;
	long top, bottom;

	if (slash - text > 3 || slash == text)
		return refuse(text, why);
	memcpy(above, text, (size_t)(slash - text));
	if (!number_read(above, 0, 100, "", &top, &ignored) ||
	    !number_read(slash + 1, 1, 100, "", &bottom, &ignored))
		return refuse(text, why);
	if (100 * top % bottom != 0)
		return fault_set(why, FAULT_INPUT,
				 "'%.20s' is not a whole per cent, so not a "
				 "grade; %s",
				 text, may_be_typed);
	return grade(text, 100 * top / bottom, depth, why);
}

static bool
read_percent(const char *text, enum depth *depth, struct fault *why)
{
	size_t length = strlen(text);
	char plain[8] = "";
	struct fault ignored;
	long percent;

	if (length > 0 && text[length - 1] == '%')
		length--;
	if (length >= sizeof plain)
		return refuse(text, why);
	memcpy(plain, text, length);
	if (!number_read(plain, 0, 999999, "", &percent, &ignored))
		return refuse(text, why);
	return grade(text, percent, depth, why);
}

bool
depth_read(const char *text, enum depth *depth, struct fault *why)
{
	if (strcmp(text, "x") == 0 || strcmp(text, "X") == 0)
		*depth = DEPTH_NOT_GRADABLE;
	else if (strcmp(text, "-") == 0)
		*depth = DEPTH_NO_EYE;
	else if (strcmp(text, "1") == 0)
		return fault_set(why, FAULT_INPUT,
				 "'1' is unclear: 1 per cent or 1/1? %s",
				 may_be_typed);
	else if (strchr(text, ',') != NULL)
		return fault_set(why, FAULT_INPUT,
				 "'%.20s' has a comma, which is not guessed "
				 "at; %s",
				 text, may_be_typed);
	else if (strchr(text, '/') != NULL)
		return read_fraction(text, depth, why);
	else if (strchr(text, '.') != NULL)
		return read_decimal(text, depth, why);
	else
		return read_percent(text, depth, why);
	return true;
}

void
depth_write(enum depth depth, char *text)
{
	if (depth_is_graded(depth))
		snprintf(text, 4, "%d", grade_percent[depth]);
	else
		snprintf(text, 4, "%s",
			 depth == DEPTH_NOT_GRADABLE ? "x"
			 : depth == DEPTH_NO_EYE     ? "-"
						     : "");
}

static bool
depth_field_read(const struct field *field, const char *text, void *value,
		 struct fault *why)
{
	(void)field;
	return depth_read(text, value, why);
}

static void
depth_field_write(const struct field *field, const void *value, char *text,
		  size_t size)
{
	char written[4];

	(void)field;
	depth_write(*(const enum depth *)value, written);
	snprintf(text, size, "%s", written);
}

static void
depth_field_blank(const struct field *field, void *value)
{
	(void)field;
	*(enum depth *)value = DEPTH_BLANK;
}

static bool
depth_field_is_blank(const struct field *field, const void *value)
{
	(void)field;
	return *(const enum depth *)value == DEPTH_BLANK;
}

const struct field_kind field_depth = {"TEXT", depth_field_read,
				       depth_field_write, depth_field_blank,
				       depth_field_is_blank};

static bool
cutoff_read(const struct field *field, const char *text, void *value,
	    struct fault *why)
{
	enum depth cutoff = DEPTH_BLANK;
	struct fault ignored;
	long percent;

	if (number_read(text, field->least, 100, "", &percent, &ignored))
		cutoff = depth_of_percent(percent);
	if (cutoff == DEPTH_BLANK)
		return fault_set(why, FAULT_INPUT,
				 "'%.40s' is not a cut-off; allowed are %s5 15 "
				 "25 40 75 100 (per cent), digits only",
				 text, field->least == 0 ? "0 " : "");
	*(enum depth *)value = cutoff;
	return true;
}

const struct field_kind field_cutoff = {"INTEGER", cutoff_read,
					depth_field_write, depth_field_blank,
					depth_field_is_blank};
