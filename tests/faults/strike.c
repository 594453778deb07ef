/* strike.c: runs a program and lets its Nth call to the system go wrong. */

/*
 * strike [-a TEXT] -o REPORT -m MODE [-n N] PROGRAM [ARGUMENT...]
 *
 * Calls that touch files are counted from 1 on, after one whose path holds
 * TEXT when -a is given. Modes:
 *
 *   count     nothing goes wrong
 *   kill      SIGKILL instead of the Nth call
 *   ENOSPC    the Nth call fails so; also EIO
 *   ENOSPC+   it and all that follow; also EIO+
 *   short     the Nth call is allowed only half of its bytes
 *   short+    it and all that follow, as long as there are two bytes or more
 *   full      half of the Nth call's bytes, then ENOSPC for good: a disk that
 *             runs full
 *
 * The report has a line for each call that mattered: in mode count all, else
 * those that went wrong: "N name letters what", with the letters s (can find
 * no space), e (can find the disk broken), h (can be halved). The exit status
 * is the program's, or 128 and the signal; 99 when strike itself failed.
 *
 * The kernel stops the program only at the calls that count (SECCOMP_RET_TRACE
 * of seccomp(2)), so that also those made inside the C library are seen.
 */
#include <elf.h>
#include <errno.h>
#include <fcntl.h>
#include <linux/filter.h>
#include <linux/seccomp.h>
#include <signal.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/prctl.h>
#include <sys/ptrace.h>
#include <sys/syscall.h>
#include <sys/uio.h>
#include <sys/user.h>
#include <sys/wait.h>
#include <unistd.h>

enum { SPACE = 1, BROKEN = 2, HALVED = 4, CREATES = 8 };
enum { NO_PATH = -1, TROUBLE = 99, SHOWN = 200 };

/* clang-format off */
static const struct call {
	long number;
	const char *name;
	int path; /* which argument, or NO_PATH: the first is a handle */
	unsigned can;
} calls[] = {
	{__NR_read, "read", NO_PATH, BROKEN},
	{__NR_pread64, "pread64", NO_PATH, BROKEN},
	{__NR_write, "write", NO_PATH, SPACE | BROKEN | HALVED},
	{__NR_pwrite64, "pwrite64", NO_PATH, SPACE | BROKEN | HALVED},
	{__NR_writev, "writev", NO_PATH, SPACE | BROKEN},
	{__NR_fsync, "fsync", NO_PATH, SPACE | BROKEN},
	{__NR_fdatasync, "fdatasync", NO_PATH, SPACE | BROKEN},
	{__NR_ftruncate, "ftruncate", NO_PATH, SPACE | BROKEN},
	{__NR_fallocate, "fallocate", NO_PATH, SPACE | BROKEN},
	{__NR_close, "close", NO_PATH, 0},
	{__NR_fcntl, "fcntl", NO_PATH, 0},
	{__NR_fchmod, "fchmod", NO_PATH, BROKEN},
	{__NR_fchown, "fchown", NO_PATH, BROKEN},
	{__NR_getdents64, "getdents64", NO_PATH, BROKEN},
	{__NR_openat, "openat", 1, BROKEN | CREATES},
	{__NR_unlinkat, "unlinkat", 1, BROKEN},
	{__NR_mkdirat, "mkdirat", 1, SPACE | BROKEN},
	{__NR_linkat, "linkat", 1, SPACE | BROKEN},
	{__NR_renameat2, "renameat2", 1, SPACE | BROKEN},
	{__NR_faccessat, "faccessat", 1, BROKEN},
	{__NR_truncate, "truncate", 0, SPACE | BROKEN},
#ifdef __NR_newfstatat
	{__NR_newfstatat, "newfstatat", 1, BROKEN},
#endif
#ifdef __NR_renameat
	{__NR_renameat, "renameat", 1, SPACE | BROKEN},
#endif
#ifdef __NR_open
	{__NR_open, "open", 0, BROKEN | CREATES},
	{__NR_unlink, "unlink", 0, BROKEN},
	{__NR_mkdir, "mkdir", 0, SPACE | BROKEN},
	{__NR_link, "link", 0, SPACE | BROKEN},
	{__NR_rename, "rename", 0, SPACE | BROKEN},
	{__NR_access, "access", 0, BROKEN},
	{__NR_rmdir, "rmdir", 0, BROKEN},
#endif
};
/* clang-format on */

