#!/bin/bash
# A slip in another language, from a wording file in the station's folder; one
# with a hole is refused when it is read.
. "$SHOAL_TREE/tests/shell/lib.sh"
new_station
one_sheet 'Adira Moru' 25 | "$SHOAL" --today 2026-03-10 screen --csv - > answers
number=$(sed -n 2p answers | cut -d, -f1)
wording=$SHOAL_TREE/config/wording-en.ini

expect_status 4 "$SHOAL" slip "$number" --language xx
says err 'wording-xx.ini'
sed -e 's/^language = "en"/language = "xx"/' \
	-e 's/^part_clinic = .*/part_clinic = "Pour la clinique"/' \
	"$wording" > book/wording-xx.ini
expect_status 0 "$SHOAL" slip "$number" --language xx
says out 'Pour la clinique'
expect_status 0 "$SHOAL" slip "$number" --language xx --html
says out 'lang="xx"'
sed -i '/^part_clinic/d' book/wording-xx.ini
expect_status 4 "$SHOAL" slip "$number" --language xx
says err 'part_clinic'
for bad in ../x e 'e/' EN english; do
	status=0
	"$SHOAL" slip "$number" --language "$bad" > out 2> err || status=$?
	case $status in 2|3|4) ;; *) fail "language $bad: status $status" ;; esac
done

# Names leave in a list only when they are asked for.
"$SHOAL" list --csv > list.csv
! grep -q 'Adira' list.csv || fail 'a name in list --csv'
"$SHOAL" list --csv --names > list.csv
grep -q 'Adira' list.csv || fail 'no name in list --csv --names'
python3 -c 'import csv, sys
rows = list(csv.DictReader(open("list.csv", newline="")))
assert len(rows) == 1 and rows[0]["depth_right"] == "25", rows' || fail 'csv'
