/* test_reply.c: what the eye clinic saw is recorded and held together. */
#include "clinic/reply.h"

#include "sets.h"

#include <criterion/criterion.h>
#include <string.h>

static struct fault why;

/* The least that a reply may hold. */
static void
begin(struct reply *reply)
{
	reply_init(reply);
	sets_read(reply_fields, reply,
		  "number=0014-00001-98|outcome=attended|seen_on=2026-03-12");
}

Test(reply, each_field_has_its_own_place_and_a_blank)
{
	struct reply reply;
	const struct field *field = reply_fields.field;
	int quadrants = 0;

	reply_init(&reply);
	for (size_t i = 0; i < reply_fields.count; i++) {
		cr_expect(field_is_blank(&field[i], &reply), "%s",
			  field[i].name);
		cr_expect_leq(field[i].offset + field[i].size, sizeof reply);
		quadrants += field[i].size == sizeof(int) &&
			     strstr(field[i].name, "_superior") != NULL;
		for (size_t j = 0; j < i; j++) {
			cr_expect(field[i].offset >= field[j].offset +
							     field[j].size ||
					  field[j].offset >=
						  field[i].offset +
							  field[i].size,
				  "%s and %s overlap", field[i].name,
				  field[j].name);
			cr_expect_str_neq(field[i].name, field[j].name);
		}
	}
	cr_expect_eq(quadrants, 10, "five for each eye");
	cr_expect_eq(reply_fields.count, 7 + 2 * (4 * 5 + 4) + 8);
}

Test(reply, a_quadrant_is_found_by_name_and_by_place)
{
	static const struct {
		const char *sets;
		enum eye eye;
		enum quadrant quadrant;
		enum structure deepest;
	} rows[] = {
		{"deepest_right_superior=none", EYE_RIGHT, QUADRANT_SUPERIOR,
		 STRUCTURE_NONE},
		{"deepest_right_temporal=schwalbes_line", EYE_RIGHT,
		 QUADRANT_TEMPORAL, STRUCTURE_SCHWALBES_LINE},
		{"deepest_left_nasal=anterior_meshwork", EYE_LEFT,
		 QUADRANT_NASAL, STRUCTURE_ANTERIOR_MESHWORK},
		{"deepest_left_inferior=posterior_meshwork", EYE_LEFT,
		 QUADRANT_INFERIOR, STRUCTURE_POSTERIOR_MESHWORK},
		{"deepest_left_superior=scleral_spur", EYE_LEFT,
		 QUADRANT_SUPERIOR, STRUCTURE_SCLERAL_SPUR},
		{"deepest_right_nasal=ciliary_body_band", EYE_RIGHT,
		 QUADRANT_NASAL, STRUCTURE_CILIARY_BODY_BAND},
		{"deepest_right_inferior=could_not_see", EYE_RIGHT,
		 QUADRANT_INFERIOR, STRUCTURE_COULD_NOT_SEE},
		{"deepest_left_temporal=not_examined", EYE_LEFT,
		 QUADRANT_TEMPORAL, STRUCTURE_NOT_EXAMINED},
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct reply reply;

		reply_init(&reply);
		sets_read(reply_fields, &reply, rows[i].sets);
		cr_expect_eq(reply.deepest[rows[i].eye][rows[i].quadrant],
			     (int)rows[i].deepest, "row %zu", i);
		cr_expect_not_null(strstr(rows[i].sets,
					  quadrant_name(rows[i].quadrant)),
				   "row %zu", i);
		cr_expect_not_null(strstr(rows[i].sets, eye_name(rows[i].eye)),
				   "row %zu", i);
	}
}

