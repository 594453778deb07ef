#!/bin/bash
# Forms for days without the laptop, and such a day typed in: the columns are
# those printed, and numbers, days and graders stay as they are on paper.
. "$SHOAL_TREE/tests/shell/lib.sh"
new_station
expect_status 0 "$SHOAL" forms out-there --pads 1
says out 'numbers 0014-90001-49 to 0014-90020-'
says out 'Next pad: --from 90021'
[ "$(ls out-there | tr '\n' ' ')" = 'grading-card.html paper-register.csv paper-register.html paper-slips.html reply-sheet.html tally-sheet.html training-sheet.html ' ] ||
	fail "other files: $(ls out-there)"
python3 - << 'END' || fail 'a page is not well-formed'
import re, xml.dom.minidom, glob
for name in glob.glob('out-there/*.html'):
    text = open(name, encoding='utf-8').read()
    xml.dom.minidom.parseString(re.sub('<!DOCTYPE html>', '', text))
# The names printed under the headings are the columns of the sheet; the day,
# site and grader stand at the head of the page.
page = open('out-there/paper-register.html', encoding='utf-8').read()
page = page.split('</section>')[0].replace('<wbr />', '')
names = re.findall('<small>([a-z_]+)</small>', page)
header = open('out-there/paper-register.csv').read()
assert header.endswith('\n') and header.count('\n') == 1
columns = header.strip().split(',')
assert names == columns[1:4] + columns[:1] + columns[4:], (names, columns)
assert '<small>' + header.strip() + '</small>' in page
END
expect_status 0 "$SHOAL" forms out-there --from 90021 --pads 2
says out 'numbers 0014-90021-'
says out 'Next pad: --from 90061'
expect_status 0 "$SHOAL" forms out-there --from 99980
! grep -q 'Next pad' out || fail 'a pad beyond the last number'
for bad in '--from 90000' '--from 99981' '--from x' '--pads 0' '--pads 51' \
	'--from 99900 --pads 6'; do
	status=0
	"$SHOAL" forms out-there $bad > out 2> err || status=$?
	case $status in 2|3) ;; *) cat out err; fail "$bad: status $status" ;; esac
done
"$SHOAL" forms out-there > /dev/null

# True size: register two pages, sheets one.
set -- paper-register:2 reply-sheet:1 tally-sheet:1 training-sheet:1 \
	grading-card:1
mkdir printed
for page; do cp "out-there/${page%:*}.html" printed; done
python3 "$SHOAL_TREE/tests/shell/print.py" printed/*.html
for page; do
	pages=$(pdfinfo "printed/${page%:*}.pdf" | sed -n 's/^Pages: *//p')
	[ "$pages" = "${page#*:}" ] || fail "${page%:*} has $pages pages"
done

# A paper day, typed as it is circled.
numbers=$(sed -n 's/.*class="number">\(0014-900..-..\)<.*/\1/p' \
	out-there/paper-register.html | head -n 3)
set -- $numbers
{
	cat out-there/paper-register.csv
	echo "$1,2026-03-09,Kiln yard,AB,Adira Moru,Third row,68,no,F,134,0,0,0,12,0,5,,15,,54,18,yes"
	echo "$2,2026-03-09,Kiln yard,AB,Bekuro Maf,,60,yes,M,0,3,0,0,0,0,x,2,40,,,17,no"
	echo "$3,2026-03-08,Kiln yard,CD,,,,,,0,0,6,0,0,0,-,,25,,,16,yes"
} > typed.csv
expect_status 0 "$SHOAL" --today 2026-03-10 screen --csv typed.csv
says out "$1,same_day,2026-03-09"

# The same people by codes, on another laptop.
cat > coded.csv << 'END'
grader,screened_on,site,name,contact,age_years,age_estimated,sex,depth_right,depth_left,not_gradable_why_right,pressure_right,pressure_left,findings,reply_consent
AB,2026-03-09,Kiln yard,Adira Moru,Third row,68,no,F,5,15,,54,18,eye_pain;nausea;haloes;right:red_eye;right:hazy_cornea,yes
AB,2026-03-09,Kiln yard,Bekuro Maf,,60,yes,M,x,40,pterygium,,17,needs_dilating,no
CD,2026-03-08,Kiln yard,,,,,,-,25,,,16,right:not_seeing,yes
END
export SHOAL_BOOK=$PWD/other
new_station 0015
"$SHOAL" --today 2026-03-10 screen --csv coded.csv > /dev/null 2>&1
columns="screened_on, late, site, grader, name, contact, age_years,
	age_estimated, sex, depth_right, depth_left, not_gradable_why_right,
	not_gradable_why_left, pressure_right, pressure_left, findings,
	reply_consent, urgency, within_days, see_by, rescreen_months, rules"
ask_register "SELECT $columns FROM visit ORDER BY number" > by-code
SHOAL_BOOK=$PWD/book
ask_register "SELECT $columns FROM visit ORDER BY number" > by-paper
diff by-code by-paper || fail 'paper and codes differ'
[ "$(wc -l < by-paper)" = 3 ] || fail 'not three people'
ask_register "SELECT number FROM visit ORDER BY number" > kept
printf '%s\n' $numbers | cmp - kept || fail 'the paper numbers were not kept'

# What is missing or does not fit is refused with its name.
cut -d, -f1-14,16- typed.csv > short.csv
expect_status 3 "$SHOAL" --today 2026-03-10 screen --csv short.csv
says err 'signs_left'
sed 's/,134,0,0/,139,0,0/' typed.csv > bad.csv
expect_status 3 "$SHOAL" --today 2026-03-10 screen --csv bad.csv
says err "complaints"
says err "1 to 8"

# A pad with numbers that people have is not printed again; the next one is.
expect_status 3 "$SHOAL" forms again
says err '0014-90001-49 is in the register already (of these numbers, 3 are)'
says err '--from 90021'
[ ! -e again ] || fail 'forms were written'
expect_status 3 "$SHOAL" forms again --from 90003
expect_status 0 "$SHOAL" forms again --from 90004
expect_status 0 "$SHOAL" forms again --from 90021
mv book/register.db away
expect_status 0 "$SHOAL" forms again
says err 'is not known'
mv away book/register.db
