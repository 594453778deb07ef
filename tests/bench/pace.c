/* pace.c: how long a command takes as a whole process, by its median. */
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

/*
 * usage: pace RUNS INPUT APPEND [COMMAND ...]
 *
 * Runs COMMAND (once more, not counted, when RUNS is not 1), with standard
 * input from the file INPUT and output thrown away, and, when APPEND is not
 * "-", adds 200 bytes to the file APPEND and syncs it after each run. Without a
 * COMMAND only the append is timed. Prints the median in microseconds and the
 * largest peak memory in KiB.
 */
enum { RUNS_MOST = 2000, RECORD = 200 };

struct job {
	const char *input, *append;
	char **command;
};

static double
now_us(void)
{
	struct timespec at;

	clock_gettime(CLOCK_MONOTONIC, &at);
	return (double)at.tv_sec * 1e6 + (double)at.tv_nsec / 1e3;
}

static void
fail(const char *what)
{
	perror(what);
	exit(1);
}

static void
run_command(const struct job *job)
{
	int in, out, status;
	pid_t child = fork();

	if (child < 0)
		fail("fork");
	if (child == 0) {
		in = open(job->input, O_RDONLY);
		out = open("/dev/null", O_WRONLY);
		if (in < 0 || out < 0)
			_exit(126);
		dup2(in, STDIN_FILENO);
		dup2(out, STDOUT_FILENO);
		dup2(out, STDERR_FILENO);
		execv(job->command[0], job->command);
		_exit(127);
	}
	if (waitpid(child, &status, 0) < 0)
		fail("waitpid");
	if (!WIFEXITED(status) || WEXITSTATUS(status) != 0) {
		fprintf(stderr, "pace: %s failed\n", job->command[0]);
		exit(1);
	}
}

static void
append_record(const char *path)
{
	char record[RECORD];
	int file = open(path, O_WRONLY | O_CREAT | O_APPEND, 0600);

	memset(record, 'x', sizeof record);
	if (file < 0 || write(file, record, sizeof record) != RECORD ||
	    fsync(file) != 0 || close(file) != 0)
		fail(path);
}

static double
run_once(const struct job *job)
{
	double began = now_us();

	if (job->command[0] != NULL)
		run_command(job);
	if (strcmp(job->append, "-") != 0)
		append_record(job->append);
	return now_us() - began;
}

static int
compare(const void *one, const void *other)
{
	double a = *(const double *)one, b = *(const double *)other;

	return (a > b) - (a < b);
}

int
main(int argc, char *argv[])
{
	static double took[RUNS_MOST];
	struct rusage usage;
	struct job job;
	long runs;

	if (argc < 4)
		return 2;
	runs = strtol(argv[1], NULL, 10);
	if (runs < 1 || runs > RUNS_MOST)
		return 2;
	job = (struct job){argv[2], argv[3], argv + 4};
	if (runs > 1)
		run_once(&job); /* warms the caches */
	for (long i = 0; i < runs; i++)
		took[i] = run_once(&job);
	qsort(took, (size_t)runs, sizeof took[0], compare);
	getrusage(RUSAGE_CHILDREN, &usage);
	printf("%.1f %ld\n", took[runs / 2], usage.ru_maxrss);
	return 0;
}
