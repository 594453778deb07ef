/* yield.c: what became of the people screened, as the clinic's replies tell. */
#include "counts/yield.h"

#include "base/text.h"

#include <stddef.h>
#include <stdio.h>
#include <string.h>

#define COUNT_ROW(type, name, dimension, kind, most, words) \
	FIELD_COLUMN(yield_counts, name, kind, most, words),

static const struct field count_rows[] = {YIELD_COUNTS(COUNT_ROW)};

const struct fields yield_count_fields = {
	count_rows, sizeof count_rows / sizeof count_rows[0]};

const char *
yield_per_word(enum yield_per per)
{
	static const char *const words[YIELD_PERS] = {"all", "rule", "grade",
						      "site", "grader"};

	return words[per];
}

void
yield_counts_add(struct yield_counts *sum, const struct yield_counts *more)
{
	int *to = (int *)(void *)sum;
	const int *from = (const int *)(const void *)more;

	for (int i = 0; i < YIELD_COUNTED; i++)
		to[i] += from[i];
}

int
yield_closed(const struct yield_counts *counts)
{
	return counts->suspect + counts->closure + counts->closure_glaucoma +
	       counts->closed;
}

bool
yield_counts_agree(const struct yield_counts *counts, struct fault *why)
{
	int people = counts->attended + counts->elsewhere +
		     counts->not_attended + counts->unknown;
	int classes =
		counts->open + yield_closed(counts) + counts->not_derivable;
	const int *reason = &counts->cost;
	int reasons = 0;

	for (; reason <= &counts->not_known; reason++)
		reasons += *reason;
	if (people == counts->people && classes == counts->attended &&
	    reasons == counts->not_attended &&
	    counts->in_time <= counts->unknown)
		return true;
	return fault_set(why, FAULT_INPUT,
			 "the sums disagree: people %d, by outcome %d; "
			 "attended %d, by class %d; not attended %d, by "
			 "reason %d; unknown %d, of them in time %d",
			 counts->people, people, counts->attended, classes,
			 counts->not_attended, reasons, counts->unknown,
			 counts->in_time);
}

static bool
is_referred(const struct visit *visit)
{
	return visit->urgency != URGENCY_NO_REFERRAL;
}

/* Blank reasons are the last word of the choice, "not known". */
static void
count_not_attended(int why_not, struct yield_counts *one)
{
	int reasons = (int)(&one->not_known - &one->cost);

	one->not_attended = 1;
	(&one->cost)[why_not == FIELD_BLANK ? reasons : why_not] = 1;
}

/* An eye that is not there is open or closed in no way. */
static struct angle
angle_of(const struct yield_person *person, enum angle_shift shift)
{
	const struct visit *visit = person->visit;

	for (int eye = EYE_RIGHT; eye < EYE_COUNT; eye++)
		if (visit_depth(visit, (enum eye)eye) == DEPTH_NO_EYE)
			return angle_of_eye(person->reply,
					    eye_other((enum eye)eye),
					    person->policy, shift);
	return angle_of_person(person->reply, person->policy, shift);
}

static void
count_class(const struct yield_person *person, struct yield_counts *one)
{
	struct angle angle = angle_of(person, ANGLE_AS_SEEN);
	int *by_class[ANGLE_CLASSES] = {
		[ANGLE_OPEN] = &one->open,
		[ANGLE_SUSPECT] = &one->suspect,
		[ANGLE_CLOSURE] = &one->closure,
		[ANGLE_CLOSURE_GLAUCOMA] = &one->closure_glaucoma,
		[ANGLE_NOT_DERIVABLE] = &one->not_derivable};
	enum angle_class class = angle_class(&angle);

	one->attended = 1;
	if (class == ANGLE_NOT_DERIVABLE &&
	    angle_is_closed(&angle) == KNOWN_YES)
		one->closed = 1;
	else
		*by_class[class] = 1;
}

bool
yield_count(const struct yield_person *person, struct yield_counts *one,
	    struct fault *why)
{
	const struct visit *visit = person->visit;
	const struct reply *reply = person->reply;
	bool sound = true;

	memset(one, 0, sizeof *one);
	one->people = 1;
	if (reply != NULL && (is_referred(visit) || person->chosen))
		sound = reply_check(reply, visit->screened_on, person->today,
				    why);
	else
		reply = NULL;
	if (reply == NULL || !sound) {
		one->unknown = 1;
		one->in_time = !day_is_none(visit->see_by) &&
			       visit->see_by.number >= person->today.number;
	} else if (reply->outcome == OUTCOME_ATTENDED) {
		count_class(person, one);
	} else if (reply->outcome == OUTCOME_ELSEWHERE) {
		one->elsewhere = 1;
	} else {
		count_not_attended(reply->why_not, one);
	}
	return sound;
}

void
yield_rule(const struct visit *visit, char *name)
{
	int length = (int)strcspn(visit->rules, ";");

	snprintf(name, RULE_NAME_SIZE, "%.*s", length == 0 ? 4 : length,
		 length == 0 ? "none" : visit->rules);
}

