#!/bin/sh
# Run every check, quick ones first, to the end; then count. Called by
# `make check`. What each one printed is kept in $B/check.
#
# Scenes, shell tests and faults wait much of their time, for a terminal, a
# browser, a kill. What only computes and needs nothing that is built is begun
# beside them at a low priority, and told when its turn comes.
set -u
: "${B:=build}" "${MAKE:=make}"
export B MAKE
jobs=$(nproc)
logs=$B/check
rm -rf "$logs"
mkdir -p "$logs"
passed=0 failed=0 number=0

# beside TARGET: begins to make it; `check TITLE ended TARGET` tells its end.
beside() {
	(
		began=$(date +%s)
		nice "$MAKE" -s -k -j"$jobs" --no-print-directory B="$B" "$1" \
			> "$logs/$1.log" 2>&1 < /dev/null
		echo "$? $(($(date +%s) - began))" > "$logs/$1.ended"
	) &
}

# No end that was written down is a failure.
ended() {
	wait
	read -r status took < "$logs/$1.ended" || status=1 took=0
	cat "$logs/$1.log"
	return "$status"
}

# run TITLE COMMAND...: sets $log, $status and $took.
run() {
	title=$1; shift
	number=$((number + 1))
	log=$logs/$number.log
	began=$(date +%s)
	"$@" > "$log" 2>&1 < /dev/null
	status=$?
	[ "$1" = ended ] || took=$(($(date +%s) - began))
}

heading() { printf '%4d s  %-6s  %s\n' "$took" "$1" "$2"; }

show_failure() {
	heading FAILED "$title"
	sed '/^[0-9]* warnings\{0,1\} generated/d; s/^/        /' "$log" |
		head -n 150
	echo "        (all of it is in $log)"
}

# check TITLE COMMAND...: one check of the house.
check() {
	run "$@"
	if [ "$status" -eq 0 ]; then
		passed=$((passed + 1))
		note=$(sed -n 's/^note: /: /p' "$log")
		heading ok "$title$note"
	else
		failed=$((failed + 1))
		show_failure
	fi
}

# suite TITLE COMMAND...: many tests; its last line is "N passed, N failed".
suite() {
	run "$@"
	set -- $(tail -n 1 "$log" |
		sed -n 's/^\([0-9]*\) passed, \([0-9]*\) failed$/\1 \2/p')
	[ $# -eq 2 ] || set -- 0 1
	[ "$status" -eq 0 ] || [ "$2" -gt 0 ] || set -- "$1" 1
	passed=$((passed + $1)) failed=$((failed + $2))
	if [ "$2" -eq 0 ]; then
		heading ok "$title: $1 passed"
	else
		show_failure
	fi
}

build() { "$MAKE" -s -k -j"$jobs" --no-print-directory "$@"; }

# All sources as the fuzzers are made of, and one with the flags of users.
clang_build() {
	build WERROR=-Werror "$B/fuzz/shoal" &&
		build B="$B/clang" CC=clang WERROR=-Werror \
			"$B/clang/src/desk/main.o"
}

check 'layout of the sources (clang-format)' build format-check
check 'floors of the house' sh tests/house/floors.sh
check 'sizes' sh tests/house/sizes.sh
check 'banned calls' sh tests/house/banned.sh
check 'words that may not stand' sh tests/house/words.sh
check 'gcc, every warning an error' \
	build B="$B/gcc" CC=gcc WERROR=-Werror all
check 'hardening' sh tests/house/hardening.sh
check 'clang, every warning an error' clang_build
suite 'unit tests with sanitizers' sh tests/house/unit.sh
check 'the program with sanitizers' \
	build B="$B/asan" CC=gcc SANITIZE=yes WERROR=-Werror all
beside tidy
beside cppcheck
suite 'scenes' sh tests/house/scenes.sh
suite 'shell tests' sh tests/house/shell.sh
suite 'faults, the short version' bash tests/faults/run.sh --short
check 'clang-tidy' ended tidy
check 'cppcheck' ended cppcheck
check 'the fuzzers' build WERROR=-Werror fuzzers
# About a minute in all: 30 seconds each where eight are run at once, 9 where two.
each=$((jobs * 60 / 14))
[ "$each" -ge 9 ] || each=9
[ "$each" -le 30 ] || each=30
suite "fuzzing, $each seconds each" env SECONDS_EACH=$each sh tests/fuzz/run.sh

echo "$passed passed, $failed failed" | tee "$logs/total"
[ "$failed" -eq 0 ]