enum { CALLS = sizeof calls / sizeof calls[0] };

struct strike {
	pid_t child;
	FILE *report;
	const char *after; /* NULL once counting */
	const char *mode;
	long n, seen;
	bool running_full;
};

static void
give_up(const char *what)
{
	fprintf(stderr, "strike: %s: %s\n", what, strerror(errno));
	exit(TROUBLE);
}

/* --- registers, the only part that knows the processor -------------------- */

static void
with_registers(pid_t child, enum __ptrace_request request,
	       struct user_regs_struct *registers)
{
	struct iovec all = {registers, sizeof *registers};

	if (ptrace(request, child, NT_PRSTATUS, &all) != 0)
		give_up("registers");
}

static void
skip_call(pid_t child, int error)
{
	struct user_regs_struct registers;

	with_registers(child, PTRACE_GETREGSET, &registers);
#if defined(__x86_64__)
	registers.orig_rax = (unsigned long long)-1;
	registers.rax = (unsigned long long)-error;
#elif defined(__aarch64__)
	int none = -1;
	struct iovec number = {&none, sizeof none};

	if (ptrace(PTRACE_SETREGSET, child, NT_ARM_SYSTEM_CALL, &number) != 0)
		give_up("the call's number");
	registers.regs[0] = (unsigned long long)-error;
#else
#error "strike knows the registers of x86-64 and arm64 only"
#endif
	with_registers(child, PTRACE_SETREGSET, &registers);
}

/* The third argument of write and pwrite64 is how many bytes. */
static bool
halve_call(pid_t child)
{
	struct user_regs_struct registers;
	unsigned long long bytes;

	with_registers(child, PTRACE_GETREGSET, &registers);
#if defined(__x86_64__)
	bytes = registers.rdx;
	registers.rdx = bytes / 2;
#else
	bytes = registers.regs[2];
	registers.regs[2] = bytes / 2;
#endif
	if (bytes < 2)
		return false;
	with_registers(child, PTRACE_SETREGSET, &registers);
	return true;
}

/* --- the program ---------------------------------------------------------- */

static void
start_program(char *argv[])
{
	struct sock_filter filter[2 * CALLS + 2];
	struct sock_fprog all = {2 * CALLS + 2, filter};
	size_t at = 0;

	filter[at++] = (struct sock_filter)BPF_STMT(
		BPF_LD | BPF_W | BPF_ABS, offsetof(struct seccomp_data, nr));
	for (size_t i = 0; i < CALLS; i++) {
		filter[at++] = (struct sock_filter)BPF_JUMP(
			BPF_JMP | BPF_JEQ | BPF_K, (unsigned)calls[i].number, 0,
			1);
		filter[at++] = (struct sock_filter)BPF_STMT(
			BPF_RET | BPF_K, SECCOMP_RET_TRACE | (unsigned)i);
	}
	filter[at] = (struct sock_filter)BPF_STMT(BPF_RET | BPF_K,
						  SECCOMP_RET_ALLOW);
	if (ptrace(PTRACE_TRACEME, 0, 0, 0) != 0)
		give_up("trace");
	raise(SIGSTOP);
	if (prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) != 0 ||
	    prctl(PR_SET_SECCOMP, SECCOMP_MODE_FILTER, &all) != 0)
		give_up("filter");
	execv(argv[0], argv);
	give_up(argv[0]);
}

static void
read_path(pid_t child, unsigned long long where, char *path)
{
	struct iovec here = {path, SHOWN - 1};
	struct iovec there = {(void *)(unsigned long)where, SHOWN - 1};
	ssize_t got = process_vm_readv(child, &here, 1, &there, 1, 0);

	/* Near the end of a page less can be read. */
	for (size_t size = SHOWN / 2; got < 0 && size > 0; size /= 2) {
		there.iov_len = size;
		got = process_vm_readv(child, &here, 1, &there, 1, 0);
	}
	path[got < 0 ? 0 : got] = '\0';
}

/* --- what goes wrong ------------------------------------------------------ */

static void
tell(const struct strike *strike, const struct call *call, unsigned can,
     const char *what)
{
	fprintf(strike->report, "%ld %s %s%s%s- %s\n", strike->seen, call->name,
		(can & SPACE) != 0 ? "s" : "", (can & BROKEN) != 0 ? "e" : "",
		(can & HALVED) != 0 ? "h" : "", what);
}

