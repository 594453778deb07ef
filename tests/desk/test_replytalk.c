/* test_replytalk.c: a reply from the clinic, asked line by line. */
#include "desk/replytalk.h"

#include "scene.h"

static const struct refnum number = {14, 1};

/* A person screened on the scene's day, whose right eye was injured and who
 * started a medicine. */
static void
person(const struct scene *scene, struct visit *visit)
{
	visit_init(visit);
	visit->number = number;
	visit->screened_on = scene->desk->today;
	findings_add(&visit->findings, INJURY, EYE_RIGHT);
	findings_add(&visit->findings, NEW_MEDICINE, EYE_RIGHT);
}

static enum dialog_end
play(struct scene *scene, const char *typed, size_t length, bool kept,
     struct reply_form *form)
{
	struct desk *desk = scene->desk;
	struct asker asker = {NULL, NULL, scene->echoes, scene->columns};
	enum dialog_end end;
	struct visit visit;
	size_t size;

	free(scene->said);
	scene->said = NULL;
	desk->in = tmpfile();
	desk->talk = open_memstream(&scene->said, &size);
	cr_assert(desk->in != NULL && desk->talk != NULL);
	cr_assert_eq(fwrite(typed, 1, length, desk->in), length);
	rewind(desk->in);
	desk->columns = scene->columns;
	asker.in = desk->in;
	asker.talk = desk->talk;
	person(scene, &visit);
	if (!kept) {
		reply_ask_init(form, number, desk->today);
		reply_talk_begin(&asker);
	}
	end = reply_talk(desk, &asker, &visit, form, kept);
	fclose(desk->in);
	fclose(desk->talk);
	return end;
}

static const char alike[] = "1\n2026-03-10\nDr "
			    "T\n2\n1\n1\n1\n2\n==\n16\n40\n1\n"
			    "1\n==\n=\n2\n1\n1\n\n1\n\n\n";

/* What is typed behind `alike`, how it ends, and words that were then said,
 * each behind the one before. */
static const struct {
	const char *typed;
	enum dialog_end end;
	const char *said[4];
} summaries[] = {
	{"\n",
	 DIALOG_SAVE,
	 {"the patient is informed", "--- Summary ---",
	  "Class, right eye: suspect", "look for a swollen choroid"}},
	/* A line is a quadrant: its five questions are put again. */
	{"5\n5\n1\n3\n\n\n\n",
	 DIALOG_SAVE,
	 {"RIGHT eye, inferior: deepest structure seen",
	  "RIGHT eye, inferior: anterior synechiae", "--- Summary ---",
	  " 5 RIGHT eye, inferior: deepest scleral spur, iris flat, inserts at "
	  "spur"}},
	/* "<" leaves the rest of the line. */
	{"5\n5\n<\n5\n<\n\n0\n2\n",
	 DIALOG_LEAVE,
	 {"inserts: the iris cannot", "--- Summary ---", NULL, NULL}},
	{"5\n<\n\n", DIALOG_SAVE, {"--- Summary ---", NULL, NULL, NULL}},
	{"2\n2026-03-09\n2026-03-10\n\n",
	 DIALOG_SAVE,
	 {"before the day of screening, 2026-03-10", "--- Summary ---", NULL,
	  NULL}},
	{"1\n2\n\n1\n\n",
	 DIALOG_SAVE,
	 {"Why the person did not come", "--- Summary ---",
	  " 1 Whether the person was seen: not attended\n",
	  " 3 Why the person did not come: cost\n"}},
	{"99\n0\n2\n",
	 DIALOG_LEAVE,
	 {"Type the number of one of the lines", "Leave this reply?"}},
	/* 0 beside the Enter that saves throws nothing away. */
	{"0\n\n\n",
	 DIALOG_SAVE,
	 {"Leave this reply?\n 1 go on with the reply\n", "--- Summary ---"}},
	{"0\n0\n1\n\n",
	 DIALOG_SAVE,
	 {"Leave this reply?", "Leave this reply?", "--- Summary ---"}},
	{"", DIALOG_ENDED, {"Enter saves, 0 drops the reply,"}},
};

