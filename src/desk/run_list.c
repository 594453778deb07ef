/* run_list.c: who was screened. */
#include "desk/run.h"

#include "base/text.h"
#include "keep/csv.h"

#include <string.h>

struct listing {
	struct desk *desk;
	bool csv, names;
	long count;
	/* Days often have one policy, so the last one read is kept. */
	struct policy judged_by;
	char mark[POLICY_MARK_SIZE]; /* of judged_by, "" = none */
};

static bool
is_personal(const struct field *field)
{
	return strcmp(field->name, "name") == 0 ||
	       strcmp(field->name, "contact") == 0;
}

static void
write_header(const struct listing *listing)
{
	bool first = true;

	for (size_t i = 0; i < visit_fields.count; i++) {
		const struct field *field = &visit_fields.field[i];

		if (is_personal(field) && !listing->names)
			continue;
		csv_write_value(listing->desk->out, field->name, first);
		first = false;
	}
	csv_end_row(listing->desk->out);
}

static void
write_row(const struct listing *listing, const struct visit *visit)
{
	char value[FIELD_TEXT_SIZE];
	bool first = true;

	for (size_t i = 0; i < visit_fields.count; i++) {
		const struct field *field = &visit_fields.field[i];

		if (is_personal(field) && !listing->names)
			continue;
		field_write(field, visit, value, sizeof value);
		csv_write_value(listing->desk->out, value, first);
		first = false;
	}
	csv_end_row(listing->desk->out);
}

static void
put(FILE *out, const struct visit *visit, const char *name, int width)
{
	char value[FIELD_TEXT_SIZE];

	field_write(fields_find(visit_fields, name), visit, value,
		    sizeof value);
	fprintf(out, "%-*s ", width, value[0] == '\0' ? "." : value);
}

/* By the policy that judged the person; a list without it is still a list. */
static bool
is_chosen(struct listing *listing, const struct visit *visit)
{
	struct fault unused;

	if (visit->urgency != URGENCY_NO_REFERRAL || visit->state == STATE_VOID)
		return false;
	if (strcmp(listing->mark, visit->policy) != 0 &&
	    !desk_policy_of(listing->desk, visit, &listing->judged_by,
			    &unused)) {
		listing->mark[0] = '\0';
		return false;
	}
	text_copy(listing->mark, sizeof listing->mark, visit->policy);
	return policy_verifies(&listing->judged_by, visit);
}

/* Names stand last: their width on a terminal cannot be relied on. */
static void
write_line(struct listing *listing, const struct visit *visit,
	   const char *reason)
{
	FILE *out = listing->desk->out;

	put(out, visit, "number", 13);
	put(out, visit, "screened_on", 10);
	put(out, visit, "sex", 1);
	put(out, visit, "age_years", 3);
	put(out, visit, "depth_right", 3);
	put(out, visit, "depth_left", 3);
	put(out, visit, "urgency", 11);
	put(out, visit, "see_by", 10);
	fputs(visit->name, out);
	if (is_chosen(listing, visit))
		fputs("  [chosen by number]", out);
	if (visit->state != STATE_CURRENT)
		fprintf(out, "  [%s: %s]",
			visit->state == STATE_VOID ? "VOID" : "corrected",
			reason);
	fputc('\n', out);
}

static bool
see(void *context, const struct visit *visit, const char *reason,
    struct fault *why)
{
	struct listing *listing = context;

	(void)why;
	listing->count++;
	if (listing->csv)
		write_row(listing, visit);
	else
		write_line(listing, visit, reason);
	return true;
}

bool
run_list(struct desk *desk, const struct given *given, struct fault *why)
{
	const char *date = given_value(given, "date");
	struct listing listing;
	struct day day = day_none();

	listing.desk = desk;
	listing.csv = given_is(given, "csv");
	listing.names = given_is(given, "names");
	listing.count = 0;
	listing.mark[0] = '\0';
	if (given_is(given, "waiting"))
		return run_waiting(desk, given, why);
	if (given_is(given, "html") || given_is(given, "out"))
		return fault_set(why, FAULT_USAGE,
				 "--html and --out belong to --waiting");
	if (date != NULL && !day_read(date, &day, why))
		return fault_at(why, "--date");
	if (listing.csv)
		write_header(&listing);
	else
		fprintf(desk->out,
			"%-13s %-10s S %-3s %-3s %-3s %-11s %-10s %s\n",
			"number", "screened", "age", "R%", "L%", "urgency",
			"see by", "name");
	if (!register_visit_day(&desk->book, day, see, &listing, why))
		return false;
	if (!listing.csv)
		fprintf(desk->talk, "%ld %s\n", listing.count,
			listing.count == 1 ? "person" : "people");
	return true;
}
