/* ask.c: one question a line, one line an answer. */
#include "desk/ask.h"

#include "base/text.h"

#include <string.h>

enum line_state { LINE_READ, LINE_REFUSED, LINE_ENDED };

/* ANSWER_ROOM: columns kept free for the answer behind a prompt. */
enum { PROMPT_SIZE = 1024, ANSWER_ROOM = 6 };

/* Reads up to the line's end; a last line without one counts. */
static enum line_state
read_line(FILE *in, char *answer)
{
	bool refused = false;
	size_t length = 0;
	int byte;

	while ((byte = getc(in)) != EOF && byte != '\n') {
		if (byte == '\0' || length + 1 >= ASK_ANSWER_SIZE)
			refused = true;
		else
			answer[length++] = (char)byte;
	}
	answer[length] = '\0';
	if (byte == EOF && length == 0)
		return LINE_ENDED;
	return refused ? LINE_REFUSED : LINE_READ;
}

/* Typed bytes are echoed only as far as they are text; a first character that
 * is only harmful in a spreadsheet is no reason to hide what was typed. */
static void
echo(const struct asker *asker, const char *answer)
{
	char behind[ASK_ANSWER_SIZE + 1];
	struct fault ignored;

	if (!asker->echoes)
		return;
	snprintf(behind, sizeof behind, ".%s", answer);
	fprintf(asker->talk, "%s\n",
		text_check(behind, ASK_ANSWER_SIZE, &ignored) ? answer
							      : "(cannot be "
								"shown)");
}

/* Makes a line's end of each space at which a line would grow too wide. */
static void
break_lines(char *prompt, int columns)
{
	char *line = prompt, *space = NULL;

	for (char *end = prompt;; end++) {
		char kept;

		end += strcspn(end, " ");
		kept = *end;
		*end = '\0';
		if (space != NULL && text_width(line) > columns) {
			*space = '\n';
			line = space + 1;
		}
		*end = kept;
		if (kept == '\0')
			return;
		space = end;
	}
}

static void
write_prompt(const struct asker *asker, const char *question, const char *shown)
{
	char prompt[PROMPT_SIZE];

	snprintf(prompt, sizeof prompt,
		 shown[0] == '\0' ? "%s:" : "%s [%s]:", question, shown);
	break_lines(prompt, asker->columns - ANSWER_ROOM);
	fprintf(asker->talk, "%s ", prompt);
	fflush(asker->talk);
}

enum ask_result
ask(const struct asker *asker, const char *question, const char *shown,
    char *answer)
{
	for (;;) {
		enum line_state state;

		write_prompt(asker, question, shown);
		state = read_line(asker->in, answer);
		if (state == LINE_ENDED) {
			fprintf(asker->talk, "\n");
			return ASK_ENDED;
		}
		text_trim(answer);
		echo(asker, answer);
		if (state == LINE_READ)
			break;
		text_write_wrapped(asker->talk,
				   "That line is too long or holds a NUL "
				   "byte; please type it again.",
				   asker->columns, 0, 0);
	}
	if (strcmp(answer, "<") == 0)
		return ASK_BACK;
	return strcmp(answer, "?") == 0 ? ASK_HELP : ASK_ANSWERED;
}

/* "Please type 1, 2 or 3." */
static void
tell_keys(const struct asker *asker, const char *keys)
{
	FILE *talk = asker->talk;

	fprintf(talk, "Please type %c", keys[0]);
	for (size_t i = 1; keys[i] != '\0'; i++)
		fprintf(talk, "%s%c", keys[i + 1] == '\0' ? " or " : ", ",
			keys[i]);
	fprintf(talk, ".\n");
}

char
ask_key(const struct asker *asker, const char *lines, const char *keys,
	char preset, const char *help)
{
	const char shown[2] = {preset, '\0'};
	char answer[ASK_ANSWER_SIZE];

	for (;;) {
		fputs(lines, asker->talk);
		switch (ask(asker, "Number", shown, answer)) {
		case ASK_ENDED:
			return '\0';
		case ASK_BACK:
			return '<';
		case ASK_HELP:
			text_write_wrapped(asker->talk, help, asker->columns, 0,
					   0);
			continue;
		default:
			break;
		}
		if (answer[0] == '\0' && preset != '\0')
			return preset;
		if (answer[0] != '\0' && answer[1] == '\0' &&
		    strchr(keys, answer[0]) != NULL)
			return answer[0];
		tell_keys(asker, keys);
	}
}

enum ask_result
ask_yes(const struct asker *asker, const char *question, enum ask_preset preset,
	const char *help, bool *yes)
{
	static const char presets[] = {
		[ASK_PRESET_NONE] = '\0',
		[ASK_PRESET_YES] = '1',
		[ASK_PRESET_NO] = '2',
	};
	char lines[PROMPT_SIZE] = "";
	FILE *out = fmemopen(lines, sizeof lines, "w");
	char key;

	if (out != NULL) {
		text_write_wrapped(out, question, asker->columns, 0, 0);
		fprintf(out, " 1 yes\n 2 no\n");
		fclose(out);
	}
	key = ask_key(asker, lines, "12", presets[preset], help);
	*yes = key == '1';
	if (key == '\0')
		return ASK_ENDED;
	return key == '<' ? ASK_BACK : ASK_ANSWERED;
}
