/* test_policyfile.c: the policy file, read whole or refused whole. */
#include "keep/policyfile.h"

#include "base/embedded.h"

#include <criterion/criterion.h>
#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define COUNT(rows) (sizeof(rows) / sizeof(rows)[0])
#define FOLDER "tests/fixtures/policies/"

enum { TEXT_SIZE = 65537, HEARD_MOST = 16, EXPECT_SIZE = 4096 };

/* Every sentence told, one a line, without the name of the file. */
struct heard {
	const char *name;
	int count;
	char told[EXPECT_SIZE];
};

static void
hear(void *context, const struct fault *one)
{
	struct heard *heard = context;
	const char *sentence = one->sentence;
	size_t length = strlen(heard->name), used = strlen(heard->told);

	heard->count++;
	if (strncmp(sentence, heard->name, length) == 0) {
		sentence += length;
		sentence += strncmp(sentence, ": ", 2) == 0 ? 2 : 1;
	}
	snprintf(heard->told + used, sizeof heard->told - used, "%s\n",
		 sentence);
}

static bool
read_text(const char *text, struct policy *policy, struct heard *heard)
{
	struct fault why;

	*heard = (struct heard){.name = "p.ini"};
	return policyfile_read_bytes("p.ini", text, strlen(text), policy, hear,
				     heard, &why);
}

static size_t
read_whole(const char *path, char *text, size_t size)
{
	FILE *in = fopen(path, "rb");
	size_t length;

	cr_assert_not_null(in, "there is no %s", path);
	length = fread(text, 1, size - 1, in);
	text[length] = '\0';
	fclose(in);
	return length;
}

/* Calls `see` for each .ini file of a folder; returns how many. */
static int
visit_files(const char *folder, void (*see)(const char *path, const char *name))
{
	DIR *open = opendir(folder);
	struct dirent *file;
	char path[512];
	int count = 0;

	cr_assert_not_null(open, "there is no %s", folder);
	while ((file = readdir(open)) != NULL) {
		if (strstr(file->d_name, ".ini") == NULL)
			continue;
		snprintf(path, sizeof path, "%s/%s", folder, file->d_name);
		see(path, file->d_name);
		count++;
	}
	closedir(open);
	return count;
}

/* The sentences that a bad file has to earn: its first lines "; expect: ", or
 * a row here where the file cannot hold a comment. */
static void
find_expected(const char *name, const char *text, char *expected)
{
	static const struct {
		const char *name, *sentence;
	} rows[] = {
		{"empty.ini", "it is empty, or holds nothing but comments; a "
			      "section such as [policy] is needed\n"},
		{"utf-16.ini", "it is saved as UTF-16; save it as plain text "
			       "in UTF-8\n"},
		{"cr-only-line-ends.ini", "1: the line ends in CR alone; save "
					  "the file with LF or CRLF "
					  "line ends\n"},
		{"file-over-64-kib.ini", ""},
	};
	static const char mark[] = "; expect: ";

	expected[0] = '\0';
	for (size_t i = 0; i < COUNT(rows); i++)
		if (strcmp(rows[i].name, name) == 0) {
			strcpy(expected, rows[i].sentence);
			return;
		}
	while (strncmp(text, mark, strlen(mark)) == 0) {
		size_t length;

		text += strlen(mark);
		length = strcspn(text, "\n") + 1;
		cr_assert_lt(strlen(expected) + length, (size_t)EXPECT_SIZE);
		strncat(expected, text, length);
		text += length;
	}
	cr_expect_neq(expected[0], '\0', "%s does not say what it expects",
		      name);
}

static void
see_bad(const char *path, const char *name)
{
	static char text[2 * TEXT_SIZE];
	char expected[EXPECT_SIZE], closing[300];
	struct heard heard = {.name = name};
	struct policy policy;
	struct fault why = {0};

	read_whole(path, text, sizeof text);
	find_expected(name, text, expected);
	cr_expect_not(policyfile_read(path, &policy, NULL, 0, hear, &heard,
				      &why),
		      "%s is accepted", name);
	cr_expect_str_eq(heard.told, expected, "%s", name);
	snprintf(closing, sizeof closing,
		 heard.count == 0 ? "'%s' is too large; at most 65536 bytes "
				    "are allowed"
				  : "'%s' has %d fault%s and was not read",
		 heard.count == 0 ? path : name, heard.count,
		 heard.count == 1 ? "" : "s");
	cr_expect_str_eq(why.sentence, closing, "%s", name);
	cr_expect_eq(why.kind, FAULT_POLICY, "%s", name);
}

