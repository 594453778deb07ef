#!/bin/sh
# Which lines and branches the tests reach (make coverage): the program and the
# unit tests are built once more for gcov; then the unit tests, the scenes, the
# shell tests and the short fault suites run. Their own verdict is that of
# `make check`: some shell tests and all faults watch every call of the program,
# and this one makes more of them.
#
#   FAST=1    only the unit tests and the scenes
#
# Below 95 % of the lines or 85 % of the branches in base, clinic, counts or
# keep is a failure. So is a line there that nothing reaches, unless its
# function stands in uncovered.txt with the reason; and a function that stands
# there by its name although all of it is reached.
set -u
B=${B:-build} MAKE=${MAKE:-make} FAST=${FAST:-}
here=tests/house
built=$B/coverage
mkdir -p "$built"
built=$(cd "$built" && pwd)
$MAKE -s -k -j"$(nproc)" --no-print-directory B="$built" CC=gcc COVERAGE=yes \
	all "$built/unit" || exit 1
find "$built" -name '*.gcda' -exec rm -f {} +

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
trap 'exit 1' HUP INT TERM
# The program of users by a copy: the test of installing builds it anew.
mkdir "$work/tmp" "$work/b" "$work/b/gcc"
ln -s "$built" "$work/b/asan"
cp "$built/shoal" "$work/b/gcc/shoal"

# say TITLE COMMAND...: runs it and prints its last line.
say() {
	title=$1
	shift
	"$@" > "$work/log" 2>&1 < /dev/null
	echo "$title: $(tail -n 1 "$work/log")"
}
say 'unit tests' env TMPDIR="$work/tmp" LC_ALL=C "$built/unit"
say 'scenes' env B="$work/b" sh $here/scenes.sh
if [ -z "$FAST" ]; then
	say 'shell tests' env B="$work/b" sh $here/shell.sh
	# A program that crashes may leave half a count: these go elsewhere.
	for suite in walk whole memory; do
		say "faults, $suite" env B="$work/b" FAULTS_ONLY=EIO \
			SHOAL_PLAIN="$built/shoal" \
			GCOV_PREFIX="$work/$suite" \
			bash tests/faults/run.sh --short $suite
		rm -rf "$work/merged"
		gcov-tool merge -o "$work/merged" "$built" \
			"$work/$suite$built" > /dev/null 2>&1 &&
			cp -r "$work/merged/." "$built" ||
			echo "what $suite reached cannot be added"
	done
fi

for source in src/*/*.c; do
	gcov -t -b -c -r -s "$(pwd)" -o "$built/$(dirname "$source")" \
		"$source" 2> /dev/null |
		awk -v source="$source" -f $here/coverage.awk
done > "$built/figures"

awk -F '\t' '
function share(part, all) { return all ? 100 * part / all : 100 }
function row(name, l, ll, b, bb) {
	printf "%-28s %5d of %5d lines %5.1f %%  %5d of %5d branches %5.1f %%\n",
		name, l, ll, share(l, ll), b, bb, share(b, bb)
}
$1 == "room" {
	split($2, part, "/")
	floor = part[2]
	if (!(floor in lines)) order[++floors] = floor
	name = $2; sub(/^src\//, "", name); sub(/\.c$/, "", name)
	row(name, $3, $4, $5, $6)
	reached[floor] += $3; lines[floor] += $4
	taken[floor] += $5; branches[floor] += $6
}
END {
	print ""
	for (i = 1; i <= floors; i++) {
		f = order[i]
		row(f, reached[f], lines[f], taken[f], branches[f])
		if (f !~ /^(base|clinic|counts|keep)$/) continue
		if (share(reached[f], lines[f]) <= 95 ||
		    share(taken[f], branches[f]) <= 85) {
			print f ": too few; wanted are over 95 % of the lines" \
				" and 85 % of the branches"
			bad = 1
		}
	}
	exit bad
}' "$built/figures"
bad=$?
[ -z "$FAST" ] || exit $bad

awk -F '\t' '
FNR == NR {
	if ($0 !~ /^#/ && split($0, part, / *[|] */) == 3 && part[3] != "")
		reason[part[1] "\t" part[2]] = part[3]
	next
}
$1 == "room" { there[$2] }
$1 == "missed" && $2 ~ /^src\/(base|clinic|counts|keep)\// {
	key = $2 "\t" $4
	if (key in reason) met[key]
	else if (($2 "\t*") in reason) next
	else { print $2 ":" $3 ": not reached, and no reason given: " $5
		bad = 1 }
}
END {
	for (key in reason)
		if (!(key in met) && key !~ /\t[*]$/) {
			print "uncovered.txt: all of it is reached, or it is" \
				" not there: " key
			bad = 1
		}
	exit bad
}' $here/uncovered.txt "$built/figures" || bad=1
exit $bad
