/* recount.h: what tallies report beside what the register holds. */
#ifndef SHOAL_COUNTS_RECOUNT_H
#define SHOAL_COUNTS_RECOUNT_H

#include "base/day.h"
#include "base/fault.h"
#include "counts/counted.h"
#include "counts/groups.h"
#include "counts/tally.h"

#include <stddef.h>

/*
 * The verification factor of data-quality review: recounted from the source,
 * divided by what was reported (World Health Organization, Data Quality Review
 * toolkit, 2017, from memory). 1 = they agree, under 1 = more was reported than
 * the register holds. Here it is of the people screened; but a day agrees only
 * when every count does, in all and by site, policy, sex and age band.
 */
struct recount {
	struct groups reported; /* by day, and by day and each of the four */
	struct groups compared; /* days */
	struct groups held;	/* people in the register, by day */
};

void recount_init(struct recount *recount);
void recount_release(struct recount *recount);

/* Adds a row of a tally of the station, `sign` times. */
bool recount_report(struct recount *recount, const struct counted *row,
		    int sign, struct fault *why);

/* The four columns that split a day's people. */
enum recount_split {
	RECOUNT_SITE,
	RECOUNT_POLICY,
	RECOUNT_SEX,
	RECOUNT_AGE_BAND,
	RECOUNT_SPLITS
};

struct recounted {
	long long reported, recounted; /* people screened */
	bool count_differs[GROUPS_COUNTS];
	bool split_differs[RECOUNT_SPLITS];
};

enum { RECOUNT_DIFFERS_SIZE = 400, RECOUNT_FACTOR_SIZE = 32 };

/* Compares a day's tally, made anew from the register, with what was
 * reported. */
bool recount_compare(struct recount *recount, struct day day,
		     const struct tally *tally, struct recounted *recounted,
		     struct fault *why);

/* A person whom the register holds, screened on that day. */
bool recount_hold(struct recount *recount, struct day day, struct fault *why);

/* Called per day, in order, on which people are held and that was not compared:
 * nothing reports it. `recounted` says how many they are. False stops. */
typedef bool recount_see(void *context, struct day day,
			 const struct recounted *recounted, struct fault *why);
bool recount_visit_missing(struct recount *recount, recount_see *see,
			   void *context, struct fault *why);

bool recounted_agrees(const struct recounted *recounted);

/* The columns that differ, as "screened;routine", or, when every count is the
 * same in all but not of each site or age, as "site;age_band"; "" for none. */
void recounted_write_differs(const struct recounted *recounted, char *text,
			     size_t size);

/* "0.950"; "-" when nobody was reported. */
void recounted_write_factor(const struct recounted *recounted, char *text,
			    size_t size);

#endif
