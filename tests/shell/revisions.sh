#!/bin/sh
# Corrections, voids and late entries: append-only, and the tally's revision.
. "$SHOAL_TREE/tests/shell/lib.sh"
new_station
day='--today 2026-03-10'
shoal() { "$SHOAL" "$@"; }

one_sheet 'Adira Moru' 25 | shoal $day screen --csv - > answers
number=$(sed -n 2p answers | cut -d, -f1)
[ "$(sed -n 2p answers | cut -d, -f2)" = routine ] || fail 'the first answer'
one_sheet '' 100 | shoal $day screen --csv - > second
expect_status 0 shoal $day tally
[ -e book/tallies/tally-0014-2026-03-10-r1.csv ] || fail 'revision 1'

# The same content is the same revision, byte for byte.
cp book/tallies/tally-0014-2026-03-10-r1.csv first.csv
expect_status 0 shoal $day tally
cmp first.csv book/tallies/tally-0014-2026-03-10-r1.csv
[ ! -e book/tallies/tally-0014-2026-03-10-r2.csv ] || fail 'no second revision'

# A correction is decided again, says what changed, and raises the revision.
expect_status 0 shoal $day correct "$number" --set depth_right=5 --reason 'read again'
says out 'right depth: 25 -> 5'
says out 'urgency: routine -> urgent'
says out 'The answer has CHANGED'
expect_status 0 shoal $day tally --close
[ -e book/tallies/tally-0014-2026-03-10-r2.csv ] || fail 'revision 2'
cmp first.csv book/tallies/tally-0014-2026-03-10-r1.csv
grep -q ',closed,' book/tallies/tally-0014-2026-03-10-r2.csv || fail 'closed'
[ "$(ask_register "SELECT count(*) FROM visit WHERE number='$number'")" = 2 ] ||
	fail 'both entries are kept'

# A name is corrected at the prompt, not on the command line.
expect_status 2 shoal $day correct "$number" --set name=Adira --reason x
says err 'others can read it'
printf '1\nAdira Morua\n\n' > typed
{ cat typed; echo 'heard it wrong'; } |
	shoal $day correct "$number" > out 2> err || { cat err; fail 'a name'; }
says out 'Adira Moru -> Adira Morua'
says out 'The answer is the same, but the slip reads OTHERWISE'

# Nothing different, nothing kept; a wrong number; no reason.
expect_status 3 shoal $day correct "$number" --set depth_right=5 --reason again
expect_status 3 shoal $day correct 0014-00001-99 --set depth_right=5 --reason x
expect_status 3 shoal $day correct "$number" --set depth_right=0
expect_status 3 shoal $day correct "$number" --set depth_right=20 --reason x
says err 'the nearest are 15 and 25'

# A void entry counts no more; its number is never given out again.
last=$(sed -n 2p second | cut -d, -f1)
expect_status 0 shoal $day void "$last" --reason 'typed twice'
expect_status 3 shoal $day void "$last" --reason 'typed twice'
expect_status 3 shoal $day slip "$last"
expect_status 0 shoal $day list
says out 'VOID: typed twice'
one_sheet '' 75 | shoal $day screen --csv - > third
[ "$(sed -n 2p third | cut -d, -f1)" != "$last" ] || fail 'a number twice'

# A person typed in the day after goes to the true date.
{ echo "screened_on,$sheet_header"
  echo "2026-03-10,NT,,61,M,15,15,18,18,,no"; } |
	shoal --today 2026-03-11 screen --csv - > late
expect_status 0 shoal --today 2026-03-11 tally --date 2026-03-10
file=book/tallies/tally-0014-2026-03-10-r3.csv
[ -e $file ] || fail 'revision 3'
python3 -c 'import csv,sys
r = list(csv.DictReader(open(sys.argv[1])))
assert sum(int(x["late_entries"]) for x in r) == 1
assert sum(int(x["screened"]) for x in r) == 3
assert {x["state"] for x in r} == {"closed"}' $file || fail 'the late entry'
grep -q 'late' "book/slips/$(sed -n 2p late | cut -d, -f1).txt" ||
	grep -qi 'entered' "book/slips/$(sed -n 2p late | cut -d, -f1).txt" ||
	fail 'the slip does not say when it was entered'

# All entries of a day made void: a revision with zeros replaces the last.
one_sheet '' 75 | shoal --today 2026-03-12 screen --csv - > only
expect_status 0 shoal --today 2026-03-12 tally
expect_status 0 shoal --today 2026-03-12 void "$(sed -n 2p only | cut -d, -f1)" --reason wrong
expect_status 0 shoal --today 2026-03-12 tally
grep -q ',0,1,1,0,' book/tallies/tally-0014-2026-03-12-r2.csv || fail 'zeros'
