/* scene.h: an interview played from typed bytes, for the tests of the desk. */
#ifndef SHOAL_TESTS_DESK_SCENE_H
#define SHOAL_TESTS_DESK_SCENE_H

#include "desk/interview.h"

#include "base/embedded.h"
#include "base/text.h"
#include "keep/policyfile.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* An invented station with the default policy, and what was said last. */
struct scene {
	struct desk *desk;
	struct form form;
	char *said; /* freed by the next play, or by the end */
	int columns;
	bool echoes;
};

static inline void
scene_hear(void *context, const struct fault *one)
{
	(void)context;
	cr_expect(false, "%s", one->sentence);
}

static inline void
scene_open(struct scene *scene)
{
	const char *base = getenv("TMPDIR");
	struct fault why = {FAULT_NONE, ""};
	struct desk *desk = calloc(1, sizeof *desk);

	cr_assert_not_null(desk);
	memset(scene, 0, sizeof *scene);
	scene->desk = desk;
	scene->columns = 80;
	scene->echoes = true;
	cr_assert(day_read("2026-03-10", &desk->today, &why));
	desk->today_given = true;
	snprintf(desk->folder, sizeof desk->folder, "%s/shoal-XXXXXX",
		 base == NULL ? "/tmp" : base);
	cr_assert_not_null(mkdtemp(desk->folder));
	cr_assert(policyfile_read_bytes("policy.ini",
					(const char *)embedded_policy,
					embedded_policy_size, &desk->policy,
					scene_hear, NULL, &why),
		  "%s", why.sentence);
	policy_fingerprint(&desk->policy, desk->policy_mark);
	cr_assert(register_create(desk->folder, 14, &why) &&
			  register_open(&desk->book, desk->folder, BOOK_WRITE,
					&why),
		  "%s", why.sentence);
}

static inline void
scene_close(struct scene *scene)
{
	char path[DESK_PATH_SIZE + 20];

	register_close(&scene->desk->book);
	snprintf(path, sizeof path, "%s/register.db", scene->desk->folder);
	cr_expect_eq(unlink(path), 0);
	cr_expect_eq(rmdir(scene->desk->folder), 0);
	free(scene->said);
	free(scene->desk);
}

/* An empty form of the day. */
static inline void
scene_begin(struct scene *scene, bool paper)
{
	struct visit *visit = &scene->form.visit;

	form_init(&scene->form, paper);
	visit->screened_on = scene->desk->today;
	snprintf(visit->site, sizeof visit->site, "Mavi school");
	snprintf(visit->grader, sizeof visit->grader, "NT");
}

/* Plays the bytes into the form as it stands; `left` (or NULL) is how many of
 * them were not read. */
static inline enum dialog_end
scene_play_bytes(struct scene *scene, const char *bytes, size_t length,
		 bool from_summary, long *left)
{
	struct desk *desk = scene->desk;
	struct asker asker = {NULL, NULL, scene->echoes, scene->columns};
	enum dialog_end end;
	size_t size;

	free(scene->said);
	scene->said = NULL;
	desk->in = tmpfile();
	desk->talk = open_memstream(&scene->said, &size);
	cr_assert(desk->in != NULL && desk->talk != NULL);
	cr_assert_eq(fwrite(bytes, 1, length, desk->in), length);
	rewind(desk->in);
	desk->columns = scene->columns;
	asker.in = desk->in;
	asker.talk = desk->talk;
	end = interview(desk, &asker, &scene->form, NULL, from_summary);
	if (left != NULL)
		*left = (long)length - ftell(desk->in);
	fclose(desk->in);
	fclose(desk->talk);
	return end;
}

/* A whole person, typed into an empty form. */
static inline enum dialog_end
scene_play(struct scene *scene, const char *typed)
{
	scene_begin(scene, false);
	return scene_play_bytes(scene, typed, strlen(typed), false, NULL);
}

static inline int
scene_count(const struct scene *scene, const char *words)
{
	int count = 0;

	for (const char *at = scene->said; (at = strstr(at, words)); at++)
		count++;
	return count;
}

#endif
