#!/bin/bash
# A slip in another language, compiled in or from a wording file in the
# station's folder; one with a hole is refused when it is read.
. "$SHOAL_TREE/tests/shell/lib.sh"
new_station
one_sheet 'Adira Moru' 25 | "$SHOAL" --today 2026-03-10 screen --csv - > answers
number=$(sed -n 2p answers | cut -d, -f1)
wording=$SHOAL_TREE/config/wording-en.ini

# Those compiled in; the station's own language; a file in place of one.
for language in en fr es sw ar; do
	expect_status 0 "$SHOAL" slip "$number" --html --language $language
	says out "<html lang=\"$language\" dir=\"$([ $language = ar ] &&
		echo rtl || echo ltr)\">"
	"$SHOAL" slip "$number" --narrow --language $language > out
	says out "$number"
done
sed 's/^language = en/language = sw/' book/station.ini > station
mv station book/station.ini
expect_status 0 "$SHOAL" slip "$number"
says out 'Jicho la kulia'
expect_status 0 "$SHOAL" forms forms
says forms/grading-card.html '<html lang="sw" dir="ltr">'
expect_status 0 "$SHOAL" forms forms --language ar
says forms/tally-sheet.html '<html lang="ar" dir="rtl">'
one_sheet 'Bekuro Maf' 25 | "$SHOAL" --today 2026-03-10 screen --csv - > answers
says "book/slips/$(sed -n 2p answers | cut -d, -f1).txt" 'Jicho la kulia'
sed 's/^left_eye = .*/left_eye = "Kushoto"/' \
	"$SHOAL_TREE/config/wording-sw.ini" > book/wording-sw.ini
expect_status 0 "$SHOAL" slip "$number"
says out 'Kushoto'
rm book/wording-sw.ini
sed 's/^reviewed_by = .*/reviewed_by = "Dr Invented Person"/' \
	"$SHOAL_TREE/config/wording-fr.ini" > book/wording-fr.ini
expect_status 0 "$SHOAL" slip "$number" --language fr
! grep -q 'clinicien qui parle' out || fail 'reviewed words said not to be'
rm book/wording-fr.ini
expect_status 0 "$SHOAL" agree --sheet --language es
says out 'Alumno'
sed -i 's/^language = sw/language = en/' book/station.ini

expect_status 4 "$SHOAL" slip "$number" --language xx
says err 'there are en, fr, es, sw, ar'
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
assert len(rows) == 2 and rows[0]["depth_right"] == "25", rows' || fail 'csv'
