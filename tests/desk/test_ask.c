/* Tests of desk/ask: one question a line, one line an answer. */
#include "desk/ask.h"

#include "base/text.h"

#include <criterion/criterion.h>
#include <stdlib.h>
#include <string.h>

enum { TALK_SIZE = 8192, COLUMNS = 80 };

/* An asker whose input is `bytes`; what it says goes to `said`. */
static void
open_asker(struct asker *asker, const char *bytes, size_t length, char *said)
{
	asker->in = tmpfile();
	cr_assert_not_null(asker->in);
	cr_assert_eq(fwrite(bytes, 1, length, asker->in), length);
	rewind(asker->in);
	memset(said, 0, TALK_SIZE);
	asker->talk = fmemopen(said, TALK_SIZE, "w");
	cr_assert_not_null(asker->talk);
	asker->echoes = true;
	asker->columns = COLUMNS;
}

static void
close_asker(struct asker *asker)
{
	fclose(asker->in);
	fclose(asker->talk);
}

#define BYTES(text) (text), sizeof(text) - 1

static const struct {
	const char *bytes;
	size_t length;
	const char *shown;
	enum ask_result result;
	const char *answer, *said;
} rows[] = {
	{BYTES("58\n"), "", ASK_ANSWERED, "58", "Age: 58\n"},
	{BYTES("58\n"), "60", ASK_ANSWERED, "58", "Age [60]: 58\n"},
	{BYTES("\n"), "60", ASK_ANSWERED, "", "Age [60]: \n"},
	{BYTES("58"), "", ASK_ANSWERED, "58", "Age: 58\n"},
	{BYTES("58\r\n"), "", ASK_ANSWERED, "58", "Age: 58\n"},
	{BYTES("\r\n"), "60", ASK_ANSWERED, "", "Age [60]: \n"},
	{BYTES(" \t58 \r\n"), "", ASK_ANSWERED, "58", "Age: 58\n"},
	{BYTES("<\n"), "", ASK_BACK, "<", "Age: <\n"},
	{BYTES("<\r\n"), "", ASK_BACK, "<", "Age: <\n"},
	{BYTES(" ? \n"), "", ASK_HELP, "?", "Age: ?\n"},
	{BYTES("<<\n"), "", ASK_ANSWERED, "<<", "Age: <<\n"},
	{BYTES("-\n"), "", ASK_ANSWERED, "-", "Age: -\n"},
	{BYTES(""), "", ASK_ENDED, "", "Age: \n"},
	{BYTES("+44 77\n"), "", ASK_ANSWERED, "+44 77", "Age: +44 77\n"},
	{BYTES("=1\n"), "", ASK_ANSWERED, "=1", "Age: =1\n"},
	{BYTES("\033[2J\n"), "", ASK_ANSWERED, "\033[2J",
	 "Age: (cannot be shown)\n"},
	{BYTES("a\tb\n"), "", ASK_ANSWERED, "a\tb", "Age: (cannot be shown)\n"},
	{BYTES("5\r8\n"), "", ASK_ANSWERED, "5\r8", "Age: (cannot be shown)\n"},
	{BYTES("\xff\xfe\n"), "", ASK_ANSWERED, "\xff\xfe",
	 "Age: (cannot be shown)\n"},
	{BYTES("\xe2\x80\xae"
	       "abc\n"),
	 "", ASK_ANSWERED,
	 "\xe2\x80\xae"
	 "abc",
	 "Age: (cannot be shown)\n"},
	{BYTES("Bol\xc3\xa1\n"), "", ASK_ANSWERED, "Bol\xc3\xa1",
	 "Age: Bol\xc3\xa1\n"},
	{BYTES("5\0008\n7\n"), "", ASK_ANSWERED, "7",
	 "Age: 58\nThat line is too long or holds a NUL byte; please type it "
	 "again.\nAge: 7\n"},
	{BYTES("\0\n"), "", ASK_ENDED, "",
	 "Age: \nThat line is too long or holds a NUL byte; please type it "
	 "again.\nAge: \n"},
};

Test(ask, a_line_becomes_an_answer)
{
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		char answer[ASK_ANSWER_SIZE] = "", said[TALK_SIZE];
		struct asker asker;

		open_asker(&asker, rows[i].bytes, rows[i].length, said);
		cr_expect_eq(ask(&asker, "Age", rows[i].shown, answer),
			     rows[i].result, "row %zu", i);
		close_asker(&asker);
		cr_expect_str_eq(answer, rows[i].answer, "row %zu: %s", i,
				 answer);
		cr_expect_str_eq(said, rows[i].said, "row %zu: %s", i, said);
	}
}

Test(ask, a_terminal_echoes_by_itself)
{
	char answer[ASK_ANSWER_SIZE], said[TALK_SIZE];
	struct asker asker;

	open_asker(&asker, BYTES("58\n"), said);
	asker.echoes = false;
	cr_expect_eq(ask(&asker, "Age", "", answer), ASK_ANSWERED);
	close_asker(&asker);
	cr_expect_str_eq(said, "Age: ");
}

