/* run_slip.c: one person's slip, printed again. */
#include "desk/run.h"

#include "desk/outfile.h"
#include "desk/setup.h"
#include "paper/qrcode.h"
#include "paper/slip.h"

#include <string.h>

enum form { FORM_TEXT, FORM_NARROW, FORM_HTML };

static bool
write_form(const struct slip *slip, enum form form, FILE *out,
	   struct fault *why)
{
	if (form == FORM_HTML)
		return slip_write_html(slip, out, why);
	return slip_write_text(
		slip, form == FORM_NARROW ? SLIP_COLUMNS_NARROW : SLIP_COLUMNS,
		out, why);
}

static bool
write_to(const struct desk *desk, const struct given *given,
	 const struct slip *slip, enum form form, struct fault *why)
{
	struct safefile file;

	if (!outfile_open(&file, desk, given, "out",
			  form == FORM_HTML ? OUTFILE_PAGE : NULL, why))
		return false;
	if (!write_form(slip, form, file.out, why)) {
		safefile_drop(&file);
		return false;
	}
	return safefile_commit(&file, SAFEFILE_SYNCED, why);
}

bool
run_slip(struct desk *desk, const struct given *given, struct fault *why)
{
	const char *language = given_value(given, "language");
	const char *path = given_value(given, "out");
	struct policy policy;
	struct decision decision;
	struct refnum number;
	struct visit visit;
	struct fault missing;
	struct slip slip = {&visit,	    &policy,	    &decision,
			    &desk->station, &desk->wording, NULL};
	enum form form = given_is(given, "html")     ? FORM_HTML
			 : given_is(given, "narrow") ? FORM_NARROW
						     : FORM_TEXT;

	if (given_is(given, "html") && given_is(given, "narrow"))
		return fault_set(why, FAULT_USAGE,
				 "--html and --narrow exclude each other");
	if (!refnum_read(given->argument[0], &number, why) ||
	    !register_find(&desk->book, number, &visit, NULL, why))
		return false;
	if (visit.state == STATE_VOID)
		return fault_set(why, FAULT_INPUT,
				 "the entry '%s' was made void, so it has no "
				 "slip",
				 given->argument[0]);
	if (language != NULL && !wording_read(&desk->wording, desk->folder,
					      language, desk_hear, desk, why))
		return false;
	if (!desk_policy_of(desk, &visit, &policy, why))
		return false;
	if (visit.urgency != URGENCY_NO_REFERRAL)
		setup_tell_clinic(desk, &desk->station);
	decide(&policy, &visit, &decision);
	if (form == FORM_HTML && !qrcode_is_there(&missing))
		desk_hear(desk, &missing);
	return path == NULL || strcmp(path, "-") == 0
		       ? write_form(&slip, form, desk->out, why)
		       : write_to(desk, given, &slip, form, why);
}
