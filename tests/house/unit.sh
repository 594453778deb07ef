#!/bin/sh
# Build the Criterion tests with the sanitizers, run them, and hold the run to
# what is in the sources. Criterion alone says "passed" when no test was run
# and when memory leaked (both seen with 2.4.1), so this counts for itself.
# The last line is "N passed, N failed".
set -u
B=${B:-build} MAKE=${MAKE:-make}
unit=$B/asan/unit out=$B/asan/tests

extra=0
fail() { echo "$*"; extra=$((extra + 1)); }

# A program left from an earlier build must not pass for this one.
if ! $MAKE -s -k -j"$(nproc)" --no-print-directory B="$B/asan" CC=gcc \
	SANITIZE=yes WERROR=-Werror "$unit"; then
	echo 'the tests do not build'
	echo '0 passed, 1 failed'
	exit 1
fi

rm -rf "$out"
mkdir -p "$out/tmp"
TMPDIR=$(cd "$out/tmp" && pwd); export TMPDIR
# Leaks are looked for in a shortened way (leaks.c): is the alarm still awake?
SHOAL_TEST_LEAK=yes ASAN_OPTIONS="log_path=$out/alarm:detect_leaks=1" \
	"$unit" --list > /dev/null 2>&1 < /dev/null
grep -q 'Direct leak of 16 byte' "$out"/alarm.* ||
	fail 'a leak made on purpose was not noticed'

ASAN_OPTIONS="log_path=$out/asan:detect_leaks=1" \
UBSAN_OPTIONS="print_stacktrace=1:log_path=$out/ubsan" LC_ALL=C \
	"$unit" --xml="$out/report.xml" > "$out/output" 2>&1 < /dev/null
run=$?
cat "$out/output"

for log in "$out"/asan.* "$out"/ubsan.*; do
	[ -e "$log" ] || continue
	cat "$log"
	fail "a sanitizer spoke: $log"
done

written=$(cat tests/*/test_*.c |
	grep -cE '^(Test|ParameterizedTest|Theory)\(')
# Tests that were run, each name once however many parameters it has.
ran=$(awk -F '"' '
	/<testsuite / { suite = $2 }
	/<testcase / && /status="(PASSED|FAILED|ERRORED)"/ { name[suite "/" $2] }
	END { for (n in name) count++; print count + 0 }' "$out/report.xml")
[ "$written" -gt 0 ] || fail 'there are no tests'
[ "$written" -eq "$ran" ] || fail "$written tests are written, $ran were run"

synthesis='.*Synthesis: Tested: \([0-9]*\) .*Passing: \([0-9]*\) .*'
set -- $(sed -n "s/$synthesis/\1 \2/p" "$out/output") 0 0
tested=$1 passing=$2
failing=$((tested - passing))
[ "$run" -eq 0 ] || [ "$failing" -gt 0 ] || fail "the runner ended with $run"
echo "$passing passed, $((failing + extra)) failed"
[ $((failing + extra)) -eq 0 ]