Test(replytalk, the_summary_shows_the_class_and_takes_corrections)
{
	struct scene scene;

	scene_open(&scene);
	for (size_t i = 0; i < sizeof summaries / sizeof summaries[0]; i++) {
		char typed[200];
		struct reply_form form;
		const char *at;

		snprintf(typed, sizeof typed, "%s%s", alike,
			 summaries[i].typed);
		cr_expect_eq(play(&scene, typed, strlen(typed), false, &form),
			     summaries[i].end, "row %zu: %s", i, scene.said);
		at = i == 0 ? scene.said : strstr(scene.said, "--- Summary");
		for (int j = 0; j < 4 && summaries[i].said[j] != NULL; j++) {
			at = strstr(at, summaries[i].said[j]);
			cr_assert_not_null(at, "row %zu: '%s' in: %s", i,
					   summaries[i].said[j], scene.said);
		}
	}
	scene_close(&scene);
}

/* How it ends, and words that were said or NULL. */
Test(replytalk, going_back_too_far_keeps_what_was_answered)
{
	static const struct {
		const char *typed;
		enum dialog_end end;
		const char *said;
	} rows[] = {
		{"<\n", DIALOG_LEAVE, NULL},
		{"2\n2026-03-10\n<\n<\n<\n2\n", DIALOG_LEAVE,
		 "2 leave; nothing of it is kept"},
		{"2\n2026-03-10\n<\n<\n<\nx\n1\n\n\n1\n\n\n", DIALOG_SAVE,
		 "1 go on with the reply"},
		{"2\n<\n<\n", DIALOG_ENDED, "1 go on with the reply"},
	};
	struct scene scene;

	scene_open(&scene);
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct reply_form form;

		cr_expect_eq(play(&scene, rows[i].typed, strlen(rows[i].typed),
				  false, &form),
			     rows[i].end, "row %zu: %s", i, scene.said);
		cr_expect(rows[i].said == NULL ||
				  strstr(scene.said, rows[i].said) != NULL,
			  "row %zu: %s", i, scene.said);
	}
	scene_close(&scene);
}

Test(replytalk, what_to_look_for_is_said_at_once_and_only_once)
{
	static const char typed[] = "1\n2026-03-10\n\n6\n\n\n\n\n6\n\n\n\n\n=="
				    "\n";
	static const char words[] = "\n > right eye: wide after an injury: "
				    "look for a recession or "
				    "a cleft\n";
	struct reply_form form;
	struct scene scene;
	const char *told, *next;

	scene_open(&scene);
	cr_expect_eq(play(&scene, typed, sizeof typed - 1, false, &form),
		     DIALOG_ENDED);
	told = strstr(scene.said, words);
	next = strstr(scene.said, "\nRIGHT eye, superior: contour");
	cr_assert(told != NULL && next != NULL, "%s", scene.said);
	cr_expect_lt(told, next);
	cr_expect_eq(scene_count(&scene, words), 1);
	scene_close(&scene);
}

Test(replytalk, a_kept_reply_begins_at_the_summary)
{
	struct reply_form form;
	struct scene scene;
	struct reply kept;
	char typed[200];

	scene_open(&scene);
	snprintf(typed, sizeof typed, "%s\n", alike);
	cr_assert_eq(play(&scene, typed, strlen(typed), false, &form),
		     DIALOG_SAVE);
	kept = form.reply;
	reply_ask_load(&form, &kept, scene.desk->today);
	cr_expect_eq(play(&scene, "\n", 1, true, &form), DIALOG_SAVE);
	cr_expect_eq(scene_count(&scene, "patient is informed"), 0);
	cr_expect_eq(scene_count(&scene, "--- Summary ---"), 1, "%s",
		     scene.said);
	cr_expect_eq(form.reply.disc[EYE_LEFT], HEALTH_NORMAL);
	scene_close(&scene);
}

