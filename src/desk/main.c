/* main.c: the command line, the clock, the environment; nothing else. */
#include "desk/commands.h"
#include "desk/desk.h"
#include "desk/given.h"
#include "desk/version.h"

#include "base/guard.h"
#include "base/text.h"

#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

enum { COLUMNS_USUAL = 80, COLUMNS_LEAST = 40, COLUMNS_MOST = 100 };

/* Names of people are in memory: nobody else may read what is written, and no
 * core file may hold it. A closed pipe is an output that failed, not a death.
 */
static void
guard_process(void)
{
	umask(077);
	guard_memory();
	signal(SIGPIPE, SIG_IGN);
}

/* The station's folder as the environment has it. A relative XDG_DATA_HOME
 * counts as unset (XDG base directory specification 0.8). */
static bool
default_folder(char *folder, struct fault *why)
{
	const char *book = getenv("SHOAL_BOOK");
	const char *data = getenv("XDG_DATA_HOME");
	const char *home = getenv("HOME");
	int length = 0;

	if (book != NULL && book[0] != '\0')
		length = snprintf(folder, DESK_PATH_SIZE, "%s", book);
	else if (data != NULL && data[0] == '/')
		length = snprintf(folder, DESK_PATH_SIZE, "%s/shoal", data);
	else if (home != NULL && home[0] == '/')
		length = snprintf(folder, DESK_PATH_SIZE,
				  "%s/.local/share/shoal", home);
	if (length > 0 && length < DESK_PATH_SIZE)
		return true;
	return fault_set(why, FAULT_USAGE,
			 "there is no place for the station's folder; name "
			 "one with --book DIR");
}

/* The time and the local day, the only look at a clock in the program. */
static void
look_at_clock(struct desk *desk)
{
	time_t now = time(NULL);
	struct tm local;

	desk->seconds = now;
	if (desk->today_given)
		return;
	desk->today = day_of_seconds(desk->seconds);
	if (localtime_r(&now, &local) != NULL)
		desk->today = day_of_seconds(desk->seconds + local.tm_gmtoff);
}

/* Of a clock that nobody sets. */
static long long
look_at_stopwatch(void)
{
	struct timespec now = {0, 0};

	clock_gettime(CLOCK_MONOTONIC, &now);
	return (long long)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

/* Member by member: the desk holds whole files, and clearing them would take
 * longer than a decision. */
static void
sit_down(struct desk *desk)
{
	desk->table = &commands;
	desk->in = stdin;
	desk->out = stdout;
	desk->talk = stderr;
	desk->folder[0] = '\0';
	desk->policy_path = NULL;
	desk->station_path = NULL;
	desk->today_given = false;
	desk->look_at_clock = look_at_clock;
	desk->milliseconds = look_at_stopwatch;
	desk->opened = NEED_NOTHING;
	desk->policy_mark[0] = '\0'; /* no policy is open */
}

static void
look_at_terminal(struct desk *desk)
{
	const char *kind = getenv("TERM");
	struct winsize size;

	desk->talk_can_rewrite = isatty(STDERR_FILENO) != 0 && kind != NULL &&
				 kind[0] != '\0' && strcmp(kind, "dumb") != 0;
	desk->in_is_terminal = isatty(STDIN_FILENO) != 0;
	desk->columns = COLUMNS_USUAL;
	if (isatty(STDERR_FILENO) != 0 &&
	    ioctl(STDERR_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0)
		desk->columns = size.ws_col;
	if (desk->columns < COLUMNS_LEAST)
		desk->columns = COLUMNS_LEAST;
	if (desk->columns > COLUMNS_MOST)
		desk->columns = COLUMNS_MOST;
}

static bool
apply_globals(struct desk *desk, const struct given *given, struct fault *why)
{
	const char *book = given_value(given, "book");
	const char *today = given_value(given, "today");

	desk->policy_path = given_value(given, "policy");
	desk->station_path = given_value(given, "station");
	if (today != NULL) {
		if (!day_read(today, &desk->today, why))
			return fault_at(why, "--today");
		desk->today_given = true;
	}
	if (book == NULL)
		return default_folder(desk->folder, why);
	if (book[0] == '\0' ||
	    !text_copy(desk->folder, sizeof desk->folder, book))
		return fault_set(why, FAULT_USAGE,
				 "--book needs the name of a folder");
	return true;
}

/* A result that did not reach its paper or pipe must not look like success. */
static bool
check_output(struct desk *desk, struct fault *why)
{
	if (fflush(desk->out) == 0 && ferror(desk->out) == 0)
		return true;
	return fault_set(why, FAULT_OUTPUT,
			 "standard output could not be written; what was "
			 "printed is not complete");
}

/* An answer that could not be read is no end of the input. */
static bool
check_input(struct desk *desk, struct fault *why)
{
	if (ferror(desk->in) == 0)
		return true;
	return fault_set(why, FAULT_INPUT,
			 "standard input could not be read; what came after "
			 "was not taken");
}

static const struct command *
find_help(void)
{
	for (size_t i = 0; i < commands.count; i++)
		if (strcmp(commands.command[i].name, "help") == 0)
			return &commands.command[i];
	return NULL;
}

/* "--help" behind a command is "help" before it. */
static void
turn_to_help(struct given *given)
{
	const struct command *wanted = given->command;

	given->command = find_help();
	given->options = 0;
	given->arguments = 0;
	if (wanted != NULL)
		given->argument[given->arguments++] = wanted->name;
}

static bool
run(struct desk *desk, int argc, char *argv[], struct fault *why)
{
	struct given given;
	bool done;

	if (!given_read(&given, &commands, argc, argv, why))
		return false;
	if (given_is(&given, "version")) {
		fprintf(desk->out, "shoal %s\n", SHOAL_VERSION);
		return check_output(desk, why);
	}
	if (given_is(&given, "help") || given.command == NULL) {
		if (argc < 2)
			return fault_set(why, FAULT_USAGE,
					 "say what to do; 'shoal help' lists "
					 "the commands");
		turn_to_help(&given);
	}
	if ((given.command->needs & (NEED_STATION | NEED_DAY)) != 0)
		look_at_clock(desk);
	if ((given.command->needs != NEED_NOTHING ||
	     strcmp(given.command->name, "start") == 0) &&
	    !apply_globals(desk, &given, why))
		return false;
	done = desk_open(desk, given.command->needs, why) &&
	       given.command->run(desk, &given, why);
	desk_close(desk);
	done = done && check_input(desk, why);
	return check_output(desk, done ? why : &(struct fault){0}) && done;
}

int
main(int argc, char *argv[])
{
	struct desk desk;
	struct fault why = {FAULT_NONE, ""};

	guard_process();
	sit_down(&desk);
	/* Talk is shown before each question and at the end, not word by word.
	 */
	setvbuf(stderr, NULL, _IOFBF, BUFSIZ);
	look_at_clock(&desk);
	look_at_terminal(&desk);
	if (run(&desk, argc, argv, &why))
		return 0;
	fprintf(stderr, "shoal: %s\n", why.sentence);
	return (int)why.kind;
}
