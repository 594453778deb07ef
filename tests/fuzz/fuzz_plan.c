/* fuzz_plan.c: figures for planning are refused or run the right way: a deeper
 * cut-off finds no fewer and clears no more.
 *
 * seeds: tests/fuzz/seeds/plan config
 * options: -max_len=3000
 */
#include "fuzz.h"
#include "keep/planfile.h"

static void
check_preset(const struct plan_preset *preset)
{
	int finds = 0, clears = PLAN_WHOLE_SHARE, pairs = 0;

	FUZZ_HOLD(preset->name[0] != '\0');
	for (int i = 0; i < DEPTH_GRADES; i++) {
		int sensitivity = preset->sensitivity[i];
		int specificity = preset->specificity[i];

		FUZZ_HOLD((sensitivity == FIELD_BLANK) ==
			  (specificity == FIELD_BLANK));
		if (sensitivity == FIELD_BLANK)
			continue;
		FUZZ_HOLD(sensitivity >= finds &&
			  sensitivity <= PLAN_WHOLE_SHARE);
		FUZZ_HOLD(specificity <= clears && specificity >= 0);
		finds = sensitivity;
		clears = specificity;
		pairs++;
	}
	FUZZ_HOLD(pairs > 0);
}

int
LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
	static struct plan plan;
	struct fault why = {FAULT_NONE, ""};
	int faults = 0;

	memset(&plan, 0, sizeof plan);
	if (!planfile_read_bytes("fuzz.ini", (const char *)bytes, length, &plan,
				 fuzz_hear, &faults, &why)) {
		fuzz_sentence(&why, FAULT_POLICY);
		return 0;
	}
	FUZZ_HOLD(faults == 0);
	FUZZ_HOLD(plan.count >= 0 && plan.count <= PLAN_PRESETS_MOST);
	for (int i = 0; i < plan.count; i++) {
		check_preset(&plan.preset[i]);
		FUZZ_HOLD(plan_preset_find(&plan, plan.preset[i].name) ==
			  &plan.preset[i]);
	}
	return 0;
}