Test(policyfile, bad_files_earn_exactly_their_sentences)
{
	int count = visit_files(FOLDER "bad", see_bad);

	cr_expect_geq(count, 100, "only %d files", count);
}

static void
see_good(const char *path, const char *name)
{
	struct heard heard = {.name = name};
	struct policy policy;
	struct fault why;

	cr_expect(policyfile_read(path, &policy, NULL, 0, hear, &heard, &why),
		  "%s is refused: %s", name, heard.told);
	cr_expect_eq(heard.count, 0, "%s: %s", name, heard.told);
	cr_expect_eq(policy.rule_count, 1, "%s", name);
}

Test(policyfile, good_files_are_read)
{
	int count = visit_files(FOLDER "good", see_good);

	cr_expect_geq(count, 9, "only %d files", count);
}

static void
fingerprint_of(const char *text, char *fingerprint)
{
	struct policy policy;
	struct heard heard;

	cr_assert(read_text(text, &policy, &heard), "%s", heard.told);
	policy_fingerprint(&policy, fingerprint);
}

/* The default policy, approved, so that each of its keys may change alone. */
static void
write_default(char *text, size_t size)
{
	const char *from = (const char *)embedded_policy;
	const char *at = strstr(from, "approved_by = \"\"\napproved_on = \"\"");

	cr_assert_not_null(at);
	snprintf(text, size, "%.*s%s%s", (int)(at - from), from,
		 "approved_by = \"Dr A. Example\"\n"
		 "approved_on = \"2026-03-09\"",
		 at + strlen("approved_by = \"\"\napproved_on = \"\""));
}

Test(policyfile, the_default_is_read_from_the_program_and_from_the_file)
{
	static char text[TEXT_SIZE], bytes[TEXT_SIZE];
	struct policy compiled, read;
	struct heard heard = {.name = "policy.ini"};
	struct fault why;
	char one[POLICY_MARK_SIZE], other[POLICY_MARK_SIZE];
	size_t length = read_whole("config/policy.ini", bytes, sizeof bytes);

	cr_assert(policyfile_read_bytes(
			  "policy.ini", (const char *)embedded_policy,
			  embedded_policy_size, &compiled, hear, &heard, &why),
		  "%s", heard.told);
	cr_assert(policyfile_read("config/policy.ini", &read, text, sizeof text,
				  hear, &heard, &why),
		  "%s", heard.told);
	policy_fingerprint(&compiled, one);
	policy_fingerprint(&read, other);
	cr_expect_str_eq(one, other);
	cr_expect_eq(strlen(one), 6);
	cr_expect_eq(strlen(text), length);
	cr_expect_str_eq(text, bytes);
	cr_expect_eq(read.rule_count, 43);
	cr_expect_not(policy_is_approved(&read));
	cr_expect(day_is_none(read.approved_on));
	cr_expect_eq(read.age_bands.count, 4);
}

/* Copies `from`, but puts `value` behind the '=' of one of its lines, or leaves
 * that line empty when `value` is NULL. */
static void
write_changed(const char *from, const char *line, const char *value, char *text)
{
	const char *begin = value == NULL ? line : strchr(line, '=') + 1;
	const char *end = line + strcspn(line, "\n");

	sprintf(text, "%.*s%s%s", (int)(begin - from), from,
		value == NULL ? "" : value, end);
}

static bool
is_key_line(const char *line)
{
	return line[0] >= 'a' && line[0] <= 'z';
}

/* Puts in the first value that is accepted and not the line's own; false when
 * there is none. */
static bool
check_one_key(const char *from, const char *line, const char *fingerprint)
{
	static const char *const values[] = {
		" \"changed\"", " 2",	 " 3",	 " 5",
		" 40",		" no",	 " yes", " headache, nausea",
		" 2026-03-10",	" 40,50"};
	static char text[TEXT_SIZE];
	size_t length = strcspn(line, "\n");

	for (size_t i = 0; i < COUNT(values); i++) {
		struct policy policy;
		struct heard heard;
		char other[POLICY_MARK_SIZE];

		write_changed(from, line, values[i], text);
		if (strcmp(text, from) == 0 ||
		    !read_text(text, &policy, &heard))
			continue;
		policy_fingerprint(&policy, other);
		cr_expect_str_neq(other, fingerprint, "%.*s <-%s", (int)length,
				  line, values[i]);
		return true;
	}
	return false;
}

