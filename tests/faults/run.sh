#!/bin/bash
# What the program promises when things go wrong, as figures.
#
#   run.sh [--short] [SUITE...]     all suites, or those named
#
# Each suite runs in an empty folder, in memory where there is one, on the
# program as users get it ($SHOAL_PLAIN, else $B/gcc/shoal). It prints FIGURE
# lines (bench.py, lib.sh), which are added up here: lost is what was announced
# and is not there, corrupted what is there and is not what was entered, other
# any other broken promise; all have to be 0. The last line is "N passed, N
# failed".
set -u
if [ "${1:-}" = --one ]; then
	# One suite, its folder, its log.
	file=$SHOAL_TREE/tests/faults/$3
	mkdir -p "$2/$3"
	began=$(date +%s)
	if [ -e "$file.py" ]; then
		set -- "$@" python3 "$file.py"
	else
		set -- "$@" bash "$file.sh"
	fi
	(cd "$2/$3" && exec env FAULTS_WORK="$2/$3" HOME="$2/$3" \
		TMPDIR="$2/$3" LC_ALL=C PYTHONDONTWRITEBYTECODE=1 \
		timeout "$FAULTS_PATIENCE" "$4" "$5") > "$2/$3.log" 2>&1 < /dev/null
	echo "$? $(($(date +%s) - began))" > "$2/$3.ended"
	rm -rf "${2:?}/$3"
	exit
fi
short=no
[ "${1:-}" = --short ] && { short=yes; shift; }
B=${B:-build}
SHOAL_TREE=$(pwd)
SHOAL_PLAIN=${SHOAL_PLAIN:-$(realpath -m "$B/gcc/shoal")}
FAULTS_TOOLS=$(realpath -m "$B/faults")
FAULTS_SHORT=$short
FAULTS_PATIENCE=$([ $short = yes ] && echo 900 || echo 14400)
export SHOAL_TREE SHOAL_PLAIN FAULTS_TOOLS FAULTS_SHORT FAULTS_PATIENCE
unset SHOAL_BOOK
[ -x "$SHOAL_PLAIN" ] || { echo "there is no program $SHOAL_PLAIN"
	echo '0 passed, 1 failed'; exit 1; }

# --- the tools ----------------------------------------------------------------
compile="${CC:-cc} -std=c17 -D_GNU_SOURCE -O1 -Wall -Wextra -Werror"
mkdir -p "$FAULTS_TOOLS"
$compile -o "$FAULTS_TOOLS/strike" tests/faults/strike.c &&
	$compile -fPIC -shared -o "$FAULTS_TOOLS/memory.so" \
		tests/faults/memory.c &&
	$compile -fPIC -shared -o "$FAULTS_TOOLS/clock.so" \
		tests/faults/clock.c || { echo '0 passed, 1 failed'; exit 1; }

# In memory nothing is worn out, and a sync costs nothing.
place=${FAULTS_PLACE:-/dev/shm}
[ -d "$place" ] && [ -w "$place" ] || place=${TMPDIR:-/tmp}
work=$(mktemp -d "$place/faults-XXXXXX")
trap 'rm -rf "$work"' EXIT
trap 'exit 1' HUP INT TERM

# --- the suites ---------------------------------------------------------------
# The longest first, since some run side by side.
suites=${*:-walk memory whole damage power outputs safety huge signals disks clocks privacy
	writers lying}
printf '%s\n' $suites | xargs -P $(($(nproc) + 1)) -n 1 "$BASH" "$0" \
	--one "$work"

row() { printf '%-47s %8s %5s %9s %6s\n' "$@"; }
passed=0 failed=0
row '' tried lost corrupted other
for suite in $suites; do
	read -r status took < "$work/$suite.ended" || status=nothing
	grep '^FIGURE' "$work/$suite.log" > "$work/figures"
	while IFS='	' read -r _ title tried lost corrupted other; do
		row "$title" "$tried" "$lost" "$corrupted" "$other"
	done < "$work/figures"
	cat "$work/figures" >> "$work/all"
	if [ "$status" = 0 ] && [ -s "$work/figures" ]; then
		passed=$((passed + 1))
	else
		failed=$((failed + 1))
		echo "suite $suite ended with $status:"
		grep -v '^FIGURE' "$work/$suite.log" | head -n 60 |
			sed 's/^/    /'
	fi
	[ "$short" = yes ] || echo "    ($suite: $took s)"
done
row $(awk -F '\t' '{ t += $3; l += $4; c += $5; o += $6 }
	END { print "sum", t, l, c, o }' "$work/all")
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
