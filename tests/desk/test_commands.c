/* Tests of desk/commands: help, manual, completion and README say the same. */
#include "desk/commands.h"

#include "base/text.h"
#include "clinic/findings.h"
#include "desk/run.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { WORDS_MOST = 8, LINE_SIZE = 600, SQUEEZED_SIZE = 20000 };

/* What `shoal LINE` prints of a table; to be freed. NULL when it is refused. */
static char *
print_of(const struct command_table *table, const char *line, struct fault *why)
{
	struct desk *desk = calloc(1, sizeof *desk);
	char words[LINE_SIZE], *argv[WORDS_MOST], *text = NULL;
	struct given given;
	size_t size;
	int argc = 0;
	bool done;

	cr_assert_not_null(desk);
	snprintf(words, sizeof words, "shoal %s", line);
	for (char *at = words; at != NULL; argc++) {
		cr_assert_lt(argc, WORDS_MOST);
		argv[argc] = at;
		at = strchr(at, ' ');
		if (at != NULL)
			*at++ = '\0';
	}
	desk->table = table;
	desk->out = open_memstream(&text, &size);
	cr_assert_not_null(desk->out);
	cr_assert(given_read(&given, &commands, argc, argv, why), "%s",
		  why->sentence);
	done = given.command->run(desk, &given, why);
	fclose(desk->out);
	free(desk);
	if (done)
		return text;
	free(text);
	return NULL;
}

static char *
printed(const char *line, struct fault *why)
{
	return print_of(&commands, line, why);
}

static char *
help(const char *what)
{
	struct fault why = {FAULT_NONE, ""};
	char line[LINE_SIZE], *text;

	snprintf(line, sizeof line, "help%s%s", what[0] == '\0' ? "" : " ",
		 what);
	text = printed(line, &why);
	cr_assert_not_null(text, "%s: %s", line, why.sentence);
	return text;
}

/* Runs of white space become one space. */
static char *
squeeze(const char *from, char *to)
{
	size_t used = 0;

	for (; *from != '\0'; from++) {
		bool space = *from == ' ' || *from == '\n';

		cr_assert_lt(used + 1, (size_t)SQUEEZED_SIZE);
		if (!space)
			to[used++] = *from;
		else if (used > 0 && to[used - 1] != ' ')
			to[used++] = ' ';
	}
	while (used > 0 && to[used - 1] == ' ')
		used--;
	to[used] = '\0';
	return to;
}

static bool
ends_with_stop(const char *text)
{
	return text[0] != '\0' && text[strlen(text) - 1] == '.';
}

static void
expect_option(const struct command_option *option, const char *of)
{
	cr_expect(option->about != NULL && option->about[0] != '\0', "%s --%s",
		  of, option->name);
	cr_expect_not(ends_with_stop(option->about), "%s --%s", of,
		      option->name);
	cr_expect_eq(strspn(option->name, "abcdefghijklmnopqrstuvwxyz-"),
		     strlen(option->name), "%s --%s", of, option->name);
}

Test(commands, every_row_is_whole)
{
	for (size_t i = 0; i < commands.global_count; i++)
		expect_option(&commands.global[i], "");
	for (size_t i = 0; i < commands.count; i++) {
		const struct command *command = &commands.command[i];
		int options = 0;

		cr_expect_gt(strlen(command->summary), 8U, "%s", command->name);
		cr_expect_not(ends_with_stop(command->summary), "%s",
			      command->name);
		cr_expect_gt(strlen(command->details), 20U, "%s",
			     command->name);
		cr_expect_not_null(command->run, "%s", command->name);
		cr_expect(command->least <= command->most &&
				  command->most <= COMMAND_ARGUMENTS_MOST,
			  "%s", command->name);
		while (command->option[options].name != NULL) {
			expect_option(&command->option[options++],
				      command->name);
			cr_assert_lt(options, COMMAND_OPTIONS_MOST, "%s",
				     command->name);
		}
		for (int j = 0; j < options; j++)
			for (int k = 0; k < j; k++)
				cr_expect_str_neq(command->option[j].name,
						  command->option[k].name, "%s",
						  command->name);
		for (size_t j = 0; j < i; j++)
			cr_expect_str_neq(command->name,
					  commands.command[j].name);
	}
}

static void
expect_80_columns(const char *text)
{
	while (*text != '\0') {
		size_t length = strcspn(text, "\n");

		cr_expect_leq(length, 80U, "%.*s", (int)length, text);
		text += length + (text[length] == '\n');
	}
}