static void
name_cell(const struct visit *visit, enum yield_per per, struct yield_cell *key)
{
	enum depth depth = visit_worse_depth(visit);

	memset(key, 0, offsetof(struct yield_cell, counts));
	key->per = per;
	if (per == YIELD_PER_RULE)
		yield_rule(visit, key->label);
	if (per == YIELD_PER_SITE)
		text_copy(key->label, sizeof key->label, visit->site);
	if (per == YIELD_PER_GRADER)
		text_copy(key->label, sizeof key->label, visit->grader);
	if (per != YIELD_PER_GRADE)
		return;
	key->order = depth == DEPTH_BLANK ? DEPTH_NOT_GRADABLE : (int)depth;
	depth_write((enum depth)key->order, key->label);
}

static int
compare_cells(const struct yield_cell *one, const struct yield_cell *other)
{
	if (one->per != other->per)
		return (int)one->per - (int)other->per;
	if (one->order != other->order)
		return one->order - other->order;
	return strcmp(one->label, other->label);
}

/* The place of the cell of that kind; whether it is there. */
static int
find_place(const struct yield *yield, const struct yield_cell *key, bool *found)
{
	int place = 0, order = 1;

	while (place < yield->count &&
	       (order = compare_cells(&yield->cell[place], key)) < 0)
		place++;
	*found = place < yield->count && order == 0;
	return place;
}

static int
count_labels(const struct yield *yield, enum yield_per per)
{
	int labels = 0;

	for (int i = 0; i < yield->count; i++)
		labels += yield->cell[i].per == per &&
			  yield->cell[i].order != YIELD_OTHERS;
	return labels;
}

/* The cell of that kind, made in its place when there is none yet and the table
 * has a row left; else that of all others. */
static struct yield_cell *
find_cell(struct yield *yield, const struct yield_cell *wanted)
{
	struct yield_cell others = {
		.per = wanted->per, .order = YIELD_OTHERS, .label = "(others)"};
	const struct yield_cell *key = wanted;
	bool found;
	int place = find_place(yield, key, &found);
	struct yield_cell *cell;

	if (!found && count_labels(yield, key->per) == YIELD_LABELS_MOST) {
		key = &others;
		place = find_place(yield, key, &found);
	}
	cell = &yield->cell[place];
	if (found)
		return cell;
	memmove(cell + 1, cell, (size_t)(yield->count - place) * sizeof *cell);
	*cell = *key;
	memset(&cell->counts, 0, sizeof cell->counts);
	attendance_init(&cell->attendance);
	yield->count++;
	return cell;
}

void
yield_init(struct yield *yield)
{
	struct yield_cell all = {.per = YIELD_ALL};

	memset(yield, 0, offsetof(struct yield, cell));
	find_cell(yield, &all);
}

/* Who died or was seen elsewhere is neither awaited nor came. Who did not come
 * may come yet: awaited, like those without a reply, until today. */
static bool
count_days(const struct yield_person *person, const struct yield_counts *one,
	   struct attendance *attendance, struct fault *why)
{
	struct day until = one->attended ? person->reply->seen_on
					 : person->today;

	if (one->elsewhere || one->died)
		return true;
	return attendance_add(attendance,
			      until.number - person->visit->screened_on.number,
			      one->attended, why);
}

static void
count_shifted(const struct yield_person *person, int closed[3])
{
	for (int i = 0; i < 3; i++) {
		struct angle angle = angle_of(
			person, (enum angle_shift)(i + ANGLE_SHALLOWER));

		closed[i] += angle_is_closed(&angle) == KNOWN_YES;
	}
}

static bool
count_referred(struct yield *yield, const struct yield_person *person,
	       const struct yield_counts *one, struct fault *why)
{
	struct yield_cell key;

	for (int per = YIELD_ALL; per < YIELD_PERS; per++) {
		struct yield_cell *cell;

		name_cell(person->visit, (enum yield_per)per, &key);
		cell = find_cell(yield, &key);
		yield_counts_add(&cell->counts, one);
		if (!count_days(person, one, &cell->attendance, why))
			return false;
	}
	if (one->attended)
		count_shifted(person, yield->closed);
	return true;
}

bool
yield_add(struct yield *yield, const struct yield_person *person,
	  fault_hear *hear, void *context, struct fault *why)
{
	struct yield_counts one;
	struct fault misdated;

	if (!yield_count(person, &one, &misdated)) {
		char number[REFNUM_SIZE];

		refnum_write(person->visit->number, number);
		fault_at(&misdated, "%s", number);
		hear(context, &misdated);
		yield->misdated++;
	}
	if (is_referred(person->visit))
		return count_referred(yield, person, &one, why);
	yield_counts_add(&yield->cleared, &one);
	yield->chosen += person->chosen;
	yield->aside += !person->chosen && person->reply != NULL;
	return true;
}
