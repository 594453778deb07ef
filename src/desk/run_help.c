/* run_help.c: help, manual, completion: all from the table of commands. */
#include "desk/run.h"

#include "base/text.h"
#include "clinic/findings.h"
#include "desk/version.h"

#include <string.h>

static void
write_option(FILE *out, const struct command_option *option, int columns)
{
	char label[60];

	snprintf(label, sizeof label, "  --%s %s", option->name,
		 option->value == NULL ? "" : option->value);
	fprintf(out, "%-24s ", label);
	text_write_wrapped(out, option->about, columns, 25, 25);
}

/* Paragraphs are separated by empty lines; lines that begin with a space
 * stand as they are. */
static void
write_paragraphs(FILE *out, const char *text, int columns)
{
	char line[600];

	while (*text != '\0') {
		size_t length = strcspn(text, "\n");

		snprintf(line, sizeof line, "%.*s", (int)length, text);
		if (line[0] == ' ')
			fprintf(out, "%s\n", line);
		else
			text_write_wrapped(out, line, columns, 0, 0);
		text += length;
		text += *text == '\n';
	}
}

static void
write_summaries(FILE *out, const struct command_table *table)
{
	for (size_t i = 0; i < table->count; i++)
		fprintf(out, "  %-14s %s\n", table->command[i].name,
			table->command[i].summary);
}

static void
help_all(const struct desk *desk)
{
	FILE *out = desk->out;

	fprintf(out, "shoal - screening the chamber's depth at an eye camp\n"
		     "\nusage: shoal COMMAND [OPTIONS]\n\n");
	write_summaries(out, desk->table);
	fprintf(out, "\nFor every command:\n");
	for (size_t i = 0; i < desk->table->global_count; i++)
		write_option(out, &desk->table->global[i], 78);
	fprintf(out, "\n'shoal help COMMAND' says more; 'shoal help findings' "
		     "lists the codes.\nScreening is not a diagnosis. Local "
		     "protocol and licensed clinicians decide.\n");
}

static void
help_command(const struct desk *desk, const struct command *command)
{
	FILE *out = desk->out;

	fprintf(out, "usage: shoal %s%s%s\n\n%s.\n\n", command->name,
		command->arguments[0] == '\0' ? "" : " ", command->arguments,
		command->summary);
	write_paragraphs(out, command->details, 78);
	if (command->option[0].name != NULL)
		fprintf(out, "\n");
	for (int i = 0; command->option[i].name != NULL; i++)
		write_option(out, &command->option[i], 78);
}

static void
help_findings(const struct desk *desk)
{
	static const char *const title[GROUP_COUNT] = {
		"Of the person, now or lately:", "Of the person, standing:",
		"Of an eye (right:CODE, left:CODE), signs:",
		"Of an eye (right:CODE, left:CODE), history:",
		"Derived, never typed:"};

	for (int group = 0; group < GROUP_COUNT; group++) {
		fprintf(desk->out, "%s\n", title[group]);
		for (int i = 0; i < FINDING_COUNT; i++)
			if (finding_group((enum finding)i) ==
			    (enum finding_group)group)
				fprintf(desk->out, "  %-18s %s\n",
					finding_code((enum finding)i),
					finding_about((enum finding)i));
	}
}

/* Text of a manual: a leading point or quote would be a request to troff, a
 * hyphen a typographic one. */
static void
write_roff(FILE *out, const char *text)
{
	bool fresh = true;

	for (; *text != '\0'; text++) {
		if (fresh && (*text == '.' || *text == '\''))
			fputs("\\&", out);
		if (*text == '-')
			fputc('\\', out);
		if (*text == '\\')
			fputs("\\e", out);
		else if (!(fresh && *text == ' '))
			fputc(*text, out);
		fresh = *text == '\n' || (fresh && *text == ' ');
	}
	fputc('\n', out);
}

static void
man_option(FILE *out, const struct command_option *option)
{
	fprintf(out, ".TP\n.B \\-\\-");
	for (const char *c = option->name; *c != '\0'; c++)
		fprintf(out, *c == '-' ? "\\-" : "%c", *c);
	fprintf(out, " %s\n", option->value == NULL ? "" : option->value);
	write_roff(out, option->about);
}

/* An indented line stands on a line of its own. */
static void
man_details(FILE *out, const char *text)
{
	while (*text != '\0') {
		size_t length = strcspn(text, "\n");
		char line[600];

		snprintf(line, sizeof line, "%.*s", (int)length, text);
		if (line[0] == '\0')
			fprintf(out, ".PP\n");
		else if (line[0] == ' ')
			fprintf(out, ".br\n");
		if (line[0] != '\0')
			write_roff(out, line);
		text += length;
		text += *text == '\n';
	}
}

static void
man_command(FILE *out, const struct command *command)
{
	fprintf(out, ".SS shoal %s %s\n", command->name, command->arguments);
	write_roff(out, command->summary);
	fprintf(out, ".PP\n");
	man_details(out, command->details);
	for (int i = 0; command->option[i].name != NULL; i++)
		man_option(out, &command->option[i]);
}

