#!/bin/sh
# A camp day from start to tally, read back by tools that share no code.
. "$SHOAL_TREE/tests/shell/lib.sh"

SHOAL=$SHOAL sh "$SHOAL_TREE/tests/shell/../scenes/demo/run.sh" > demo.out 2>&1 ||
	{ cat demo.out; fail 'the demo'; }
SHOAL=$SHOAL sh "$SHOAL_TREE/tests/shell/../scenes/demo/run.sh" > demo2.out 2>&1 ||
	{ cat demo2.out; fail 'the demo, a second time'; }
book=$(sed -n 's/^Try:  export SHOAL_BOOK=//p' demo.out)
other=$(sed -n 's/^Try:  export SHOAL_BOOK=//p' demo2.out)
[ "$book" != "$other" ] || fail 'the second demo reused the first one'
[ -d "$book" ] || fail 'the second demo removed the first one'
SHOAL_BOOK=$book; export SHOAL_BOOK
trap 'rm -rf "$book" "$other"' EXIT

[ "$(ls "$book/slips" | grep -c html)" = 40 ] || fail 'a slip for everybody'
[ "$(ask_register "SELECT count(*) FROM $people WHERE state <> 'void'")" = 40 ] ||
	fail '40 people in the register'

# The tally by Python's csv module: sums, and the letters recomputed.
python3 - "$book"/tallies/*.csv <<'PY' || fail 'the tally'
import csv, sys, zlib
with open(sys.argv[1], newline="", encoding="utf-8") as f:
    rows = list(csv.DictReader(f))
assert rows, "no rows"
n = lambda row, *names: sum(int(row[x]) for x in names)
depths = [c for c in rows[0] if c.startswith("depth_")]
for i, r in enumerate(rows, 1):
    assert r["schema"] == "shoal-tally-1" and r["state"] == "closed", r
    assert (n(r, "row"), n(r, "rows")) == (i, len(rows)), r
    assert n(r, "screened") == n(r, "same_day", "urgent", "routine", "no_referral")
    assert n(r, "screened") == n(r, "not_gradable", *depths)
    values = list(r.values())
    crc, letters = zlib.crc32("\x1f".join(values[:-1]).encode()), ""
    for _ in range(7):
        letters = chr(65 + crc % 26) + letters
        crc //= 26
    assert letters == r["check"], (letters, r["check"])
assert sum(n(r, "screened") for r in rows) == n(rows[0], "day_total") == 40
PY

# The totals recounted from the register by SQL.
sum_of() {
	python3 -c 'import csv,sys
print(sum(int(r[sys.argv[2]]) for r in csv.DictReader(open(sys.argv[1]))))' \
		"$book"/tallies/*.csv "$1"
}
for urgency in same_day urgent routine no_referral; do
	counted=$(ask_register "SELECT count(*) FROM $people
		WHERE state <> 'void' AND urgency = '$urgency'")
	[ "$(sum_of $urgency)" = "$counted" ] || fail "sum of $urgency"
done
shallowest="min(CASE WHEN depth_right IN ('x','-') THEN 999
	ELSE CAST(depth_right AS INTEGER) END,
	CASE WHEN depth_left IN ('x','-') THEN 999
	ELSE CAST(depth_left AS INTEGER) END)"
for grade in 0 5 15 25 40 75 100; do
	counted=$(ask_register "SELECT count(*) FROM $people
		WHERE state <> 'void' AND $shallowest = $grade")
	[ "$(sum_of depth_$grade)" = "$counted" ] || fail "sum of depth_$grade"
done

# No name leaves the camp in a tally.
cut -d, -f2 "$SHOAL_TREE/tests/scenes/demo/camp.csv" | grep '[a-z]' |
	grep -v '^name$' > names
! grep -rFf names "$book"/tallies || fail 'a name in a tally'
! grep -rFf names "$book/sheet-answers.csv" || fail 'a name in the answers'
! ls -R "$book" | grep -Ff names || fail 'a name in a file name'