Test(ask, the_longest_line_fits_and_one_longer_is_asked_again)
{
	static char bytes[2 * ASK_ANSWER_SIZE + 10];
	char answer[ASK_ANSWER_SIZE], said[TALK_SIZE];
	struct asker asker;

	memset(bytes, 'a', ASK_ANSWER_SIZE - 1);
	memcpy(bytes + ASK_ANSWER_SIZE - 1, "\n", 1);
	open_asker(&asker, bytes, ASK_ANSWER_SIZE, said);
	cr_expect_eq(ask(&asker, "Name", "", answer), ASK_ANSWERED);
	cr_expect_eq(strlen(answer), (size_t)ASK_ANSWER_SIZE - 1);
	close_asker(&asker);

	memset(bytes, 'a', ASK_ANSWER_SIZE);
	memcpy(bytes + ASK_ANSWER_SIZE, "\nshort\n", 7);
	open_asker(&asker, bytes, ASK_ANSWER_SIZE + 7, said);
	cr_expect_eq(ask(&asker, "Name", "", answer), ASK_ANSWERED);
	cr_expect_str_eq(answer, "short");
	close_asker(&asker);
	cr_expect_not_null(strstr(said, "\nThat line is too long"));
}

Test(ask, a_prompt_is_broken_to_leave_room_for_an_answer)
{
	static const struct {
		int columns;
		const char *said;
	} widths[] = {
		{80, "RIGHT eye, pressure in mmHg [not measured]: 1\n"},
		{50, "RIGHT eye, pressure in mmHg [not measured]: 1\n"},
		{48, "RIGHT eye, pressure in mmHg [not\nmeasured]: 1\n"},
		{40, "RIGHT eye, pressure in mmHg [not\nmeasured]: 1\n"},
		{16, "RIGHT eye,\npressure\nin mmHg\n[not\nmeasured]: 1\n"},
	};

	for (size_t i = 0; i < sizeof widths / sizeof widths[0]; i++) {
		char answer[ASK_ANSWER_SIZE], said[TALK_SIZE];
		struct asker asker;

		open_asker(&asker, BYTES("1\n"), said);
		asker.columns = widths[i].columns;
		ask(&asker, "RIGHT eye, pressure in mmHg", "not measured",
		    answer);
		close_asker(&asker);
		cr_expect_str_eq(said, widths[i].said, "row %zu: %s", i, said);
	}
}

Test(ask, yes_or_no_is_asked_until_it_is_one_of_the_two)
{
	static const struct {
		const char *typed;
		enum ask_preset preset;
		enum ask_result result;
		bool yes;
		int prompts;
	} cases[] = {
		{"\n", ASK_PRESET_YES, ASK_ANSWERED, true, 1},
		{"\n", ASK_PRESET_NO, ASK_ANSWERED, false, 1},
		{"\n2\n", ASK_PRESET_NONE, ASK_ANSWERED, false, 2},
		{"1\n", ASK_PRESET_NO, ASK_ANSWERED, true, 1},
		{"2\n", ASK_PRESET_YES, ASK_ANSWERED, false, 1},
		{"2\r\n", ASK_PRESET_YES, ASK_ANSWERED, false, 1},
		{"<\n", ASK_PRESET_YES, ASK_BACK, false, 1},
		{"3\n?\n12\nyes\n1\n", ASK_PRESET_NO, ASK_ANSWERED, true, 5},
		{"", ASK_PRESET_YES, ASK_ENDED, false, 1},
		{"0\n", ASK_PRESET_YES, ASK_ENDED, false, 2},
	};

	for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
		char said[TALK_SIZE];
		struct asker asker;
		bool yes = true;
		int prompts = 0;

		open_asker(&asker, cases[i].typed, strlen(cases[i].typed),
			   said);
		cr_expect_eq(ask_yes(&asker, "Is that right?", cases[i].preset,
				     "It explains.", &yes),
			     cases[i].result, "row %zu", i);
		close_asker(&asker);
		cr_expect_eq(yes, cases[i].yes, "row %zu", i);
		for (const char *at = said;
		     (at = strstr(at, "Is that right?\n 1 yes\n 2 no\n")); at++)
			prompts++;
		cr_expect_eq(prompts, cases[i].prompts, "row %zu: %s", i, said);
		cr_expect_eq(strstr(said, "It explains.\n") != NULL,
			     strchr(cases[i].typed, '?') != NULL, "row %zu: %s",
			     i, said);
	}
}

Test(ask, a_number_key_is_asked_for_until_it_is_one_of_them)
{
	static const struct {
		const char *typed, *keys;
		char preset, key;
		const char *said;
	} cases[] = {
		{"\n", "123", '1', '1', " 1 a\nNumber [1]: \n"},
		{"3\n", "123", '1', '3', " 1 a\nNumber [1]: 3\n"},
		{"\n2\n", "12", '\0', '2',
		 " 1 a\nNumber: \nPlease type 1 or 2.\n 1 a\nNumber: 2\n"},
		{"4\n5\n", "1235", '1', '5',
		 " 1 a\nNumber [1]: 4\nPlease type 1, 2, 3 or 5.\n 1 a\n"
		 "Number [1]: 5\n"},
		{"<\n", "12", '1', '<', " 1 a\nNumber [1]: <\n"},
		{"?\n1\n", "12", '2', '1',
		 " 1 a\nNumber [2]: ?\nWhy.\n 1 a\nNumber [2]: 1\n"},
		{"11\n", "12", '1', '\0',
		 " 1 a\nNumber [1]: 11\nPlease type 1 or 2.\n 1 a\nNumber [1]: "
		 "\n"},
	};

	for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
		char said[TALK_SIZE];
		struct asker asker;

		open_asker(&asker, cases[i].typed, strlen(cases[i].typed),
			   said);
		cr_expect_eq(ask_key(&asker, " 1 a\n", cases[i].keys,
				     cases[i].preset, "Why."),
			     cases[i].key, "row %zu", i);
		close_asker(&asker);
		cr_expect_str_eq(said, cases[i].said, "row %zu: %s", i, said);
	}
}
