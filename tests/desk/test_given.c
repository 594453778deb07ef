/* Tests of desk/given: the command line, taken apart. */
#include "desk/given.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

enum { WORDS_MOST = 40, TEXT_SIZE = 600 };

static const struct command rows[] = {
	{.name = "look",
	 .arguments = "NUMBER [OPTIONS]",
	 .option = {{"deep", NULL, "deeply"},
		    {"sheet", "[FILE]", "a sheet"},
		    {"station", "0014", "the code"},
		    {"say", "TEXT", "a text"},
		    {"set", "NAME=VALUE", "a value"}},
	 .least = 1,
	 .most = 2},
	{.name = "policy check", .arguments = "FILE", .least = 1, .most = 1},
	{.name = "policy show", .arguments = "", .least = 0, .most = 0},
};

static const struct command_option global[] = {
	{"book", "DIR", "the folder"},
	{"station", "FILE", "a file"},
	{"help", NULL, "help"},
};

static const struct command_table table = {rows, 3, global, 3};

/* Words of a command line: separated by one space, `''` is an empty one. */
static int
split(char *line, char *argv[])
{
	int argc = 0;

	for (char *at = line; at != NULL && argc < WORDS_MOST; argc++) {
		argv[argc] = at;
		at = strchr(at, ' ');
		if (at != NULL)
			*at++ = '\0';
		if (strcmp(argv[argc], "''") == 0)
			argv[argc][0] = '\0';
	}
	argv[argc] = NULL;
	return argc;
}

/* "look(argument,...) option=value ..." */
static void
describe(const struct given *given, char *text)
{
	size_t used = (size_t)snprintf(
		text, TEXT_SIZE, "%s(",
		given->command == NULL ? "" : given->command->name);

	for (int i = 0; i < given->arguments; i++)
		used += (size_t)snprintf(text + used, TEXT_SIZE - used, "%s%s",
					 i > 0 ? "," : "", given->argument[i]);
	used += (size_t)snprintf(text + used, TEXT_SIZE - used, ")");
	for (int i = 0; i < given->options; i++)
		used += (size_t)snprintf(text + used, TEXT_SIZE - used,
					 " %s=%s", given->option[i].name,
					 given->option[i].value);
}

static const struct {
	const char *line, *expected;
} good[] = {
	{"shoal", "()"},
	{"shoal look 7", "look(7)"},
	{"shoal look 7 8", "look(7,8)"},
	{"shoal look 7 --deep", "look(7) deep="},
	{"shoal look --deep 7", "look(7) deep="},
	{"shoal look 7 --say word", "look(7) say=word"},
	{"shoal look 7 --say=word", "look(7) say=word"},
	{"shoal look 7 --say=", "look(7) say="},
	{"shoal look 7 --say ''", "look(7) say="},
	{"shoal look 7 --set a=1 --set ab=1 --set b=1", "look(7) set=a=1 "
							"set=ab=1 set=b=1"},
	{"shoal look 7 --say=a=b", "look(7) say=a=b"},
	{"shoal look 7 --say -", "look(7) say=-"},
	{"shoal look 7 --say -3", "look(7) say=-3"},
	{"shoal look 7 --say=--deep", "look(7) say=--deep"},
	{"shoal look 7 --sheet", "look(7) sheet="},
	{"shoal look 7 --sheet --deep", "look(7) sheet= deep="},
	{"shoal look 7 --sheet f.csv", "look(7) sheet=f.csv"},
	{"shoal look 7 --sheet=f.csv", "look(7) sheet=f.csv"},
	{"shoal look 7 --sheet -", "look(7) sheet=-"},
	{"shoal look -", "look(-)"},
	{"shoal look ''", "look()"},
	{"shoal look -- --deep", "look(--deep)"},
	{"shoal look -- -x --", "look(-x,--)"},
	{"shoal look --sheet -- 7", "look(7) sheet="},
	{"shoal -- look 7", "look(7)"},
	{"shoal --book here look 7", "look(7) book=here"},
	{"shoal look --book here 7", "look(7) book=here"},
	{"shoal look 7 --book=here", "look(7) book=here"},
	{"shoal --help", "() help="},
	{"shoal look --help", "look() help="},
	{"shoal policy check f.ini", "policy check(f.ini)"},
	{"shoal --book b policy check f.ini", "policy check(f.ini) book=b"},
	{"shoal policy show", "policy show()"},
};

Test(given, a_sound_line_is_taken_apart)
{
	for (size_t i = 0; i < sizeof good / sizeof good[0]; i++) {
		char line[TEXT_SIZE], text[TEXT_SIZE], *argv[WORDS_MOST + 1];
		struct given given;
		struct fault why = {FAULT_NONE, ""};
		int argc;

		snprintf(line, sizeof line, "%s", good[i].line);
		argc = split(line, argv);
		if (!given_read(&given, &table, argc, argv, &why)) {
			cr_expect(false, "row %zu: %s: %s", i, good[i].line,
				  why.sentence);
			continue;
		}
		cr_expect_eq(why.kind, FAULT_NONE, "row %zu", i);
		describe(&given, text);
		cr_expect_str_eq(text, good[i].expected, "row %zu: %s", i,
				 text);
	}
}

