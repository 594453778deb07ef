/* slipfacts.h: what a slip says, whatever it is printed on. */
#ifndef SHOAL_PAPER_SLIPFACTS_H
#define SHOAL_PAPER_SLIPFACTS_H

#include "base/fault.h"
#include "paper/slip.h"
#include "paper/telling.h"

/*
 * The content of a slip in parts; each part is a list of phrases, often none.
 * A form (text, HTML) decides where a part stands and how it looks, never what
 * it says.
 */
enum slip_part {
	/* For the patient. */
	SLIP_HEADLINE, /* how soon, or that the slip is void: always one */
	SLIP_WHEN,     /* by which day */
	SLIP_STATE,    /* corrected */
	SLIP_NAME,
	SLIP_MESSAGE, /* short sentences */
	SLIP_WHERE,   /* clinic, address, door, days, cost, telephone */
	SLIP_AT_ONCE, /* signs with which to come at once */
	SLIP_ENDING,
	/* For the clinic. */
	SLIP_URGENCY,
	SLIP_PERSON,
	SLIP_CAMP,
	SLIP_DEPTH_RIGHT,
	SLIP_DEPTH_LEFT,
	SLIP_PRESSURE_RIGHT,
	SLIP_PRESSURE_LEFT,
	SLIP_FINDINGS_RIGHT,
	SLIP_FINDINGS_LEFT,
	SLIP_REPORTS,  /* symptoms and history */
	SLIP_DECIDING, /* reasons: of the rules that decide */
	SLIP_OTHERS,   /* and of the others that refer */
	SLIP_ADVICE,   /* each distinct one once */
	SLIP_NOT_DONE,
	SLIP_CAUTIONS,
	SLIP_POLICY,
	SLIP_CONSENT,
	/* On the reply. */
	SLIP_SENDER, /* where it goes back to */
	SLIP_REPLY_CONSENT,
	SLIP_PART_COUNT
};

void slip_visit(const struct slip *slip, enum slip_part part, slip_see *see,
		void *context);

/* The key of a part's heading, or NULL when it has none. */
const char *slip_heading(const struct slip *slip, enum slip_part part);

/* Whether a reply form belongs to the slip: somebody is sent, or chosen for a
 * check, and the slip is not void. */
bool slip_has_reply(const struct slip *slip);

/* Whether all that is handed in belongs together; FAULT_INTERNAL if not. */
bool slip_check(const struct slip *slip, struct fault *why);

#endif
