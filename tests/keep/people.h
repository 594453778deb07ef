/* people.h: a register in a folder of its own, and people for it. */
#ifndef SHOAL_TESTS_KEEP_PEOPLE_H
#define SHOAL_TESTS_KEEP_PEOPLE_H

#include "keep/register.h"

#include "folder.h"

#include <criterion/criterion.h>
#include <sqlite3.h>

/* Each file of tests, and each test in its process, has these of its own. */
static char folder[FOLDER_SIZE];
static struct book book;
static struct fault why;

static inline void
people_begin(void)
{
	cr_assert(folder_make(folder));
	cr_assert(register_create(folder, 14, &why), "%s", why.sentence);
	cr_assert(register_open(&book, folder, BOOK_WRITE, &why), "%s",
		  why.sentence);
}

static inline void
people_end(void)
{
	register_close(&book);
	folder_remove(folder);
}

/* The register's bytes as they are now, to begin with again. */
struct people_kept {
	char bytes[300000];
	long length; /* 0: nothing is kept */
};

static inline void
people_keep(struct people_kept *kept)
{
	char path[FOLDER_PATH];

	register_close(&book);
	kept->length = folder_get(folder_path(folder, "register.db", path),
				  kept->bytes, sizeof kept->bytes);
	cr_assert(kept->length > 0 && kept->length < (long)sizeof kept->bytes);
	cr_assert(register_open(&book, folder, BOOK_WRITE, &why), "%s",
		  why.sentence);
}

/* A new register of these bytes, in a new folder. */
static inline void
people_again(const struct people_kept *kept)
{
	char path[FOLDER_PATH];

	people_end();
	cr_assert(folder_make(folder));
	cr_assert(folder_put(folder_path(folder, "register.db", path),
			     kept->bytes, (size_t)kept->length));
	cr_assert(register_open(&book, folder, BOOK_WRITE, &why), "%s",
		  why.sentence);
}

static inline bool
save(struct visit *visit)
{
	return register_save(&book, visit, "policy text", &why);
}

static inline void
save_soundly(struct visit *visit)
{
	cr_assert(save(visit), "%s", why.sentence);
}

/* Runs SQL beside the program; the message of what refused it, or "". */
static inline const char *
run_beside(const char *sql)
{
	static char message[200];
	char path[FOLDER_PATH], *said = NULL;
	sqlite3 *db;

	message[0] = '\0';
	cr_assert_eq(sqlite3_open(folder_path(folder, "register.db", path),
				  &db),
		     SQLITE_OK);
	sqlite3_busy_timeout(db, 5000);
	if (sqlite3_exec(db, sql, NULL, NULL, &said) != SQLITE_OK)
		snprintf(message, sizeof message, "%s", said);
	sqlite3_free(said);
	sqlite3_close(db);
	return message;
}

/* --- people --------------------------------------------------------------- */

/* Only what a person needs to be kept. */
static inline void
person_bare(struct visit *visit)
{
	visit_init(visit);
	visit->depth_right = DEPTH_25;
	visit->depth_left = DEPTH_NO_EYE;
}

static inline void
person_named(struct visit *visit, const char *name)
{
	person_bare(visit);
	snprintf(visit->name, sizeof visit->name, "%s", name);
}

/* Every field but number and state, which the register gives. */
static inline void
person_full(struct visit *visit)
{
	static const char *const texts[][2] = {
		{"screened_on", "2026-03-04"},
		{"entered_at", "2026-03-05T06:07:08Z"},
		{"late", "1"},
		{"site", "Hill School"},
		{"grader", "QX"},
		{"name", "Tilo \xe0\xa4\x86\xe0\xa4\xb6\xe0\xa4\xbe O'Marn"},
		{"contact", "0155 501 00"},
		{"age_years", "0"},
		{"age_estimated", "no"},
		{"sex", "X"},
		{"depth_right", "x"},
		{"depth_left", "0"},
		{"not_gradable_why_right", "pterygium"},
		{"not_gradable_why_left", "other"},
		{"pressure_right", "1"},
		{"pressure_left", "99"},
		{"findings", "haloes;right:not_seeing;left:red_eye"},
		{"reply_consent", "no"},
		{"urgency", "same_day"},
		{"within_days", "0"},
		{"see_by", "2026-03-04"},
		{"rescreen_months", "120"},
		{"rules", "one_rule;another"},
		{"policy", "ABCDEF"},
	};

	visit_init(visit);
	for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
		cr_assert(field_read(fields_find(visit_fields, texts[i][0]),
				     texts[i][1], visit, &why),
			  "%s", why.sentence);
	for (size_t i = 0; i < visit_fields.count; i++) {
		const char *name = visit_fields.field[i].name;

		cr_assert(!field_is_blank(&visit_fields.field[i], visit) ||
				  strcmp(name, "number") == 0 ||
				  strcmp(name, "state") == 0,
			  "the test does not set %s", name);
	}
}

static inline bool
person_same(const struct field *field, const struct visit *one,
	    const struct visit *other)
{
	char text[FIELD_TEXT_SIZE], again[FIELD_TEXT_SIZE];

	field_write(field, one, text, sizeof text);
	field_write(field, other, again, sizeof again);
	return strcmp(text, again) == 0;
}

/* --- lists ---------------------------------------------------------------- */

enum { LIST_SIZE = 2000 };

/* Adds "serial name state (reason); " to the text in `context`. */
static inline bool
list_entry(void *context, const struct visit *visit, const char *reason,
	   struct fault *unused)
{
	char *list = context, name[FIELD_TEXT_SIZE], state[FIELD_TEXT_SIZE];
	size_t length = strlen(list);

	(void)unused;
	field_write(fields_find(visit_fields, "state"), visit, state,
		    sizeof state);
	field_write(fields_find(visit_fields, "name"), visit, name,
		    sizeof name);
	snprintf(list + length, LIST_SIZE - length, "%d %s %s (%s); ",
		 visit->number.serial, name, state, reason);
	return true;
}

#endif
