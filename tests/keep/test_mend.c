/* Tests of keep/mend, keep/gleaning and keep/salvage: damaged registers. */
#include "keep/mend.h"

#include "keep/policyfile.h"
#include "keep/replies.h"
#include "people.h"

#include "base/embedded.h"

enum { MOST = 300000, PEOPLE = 30 };

static char whole[MOST], path[FOLDER_PATH], original[FOLDER_PATH];
static long length;
static struct day today;
static int missing;

static void
count_missing(void *context, struct refnum number)
{
	(void)context;
	(void)number;
	missing++;
}

static void
say_fault(void *context, const struct fault *one)
{
	(void)context;
	cr_log_error("%s", one->sentence);
}

/* People, corrections, a void entry, replies, a tally and a policy. */
static void
fill(void)
{
	static char policy[70000];
	static struct policy read;
	struct tally_written tally = {1, true, "ABCDEFG"};
	struct visit visit;
	struct reply reply;

	memcpy(policy, embedded_policy, embedded_policy_size + 1);
	cr_assert(policyfile_read_bytes("policy", policy, embedded_policy_size,
					&read, say_fault, NULL, &why));
	for (int i = 1; i <= PEOPLE; i++) {
		person_full(&visit);
		snprintf(visit.name, sizeof visit.name, "Mira Fenn %d", i);
		policy_fingerprint(&read, visit.policy);
		cr_assert(register_save(&book, &visit, i == 1 ? policy : NULL,
					&why),
			  "%s", why.sentence);
		if (i % 7 == 0) {
			visit.state = i == 7 ? STATE_VOID : STATE_CORRECTED;
			cr_assert(register_revise(&book, &visit, i + i / 7 - 1,
						  "read again", NULL, &why),
				  "%d: %s", i, why.sentence);
		}
	}
	reply_init(&reply);
	reply.number = (struct refnum){14, 2};
	reply.outcome = OUTCOME_ATTENDED;
	reply.seen_on = today;
	cr_assert(register_save_reply(&book, &reply, today, &why), "%s",
		  why.sentence);
	cr_assert(register_keep_tally(&book, today, &tally, &why));
}

static void
begin(void)
{
	people_begin();
	cr_assert(day_read("2026-03-10", &today, &why));
	folder_path(folder, "register.db", path);
	folder_path(folder, "original", original);
	fill();
	register_close(&book);
	length = folder_get(path, whole, sizeof whole);
	cr_assert(length > 0 && length < MOST);
	cr_assert(folder_put(original, whole, (size_t)length));
}

TestSuite(mend, .init = begin, .fini = people_end);

/* A number asked of the mended register with the original beside it. */
static int
ask(const char *sql)
{
	char attach[FOLDER_PATH + 40];
	sqlite3_stmt *statement;
	sqlite3 *db;
	int number = -1;

	snprintf(attach, sizeof attach, "ATTACH '%s' AS was", original);
	cr_assert_eq(sqlite3_open(path, &db), SQLITE_OK);
	cr_assert_eq(sqlite3_exec(db, attach, NULL, NULL, NULL), SQLITE_OK);
	cr_assert_eq(sqlite3_prepare_v2(db, sql, -1, &statement, NULL),
		     SQLITE_OK, "%s", sqlite3_errmsg(db));
	if (sqlite3_step(statement) == SQLITE_ROW)
		number = sqlite3_column_int(statement, 0);
	sqlite3_finalize(statement);
	sqlite3_close(db);
	return number;
}

/* What a person is, without the place in the register. */
#define PERSON                                                                \
	"entry, folded_name, number, screened_on, entered_at, late, site, "   \
	"grader, name, contact, age_years, age_estimated, sex, depth_right, " \
	"depth_left, not_gradable_why_right, not_gradable_why_left, "         \
	"pressure_right, pressure_left, findings, reply_consent, urgency, "   \
	"within_days, see_by, rescreen_months, rules, policy, state"

