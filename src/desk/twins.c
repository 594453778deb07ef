/* twins.c: somebody screened already who may be the same person. */
#include "desk/twins.h"

#include "base/text.h"

struct twins {
	FILE *out;
	const char *lead;
	int columns, count;
};

static bool
write_twin(void *context, const struct visit *visit, const char *reason,
	   struct fault *why)
{
	struct twins *twins = context;
	char number[REFNUM_SIZE], day[DAY_SIZE], sex[8], age[8];

	(void)reason;
	(void)why;
	if (twins->count++ == 0) {
		fputs(twins->lead, twins->out);
		text_write_wrapped(twins->out,
				   "Perhaps the same person, already screened:",
				   twins->columns, 0, 0);
	}
	refnum_write(visit->number, number);
	day_write(visit->screened_on, day);
	field_write(fields_find(visit_fields, "sex"), visit, sex, sizeof sex);
	field_write(fields_find(visit_fields, "age_years"), visit, age,
		    sizeof age);
	fprintf(twins->out, " %s on %s, %s %s\n  ", number, day,
		sex[0] == '\0' ? "?" : sex, age[0] == '\0' ? "?" : age);
	text_write_wrapped(twins->out, visit->name, twins->columns, 2, 2);
	return true;
}

bool
twins_matter(const struct form *form)
{
	return form->visit.name[0] != '\0' &&
	       (form->paper || refnum_is_none(form->visit.number));
}

bool
twins_write(struct desk *desk, const struct form *form, int columns,
	    const char *lead, FILE *out, int *count, struct fault *why)
{
	struct twins twins = {out, lead, columns, 0};
	bool done = register_visit_twins(&desk->book, &form->visit, write_twin,
					 &twins, why);

	*count = twins.count;
	return done;
}

bool
twins_check_number(struct desk *desk, const struct form *form,
		   struct fault *why)
{
	char number[REFNUM_SIZE], day[DAY_SIZE];
	struct visit visit;
	struct fault ignored;

	visit_init(&visit);
	if (refnum_is_none(form->visit.number) ||
	    !register_find(&desk->book, form->visit.number, &visit, NULL,
			   &ignored))
		return true;
	refnum_write(visit.number, number);
	day_write(visit.screened_on, day);
	return fault_set(why, FAULT_INPUT,
			 "'%s' is in the register already%s: %s, screened on "
			 "%s; look at the number on the paper slip, or leave "
			 "it empty",
			 number, visit.state == STATE_VOID ? ", made void" : "",
			 visit.name[0] == '\0' ? "no name" : visit.name, day);
}
