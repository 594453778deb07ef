/* test_replies.c: the clinic's replies stand beside the people they are
 * about. */
#include "keep/replies.h"

#include "people.h"

static struct day today;

static void
begin(void)
{
	people_begin();
	cr_assert(day_read("2026-03-20", &today, &why));
}

/* A person of the 10th, of that urgency. */
static struct refnum
screen(enum visit_urgency urgency)
{
	struct visit visit;

	visit_init(&visit);
	visit.depth_right = visit.depth_left = DEPTH_25;
	visit.urgency = (int)urgency;
	cr_assert(day_read("2026-03-10", &visit.screened_on, &why));
	save_soundly(&visit);
	return visit.number;
}

static void
put(struct reply *reply, const char *name, const char *text)
{
	cr_assert(field_read(fields_find(reply_fields, name), text, reply,
			     &why),
		  "%s", why.sentence);
}

static struct reply
attended(struct refnum number)
{
	struct reply reply;

	reply_init(&reply);
	reply.number = number;
	put(&reply, "outcome", "attended");
	put(&reply, "seen_on", "2026-03-12");
	return reply;
}

static bool
save_reply(struct reply *reply)
{
	return register_save_reply(&book, reply, today, &why);
}

static void
expect_fault(const char *wanted, const char *where)
{
	cr_expect_eq(why.kind, FAULT_INPUT, "%s", where);
	cr_expect_str_eq(why.sentence, wanted, "%s: %s", where, why.sentence);
}

/* A value for every field but those set by the test itself. */
static void
fill(struct reply *reply)
{
	char text[FIELD_TEXT_SIZE];

	for (size_t i = 0; i < reply_fields.count; i++) {
		const struct field *field = &reply_fields.field[i];
		size_t size = 0;
		const char *word = field_word(field->words, 0, &size);

		if (!field_is_blank(field, reply) ||
		    strcmp(field->name, "why_not") == 0 ||
		    strcmp(field->name, "seen_where") == 0)
			continue;
		if (field->kind == &field_text)
			snprintf(text, sizeof text, "t%zu", i);
		else if (field->kind == &field_day)
			snprintf(text, sizeof text, "2026-04-%02d",
				 (int)(i % 28) + 1);
		else if (field->kind == &field_count)
			snprintf(text, sizeof text, "%d", (int)i % 90 + 1);
		else if (strncmp(field->name, "inserts_", 8) == 0)
			snprintf(text, sizeof text, "far_back");
		else {
			/* The words in turn. */
			for (size_t j = 1; j <= i % 3; j++)
				if (field_word(field->words, (int)j, &size))
					word = field_word(field->words, (int)j,
							  &size);
			field_word(field->words, 0, &size);
			size = strcspn(word, "|");
			snprintf(text, sizeof text, "%.*s", (int)size, word);
		}
		put(reply, field->name, text);
	}
}

Test(replies, every_field_comes_back_as_it_was)
{
	struct reply reply, found;
	char text[FIELD_TEXT_SIZE], again[FIELD_TEXT_SIZE];
	long long entry = 0;

	begin();
	reply = attended(screen(URGENCY_ROUTINE));
	fill(&reply);
	reply.state = FIELD_BLANK;
	cr_assert(save_reply(&reply), "%s", why.sentence);
	cr_expect_eq(reply.state, STATE_CURRENT);
	register_close(&book);
	cr_assert(register_open(&book, folder, BOOK_READ, &why));
	cr_assert(register_find_reply(&book, reply.number, &found, &entry,
				      &why),
		  "%s", why.sentence);
	cr_expect_eq(entry, 1);
	for (size_t i = 0; i < reply_fields.count; i++) {
		const struct field *field = &reply_fields.field[i];

		field_write(field, &reply, text, sizeof text);
		field_write(field, &found, again, sizeof again);
		cr_expect_str_eq(again, text, "%s", field->name);
	}
	people_end();
}

Test(replies, what_cannot_be_saved_is_said)
{
	struct reply reply;
	struct visit visit;
	long long entry;
	struct refnum gone, there;

	begin();
	there = screen(URGENCY_ROUTINE);
	gone = screen(URGENCY_ROUTINE);
	cr_assert(register_find(&book, gone, &visit, &entry, &why));
	visit.state = STATE_VOID;
	cr_assert(register_revise(&book, &visit, entry, "twice", NULL, &why));

	reply = attended((struct refnum){14, 3});
	cr_expect_not(save_reply(&reply));
	expect_fault("NOT saved: '0014-00003-92' is not in this register", "unk"
									   "now"
									   "n");
	reply = attended(gone);
	cr_expect_not(save_reply(&reply));
	expect_fault("NOT saved: '0014-00002-95' was taken back as made by "
		     "mistake, so there is nobody to reply about",
		     "void");
	reply = attended((struct refnum){0, 0});
	cr_expect_not(save_reply(&reply));
	expect_fault("NOT saved: number: it is empty; a value is needed", "no "
									  "numb"
									  "er");
	reply = attended(there);
	put(&reply, "seen_on", "2026-03-09");
	cr_expect_not(save_reply(&reply));
	expect_fault("NOT saved: seen_on: 2026-03-09 is before the day of "
		     "screening, 2026-03-10",
		     "too early");
	reply = attended(there);
	cr_expect(save_reply(&reply));
	cr_expect_not(save_reply(&reply));
	expect_fault("NOT saved: '0014-00001-98' has a reply already; correct "
		     "that one",
		     "twice");
	people_end();
}

