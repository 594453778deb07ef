/* session.h: a camp day at one laptop, person after person. */
#ifndef SHOAL_DESK_SESSION_H
#define SHOAL_DESK_SESSION_H

#include "desk/desk.h"
#include "desk/draft.h"
#include "desk/form.h"

#include <stdio.h>

struct session_counts {
	int screened, referred, same_day;
};

/* What lasts from one person to the next; it knows nothing of terminals. */
struct session {
	struct desk *desk;
	struct day day; /* of screening */
	bool paper;	/* a day written up later, from paper */
	const char *site;
	char grader[VISIT_GRADER_SIZE];
	struct session_counts counts;
	long long counted;    /* the register's last entry among the counts */
	struct refnum newest; /* the last number given out on that day */
	/* The last person saved in this session; none after it was taken
	 * back. */
	struct refnum last;
	struct draft draft;
};

/* Counts the day so far, from the register; each save keeps it up to date. */
bool session_count(struct session *session, struct fault *why);

/* "2026-03-10: screened 84, referred 15, sent the same day 2." into `line`. */
void session_write_counts(const struct session *session, char *line,
			  size_t size);

/* An empty form of the day, site and grader. */
void session_begin(const struct session *session, struct form *form);

/*
 * Keeps the person, then the paper: what is announced as saved has been
 * committed, and a slip that cannot be written takes nothing back: `paper` is
 * then why (FAULT_NONE when it was written). The draft is gone.
 */
bool session_keep(struct session *session, struct visit *visit,
		  struct fault *paper, struct fault *why);

/* A flat clock battery puts a laptop into another year: the day is doubtful
 * when it is before the last person's (`*last`, none when there is nobody) or
 * more than a day after it. */
bool session_day_is_doubtful(struct desk *desk, struct day *last,
			     bool *doubtful, struct fault *why);

/*
 * A session may last past midnight, and a clock may jump under it. Looks at the
 * clock: `*before` is the day as it was. True when the day is another one than
 * the next after it, so that somebody has to be asked.
 */
bool session_clock_jumped(struct session *session, struct day *before);

/* Follows the day, once it is not doubted; `*moved` when people count for
 * another day from now on (counted then). */
bool session_follow_day(struct session *session, struct day before, bool *moved,
			struct fault *why);

/* What a nurse is told of the policy: whose rules judge, said once so that a
 * lost file is noticed, and that they have changed, before the next person
 * ("" = nothing). Texts of SESSION_WORDS_SIZE bytes, with line feeds. */
enum { SESSION_WORDS_SIZE = 1600 };
void session_write_policy(const struct session *session, char *words);
void session_notice_policy(const struct session *session, char *words);

/* How a draft of the session's folder is offered: who it is, and whether the
 * person seems to be saved already. */
bool session_describe_draft(struct session *session, const struct form *form,
			    struct refnum before, char *words,
			    struct refnum *saved, struct fault *why);

#endif
