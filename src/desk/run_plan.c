/* run_plan.c: what a screening of so many people would bring. */
#include "desk/run.h"

#include "base/embedded.h"
#include "base/field.h"
#include "base/number.h"
#include "desk/planpage.h"
#include "desk/planrows.h"
#include "keep/planfile.h"

#include <string.h>

enum { PEOPLE_MOST = 1000000, PER_DAY_MOST = 10000, WIDTH_MOST = 50 };

/* "6.8" or "6.8%", in hundredths. `*value` is left alone when the option is
 * not given. */
static bool
read_percent(const struct given *given, const char *option, long most,
	     int *value, struct fault *why)
{
	const char *text = given_value(given, option);
	char number[64];
	size_t length;
	long read;

	if (text == NULL)
		return true;
	snprintf(number, sizeof number, "%.60s", text);
	length = strlen(number);
	if (length > 1 && number[length - 1] == '%')
		number[length - 1] = '\0';
	if (!number_read_decimal(number, 0, most, PLAN_PLACES, "%", &read, why))
		return fault_at(why, "--%s", option);
	*value = (int)read;
	return true;
}

static bool
read_count(const struct given *given, const char *option, long most,
	   long *value, struct fault *why)
{
	const char *text = given_value(given, option);

	return text == NULL ||
	       number_read(text, 1, most, "people", value, why) ||
	       fault_at(why, "--%s", option);
}

static bool
read_question(const struct given *given, struct plan_question *question,
	      struct fault *why)
{
	if (!given_is(given, "people") || !given_is(given, "prevalence"))
		return fault_set(why, FAULT_USAGE,
				 "--people and --prevalence are both needed; "
				 "see 'shoal help plan'");
	if (!read_count(given, "people", PEOPLE_MOST, &question->people, why) ||
	    !read_count(given, "per-clinic-day", PER_DAY_MOST,
			&question->per_day, why) ||
	    !read_percent(given, "prevalence", 100, &question->prevalence,
			  why) ||
	    !read_percent(given, "half-width", WIDTH_MOST,
			  &question->half_width, why))
		return false;
	if (given_is(given, "half-width") && question->half_width == 0)
		return fault_set(why, FAULT_INPUT,
				 "--half-width: 0 is out of range; allowed is "
				 "more than 0, and at most %d %%",
				 WIDTH_MOST);
	return true;
}

static bool
refuse_preset(const struct plan *plan, const char *name, struct fault *why)
{
	char list[PLAN_PRESETS_MOST * (PLAN_NAME_SIZE + 2)] = "";
	size_t used = 0;

	for (int i = 0; i < plan->count; i++)
		used += (size_t)snprintf(list + used, sizeof list - used,
					 "%s%s", i == 0 ? "" : ", ",
					 plan->preset[i].name);
	return fault_set(why, FAULT_USAGE,
			 "there is no preset '%.40s'; there are: %s", name,
			 list);
}

/* Somebody's own figures stand in a preset without a name. */
static bool
read_own(const struct given *given, struct plan_preset *own, struct fault *why)
{
	memset(own, 0, sizeof *own);
	for (int i = 0; i < DEPTH_GRADES; i++)
		own->sensitivity[i] = own->specificity[i] = FIELD_BLANK;
	return read_percent(given, "sensitivity", 100, &own->sensitivity[0],
			    why) &&
	       read_percent(given, "specificity", 100, &own->specificity[0],
			    why);
}

static bool
choose(const struct given *given, const struct plan *plan,
       struct plan_preset *own, const struct plan_preset **chosen,
       struct fault *why)
{
	const char *name = given_value(given, "preset");
	bool sensitivity = given_is(given, "sensitivity");
	bool specificity = given_is(given, "specificity");

	if (sensitivity != specificity || (name != NULL) == sensitivity)
		return fault_set(why, FAULT_USAGE,
				 "give either --preset, or --sensitivity and "
				 "--specificity together");
	if (name == NULL) {
		*chosen = own;
		return read_own(given, own, why);
	}
	*chosen = plan_preset_find(plan, name);
	return *chosen != NULL || refuse_preset(plan, name, why);
}

bool
run_plan(struct desk *desk, const struct given *given, struct fault *why)
{
	struct plan_question question = {.preset = NULL};
	int columns = desk->columns < PLANPAGE_WIDE ? PLANPAGE_NARROW
						    : PLANPAGE_WIDE;
	struct plan_preset own;
	struct plan plan;

	if (!read_question(given, &question, why) ||
	    !planfile_read_bytes("plan.ini", (const char *)embedded_plan,
				 embedded_plan_size, &plan, desk_hear, desk,
				 why) ||
	    !choose(given, &plan, &own, &question.preset, why))
		return false;
	if (given_is(given, "csv"))
		return planrows_write_csv(&question, desk->out, why);
	if (given_is(given, "narrow"))
		columns = PLANPAGE_NARROW;
	return planpage_write(&question, columns, desk->out, why);
}
