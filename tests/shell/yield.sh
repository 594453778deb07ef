#!/bin/sh
# What became of people, by the commands alone: a published survey's figures,
# and the files for the programme.
. "$SHOAL_TREE/tests/shell/lib.sh"
new_station
sed 's/^; every = 20/every = 2/' book/policy.ini > new.ini
mv new.ini book/policy.ini
plain() { "$SHOAL_PLAIN" "$@"; }

# Foster et al., Br J Ophthalmol 2000;84:186-92, table 6: of 140 people with an
# occludable angle 139 had a depth of 25 % or less, of 1560 without 1022 had a
# greater one; everybody had been examined. Here those not referred are
# examined when their serial is even, so they stand at even places, and others
# of the day before fill the gaps.
python3 - "$PWD" << 'END'
import csv, sys
flagged = [('narrow', '25')] * 139 + [('open', '25')] * (1560 - 1022)
cleared = [('open', '40')] * 1022
cleared.insert(500, ('narrow', '40'))
people = []
for person in cleared:
    people.append(flagged.pop() if flagged else None)
    people.append(person)
columns = ('screened_on,grader,age_years,sex,depth_right,depth_left,'
           'findings,reply_consent').split(',')
for half in (0, 1):
    with open('sheet%d.csv' % half, 'w') as out:
        w = csv.writer(out)
        w.writerow(columns)
        for person in people[1023 * half:1023 * (half + 1)]:
            depth = person[1] if person else '100'
            day = '2026-03-10' if person else '2026-03-09'
            w.writerow([day, 'NT', 58, 'F', depth, depth, '', 'yes'])
with open('kinds', 'w') as out:
    out.writelines((p[0] if p else 'none') + '\n' for p in people)
END
for half in 0 1; do
	plain --today 2026-03-10 screen --again --csv sheet$half.csv | sed 1d >> numbers
done
{
	echo number,outcome,seen_on,deepest_right,deepest_left,synechiae_right,synechiae_left,pressure_right,pressure_left
	paste -d, numbers kinds | awk -F, '$4 != "none" {
		seen = $4 == "narrow" ? "anterior_meshwork" : "scleral_spur"
		print $1 ",attended,2026-03-17," seen "," seen ",no,no,15,15" }'
} > replies
[ "$(wc -l < replies)" = 1701 ] || fail "$(wc -l < replies) lines of replies"
plain --today 2026-03-20 reply --csv replies > /dev/null
plain --today 2026-05-01 yield --from 2026-03-10 --per grade > out
says out '677 people were sent'
says out 'Of 1023 people not referred a fixed rule chose 1023 for examination'
# 139/140 = 99.29 %, 1022/1560 = 65.51 %
grep -q '^narrow (suspect or worse) *99\.3 ([0-9.]*-[>0-9.]*) *65\.5 ([0-9.]*-[0-9.]*) *1 of 1023$' out ||
	{ cat out; fail 'the sensitivity and specificity'; }

# Those not referred are not called chosen by another rule.
plain --today 2026-05-01 yield --to 2026-03-09 > out
says out 'Nobody was referred'
says out 'no sensitivity and no specificity'

# A file a month, the same however often and whenever it is written.
plain --today 2026-05-01 yield --send > /dev/null 2> said
says said 'Yield of 2026-03 (revision 3746)'
file=book/tallies/yield-0014-2026-03-r3746.csv
cp $file first.csv
plain --today 2026-06-30 yield --send > /dev/null
cmp $file first.csv
python3 - $file << 'END'
import csv, sys, zlib
rows = list(csv.reader(open(sys.argv[1], newline='')))
head, rows = rows[0], rows[1:]
def letters(values):
    crc, text = zlib.crc32('\x1f'.join(values).encode()), ''
    for _ in range(7):
        crc, digit = divmod(crc, 26)
        text = chr(65 + digit) + text
    return text
total = 0
for row in rows:
    r = dict(zip(head, row))
    assert letters(row[:-1]) == r['check'], r
    n = {k: int(v) for k, v in r.items() if v.isdigit()}
    assert n['people'] == (n['attended'] + n['elsewhere'] +
        n['not_attended'] + n['unknown']), r
    assert n['attended'] == (n['open'] + n['suspect'] + n['closure'] +
        n['closure_glaucoma'] + n['closed'] + n['not_derivable']), r
    assert r['schema'] == 'shoal-yield-1' and r['month'] == '2026-03-01'
    total += n['people']
assert {row[head.index('month_total')] for row in rows} == {str(total)}
assert total == 2046
found = [sum(int(r[head.index(k)]) for r in rows)
         for k in ('open', 'suspect', 'chosen')]
assert found == [1560, 140, 1023], found
END
! grep -qw 'NT' $file || fail 'initials leave the camp'

# A reply more is a higher revision; --to sends months without anybody as well.
one_sheet '' 15 | plain --today 2026-04-02 screen --csv - > answers
number=$(sed -n 2p answers | cut -d, -f1)
"$SHOAL" --today 2026-04-20 reply "$number" --set outcome=not_attended \
	--set why_not=died --set seen_on=2026-04-20 < /dev/null > /dev/null
mkdir sent
expect_status 0 plain --today 2026-07-01 yield --per rule --to 2026-05-31 --send sent
says out 'died 1'
[ "$(ls sent | tr '\n' ' ')" = 'yield-0014-2026-03-r3748.csv yield-0014-2026-04-r3748.csv yield-0014-2026-05-r3748.csv ' ] ||
	{ ls sent; fail 'the files sent'; }
[ "$(wc -l < sent/yield-0014-2026-05-r3748.csv)" = 2 ] || fail 'zeros'

# The page holds no name, nothing from outside, and is whole.
SHOAL_BOOK=$PWD/small
new_station 0015
one_sheet 'Adira Moru' 25 | "$SHOAL" --today 2026-03-10 screen --csv - > answers
"$SHOAL" --today 2026-03-20 reply "$(sed -n 2p answers | cut -d, -f1)" \
	--set outcome=attended --set seen_on=2026-03-17 \
	--set deepest_right=none < /dev/null > /dev/null
today='--today 2026-07-01'
expect_status 0 "$SHOAL" $today yield --html --out page.html
says page.html '<!DOCTYPE html>'
says page.html '</html>'
says page.html '<meta name="viewport" content="width=device-width">'
says page.html 'overflow-x:auto'
says page.html '<svg'
! grep -q 'Adira\|src=\|url(h\|href="h' page.html || fail 'more than should be'
expect_status 0 "$SHOAL" $today yield --csv --out yield.csv
grep -q '^all,,1,1,0,0,0,0,0,0,0,0,1,0,' yield.csv || fail 'the CSV'
expect_status 6 "$SHOAL" $today yield --out none/page.html
expect_status 6 "$SHOAL" $today yield --send nowhere