/* Nobody in the mended one who was not so in the original. */
static void
expect_originals(const char *what, long at)
{
	cr_expect_eq(ask("SELECT count(*) FROM (SELECT " PERSON
			 " FROM visit EXCEPT SELECT " PERSON " FROM "
			 "was.visit)"),
		     0, "%s %ld: somebody was altered", what, at);
	cr_expect_eq(ask("SELECT count(*) FROM (SELECT number, outcome, "
			 "seen_on FROM reply EXCEPT SELECT number, outcome, "
			 "seen_on FROM was.reply)"),
		     0, "%s %ld: a reply was altered", what, at);
	cr_expect_eq(ask("SELECT count(*) FROM (SELECT fingerprint, text FROM "
			 "policy_text EXCEPT SELECT fingerprint, text FROM "
			 "was.policy_text)"),
		     0, "%s %ld: a policy was altered", what, at);
}

/* Mends the damaged bytes; whether it did, or found nothing to do. */
static bool
mend(const char *bytes, long size, const char *what, long at, bool *sound,
     struct mend_done *done)
{
	bool mended;

	for (int i = 1; i <= 2; i++) {
		char aside[FOLDER_PATH + 40];

		snprintf(aside, sizeof aside, "%s.aside-2026-03-10-%d", path,
			 i);
		unlink(aside);
	}
	cr_assert(folder_put(path, bytes, (size_t)size));
	memset(done, 0, sizeof *done);
	mended = mend_register(folder, 14, today, count_missing, NULL, sound,
			       done, &why);
	if (!mended) {
		static char now[MOST];

		cr_expect_eq(why.kind, FAULT_REGISTER, "%s %ld: %s", what, at,
			     why.sentence);
		cr_expect(folder_get(path, now, sizeof now) == size &&
				  memcmp(now, bytes, (size_t)size) == 0,
			  "%s %ld: refused, and changed", what, at);
		return false;
	}
	if (!*sound) {
		cr_expect(safefile_exists(done->put.aside), "%s %ld", what, at);
		cr_expect(
			done->serial_from > PEOPLE && done->serial_from <= 601,
			"%s %ld: goes on from %d", what, at, done->serial_from);
		expect_originals(what, at);
	}
	return true;
}

Test(mend, a_sound_register_is_left_alone)
{
	struct mend_done done;
	bool sound;

	cr_assert(mend(whole, length, "sound", 0, &sound, &done), "%s",
		  why.sentence);
	cr_expect(sound);
	cr_expect_eq(folder_count(folder), 2);
}

/* Every so many bytes turned round, and every page cut: mended with nothing
 * altered, or refused and left as it was. */
Test(mend, every_damage_is_mended_without_altering_anybody_or_refused)
{
	struct mend_done done;
	int mended = 0, refused = 0, kept = 0, used = 0;
	bool sound;

	for (long i = 0; i < length; i++) {
		if (whole[i] == 0 || (i > 100 && ++used % 499 != 0) ||
		    (i <= 100 && i % 9 != 0))
			continue;
		whole[i] ^= (char)0xff;
		if (!mend(whole, length, "byte", i, &sound, &done))
			refused++;
		else if (sound)
			kept++;
		else
			mended++;
		whole[i] ^= (char)0xff;
		if (sound || done.put.aside[0] == '\0')
			continue;
		/* One damaged byte costs one page, and never everybody. */
		cr_expect(done.facts.people >= PEOPLE / 2, "byte %ld: %lld", i,
			  done.facts.people);
	}
	cr_expect(mended > 20, "%d mended, %d refused, %d sound", mended,
		  refused, kept);
	for (long cut = 0; cut < length; cut += 4096)
		if (mend(whole, cut + 100, "cut", cut, &sound, &done))
			cr_expect_not(sound, "cut %ld", cut);
}