/* Help and a refused answer everywhere, on a narrow screen. */
Test(replytalk, nothing_is_wider_than_a_narrow_screen)
{
	/* clang-format off */
	static const char typed[] =
		"?\n9\n1\n" "?\nx\n2026-03-10\n" "?\n+\n\n"
		/* The first quadrant; one that contradicts itself. */
		"?\n9\n1\n" "?\n9\n1\n" "?\n9\n1\n" "?\n9\n1\n" "?\n9\n1\n"
		"?\n5\n" "?\n1\n" "1\n=\n3\n" "\n" "=\n" "==\n"
		"?\n0\n\n" "?\n101\n\n" "?\n9\n\n" "\n"
		"?\n==\n" "?\n=\n"
		/* After the eyes: both nothing and something was done. */
		"?\n9\n1\n" "?\n9\n8\n" "?\n9\n1 2\n" "?\n\n" "?\n3\n1\n"
		"?\nx\n\n" "?\n=\n\n" "16\n2\n\n";
	/* clang-format on */
	struct reply_form form;
	struct scene scene;
	char line[2000];

	scene_open(&scene);
	for (scene.columns = 40; scene.columns <= 80; scene.columns += 20) {
		cr_expect_eq(play(&scene, typed, sizeof typed - 1, false,
				  &form),
			     DIALOG_SAVE);
		for (const char *at = scene.said; *at != '\0';) {
			size_t length = strcspn(at, "\n");

			snprintf(line, sizeof line, "%.*s", (int)length, at);
			cr_expect_leq(text_width(line), scene.columns,
				      "%d columns: %s", text_width(line), line);
			at += length + (at[length] == '\n');
		}
	}
	scene_close(&scene);
}

/* Any bytes, mostly likely ones: no control on the screen, and what is handed
 * over for keeping can be kept. */
Test(replytalk, random_typing_never_ends_in_a_reply_that_cannot_be_kept)
{
	static const char *const likely[] = {
		"\n",		"\n",	     "1\n",  "2\n",  "3\n",
		"5\n",		"=\n",	     "=\n",  "==\n", "2026-03-10\n",
		"<\n",		"?\n",	     "-\n",  "17\n", "13\n",
		"2026-03-12\n", "\033[2J\n", "\x9b", "0",    "\xc2\x9b\n",
		"Dr T\n",	"==\n"};
	enum { LIKELY = sizeof likely / sizeof likely[0] };
	struct scene scene;
	int saved = 0;

	scene_open(&scene);
	for (unsigned seed = 1; seed <= 200; seed++) {
		unsigned state = seed;
		char typed[900];
		size_t used = 0;
		struct reply_form form;
		struct fault why = {FAULT_NONE, ""};

		used += (size_t)snprintf(typed, sizeof typed,
					 "1\n2026-03-10\n");
		while (used + 12 < sizeof typed) {
			state = state * 1664525U + 1013904223U;
			used += (size_t)snprintf(typed + used,
						 sizeof typed - used, "%s",
						 likely[(state >> 8) % LIKELY]);
		}
		if (play(&scene, typed, used, false, &form) == DIALOG_SAVE) {
			cr_expect(reply_check(&form.reply, scene.desk->today,
					      scene.desk->today, &why),
				  "seed %u: %s", seed, why.sentence);
			saved++;
		}
		for (const char *at = scene.said; *at != '\0'; at++)
			if (((unsigned char)*at < 0x20 && *at != '\n') ||
			    *at == 0x7f) {
				cr_expect(false, "seed %u: byte %02x", seed,
					  (unsigned)*at);
				break;
			}
	}
	cr_expect_gt(saved, 10, "only %d came to the end", saved);
	scene_close(&scene);
}
