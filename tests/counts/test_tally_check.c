/* Tests of counts/tally: the letters that find an altered value. */
#include "counts/tally.h"

#include <criterion/criterion.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

/* CRC-32 bit by bit, from its definition (reflected polynomial EDB88320, all
 * ones before and after), apart from the library that the program uses. */
static uint32_t
crc_by_bits(const char *bytes, size_t length)
{
	uint32_t crc = 0xffffffffU;

	for (size_t i = 0; i < length; i++) {
		crc ^= (unsigned char)bytes[i];
		for (int bit = 0; bit < 8; bit++)
			crc = crc & 1 ? crc >> 1 ^ 0xedb88320U : crc >> 1;
	}
	return crc ^ 0xffffffffU;
}

static void
letters_of(uint32_t crc, char *letters)
{
	letters[7] = '\0';
	for (int i = 6; i >= 0; i--) {
		letters[i] = (char)('A' + crc % 26);
		crc /= 26;
	}
}

static void
usual_row(struct tally_row *row)
{
	static const struct tally_row filled = {
		.schema = "shoal-tally-1",
		.programme = "Lantern Valley, \"north\"",
		.site = "Mavi school",
		.station = "0014",
		.device = "QWERTZ",
		.date = {20522},
		.revision = 2,
		.state = 1,
		.policy = "ABCDEF",
		.sex = 0,
		.age_band = "40-49",
		.screened = 10,
		.same_day = 1,
		.urgent = 2,
		.routine = 3,
		.no_referral = 4,
		.depth_0 = 1,
		.depth_5 = 1,
		.depth_15 = 1,
		.depth_25 = 1,
		.depth_40 = 1,
		.depth_75 = 2,
		.depth_100 = 2,
		.not_gradable = 1,
		.with_symptoms = 5,
		.late_entries = 0,
		.row = 1,
		.rows = 3,
		.day_total = 40,
	};

	*row = filled;
}

/* The polynomial's check value over "123456789" is CBF43926: Ross Williams, A
 * Painless Guide to CRC Error Detection Algorithms, 1993. */
Test(tally, the_letters_are_the_published_crc_in_base_26)
{
	static const char joined[] = "shoal-tally-1\037Lantern Valley, "
				     "\"north\"\037Mavi "
				     "school\0370014\037QWERTZ\0372026-03-"
				     "10\0372\037closed\037ABCDEF\037F\03740-"
				     "49\03710\0371\0372\0373\0374\0371\0371"
				     "\0371\0371\0371\0372\0372\0371\0375\0370"
				     "\0371\0373\03740";
	char expected[TALLY_MARK_SIZE], letters[TALLY_MARK_SIZE];
	struct tally_row row;

	cr_assert_eq(crc_by_bits("123456789", 9), 0xcbf43926U);
	letters_of(27, expected);
	cr_assert_str_eq(expected, "AAAAABB");
	usual_row(&row);
	tally_row_check(&row, letters);
	letters_of(crc_by_bits(joined, sizeof joined - 1), expected);
	cr_expect_str_eq(letters, expected);
}

/* Another value of the same kind. */
static void
alter(const struct field *field, struct tally_row *row)
{
	char *value = (char *)row + field->offset;

	if (field->kind == &field_text)
		value[strlen(value) - 1]++;
	else if (field->kind == &field_choice)
		*(int *)(void *)value ^= 1;
	else if (field->kind == &field_day)
		((struct day *)(void *)value)->number++;
	else
		++*(int *)(void *)value;
}

