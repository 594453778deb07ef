/* planfile.h: published accuracy of the test, for planning. */
#ifndef SHOAL_KEEP_PLANFILE_H
#define SHOAL_KEEP_PLANFILE_H

#include "base/fault.h"
#include "clinic/depth.h"

#include <stddef.h>

/*
 * config/plan.ini, compiled in, holds the sensitivity and specificity that
 * studies found per cut-off, with their source, so that no such number stands
 * in the program. They decide about nobody.
 */
enum {
	PLAN_PRESETS_MOST = 16,
	PLAN_NAME_SIZE = 41,
	PLAN_TEXT_SIZE = 120 * 4 + 1,
	PLAN_PLACES = 2,	 /* per cent are kept as hundredths: */
	PLAN_WHOLE_SHARE = 10000 /* 100 % */
};

/* Figures of one study. [DEPTH_25] is the test positive at 25 % or shallower;
 * in hundredths of a per cent, FIELD_BLANK where the source has none. */
struct plan_preset {
	char name[PLAN_NAME_SIZE];
	char condition[PLAN_TEXT_SIZE];
	char source[PLAN_TEXT_SIZE];
	int sensitivity[DEPTH_GRADES];
	int specificity[DEPTH_GRADES];
};

struct plan {
	int count;
	struct plan_preset preset[PLAN_PRESETS_MOST];
};

/*
 * Told as faults, with name:line: all that inifile.h refuses; a preset without
 * a cut-off, with half of a pair, or with figures that run the wrong way: a
 * deeper cut-off never has a lower sensitivity or a higher specificity.
 * FAULT_POLICY with a closing sentence in `why`; `plan` is then not for use.
 */
bool planfile_read_bytes(const char *name, const char *bytes, size_t length,
			 struct plan *plan, fault_hear *hear, void *context,
			 struct fault *why);

/* The preset of that name, or NULL. */
const struct plan_preset *plan_preset_find(const struct plan *plan,
					   const char *name);

#endif
