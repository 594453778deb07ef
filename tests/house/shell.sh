#!/bin/sh
# Run every executable tests/shell/*.sh as one test, in an empty folder, with
#   SHOAL        the program built with the sanitizers
#   SHOAL_PLAIN  the program as users get it
#   SHOAL_TREE   the top of the source tree
# Not zero means failed, and what it printed is shown. Files without the
# execute bit are for the others to read. Arguments choose tests by name.
# They spend much of their time waiting (for a terminal, a browser, a kill), so
# one more than there are processors run at once.
# The last line is "N passed, N failed".
set -u
B=${B:-build}
SHOAL_TREE=$(pwd)
SHOAL=$(realpath "$B/asan/shoal")
SHOAL_PLAIN=$(realpath "$B/gcc/shoal")
export B SHOAL SHOAL_PLAIN SHOAL_TREE

# run_test TEST FOLDER: leaves FOLDER/status and FOLDER/output.
run_test() {
	mkdir -p "$2/home" "$2/tmp" "$2/asan"
	(cd "$2/home" && exec env HOME="$2/home" TMPDIR="$2/tmp" LC_ALL=C \
		ASAN_OPTIONS="log_path=$2/asan/asan:detect_leaks=1" \
		UBSAN_OPTIONS="log_path=$2/asan/ubsan" \
		timeout 180 "$1") > "$2/output" 2>&1 < /dev/null
	status=$?
	for log in "$2"/asan/*; do
		[ -e "$log" ] || continue
		cat "$log" >> "$2/output"
		status=sanitizer
	done
	echo "$status" > "$2/status"
	rm -rf "$2/home" "$2/tmp"
}

if [ "${1:-}" = --one ]; then
	run_test "$SHOAL_TREE/tests/shell/$3.sh" "$2/$3"
	exit
fi

for program in "$SHOAL" "$SHOAL_PLAIN"; do
	[ ! -x "$program" ] || continue
	echo "there is no program $program"
	echo '0 passed, 1 failed'
	exit 1
done
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
trap 'exit 1' HUP INT TERM

chosen=
for test in tests/shell/*.sh; do
	[ -x "$test" ] || continue
	name=$(basename "$test" .sh)
	case " ${*:-$name} " in *" $name "*) chosen="$chosen $name" ;; esac
done
[ -z "$chosen" ] || printf '%s\n' $chosen |
	xargs -P $(($(nproc) + 1)) -n 1 sh "$0" --one "$work"

passed=0 failed=0
for name in $chosen; do
	status=$(cat "$work/$name/status" 2> /dev/null || echo nothing)
	if [ "$status" = 0 ]; then
		passed=$((passed + 1))
		continue
	fi
	failed=$((failed + 1))
	echo "shell test $name ended with $status:"
	sed 's/^/    /' "$work/$name/output"
done
if [ -z "$chosen" ]; then
	echo 'there is no shell test'
	failed=1
fi
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
