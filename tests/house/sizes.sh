#!/bin/sh
# Hold functions and files to their sizes: no function over 60 lines, nine in
# ten under 30, no file over 400. A function has the lines between its braces,
# which stand alone in the first column (clang-format sees to that).
set -eu
lengths=$(mktemp)
trap 'rm -f "$lengths"' EXIT

awk -v lengths="$lengths" '
FNR == 1 { count_file() }
{ file = FILENAME; lines = FNR }
/^{$/ { start = FNR; name = before; next }
/^}$/ && start {
	length_now = FNR - start - 1
	print length_now > lengths
	if (length_now > 60) {
		printf "%s:%d: %d lines in %s (at most 60)\n", FILENAME, start,
			length_now, name
		bad++
	}
	start = 0
}
/^[A-Za-z_].*\(/ { before = $0; sub(/\(.*/, "", before)
	sub(/.*[ *]/, "", before) }
function count_file() {
	if (lines > 400) {
		printf "%s: %d lines (at most 400)\n", file, lines
		bad++
	}
}
END { count_file(); exit bad > 0 }' src/*/*.c src/*/*.h && bad=0 || bad=1

sort -n "$lengths" | awk '
{ size[NR] = $1; if ($1 < 30) under++ }
END {
	if (NR == 0) {
		print "no function found"
		exit 1
	}
	share = 100 * under / NR
	printf "note: %d functions, median %d lines, %.1f %% under 30\n", NR,
		size[int((NR + 1) / 2)], share
	if (share < 90) {
		print "fewer than 90 % of the functions are under 30 lines"
		exit 1
	}
}' || bad=1
exit "$bad"