Test(commands, help_lists_every_command_and_global_option)
{
	char *text = help("");
	char line[LINE_SIZE];

	for (size_t i = 0; i < commands.count; i++) {
		snprintf(line, sizeof line, "\n  %-14s %s\n",
			 commands.command[i].name, commands.command[i].summary);
		cr_expect_not_null(strstr(text, line), "%s", line);
	}
	for (size_t i = 0; i < commands.global_count; i++) {
		snprintf(line, sizeof line, "\n  --%s ",
			 commands.global[i].name);
		cr_expect_not_null(strstr(text, line), "%s", line);
	}
	expect_80_columns(text);
	free(text);
}

Test(commands, help_of_a_command_has_usage_details_and_options)
{
	char *one = malloc(SQUEEZED_SIZE), *other = malloc(SQUEEZED_SIZE);

	cr_assert(one != NULL && other != NULL);
	for (size_t i = 0; i < commands.count; i++) {
		const struct command *command = &commands.command[i];
		char *text = help(command->name), line[LINE_SIZE];

		snprintf(line, sizeof line, "usage: shoal %s%s%s\n\n%s.\n",
			 command->name,
			 command->arguments[0] == '\0' ? "" : " ",
			 command->arguments, command->summary);
		cr_expect_eq(strncmp(text, line, strlen(line)), 0, "%s",
			     command->name);
		expect_80_columns(text);
		squeeze(text, one);
		cr_expect_not_null(strstr(one,
					  squeeze(command->details, other)),
				   "%s: details", command->name);
		for (int j = 0; command->option[j].name != NULL; j++) {
			const struct command_option *option =
				&command->option[j];

			snprintf(line, sizeof line, "--%s %s %s", option->name,
				 option->value == NULL ? "" : option->value,
				 option->about);
			cr_expect_not_null(strstr(one, squeeze(line, other)),
					   "%s --%s", command->name,
					   option->name);
		}
		free(text);
	}
	free(one);
	free(other);
}

/* A name as the manual writes it, its hyphens made plain for troff. */
static char *
roff_name(const char *name, char *text)
{
	size_t used = 0;

	for (; *name != '\0'; name++) {
		if (*name == '-')
			text[used++] = '\\';
		text[used++] = *name;
	}
	text[used] = '\0';
	return text;
}

static void
expect_in_manual(const char *manual, const struct command_option *option,
		 const char *of)
{
	char line[LINE_SIZE], name[80];

	snprintf(line, sizeof line, "\n.TP\n.B \\-\\-%s %s\n",
		 roff_name(option->name, name),
		 option->value == NULL ? "" : option->value);
	cr_expect_not_null(strstr(manual, line), "%s: %s", of, line);
}

Test(commands, the_manual_has_every_command_and_option)
{
	char *text = help("--man"), line[LINE_SIZE];

	for (size_t i = 0; i < commands.count; i++) {
		const struct command *command = &commands.command[i];
		const char *section;

		snprintf(line, sizeof line, "\n.SS shoal %s %s\n",
			 command->name, command->arguments);
		section = strstr(text, line);
		cr_expect_not_null(section, "%s", line);
		for (int j = 0; section != NULL && command->option[j].name; j++)
			expect_in_manual(section, &command->option[j],
					 command->name);
	}
	for (size_t i = 0; i < commands.global_count; i++)
		expect_in_manual(strstr(text, "\n.SH OPTIONS FOR EVERY"),
				 &commands.global[i], "global");
	free(text);
}

Test(commands, the_manual_holds_no_request_by_accident)
{
	static const char known[] = " TH SH SS PP TP B I br ";
	char *text = help("--man");

	for (const char *line = text; *line != '\0';) {
		size_t length = strcspn(line, "\n");
		char request[LINE_SIZE];

		snprintf(request, sizeof request, " %.*s ",
			 (int)strcspn(line + 1, " \n"), line + 1);
		cr_expect(line[0] != '.' || strstr(known, request) != NULL,
			  "%.*s", (int)length, line);
		cr_expect_neq(line[0], '\'', "%.*s", (int)length, line);
		line += length + (line[length] == '\n');
	}
	free(text);
}

Test(commands, the_manual_protects_what_troff_would_take_for_its_own)
{
	static const struct command row = {
		.name = "look",
		.arguments = "",
		.summary = "'seen' at once",
		.details = ".br is no request, a-b and c\\d\n\nOn.\n  --look\n",
		.option = {{"far-off", "[FILE]", ".5 is a number"}}};
	static const struct command_table table = {&row, 1, NULL, 0};
	static const char expected[] = "\n.SS shoal look \n\\&'seen' at "
				       "once\n.PP\n"
				       "\\&.br is no request, a\\-b and "
				       "c\\ed\n.PP\nOn.\n"
				       ".br\n\\-\\-look\n.TP\n.B "
				       "\\-\\-far\\-off [FILE]\n"
				       "\\&.5 is a number\n";
	struct fault why;
	char *text = print_of(&table, "help --man", &why);

	cr_assert_not_null(text);
	cr_expect_not_null(strstr(text, expected), "%s", text);
	free(text);
}

