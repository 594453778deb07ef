/* describe.h: the rules in plain words, built from the rules themselves. */
#ifndef SHOAL_CLINIC_DESCRIBE_H
#define SHOAL_CLINIC_DESCRIBE_H

#include "clinic/policy.h"

#include <stddef.h>

/* Bytes that hold any description, and the words of one finding. */
enum { DESCRIBE_SIZE = 4096, DESCRIBE_FINDING_SIZE = 40 };

/*
 * All conditions of a rule, joined by "; ", each as the rule has it: "depth at
 * or below 25 %, or not gradable; pressure 30 mmHg or more; any of: red eye,
 * hazy cornea; but not with: iridotomy". Nothing is left out and nothing added.
 */
void describe_conditions(const struct rule *rule, char *text, size_t size);

/* "today", "within 7 days", "screen again within 12 months". */
void describe_outcome(const struct rule *rule, char *text, size_t size);

/* A finding's code with spaces, "hazy cornea"; `text` holds
 * DESCRIBE_FINDING_SIZE bytes. finding_about says what it means. */
void describe_finding(enum finding finding, char *text);

/* Every finding that any rule names. */
finding_set describe_findings(const struct policy *policy);

/* Called for each rule, most urgent first; `first` = its outcome differs from
 * that of the rule before. */
typedef void describe_see(void *context, const struct rule *rule, bool first);

/* Rules that refer by rising days, then those that ask for a new screening by
 * rising months, equals in the order of the file. */
void describe_by_urgency(const struct policy *policy, describe_see *see,
			 void *context);

#endif