Test(replies, a_later_entry_takes_the_place_of_the_one_before)
{
	struct reply reply, found;
	struct refnum number, other;
	long long entry, stale;

	begin();
	number = screen(URGENCY_ROUTINE);
	other = screen(URGENCY_ROUTINE);
	reply = attended(other);
	reply.state = STATE_CORRECTED;
	cr_expect_not(
		register_revise_reply(&book, &reply, 1, "why", today, &why));
	expect_fault("NOT saved: '0014-00002-95' has no reply yet", "none");
	reply = attended(number);
	cr_assert(save_reply(&reply));
	cr_assert(register_find_reply(&book, number, &reply, &stale, &why));
	put(&reply, "disc_left", "glaucoma");
	reply.state = STATE_CORRECTED;
	cr_expect_not(
		register_revise_reply(&book, &reply, stale, "", today, &why));
	expect_fault("NOT saved: the reason is empty; say why in a few words",
		     "no reason");
	cr_assert(register_revise_reply(&book, &reply, stale, "misread", today,
					&why),
		  "%s", why.sentence);
	cr_expect_not(register_revise_reply(&book, &reply, stale, "misread",
					    today, &why));
	expect_fault("NOT saved: '0014-00001-98' was changed by somebody else "
		     "meanwhile; look at it again",
		     "stale");
	cr_assert(register_find_reply(&book, number, &found, &entry, &why));
	cr_expect(entry > stale && found.disc[EYE_LEFT] == HEALTH_GLAUCOMA &&
		  found.state == STATE_CORRECTED);
	/* A void one may be brought back. */
	reply.state = STATE_VOID;
	cr_assert(register_revise_reply(&book, &reply, entry, "wrong person",
					today, &why));
	cr_assert(register_find_reply(&book, number, &found, &entry, &why));
	cr_expect_eq(found.state, STATE_VOID);
	reply.state = STATE_CORRECTED;
	cr_assert(register_revise_reply(&book, &reply, entry, "right after all",
					today, &why));
	people_end();
}

/* Adds "serial outcome; " or "serial -; ". */
static bool
list_reply(void *context, const struct visit *visit, const struct reply *reply,
	   struct fault *unused)
{
	char *list = context, outcome[FIELD_TEXT_SIZE] = "-";
	size_t used = strlen(list);

	(void)unused;
	if (reply != NULL)
		field_write(fields_find(reply_fields, "outcome"), reply,
			    outcome, sizeof outcome);
	snprintf(list + used, LIST_SIZE - used, "%d %s; ", visit->number.serial,
		 outcome);
	return true;
}

Test(replies, people_are_visited_with_their_replies)
{
	char all[LIST_SIZE] = "";
	struct reply reply;
	struct visit visit;
	long long entry;

	begin();
	for (int i = 0; i < 6; i++)
		screen(i == 3 ? URGENCY_NO_REFERRAL : URGENCY_URGENT);
	/* 2 has a reply, 3 is void, 5 has one that was taken back. */
	reply = attended((struct refnum){14, 2});
	put(&reply, "outcome", "not_attended");
	cr_assert(save_reply(&reply));
	cr_assert(register_find(&book, (struct refnum){14, 3}, &visit, &entry,
				&why));
	visit.state = STATE_VOID;
	cr_assert(register_revise(&book, &visit, entry, "twice", NULL, &why));
	reply = attended((struct refnum){14, 5});
	cr_assert(save_reply(&reply));
	cr_assert(
		register_find_reply(&book, reply.number, &reply, &entry, &why));
	reply.state = STATE_VOID;
	cr_assert(register_revise_reply(&book, &reply, entry, "wrong person",
					today, &why));

	cr_assert(register_visit_replies(&book, list_reply, all, &why));
	cr_expect_str_eq(all, "1 -; 2 not_attended; 4 -; 5 -; 6 -; ", "%s",
			 all);
	people_end();
}

Test(replies, rows_are_only_added)
{
	static const char *const scripts[] = {
		"UPDATE reply SET teach = 'x'", "DELETE FROM reply",
		"INSERT OR REPLACE INTO reply(entry, number, outcome, seen_on, "
		"state) VALUES (1, '0014-00001-98', 'attended', '2026-03-12', "
		"'current')",
		"INSERT INTO reply(number, outcome, seen_on, state) VALUES "
		"('0014-00001-98', 'attended', '2026-03-12', 'current')",
		"INSERT INTO reply(number, seen_on, state) VALUES "
		"('0014-00002-95', '2026-03-12', 'current')"};
	char path[FOLDER_PATH];
	struct reply reply;
	sqlite3 *db;

	begin();
	reply = attended(screen(URGENCY_ROUTINE));
	cr_assert(save_reply(&reply));
	register_close(&book);
	cr_assert_eq(sqlite3_open(folder_path(folder, "register.db", path),
				  &db),
		     SQLITE_OK);
	for (size_t i = 0; i < sizeof scripts / sizeof scripts[0]; i++)
		cr_expect_neq(sqlite3_exec(db, scripts[i], NULL, NULL, NULL),
			      SQLITE_OK, "%s", scripts[i]);
	sqlite3_close(db);
	people_end();
}
