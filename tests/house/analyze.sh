#!/bin/sh
# Read one source with gcc -fanalyzer:  sh tests/house/analyze.sh FILE FLAGS...
# What it takes for a fault and is none stands in analyzer.txt with its reason;
# an entry that is not met any more fails as well.
set -u
source=$1
shift
found=$(mktemp)
trap 'rm -f "$found"' EXIT
LC_ALL=C gcc "$@" -O1 -fanalyzer -fdiagnostics-plain-output -c -o /dev/null \
	"$source" 2> "$found" || {
	cat "$found"
	exit 1
}
awk -F ' *[|] *' -v source="$source" '
FNR == NR {
	if ($1 == source) reason[$2] = $3
	next
}
/ warning: / {
	known = 0
	for (text in reason)
		if (index($0, text) && reason[text] != "") known = met[text] = 1
	if (!known) { print; bad = 1 }
}
END {
	for (text in reason)
		if (!(text in met)) {
			print source ": not met any more: " text
			bad = 1
		}
	exit bad
}' tests/house/analyzer.txt "$found"