Test(mend, what_is_lost_is_said_and_no_number_comes_back)
{
	char slips[FOLDER_PATH], slip[FOLDER_PATH + 40], number[REFNUM_SIZE];
	const struct refnum last = {14, 512};
	struct mend_done done;
	struct visit visit;
	bool sound;
	long at = -1;

	cr_assert_eq(mkdir(folder_path(folder, "slips", slips), 0700), 0);
	refnum_write(last, number);
	snprintf(slip, sizeof slip, "%s/%s.txt", slips, number);
	cr_assert(folder_put(slip, "x", 1));
	for (long i = 0; i + 12 < length; i++)
		if (memcmp(whole + i, "Mira Fenn 20", 12) == 0)
			at = i;
	cr_assert_geq(at, 0);
	whole[at] ^= (char)0xff;
	/* And the head of the file, so that SQLite opens nothing. */
	memset(whole, 'x', 100);
	missing = 0;
	cr_assert(mend(whole, length, "lost", at, &sound, &done), "%s",
		  why.sentence);
	cr_expect_not(sound);
	cr_expect_eq(missing, 1);
	cr_expect_eq(done.facts.people, PEOPLE - 1);
	cr_expect_eq(done.refused, 1);
	cr_expect_eq(done.serial_from, 601);
	cr_assert(register_open(&book, folder, BOOK_WRITE, &why), "%s",
		  why.sentence);
	person_full(&visit);
	save_soundly(&visit);
	cr_expect_eq(visit.number.serial, 601);
}

/* A value that became another one, in a file that SQLite finds sound. */
Test(mend, a_row_that_is_not_what_was_written_is_left_out)
{
	struct mend_done done;
	bool sound;
	int turned = 0;

	for (long i = 0; i + 13 < length; i++)
		if (memcmp(whole + i, "Mira Fenn 23", 12) == 0) {
			whole[i + 11] ^= 1;
			turned++;
		}
	cr_assert_eq(turned, 1);
	cr_assert(mend(whole, length, "value", 0, &sound, &done), "%s",
		  why.sentence);
	cr_expect_not(sound);
	cr_expect_eq(done.facts.people, PEOPLE - 1);
	cr_expect_eq(done.refused, 1);
}

/* A threshold that became another one: its text no longer has the fingerprint
 * that is kept with it, and is missed as a row. */
Test(mend, a_policy_that_is_not_what_was_written_is_left_out_and_counted)
{
	static const char cut_off[] = "\ndepth_at_or_below_percent = 25";
	struct mend_done done;
	bool sound;
	int turned = 0;

	for (long i = 0; i + 40 < length && turned == 0; i++)
		if (memcmp(whole + i, cut_off, sizeof cut_off - 1) == 0) {
			whole[i + (long)sizeof cut_off - 2] = '0';
			turned++;
		}
	cr_assert_eq(turned, 1);
	memset(whole, 'x', 100);
	cr_assert(mend(whole, length, "policy", 0, &sound, &done), "%s",
		  why.sentence);
	cr_expect_not(sound);
	cr_expect_eq(done.facts.people, PEOPLE);
	cr_expect_eq(done.refused, 1);
	cr_expect_eq(ask("SELECT count(*) FROM policy_text"), 0);
}

/* One of the form before there were marks. */
Test(mend, a_register_of_an_older_form_is_mended_whole)
{
	struct mend_done done;
	bool sound;

	length = folder_get("tests/fixtures/registers/v2.db", whole,
			    sizeof whole);
	cr_assert_gt(length, 0);
	cr_assert(folder_put(original, whole, (size_t)length));
	memset(whole, 'x', 100);
	cr_assert(folder_put(path, whole, (size_t)length));
	memset(&done, 0, sizeof done);
	cr_assert(mend_register(folder, 14, today, count_missing, NULL, &sound,
				&done, &why),
		  "%s", why.sentence);
	cr_expect_not(sound);
	cr_expect_eq(done.facts.people, 6);
	cr_expect_eq(done.facts.form, 3);
	cr_expect_eq(done.refused, 0);
	cr_expect_eq(ask("SELECT count(*) FROM visit"), 8);
	cr_expect_eq(ask("SELECT count(*) FROM reply"), 3);
	cr_expect_eq(ask("SELECT count(*) FROM tally_written"), 2);
	cr_expect_eq(ask("SELECT count(*) FROM policy_text"), 1);
	expect_originals("older form", 0);
}