Test(reply, what_cannot_be_is_refused)
{
	/* clang-format off */
	static const struct {
		const char *sets, *said; /* "" = sound */
	} rows[] = {
		{"", ""},
		{"seen_on=2026-03-10", ""},
		{"seen_on=2026-03-20", ""},
		{"number=|", "number: it is empty; a value is needed"},
		{"seen_on=2026-03-09", "seen_on: 2026-03-09 is before the day "
			"of screening, 2026-03-10"},
		{"seen_on=2026-03-21", "seen_on: 2026-03-21 is after today, "
			"2026-03-20"},
		{"next_visit=2026-03-12", ""},
		{"next_visit=2026-03-11", "next_visit: 2026-03-11 is before "
			"the day of this one, 2026-03-12"},
		{"outcome=elsewhere|seen_where=Two Rivers|disc_left=normal",
			""},
		{"seen_where=Two Rivers", "seen_where: a place is given, but "
			"outcome is not elsewhere"},
		{"why_not=cost", "why_not: a reason is given for not coming, "
			"but outcome is not not_attended"},
		{"outcome=not_attended", ""},
		{"outcome=not_attended|why_not=no_companion|examiner=by phone|"
			"next_visit=2026-04-01|teach=call again", ""},
		{"outcome=not_attended|deepest_right_superior=none",
			"deepest_right_superior: it is given, but outcome "
			"says that the person did not come"},
		{"outcome=not_attended|field_left=normal", "field_left: it is"},
		{"outcome=not_attended|done=drops", "done: it is given"},
		{"outcome=not_attended|done_text=drops", "done_text: it is"},
		{"outcome=not_attended|useful=no", "useful: it is given"},
		{"outcome=not_attended|treated_before=no", "treated_before: "},
		{"deepest_right_nasal=none|inserts_right_nasal="
			"before_schwalbes_line", ""},
		{"deepest_right_nasal=schwalbes_line|inserts_right_nasal="
			"before_schwalbes_line", ""},
		{"deepest_right_nasal=anterior_meshwork|inserts_right_nasal="
			"before_schwalbes_line", "inserts_right_nasal: the "
			"iris cannot insert in front of the deepest structure "
			"seen; look at both again"},
		{"deepest_left_inferior=posterior_meshwork|"
			"inserts_left_inferior=at_meshwork", ""},
		{"deepest_left_inferior=scleral_spur|"
			"inserts_left_inferior=at_meshwork",
			"inserts_left_inferior: the iris cannot"},
		{"deepest_left_inferior=ciliary_body_band|"
			"inserts_left_inferior=at_spur",
			"inserts_left_inferior: the iris cannot"},
		{"deepest_left_inferior=ciliary_body_band|"
			"inserts_left_inferior=far_back", ""},
		{"deepest_left_inferior=not_examined|"
			"inserts_left_inferior=at_spur", ""},
		{"deepest_left_inferior=ciliary_body_band|"
			"inserts_left_inferior=not_examined", ""},
		{"also_seen=new_vessels;other", ""},
		{"also_seen=nothing", ""},
		{"also_seen=nothing;other", "also_seen: it says nothing, and "
			"something"},
		{"done=iridotomy;drops", ""},
		{"done=drops,nothing", "done: it says nothing, and something"},
	};
	/* clang-format on */
	struct day screened_on, today;

	cr_assert(day_read("2026-03-10", &screened_on, &why));
	cr_assert(day_read("2026-03-20", &today, &why));
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct reply reply;
		bool sound;

		begin(&reply);
		if (strcmp(rows[i].sets, "number=|") == 0)
			reply.number = (struct refnum){0, 0};
		else
			sets_read(reply_fields, &reply, rows[i].sets);
		sound = reply_check(&reply, screened_on, today, &why);
		cr_expect_eq(sound, rows[i].said[0] == '\0', "row %zu: %s", i,
			     sound ? "sound" : why.sentence);
		if (sound || rows[i].said[0] == '\0')
			continue;
		cr_expect_eq(why.kind, FAULT_INPUT, "row %zu", i);
		cr_expect_eq(strncmp(why.sentence, rows[i].said,
				     strlen(rows[i].said)),
			     0, "row %zu: %s", i, why.sentence);
	}
}

Test(reply, a_day_that_is_not_known_is_not_compared)
{
	struct reply reply;

	begin(&reply);
	cr_expect(reply_check(&reply, day_none(), day_none(), &why));
	reply.outcome = FIELD_BLANK;
	cr_expect_not(reply_check(&reply, day_none(), day_none(), &why));
	cr_expect_str_eq(why.sentence, "outcome: it is empty; a value is "
				       "needed");
}
