/* desk.h: what a command works with: files opened, day, streams. */
#ifndef SHOAL_DESK_DESK_H
#define SHOAL_DESK_DESK_H

#include "base/day.h"
#include "base/fault.h"
#include "clinic/decide.h"
#include "clinic/policy.h"
#include "clinic/visit.h"
#include "desk/command.h"
#include "keep/register.h"
#include "keep/stationfile.h"
#include "paper/wording.h"

#include <stddef.h>
#include <stdio.h>

enum {
	DESK_PATH_SIZE = 4096,
	DESK_DAY_WORDS_SIZE = 40,
	DESK_POLICY_TEXT_SIZE = 65537
};

/*
 * Made by main, which alone looks at argv, the clock and the environment. What
 * a command needs is opened by desk_open before it runs.
 */
struct desk {
	const struct command_table *table;
	FILE *in, *out, *talk; /* answers, results, talk */
	bool in_is_terminal;
	int columns; /* of the talk stream, 80 when it is no terminal */
	char folder[DESK_PATH_SIZE]; /* the station's folder */
	const char *policy_path;     /* given, or NULL */
	const char *station_path;    /* given, or NULL */
	struct day today;	     /* local day, or the one given */
	bool today_given;
	long long seconds; /* UTC, since 1970-01-01T00:00:00Z */
	/* Talk goes to a terminal on which a line can be written anew. */
	bool talk_can_rewrite;
	/* A clock for how long something takes, or NULL. */
	long long (*milliseconds)(void);
	/* Brings seconds, and today unless it was given, up to date; NULL
	 * where time stands still. */
	void (*look_at_clock)(struct desk *desk);

	unsigned opened; /* enum command_needs */
	struct policy policy;
	char policy_mark[POLICY_MARK_SIZE];
	/* "" unless the register is open for writing. */
	char policy_text[DESK_POLICY_TEXT_SIZE];
	bool policy_is_built_in; /* no file was there */
	struct station station;
	struct wording wording;
	struct book book;
};

/* Opens what `needs` says. Every fault of a file is told on `talk` before the
 * closing one is handed up. */
bool desk_open(struct desk *desk, unsigned needs, struct fault *why);
void desk_close(struct desk *desk);

/*
 * Looks whether the policy file was changed since it was read, and takes the
 * new one into force; `*changed` when its meaning is another. False, with the
 * faults told, when the file cannot be used now: the policy read before then
 * stays in force.
 */
bool desk_notice_policy(struct desk *desk, bool *changed, struct fault *why);

/* A fault_hear that prints the sentence on the desk's talk stream. */
void desk_hear(void *desk, const struct fault *one);

/* "Tuesday 24 November 2026"; `text` holds DESK_DAY_WORDS_SIZE bytes. */
void desk_day_words(struct day day, char *text);

/* A path in the station's folder. */
bool desk_path(const struct desk *desk, const char *name, char *path,
	       struct fault *why);

/* Decides by the policy in force and writes the decision into the record. */
void desk_judge(const struct desk *desk, struct visit *visit,
		struct decision *decision);

/* Stamps the record as entered now; marks it late when the day of screening
 * is before today. */
void desk_stamp(const struct desk *desk, struct visit *visit);

/* The policy that the register keeps under a fingerprint, and its text, which
 * takes DESK_POLICY_TEXT_SIZE bytes. FAULT_REGISTER when none is kept, or when
 * what is kept has another fingerprint. */
bool desk_kept_policy(struct desk *desk, const char *fingerprint, char *text,
		      struct policy *policy, struct fault *why);

/* The policy that judged a kept person: the one in force when its fingerprint
 * is the same, else the text kept in the register. */
bool desk_policy_of(struct desk *desk, const struct visit *visit,
		    struct policy *policy, struct fault *why);

/* Writes slips/NUMBER.txt and slips/NUMBER.html. */
bool desk_write_slips(const struct desk *desk, const struct visit *visit,
		      const struct policy *policy,
		      const struct decision *decision, struct fault *why);

/* "*** SEND TODAY ...", "URGENT: refer within 7 days, by Friday 4 December
 * 2026", ...; wrapped to `columns`. */
void desk_write_urgency(const struct policy *policy, const struct visit *visit,
			int columns, FILE *out);

/* The reasons that decided, one line each, with their advice, and how many
 * others there are; wrapped to `columns`. */
void desk_write_reasons(const struct policy *policy,
			const struct decision *decision, int columns,
			FILE *out);

/* The same without the advice. */
void desk_write_causes(const struct policy *policy,
		       const struct decision *decision, int columns, FILE *out);

/* "Right eye: " and so on, as a rule held. */
const char *desk_fired_place(const struct policy *policy,
			     const struct fired *fired);

#endif
