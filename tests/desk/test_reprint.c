/* Tests of desk/reprint: what a correction does to the slip in the hand. */
#include "scene.h"

#include "desk/reprint.h"

/* A field of somebody, changed. */
static const struct {
	const char *before; /* depth_right,depth_left */
	const char *field, *value;
	enum reprint reprint;
	int sooner; /* whether it says so, 0 or 1 */
} rows[] = {
	{"100,100", "name", "Bekuro", REPRINT_PAPER, 0},
	{"100,100", "contact", "Upper Mavi", REPRINT_PAPER, 0},
	{"100,100", "age_years", "59", REPRINT_PAPER, 0},
	{"100,100", "depth_right", "75", REPRINT_PAPER, 0},
	{"100,100", "pressure_left", "21", REPRINT_PAPER, 0},
	{"100,100", "screened_on", "2024-03-10", REPRINT_PAPER, 0},
	{"100,100", "site", "Ridge hall", REPRINT_PAPER, 0},
	{"100,100", "grader", "BM", REPRINT_PAPER, 0},
	{"100,100", "reply_consent", "no", REPRINT_NONE, 0},
	{"25,100", "reply_consent", "no", REPRINT_PAPER, 0},
	{"100,100", "depth_right", "40", REPRINT_ANSWER, 0},
	{"40,100", "depth_right", "100", REPRINT_ANSWER, 0},
	{"100,100", "depth_left", "25", REPRINT_ANSWER, 1},
	{"25,100", "depth_right", "100", REPRINT_ANSWER, 0},
	{"25,40", "depth_right", "5", REPRINT_ANSWER, 1},
	{"25,100", "screened_on", "2026-03-09", REPRINT_ANSWER, 1},
	{"25,100", "findings", "severe_eye_pain", REPRINT_ANSWER, 1},
};

static void
fill(struct scene *scene, const char *depths, struct visit *visit)
{
	struct fault why = {FAULT_NONE, ""};
	char right[8], left[8];
	size_t length = strcspn(depths, ",");

	snprintf(right, sizeof right, "%.*s", (int)length, depths);
	snprintf(left, sizeof left, "%s", depths + length + 1);
	scene_begin(scene, false);
	*visit = scene->form.visit;
	visit->number = (struct refnum){14, 1};
	visit->age_years = 58;
	visit->reply_consent = ANSWER_YES;
	cr_assert(field_read(fields_find(visit_fields, "depth_right"), right,
			     visit, &why) &&
			  field_read(fields_find(visit_fields, "depth_left"),
				     left, visit, &why),
		  "%s", why.sentence);
}

static void
judge(const struct desk *desk, struct visit *visit)
{
	struct decision decision;

	desk_stamp(desk, visit);
	desk_judge(desk, visit, &decision);
}

Test(reprint, the_slip_is_replaced_whenever_it_reads_otherwise)
{
	struct scene scene;
	struct fault why = {FAULT_NONE, ""};

	scene_open(&scene);
	station_init(&scene.desk->station);
	cr_assert(wording_read(&scene.desk->wording, scene.desk->folder, "en",
			       scene_hear, NULL, &why),
		  "%s", why.sentence);
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		const struct field *field =
			fields_find(visit_fields, rows[i].field);
		struct visit before, after;
		enum reprint reprint;
		char *said = NULL;
		size_t size;
		FILE *out = open_memstream(&said, &size);

		fill(&scene, rows[i].before, &before);
		after = before;
		cr_assert(field_read(field, rows[i].value, &after, &why),
			  "row %zu: %s", i, why.sentence);
		judge(scene.desk, &before);
		judge(scene.desk, &after);
		after.state = STATE_CORRECTED;
		snprintf(after.entered_at, sizeof after.entered_at,
			 "2026-04-01T10:00:00Z");
		reprint = reprint_after(scene.desk, &before, &after);
		cr_expect_eq(reprint, rows[i].reprint, "row %zu: %d", i,
			     (int)reprint);
		reprint_tell(&before, &after, reprint, 80, out);
		fclose(out);
		cr_expect_eq(strstr(said, "replace the slip") != NULL,
			     rows[i].reprint != REPRINT_NONE, "row %zu", i);
		cr_expect_eq(strstr(said, "SOONER") != NULL,
			     rows[i].sooner == 1, "row %zu: %s", i, said);
		free(said);
	}
	scene_close(&scene);
}