static void
help_man(const struct desk *desk)
{
	FILE *out = desk->out;

	fprintf(out, ".TH SHOAL 1 \"%s\" \"shoal %s\" \"User Commands\"\n",
		SHOAL_RELEASED, SHOAL_VERSION);
	fprintf(out, ".SH NAME\nshoal \\- screening the chamber's depth at an "
		     "eye camp\n.SH SYNOPSIS\n.B shoal\n"
		     ".I COMMAND\n[OPTIONS]\n.SH DESCRIPTION\n");
	write_roff(out, "shoal takes the limbal chamber depth of both eyes "
			"with symptoms, signs, age and pressure, applies the "
			"referral rules of a policy file, and writes a "
			"referral slip for each person and a daily tally. "
			"Screening is not a diagnosis; local protocol and "
			"licensed clinicians decide.");
	fprintf(out, ".SH COMMANDS\n");
	for (size_t i = 0; i < desk->table->count; i++)
		man_command(out, &desk->table->command[i]);
	fprintf(out, ".SH OPTIONS FOR EVERY COMMAND\n");
	for (size_t i = 0; i < desk->table->global_count; i++)
		man_option(out, &desk->table->global[i]);
	fprintf(out, ".SH EXIT STATUS\n");
	write_roff(out, "0 done; 1 internal fault; 2 usage; 3 input refused, "
			"wholly or in part; 4 policy, station or wording file "
			"refused; 5 register; 6 output could not be written.");
}

static void
completion_words(FILE *out, const struct command_option *option, size_t most)
{
	for (size_t i = 0; i < most && option[i].name != NULL; i++)
		fprintf(out, " --%s", option[i].name);
}

static bool
shares_first_word(const struct command *one, const struct command *other)
{
	size_t length = strcspn(one->name, " ");

	return length == strcspn(other->name, " ") &&
	       memcmp(one->name, other->name, length) == 0;
}

/* Commands of one first word, such as "policy check" and "policy show", stand
 * in one branch: bash takes the first that fits. */
static void
completion_branch(FILE *out, const struct command_table *table, size_t at)
{
	const struct command *command = table->command;
	size_t length = strcspn(command[at].name, " ");

	for (size_t i = 0; i < at; i++)
		if (shares_first_word(&command[at], &command[i]))
			return;
	fprintf(out, "\t%.*s) words='", (int)length, command[at].name);
	for (size_t i = at; i < table->count; i++) {
		if (!shares_first_word(&command[at], &command[i]))
			continue;
		if (command[i].name[length] == ' ')
			fprintf(out, " %s", command[i].name + length + 1);
		completion_words(out, command[i].option, COMMAND_OPTIONS_MOST);
	}
	fprintf(out, "' ;;\n");
}

/* Every first word once. */
static void
completion_first_words(FILE *out, const struct command_table *table)
{
	for (size_t i = 0; i < table->count; i++) {
		const struct command *command = &table->command[i];

		if (i == 0 || !shares_first_word(command, command - 1))
			fprintf(out, "%.*s ", (int)strcspn(command->name, " "),
				command->name);
	}
}

static void
help_completion(const struct desk *desk)
{
	const struct command_table *table = desk->table;
	FILE *out = desk->out;

	fprintf(out, "# completion of shoal for bash\n_shoal()\n{\n\tlocal "
		     "word=${COMP_WORDS[COMP_CWORD]} words\n\tcase "
		     "${COMP_WORDS[1]} in\n");
	for (size_t i = 0; i < table->count; i++)
		completion_branch(out, table, i);
	fprintf(out, "\t*) words='");
	completion_first_words(out, table);
	fprintf(out, "' ;;\n\tesac\n\twords=\"$words");
	completion_words(out, table->global, table->global_count);
	fprintf(out, "\"\n\tCOMPREPLY=($(compgen -W \"$words\" -- "
		     "\"$word\"))\n}\n"
		     "complete -o default -F _shoal shoal\n");
}

/* "policy" alone means the commands that begin with it. */
static bool
help_topic(const struct desk *desk, const char *first, const char *second,
	   struct fault *why)
{
	size_t length = strlen(first);
	int found = 0;

	for (size_t i = 0; i < desk->table->count; i++) {
		const struct command *command = &desk->table->command[i];
		const char *rest;

		if (strncmp(command->name, first, length) != 0)
			continue;
		rest = command->name + length;
		if (*rest != '\0' && *rest != ' ')
			continue;
		if (second != NULL && *rest == ' ' &&
		    strcmp(rest + 1, second) != 0)
			continue;
		if (found++ > 0)
			fprintf(desk->out, "\n");
		help_command(desk, command);
	}
	if (found > 0)
		return true;
	return fault_set(why, FAULT_USAGE,
			 "there is no command '%.40s'; 'shoal help' lists them",
			 first);
}

bool
run_help(struct desk *desk, const struct given *given, struct fault *why)
{
	if (given_is(given, "man"))
		help_man(desk);
	else if (given_is(given, "completion"))
		help_completion(desk);
	else if (given_is(given, "summaries"))
		write_summaries(desk->out, desk->table);
	else if (given->arguments == 0)
		help_all(desk);
	else if (strcmp(given->argument[0], "findings") == 0)
		help_findings(desk);
	else
		return help_topic(
			desk, given->argument[0],
			given->arguments > 1 ? given->argument[1] : NULL, why);
	return true;
}