Test(policyfile, any_change_of_any_value_changes_the_fingerprint)
{
	static char text[TEXT_SIZE];
	char fingerprint[POLICY_MARK_SIZE];
	int keys = 0;

	write_default(text, sizeof text);
	fingerprint_of(text, fingerprint);
	for (const char *line = text; *line != '\0';
	     line += strcspn(line, "\n") + 1) {
		if (!is_key_line(line))
			continue;
		/* With "no" that rule would hold for everybody. */
		cr_expect(check_one_key(text, line, fingerprint) ||
				  strncmp(line, "not_gradable =", 14) == 0,
			  "no other value is accepted for '%.*s'",
			  (int)strcspn(line, "\n"), line);
		keys++;
	}
	cr_expect_gt(keys, 190, "only %d keys", keys);
}

Test(policyfile, a_line_taken_out_or_a_rule_moved_changes_the_fingerprint)
{
	static char text[TEXT_SIZE], other[TEXT_SIZE];
	char fingerprint[POLICY_MARK_SIZE], moved[POLICY_MARK_SIZE];
	const char *first, *second, *third;
	int taken = 0;

	write_default(text, sizeof text);
	fingerprint_of(text, fingerprint);
	for (const char *line = text; *line != '\0';
	     line += strcspn(line, "\n") + 1) {
		struct policy policy;
		struct heard heard;

		write_changed(text, line, NULL, other);
		if (!is_key_line(line) || !read_text(other, &policy, &heard))
			continue;
		policy_fingerprint(&policy, moved);
		cr_expect_str_neq(moved, fingerprint, "without '%.*s'",
				  (int)strcspn(line, "\n"), line);
		taken++;
	}
	cr_expect_gt(taken, 40, "only %d lines", taken);

	first = strstr(text, "[rule eye-pain]");
	second = strstr(text, "[rule new-dim-sight]");
	third = strstr(text, "[rule shallow]");
	cr_assert(first < second && second < third);
	sprintf(other, "%.*s%.*s%.*s%s", (int)(first - text), text,
		(int)(third - second), second, (int)(second - first), first,
		third);
	fingerprint_of(other, moved);
	cr_expect_str_neq(moved, fingerprint);
}

/* One way of writing the same policy: `line` to `text`, returns the bytes. */
typedef int write_line(const char *line, int length, char *text);

static int
with_crlf(const char *line, int length, char *text)
{
	return sprintf(text, "%.*s\r\n", length, line);
}

static int
without_comments(const char *line, int length, char *text)
{
	return line[0] == ';' ? 0 : sprintf(text, "%.*s\n", length, line);
}

static int
with_comments(const char *line, int length, char *text)
{
	return sprintf(text, "# c\n%.*s\n\n", length, line);
}

static int
with_spaces(const char *line, int length, char *text)
{
	int key = (int)strcspn(line, "=");

	if (!is_key_line(line))
		return sprintf(text, " %.*s\t\n", length, line);
	return sprintf(text, "\t%.*s  =\t%.*s  \n", key, line, length - key - 1,
		       line + key + 1);
}

static int
with_single_quotes(const char *line, int length, char *text)
{
	int written = sprintf(text, "%.*s\n", length, line);

	/* Not where the text holds one. */
	if (is_key_line(line) && strchr(text, '\'') == NULL)
		for (char *at = text; *at != '\0'; at++)
			if (*at == '"')
				*at = '\'';
	return written;
}

static int
with_quotes_everywhere(const char *line, int length, char *text)
{
	int key = (int)strcspn(line, "=");

	if (!is_key_line(line) || line[length - 1] == '"')
		return sprintf(text, "%.*s\n", length, line);
	return sprintf(text, "%.*s= \"%.*s\"\n", key, line, length - key - 2,
		       line + key + 2);
}

Test(policyfile, how_a_policy_is_written_does_not_change_the_fingerprint)
{
	static write_line *const ways[] = {
		with_crlf,   without_comments,	 with_comments,
		with_spaces, with_single_quotes, with_quotes_everywhere};
	static char text[TEXT_SIZE], other[2 * TEXT_SIZE];
	char fingerprint[POLICY_MARK_SIZE], same[POLICY_MARK_SIZE];

	write_default(text, sizeof text);
	fingerprint_of(text, fingerprint);
	for (size_t way = 0; way < COUNT(ways); way++) {
		size_t used = 0;

		for (const char *line = text; *line != '\0';) {
			int length = (int)strcspn(line, "\n");

			used += (size_t)ways[way](line, length, other + used);
			line += length + (line[length] == '\n');
		}
		other[used] = '\0';
		fingerprint_of(other, same);
		cr_expect_str_eq(same, fingerprint, "way %zu", way);
		cr_expect_str_neq(text, other, "way %zu", way);
	}
}