/* The words offered behind a command's first word, from its opening quote to
 * the closing one, with a space before and behind. */
static void
branch_of(const char *completion, const char *first, int length, char *words)
{
	char label[LINE_SIZE];
	const char *at;

	snprintf(label, sizeof label, "\n\t%.*s) words='", length, first);
	at = strstr(completion, label);
	cr_assert_not_null(at, "%s", label);
	at += strlen(label);
	snprintf(words, LINE_SIZE, " %.*s ", (int)strcspn(at, "'"), at);
	cr_expect_null(strstr(at, label), "two branches of %.*s", length,
		       first);
}

static void
expect_word(const char *words, const char *hyphens, const char *word)
{
	char padded[LINE_SIZE];

	snprintf(padded, sizeof padded, " %s%s ", hyphens, word);
	cr_expect_not_null(strstr(words, padded), "%s in%s", padded, words);
}

Test(commands, completion_offers_every_command_and_option)
{
	char *text = help("--completion"), all[LINE_SIZE], own[LINE_SIZE];
	const char *at;

	branch_of(text, "*", 1, all);
	for (size_t i = 0; i < commands.count; i++) {
		const struct command *command = &commands.command[i];
		int length = (int)strcspn(command->name, " ");
		char first[LINE_SIZE];

		snprintf(first, sizeof first, "%.*s", length, command->name);
		expect_word(all, "", first);
		branch_of(text, command->name, length, own);
		if (command->name[length] == ' ')
			expect_word(own, "", command->name + length + 1);
		for (int j = 0; command->option[j].name != NULL; j++)
			expect_word(own, "--", command->option[j].name);
	}
	at = strstr(text, "words=\"$words");
	cr_assert_not_null(at);
	snprintf(own, sizeof own, "%.*s ", (int)strcspn(at + 7, "\""), at + 7);
	for (size_t i = 0; i < commands.global_count; i++)
		expect_word(own, "--", commands.global[i].name);
	free(text);
}

Test(commands, commands_of_one_first_word_share_a_branch_of_completion)
{
	static const struct command row[] = {
		{.name = "look in", .option = {{"far", NULL, "a"}}},
		{.name = "look out", .option = {{"near", "FILE", "b"}}},
		{.name = "leave"}};
	static const struct command_table table = {row, 3, NULL, 0};
	struct fault why;
	char *text = print_of(&table, "help --completion", &why);

	cr_assert_not_null(text);
	cr_expect_not_null(strstr(text, "\n\tlook) words=' in --far out "
					"--near' ;;\n\tleave) words='' ;;\n"
					"\t*) words='look leave ' ;;\n"),
			   "%s", text);
	free(text);
}

/* The program that runs the tests has the top of the source tree as its
 * folder. */
Test(commands, the_readme_lists_the_commands_as_the_program_does)
{
	static const char begin[] = "\n<!-- commands -->\n";
	char *readme = calloc(1, 200000), *text = help("--summaries");
	FILE *in = fopen("README.md", "r");
	char *block, *end, *expected = NULL;
	size_t size;
	FILE *out = open_memstream(&expected, &size);

	cr_assert_not_null(in, "README.md cannot be opened");
	cr_assert(readme != NULL && out != NULL);
	cr_assert_gt(fread(readme, 1, 199999, in), 0U);
	fclose(in);
	block = strstr(readme, begin);
	cr_assert_not_null(block, "no line <!-- commands --> in README.md");
	block += strlen(begin);
	end = strstr(block, "<!-- /commands -->\n");
	cr_assert_not_null(end, "no line <!-- /commands --> in README.md");
	*end = '\0';
	fprintf(out, "```\n%s```\n", text);
	fclose(out);
	cr_expect_str_eq(block, expected,
			 "the block of README.md is not what 'shoal help "
			 "--summaries' prints");
	free(expected);
	free(readme);
	free(text);
}

Test(commands, help_knows_findings_groups_of_commands_and_nothing_else)
{
	struct fault why = {FAULT_NONE, ""};
	char *text = help("findings"), line[LINE_SIZE];

	for (int i = 0; i < FINDING_COUNT; i++) {
		snprintf(line, sizeof line, "\n  %-18s %s\n",
			 finding_code((enum finding)i),
			 finding_about((enum finding)i));
		cr_expect_not_null(strstr(text, line), "%s", line);
	}
	free(text);
	text = help("policy");
	cr_expect_not_null(strstr(text, "usage: shoal policy check FILE\n"));
	free(text);
	cr_expect_null(printed("help harvest", &why));
	cr_expect_eq(why.kind, FAULT_USAGE);
	cr_expect_str_eq(why.sentence, "there is no command 'harvest'; 'shoal "
				       "help' lists them");
	cr_expect_null(printed("help policy harvest", &why));
}
