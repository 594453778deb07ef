#!/bin/sh
# Run every executable tests/shell/*.sh as one test, in an empty folder, with
#   SHOAL        the program built with the sanitizers
#   SHOAL_PLAIN  the program as users get it
#   SHOAL_TREE   the top of the source tree
# Not zero means failed, and what it printed is shown. Files without the
# execute bit are for the others to read. Arguments choose tests by name.
# The last line is "N passed, N failed".
set -u
B=${B:-build}
SHOAL_TREE=$(pwd)
SHOAL=$(realpath "$B/asan/shoal")
SHOAL_PLAIN=$(realpath "$B/gcc/shoal")
export SHOAL SHOAL_PLAIN SHOAL_TREE
for program in "$SHOAL" "$SHOAL_PLAIN"; do
	[ ! -x "$program" ] || continue
	echo "there is no program $program"
	echo '0 passed, 1 failed'
	exit 1
done

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
trap 'exit 1' HUP INT TERM
passed=0 failed=0

run_test() {
	rm -rf "${work:?}"/*
	mkdir "$work/home" "$work/tmp" "$work/asan"
	(cd "$work/home" && exec env HOME="$work/home" TMPDIR="$work/tmp" \
		LC_ALL=C \
		ASAN_OPTIONS="log_path=$work/asan/asan:detect_leaks=1" \
		UBSAN_OPTIONS="log_path=$work/asan/ubsan" \
		timeout 120 "$1") > "$work/output" 2>&1 < /dev/null
	status=$?
	for log in "$work"/asan/*; do
		[ -e "$log" ] || continue
		cat "$log" >> "$work/output"
		status=sanitizer
	done
	[ "$status" = 0 ]
}

for test in "$SHOAL_TREE"/tests/shell/*.sh; do
	[ -x "$test" ] || continue
	name=$(basename "$test" .sh)
	case " ${*:-$name} " in *" $name "*) ;; *) continue ;; esac
	if run_test "$test"; then
		passed=$((passed + 1))
	else
		failed=$((failed + 1))
		echo "shell test $name ended with $status:"
		sed 's/^/    /' "$work/output"
	fi
done
if [ $((passed + failed)) -eq 0 ]; then
	echo 'there is no shell test'
	failed=1
fi
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
