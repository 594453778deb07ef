/* slip.h: the paper that each person leaves with. */
#ifndef SHOAL_PAPER_SLIP_H
#define SHOAL_PAPER_SLIP_H

#include "base/fault.h"
#include "clinic/decide.h"
#include "clinic/policy.h"
#include "clinic/visit.h"
#include "keep/stationfile.h"
#include "paper/wording.h"

#include <stdio.h>

/*
 * Everybody screened gets a slip, referred or not. Three forms with one
 * content: text of 72 columns, text of 40 for receipt printers, HTML for A5.
 * All that is needed is handed in; nothing here reads a file or a clock.
 *
 * First comes what the patient needs, then what the clinic needs, then, for
 * somebody who is referred, the reply form to be torn off. A station value, a
 * name or a contact that is empty is printed as a line to write on.
 *
 * A record that names another policy than the one handed in is refused
 * (FAULT_INTERNAL): a slip never gives the reasons of one policy and the
 * fingerprint of another.
 */
struct slip {
	const struct visit *visit;	 /* as kept, with its number */
	const struct policy *policy;	 /* the one that judged the person */
	const struct decision *decision; /* by that policy */
	const struct station *station;
	const struct wording *wording;
	/* The policy's fingerprint where it is known already; NULL = it is
	 * worked out. */
	const char *policy_mark;
};

enum { SLIP_COLUMNS = 72, SLIP_COLUMNS_NARROW = 40 };

/* Plain text, no line wider than `columns` (at least 40). The words are as
 * the wording and the record have them (UTF-8); the drawing and the lines are
 * ASCII. */
bool slip_write_text(const struct slip *slip, int columns, FILE *out,
		     struct fault *why);

/*
 * One self-contained HTML document, well-formed as XML too: A5 pages, black on
 * white, no script, nothing from outside. All texts escaped. The template is
 * fieldforms/slip.html, compiled in.
 */
bool slip_write_html(const struct slip *slip, FILE *out, struct fault *why);

#endif