static const struct {
	const char *line, *sentence;
} bad[] = {
	{"shoal loook", "'loook' is not a command; did you mean 'shoal look'?"},
	{"shoal lo", "'lo' is not a command; did you mean 'shoal look'?"},
	{"shoal Look", "'Look' is not a command; did you mean 'shoal look'?"},
	{"shoal harvest", "'harvest' is not a command; 'shoal help' lists "
			  "them"},
	{"shoal ''", "'' is not a command; 'shoal help' lists them"},
	{"shoal -", "'-' is not a command; 'shoal help' lists them"},
	{"shoal policy", "'policy' is not a command; did you mean 'shoal "
			 "policy check'?"},
	{"shoal policy chek", "'policy' is not a command; did you mean 'shoal "
			      "policy check'?"},
	{"shoal \033[31m", "'?[31m' is not a command; 'shoal help' lists them"},
	{"shoal look 7 --depe", "'shoal look' has no option '--depe'; did you "
				"mean '--deep'?"},
	{"shoal look 7 --boo", "'shoal look' has no option '--boo'; did you "
			       "mean '--book'?"},
	{"shoal look 7 --harvest", "'shoal look' has no option '--harvest'; "
				   "'shoal help look' lists them"},
	{"shoal look 7 --harvest=1", "'shoal look' has no option '--harvest'; "
				     "'shoal help look' lists them"},
	{"shoal look 7 --=1", "'shoal look' has no option '--'; "
			      "'shoal help look' lists them"},
	{"shoal --say x look 7", "'shoal' has no option '--say'; 'shoal help' "
				 "lists them"},
	{"shoal --bok x look 7", "'shoal' has no option '--bok'; did you mean "
				 "'--book'?"},
	{"shoal look 7 --say", "the option '--say' needs a value: --say TEXT"},
	{"shoal look 7 --say --deep", "the option '--say' needs a value: --say "
				      "TEXT"},
	{"shoal look 7 --station", "the option '--station' needs a value: "
				   "--station 0014"},
	{"shoal policy check --station", "the option '--station' needs a "
					 "value: --station FILE"},
	{"shoal --book --help", "the option '--book' needs a value: "
				"--book DIR"},
	{"shoal look 7 --deep=yes", "the option '--deep' takes no value"},
	{"shoal look 7 --deep=", "the option '--deep' takes no value"},
	{"shoal look 7 8 9", "'9' is too much; usage: shoal look NUMBER "
			     "[OPTIONS]"},
	{"shoal look", "something is missing; usage: shoal look NUMBER "
		       "[OPTIONS]"},
	{"shoal policy check", "something is missing; usage: shoal policy "
			       "check FILE"},
	{"shoal policy show x", "'x' is too much; usage: shoal policy show"},
	{"shoal look 7 -x", "'-x' is not an option; options begin with two "
			    "hyphens"},
	{"shoal -x", "'-x' is not an option; options begin with two hyphens"},
	{"shoal look 7 --say a --deep --say b", "'--say' is given twice; one "
						"is enough, so that it is "
						"clear which "
						"counts"},
	{"shoal look 7 --deep --deep", "'--deep' is given twice; one is "
				       "enough, so that it is clear which "
				       "counts"},
	{"shoal look 7 --set a=1 --set b=1 --set a=2", "'--set a' is given "
						       "twice; one is enough, "
						       "so that it is clear "
						       "which "
						       "counts"},
	{"shoal look -7", "'-7' is not an option; options begin with two "
			  "hyphens"},
};

Test(given, what_is_wrong_is_told_in_one_sentence)
{
	for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
		char line[TEXT_SIZE], *argv[WORDS_MOST + 1];
		struct given given;
		struct fault why = {FAULT_NONE, ""};
		int argc;

		snprintf(line, sizeof line, "%s", bad[i].line);
		argc = split(line, argv);
		cr_expect_not(given_read(&given, &table, argc, argv, &why),
			      "row %zu: %s", i, bad[i].line);
		cr_expect_eq(why.kind, FAULT_USAGE, "row %zu", i);
		cr_expect_str_eq(why.sentence, bad[i].sentence, "row %zu: %s",
				 i, why.sentence);
	}
}

Test(given, the_last_value_of_a_global_option_counts)
{
	char line[] = "shoal --book a look 7 --say b --deep --book c";
	char *argv[WORDS_MOST + 1];
	struct given given;
	struct fault why;

	cr_assert(given_read(&given, &table, split(line, argv), argv, &why));
	cr_expect_str_eq(given_value(&given, "say"), "b");
	cr_expect_str_eq(given_value(&given, "deep"), "");
	cr_expect_null(given_value(&given, "sheet"));
	cr_expect(given_is(&given, "deep"));
	cr_expect_str_eq(given_value(&given, "book"), "c");
	cr_expect_not(given_is(&given, "help"));
}

Test(given, as_many_options_as_fit_and_no_more)
{
	char line[] = "shoal look 7", deep[] = "--book=x";
	char *argv[GIVEN_OPTIONS_MOST + 5];
	struct given given;
	struct fault why = {FAULT_NONE, ""};
	int argc = split(line, argv);

	for (int i = 0; i <= GIVEN_OPTIONS_MOST; i++)
		argv[argc + i] = deep;
	argc += GIVEN_OPTIONS_MOST;
	cr_assert(given_read(&given, &table, argc, argv, &why));
	cr_expect_eq(given.options, GIVEN_OPTIONS_MOST);
	cr_expect_not(given_read(&given, &table, argc + 1, argv, &why));
	cr_expect_str_eq(why.sentence, "more than 32 options are given");
}
