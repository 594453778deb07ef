#!/bin/sh
# Build the Criterion tests with the sanitizers, a program per floor, run them,
# and hold the runs to what is in the sources. Criterion alone says "passed"
# when no test was run and when memory leaked (both seen with 2.4.1), so this
# counts for itself. The last line is "N passed, N failed".
set -u
B=${B:-build} MAKE=${MAKE:-make}
out=$B/asan/said

extra=0
fail() { echo "$*"; extra=$((extra + 1)); }

# Programs left from an earlier build must not pass for these.
if ! $MAKE -s -k -j"$(nproc)" --no-print-directory B="$B/asan" CC=gcc \
	SANITIZE=yes WERROR=-Werror units; then
	echo 'the tests do not build'
	echo '0 passed, 1 failed'
	exit 1
fi

rm -rf "$out"
mkdir -p "$out"
# What the tests keep is synced all the time; in memory that wears nothing out.
base=${TMPDIR:-/tmp}
[ ! -d /dev/shm ] || [ ! -w /dev/shm ] || base=/dev/shm
TMPDIR=$(mktemp -d "$base/shoal-unit-XXXXXX") || exit 1
export TMPDIR
trap 'rm -rf "$TMPDIR"' EXIT
trap 'exit 1' HUP INT TERM

tested=0 passing=0
synthesis='.*Synthesis: Tested: \([0-9]*\) .*Passing: \([0-9]*\) .*'

# run_floor FLOOR
run_floor() {
	unit=$B/asan/unit-$1 said=$out/$1
	# Leaks are looked for in a shortened way (leaks.c): is the alarm still
	# awake?
	SHOAL_TEST_LEAK=yes ASAN_OPTIONS="log_path=$said-alarm:detect_leaks=1" \
		"$unit" --list > /dev/null 2>&1 < /dev/null
	grep -q 'Direct leak of 16 byte' "$said"-alarm.* ||
		fail "a leak made on purpose was not noticed by $unit"

	ASAN_OPTIONS="log_path=$said-asan:detect_leaks=1" \
	UBSAN_OPTIONS="print_stacktrace=1:log_path=$said-ubsan" LC_ALL=C \
		"$unit" --xml="$said.xml" > "$said.out" 2>&1 < /dev/null
	run=$?
	cat "$said.out"

	for log in "$said"-asan.* "$said"-ubsan.*; do
		[ -e "$log" ] || continue
		cat "$log"
		fail "a sanitizer spoke: $log"
	done

	here=$(cat "tests/$1"/test_*.c |
		grep -cE '^(Test|ParameterizedTest|Theory)\(')
	# Tests that were run, each name once however many parameters it has.
	did=$(awk -F '"' '
		/<testsuite / { suite = $2 }
		/<testcase / && /status="(PASSED|FAILED|ERRORED)"/ {
			name[suite "/" $2]
		}
		END { for (n in name) count++; print count + 0 }' "$said.xml")
	[ "$here" -gt 0 ] || fail "there are no tests of $1"
	[ "$here" -eq "$did" ] ||
		fail "$1: $here tests are written, $did were run"

	set -- $(sed -n "s/$synthesis/\1 \2/p" "$said.out") 0 0
	tested=$((tested + $1)) passing=$((passing + $2))
	[ "$run" -eq 0 ] || [ "$1" -gt "$2" ] ||
		fail "the runner of $unit ended with $run"
}

# A floor is a folder with tests, as in the Makefile.
for floor in $(printf '%s\n' tests/*/test_*.c | cut -d / -f 2 | sort -u); do
	run_floor "$floor"
done

failing=$((tested - passing))
echo "$passing passed, $((failing + extra)) failed"
[ $((failing + extra)) -eq 0 ]