Test(tally, any_one_altered_value_changes_the_letters)
{
	char before[TALLY_MARK_SIZE], after[TALLY_MARK_SIZE];
	struct tally_row row, whole;

	usual_row(&whole);
	tally_row_check(&whole, before);
	for (size_t i = 0; i + 1 < tally_columns.count; i++) {
		row = whole;
		alter(&tally_columns.field[i], &row);
		tally_row_check(&row, after);
		cr_expect_str_neq(after, before, "column %s",
				  tally_columns.field[i].name);
	}
	/* Two values swapped, and a letter moved to the next value. */
	row = whole;
	row.routine = whole.no_referral;
	row.no_referral = whole.routine;
	tally_row_check(&row, after);
	cr_expect_str_neq(after, before);
	row = whole;
	snprintf(row.programme, sizeof row.programme, "ab");
	snprintf(row.site, sizeof row.site, "c");
	tally_row_check(&row, before);
	snprintf(row.programme, sizeof row.programme, "a");
	snprintf(row.site, sizeof row.site, "bc");
	tally_row_check(&row, after);
	cr_expect_str_neq(after, before);
	/* The letters themselves are not among the values. */
	row = whole;
	tally_row_check(&whole, before);
	snprintf(row.check, sizeof row.check, "ZZZZZZZ");
	tally_row_check(&row, after);
	cr_expect_str_eq(after, before);
}

static struct tally_head
usual_head(void)
{
	return (struct tally_head){.programme = "Lantern Valley",
				   .site = "Mavi school",
				   .station = 14,
				   .device = "QWERTZ",
				   .policy = "ABCDEF",
				   .date = {20522},
				   .revision = 1};
}

static void
mark_of(const struct tally *tally, const struct tally_head *head, char *mark)
{
	struct fault why;

	cr_assert(tally_mark(tally, head, mark, &why), "%s", why.sentence);
}

Test(tally, the_mark_of_a_day_knows_its_content_but_not_its_revision)
{
	static const struct age_bands bands = {2, {40, 60}};
	char one[TALLY_MARK_SIZE], other[TALLY_MARK_SIZE];
	struct tally *tally = calloc(1, sizeof *tally);
	struct tally_head head = usual_head();
	struct visit visit;
	struct fault why;

	cr_assert_not_null(tally);
	tally_init(tally, &bands);
	mark_of(tally, &head, one);
	head.revision = 9;
	mark_of(tally, &head, other);
	cr_expect_str_eq(other, one, "another revision");
	head.closed = true;
	mark_of(tally, &head, other);
	cr_expect_str_neq(other, one, "closed");
	head = usual_head();
	head.site = "Ridge hall";
	mark_of(tally, &head, other);
	cr_expect_str_neq(other, one, "another site");
	head = usual_head();
	visit_init(&visit);
	visit.depth_right = DEPTH_15;
	visit.depth_left = DEPTH_NO_EYE;
	visit.urgency = URGENCY_ROUTINE;
	cr_assert(tally_add(tally, &visit, &why));
	mark_of(tally, &head, other);
	cr_expect_str_neq(other, one, "one person");
	cr_assert(tally_add(tally, &visit, &why));
	mark_of(tally, &head, one);
	cr_expect_str_neq(other, one, "two persons");
	free(tally);
}

Test(tally, disagreeing_sums_are_an_internal_fault)
{
	static const struct age_bands bands = {2, {40, 60}};
	struct tally *tally = calloc(1, sizeof *tally);
	struct tally_head head = usual_head();
	struct tally_row row;
	struct visit visit;
	struct fault why = {FAULT_NONE, ""};

	cr_assert_not_null(tally);
	tally_init(tally, &bands);
	visit_init(&visit);
	visit.depth_right = visit.depth_left = DEPTH_100;
	cr_expect_not(tally_add(tally, &visit, &why), "no decision");
	cr_expect_eq(why.kind, FAULT_INTERNAL);
	visit.urgency = URGENCY_NO_REFERRAL;
	cr_assert(tally_add(tally, &visit, &why));
	tally->cell[0].counts.routine++;
	cr_expect_not(tally_row(tally, &head, 0, &row, &why));
	cr_expect_eq(why.kind, FAULT_INTERNAL);
	cr_expect_str_eq(why.sentence, "the tally's sums disagree: 1 screened, "
				       "2 by urgency, 1 by depth");
	free(tally);
}
