/* fuzz_findings.c: typed findings are refused or mean the same once written;
 * none stands on the wrong side, and what implies another brings it.
 *
 * seeds: tests/fuzz/seeds/findings
 * options: -max_len=160
 */
#include "clinic/findings.h"
#include "fuzz.h"

static bool
is_same(const struct findings *one, const struct findings *other)
{
	return one->person == other->person &&
	       one->eye[EYE_RIGHT] == other->eye[EYE_RIGHT] &&
	       one->eye[EYE_LEFT] == other->eye[EYE_LEFT];
}

static void
check_sides(const struct findings *findings)
{
	for (int i = 0; i < FINDING_COUNT; i++) {
		finding_set bit = finding_bit((enum finding)i);
		finding_set of_eyes = findings->eye[0] | findings->eye[1];

		if (finding_is_of_eye((enum finding)i))
			FUZZ_HOLD((findings->person & bit) == 0);
		else
			FUZZ_HOLD((of_eyes & bit) == 0);
	}
	if (findings->person & finding_bit(SEVERE_EYE_PAIN))
		FUZZ_HOLD(findings->person & finding_bit(EYE_PAIN));
	FUZZ_HOLD(((findings->eye[0] | findings->eye[1]) &
		   finding_bit(ONLY_SEEING_EYE)) == 0);
}

static void
check_set(const char *text)
{
	struct fault why = {FAULT_NONE, ""};
	char written[FIELD_TEXT_SIZE];
	finding_set set = 0, again = 0;

	if (!finding_set_read(text, &set, &why)) {
		fuzz_sentence(&why, FAULT_INPUT);
		return;
	}
	finding_set_write(set, written, sizeof written);
	FUZZ_HOLD(set == 0 ||
		  (finding_set_read(written, &again, &why) && again == set));
}

int
LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
	struct findings findings = {0, {0, 0}}, again = {0, {0, 0}};
	struct fault why = {FAULT_NONE, ""};
	char *text = fuzz_text(bytes, length), written[FIELD_TEXT_SIZE];

	check_set(text);
	if (findings_read(text, &findings, &why)) {
		check_sides(&findings);
		findings_write(&findings, written, sizeof written);
		FUZZ_HOLD(written[0] == '\0' ||
			  findings_read(written, &again, &why));
		FUZZ_HOLD(is_same(&findings, &again));
	} else {
		fuzz_sentence(&why, FAULT_INPUT);
	}
	free(text);
	return 0;
}