Test(policyfile, good_files_that_mean_the_same_have_one_fingerprint)
{
	static const char *const names[] = {
		"minimal",	   "other-order",      "crlf-line-ends",
		"byte-order-mark", "no-final-newline", "single-quotes",
		"hash-comment"};
	static const char *const others[] = {"approved", "comment-marks-in-"
							 "quotes"};
	static char text[TEXT_SIZE];
	char path[128], first[POLICY_MARK_SIZE], mark[POLICY_MARK_SIZE];

	for (size_t i = 0; i < COUNT(names) + COUNT(others); i++) {
		bool alike = i < COUNT(names);

		snprintf(path, sizeof path, FOLDER "good/%s.ini",
			 alike ? names[i] : others[i - COUNT(names)]);
		read_whole(path, text, sizeof text);
		fingerprint_of(text, mark);
		if (i == 0)
			memcpy(first, mark, sizeof first);
		cr_expect_eq(strcmp(mark, first) == 0, alike, "%s", path);
	}
}

/* What the comment at the rule "shallow" offers: two lines of the default. */
Test(policyfile, below_in_place_of_at_or_below_is_a_change_of_two_lines)
{
	static const char *const rules[] = {"[rule shallow]", "[rule "
							      "unequal-"
							      "chambers]"};
	static char text[TEXT_SIZE];
	const char *at_or_below = "depth_at_or_below_percent = 25";
	const char *below = "depth_below_percent = 25";
	struct policy policy, before;
	struct heard heard;
	char one[POLICY_MARK_SIZE], other[POLICY_MARK_SIZE];

	snprintf(text, sizeof text, "%s", (const char *)embedded_policy);
	cr_assert(read_text(text, &before, &heard), "%s", heard.told);
	for (size_t i = 0; i < COUNT(rules); i++) {
		char *at = strstr(text, rules[i]);

		cr_assert_not_null(at);
		at = strstr(at, at_or_below);
		cr_assert_not_null(at);
		memmove(at + strlen(below), at + strlen(at_or_below),
			strlen(at + strlen(at_or_below)) + 1);
		memcpy(at, below, strlen(below));
	}
	cr_assert(read_text(text, &policy, &heard), "%s", heard.told);
	for (int i = 0; i < policy.rule_count; i++) {
		const struct rule *rule = &policy.rule[i];
		bool changed = strcmp(rule->name, "shallow") == 0 ||
			       strcmp(rule->name, "unequal-chambers") == 0;

		cr_expect_eq(rule->depth_below_percent,
			     changed ? DEPTH_25 : DEPTH_BLANK, "%s",
			     rule->name);
		cr_expect_eq(rule->depth_at_or_below_percent,
			     changed ? DEPTH_BLANK
				     : before.rule[i].depth_at_or_below_percent,
			     "%s", rule->name);
	}
	policy_fingerprint(&before, one);
	policy_fingerprint(&policy, other);
	cr_expect_str_neq(one, other);
}

/* No needed line of the default may go without a fault. */
Test(policyfile, a_needed_key_that_is_missing_is_never_a_default)
{
	static const char *const needed[] = {"name =",
					     "version =",
					     "urgent_within_days =",
					     "months =",
					     "age_bands =",
					     "say =",
					     "refer_within_days =",
					     "rescreen_within_months ="};
	static char text[TEXT_SIZE], other[TEXT_SIZE];
	int tried[COUNT(needed)] = {0};

	write_default(text, sizeof text);
	for (const char *line = text; *line != '\0';
	     line += strcspn(line, "\n") + 1)
		for (size_t i = 0; i < COUNT(needed); i++) {
			struct policy policy;
			struct heard heard;

			if (strncmp(line, needed[i], strlen(needed[i])) != 0)
				continue;
			tried[i]++;
			write_changed(text, line, NULL, other);
			cr_expect_not(read_text(other, &policy, &heard),
				      "without '%.*s'",
				      (int)strcspn(line, "\n"), line);
			cr_expect_eq(heard.count, 1, "without '%.*s': %s",
				     (int)strcspn(line, "\n"), line,
				     heard.told);
		}
	for (size_t i = 0; i < COUNT(needed); i++)
		cr_expect_gt(tried[i], 0, "'%s' was never tried", needed[i]);
}

Test(policyfile, a_text_that_does_not_fit_is_refused)
{
	struct policy policy;
	struct heard heard = {.name = "policy.ini"};
	struct fault why;
	char text[100];

	cr_expect_not(policyfile_read("config/policy.ini", &policy, text,
				      sizeof text, hear, &heard, &why));
	cr_expect_eq(why.kind, FAULT_POLICY);
}