/* Whether the call went wrong. */
static bool
fail_call(struct strike *strike, unsigned can)
{
	bool space = strncmp(strike->mode, "ENOSPC", 6) == 0;

	if ((can & (space ? SPACE : BROKEN)) == 0)
		return false;
	skip_call(strike->child, space ? ENOSPC : EIO);
	return true;
}

static bool
fill_up(struct strike *strike, unsigned can)
{
	if (strike->running_full) {
		if ((can & SPACE) != 0)
			skip_call(strike->child, ENOSPC);
		return (can & SPACE) != 0;
	}
	strike->running_full = (can & HALVED) != 0 && halve_call(strike->child);
	return strike->running_full;
}

static bool
go_wrong(struct strike *strike, unsigned can)
{
	bool for_good = strchr(strike->mode, '+') != NULL;

	if (strcmp(strike->mode, "count") == 0)
		return true;
	if (strcmp(strike->mode, "full") == 0)
		return strike->seen >= strike->n && fill_up(strike, can);
	if (for_good ? strike->seen < strike->n : strike->seen != strike->n)
		return false;
	if (strcmp(strike->mode, "kill") == 0)
		return kill(strike->child, SIGKILL) == 0;
	if (strncmp(strike->mode, "short", 5) == 0)
		return (can & HALVED) != 0 && halve_call(strike->child);
	return fail_call(strike, can);
}

static void
see_call(struct strike *strike)
{
	struct __ptrace_syscall_info info;
	const struct call *call;
	char what[SHOWN];
	unsigned can;

	if (ptrace(PTRACE_GET_SYSCALL_INFO, strike->child, sizeof info, &info) <
	    0)
		give_up("the call");
	call = &calls[info.seccomp.ret_data % CALLS];
	can = call->can;
	if (call->path == NO_PATH)
		snprintf(what, sizeof what, "%lld",
			 (long long)info.seccomp.args[0]);
	else
		read_path(strike->child, info.seccomp.args[call->path], what);
	if ((can & CREATES) != 0 &&
	    (info.seccomp.args[call->path + 1] & O_CREAT) != 0)
		can |= SPACE;
	if (strike->after != NULL && strstr(what, strike->after) == NULL)
		return;
	strike->after = NULL;
	strike->seen++;
	if (go_wrong(strike, can))
		tell(strike, call, can, what);
}

/* Until the program ends; its status. */
static int
watch(struct strike *strike)
{
	int status;

	for (;;) {
		int handed_on = 0;

		if (waitpid(strike->child, &status, 0) < 0)
			give_up("wait");
		if (WIFEXITED(status))
			return WEXITSTATUS(status);
		if (WIFSIGNALED(status))
			return 128 + WTERMSIG(status);
		if (status >> 8 == (SIGTRAP | PTRACE_EVENT_SECCOMP << 8))
			see_call(strike);
		else if (WSTOPSIG(status) != SIGTRAP)
			handed_on = WSTOPSIG(status);
		ptrace(PTRACE_CONT, strike->child, 0, handed_on);
	}
}

int
main(int argc, char *argv[])
{
	struct strike strike = {.mode = "count"};
	const char *report = "/dev/stderr";
	int option, status;

	while ((option = getopt(argc, argv, "+a:o:m:n:")) != -1)
		switch (option) {
		case 'a':
			strike.after = optarg;
			break;
		case 'o':
			report = optarg;
			break;
		case 'm':
			strike.mode = optarg;
			break;
		case 'n':
			strike.n = strtol(optarg, NULL, 10);
			break;
		default:
			return TROUBLE;
		}
	strike.report = fopen(report, "we");
	if (strike.report == NULL || optind == argc)
		give_up(report);
	strike.child = fork();
	if (strike.child == 0)
		start_program(argv + optind);
	if (strike.child < 0 || waitpid(strike.child, &status, 0) < 0)
		give_up("start");
	ptrace(PTRACE_SETOPTIONS, strike.child, 0,
	       PTRACE_O_TRACESECCOMP | PTRACE_O_EXITKILL);
	ptrace(PTRACE_CONT, strike.child, 0, 0);
	status = watch(&strike);
	fclose(strike.report);
	return status;
}
