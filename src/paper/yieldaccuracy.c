/* yieldaccuracy.c: whether the screening finds the narrow angles. */
#include "paper/yieldaccuracy.h"

#include "paper/yieldwords.h"

#include <string.h>

/* What cannot be estimated is said below the table. */
static const struct leaf_column accuracy_columns[] = {{"95 % interval (logit)",
						       27},
						      {"sensitivity %", 18},
						      {"specificity %", 18},
						      {"missed, examined", 17}};

enum { CONDITIONS = 3 };

/* Whether a sample is too small is seen by what it says of sensitivity. */
static void
write_condition(const struct yield_counts *referred,
		const struct yield_counts *cleared, int condition,
		const struct leaf *leaf, struct fault why[2], bool *is_small)
{
	static const enum yield_finding found[CONDITIONS] = {
		YIELD_CLOSED, YIELD_CLOSURE, YIELD_GLAUCOMA};
	static const char *const name[CONDITIONS] = {
		"narrow (suspect or worse)",
		"closure or worse",
		"closure glaucoma",
	};
	struct accuracy_sample sample;
	struct yield_share share[2];
	char words[2][YIELDWORDS_SIZE], missed[2 * YIELDWORDS_SIZE];

	yield_sample(referred, cleared, found[condition], &sample);
	yield_measure(&sample, ACCURACY_SENSITIVITY, &share[0], &why[0]);
	yield_measure(&sample, ACCURACY_SPECIFICITY, &share[1], &why[1]);
	if (!share[0].has || share[0].high - share[0].low > 0.2)
		*is_small = true;
	snprintf(missed, sizeof missed, "%lld of %lld", sample.cleared.diseased,
		 sample.cleared.diseased + sample.cleared.healthy);
	leaf_row(leaf, (const char *[]){name[condition],
					yieldwords_share(&share[0], words[0]),
					yieldwords_share(&share[1], words[1]),
					missed});
}

/* Each sentence once: it often holds for all three. */
static void
write_refusal(const char *name, struct fault why[][2], int condition,
	      int measure, const struct leaf *leaf)
{
	const struct fault *one = &why[condition][measure];

	if (one->kind == FAULT_NONE)
		return;
	for (int i = 0; i < condition; i++)
		if (why[i][measure].kind != FAULT_NONE &&
		    strcmp(why[i][measure].sentence, one->sentence) == 0)
			return;
	leaf_say(leaf, "%s: %s.", name, one->sentence);
}

static void
write_conditions(const struct yield_counts *referred,
		 const struct yield_counts *cleared, struct leaf *leaf)
{
	struct fault why[CONDITIONS][2];
	bool is_small = false;

	leaf_table(leaf, accuracy_columns, 4);
	for (int i = 0; i < CONDITIONS; i++)
		write_condition(referred, cleared, i, leaf, why[i], &is_small);
	leaf_table_end(leaf);
	for (int i = 0; i < CONDITIONS; i++) {
		write_refusal("Sensitivity", why, i, 0, leaf);
		write_refusal("Specificity", why, i, 1, leaf);
	}
	leaf_say(leaf, "By Begg and Greenes (1983), who take those who came "
		       "for like those sent who did not. All hangs on the few "
		       "who were missed.");
	if (is_small)
		leaf_say(leaf, "One camp cannot give a sensitivity: it takes "
			       "the yields of many camps together.");
}

void
yieldaccuracy_write(const struct yield_counts *referred,
		    const struct yield_counts *cleared, int chosen,
		    struct leaf *leaf)
{
	leaf_heading(leaf, "Does the screening find the narrow angles?");
	if (chosen == 0)
		leaf_say(leaf,
			 "There is no sensitivity and no specificity: of %d "
			 "%s not referred nobody was chosen for examination "
			 "by a fixed rule, so it is not known whom the "
			 "screening misses. [verify] every in the policy "
			 "chooses people.",
			 cleared->people, yieldwords_people(cleared->people));
	else
		leaf_say(leaf,
			 "Of %d %s not referred a fixed rule chose %d for "
			 "examination, of whom %d came%s.",
			 cleared->people, yieldwords_people(cleared->people),
			 chosen, cleared->attended,
			 cleared->attended > 0 ? ""
					       : ", so there is no sensitivity "
						 "and no specificity yet");
	if (cleared->attended > 0)
		write_conditions(referred, cleared, leaf);
}
