#!/bin/bash
# Modes, links, names: nobody else reads it, nothing else is written to.
. "$SHOAL_TREE/tests/shell/lib.sh"
umask 022
new_station
day='--today 2026-03-10'
one_sheet 'Adira Moru' 25 | "$SHOAL" $day screen --csv - > answers
number=$(sed -n 2p answers | cut -d, -f1)
"$SHOAL" $day tally > /dev/null 2>&1
"$SHOAL" slip "$number" --html --out slip.html
for folder in book book/slips book/tallies; do
	[ "$(stat -c %a $folder)" = 700 ] || fail "mode of $folder"
done
find book -type f ! -perm 600 | grep . && fail 'a file that others may read'
[ "$(stat -c %a slip.html)" = 600 ] || fail 'mode of slip.html'
[ -z "$(find book -name '*tmp*' -o -name '*journal*')" ] || fail 'left behind'

# A register that is a link is refused; a link where a slip goes is told and
# never followed; the person is saved all the same.
echo canary > canary
ln -sf "$PWD/canary" "book/slips/$number.html"
expect_status 6 "$SHOAL" $day correct "$number" --set depth_right=15 --reason again
says out "Saved $number"
says err 'a link stands there'
rm "book/slips/$number.html"
[ "$(cat canary)" = canary ] || fail 'a link was followed'
mkdir linked
ln -s "$PWD/book/register.db" linked/register.db
cp book/station.ini book/policy.ini linked
expect_status 5 "$SHOAL" --book linked list

# An existing station is never set up again; its bytes stay.
before=$(cksum < book/register.db)
expect_status 5 "$SHOAL" start --station 0015 --programme P --site S
[ "$before" = "$(cksum < book/register.db)" ] || fail 'register touched'

# Names that may not be kept: nothing is saved, no bad byte is printed.
count=$(ask_register 'SELECT count(*) FROM visit')
for bad in '=1+1' '+49' '@x' $'a\eb' $'a\x01' $'\xff' $'\xc0\x80' \
	$'a\xe2\x80\xaeb' $'\xed\xa0\x80' "$(printf 'x%.0s' $(seq 81))"; do
	one_sheet "$bad" > sheet
	expect_status 3 "$SHOAL" $day screen --csv sheet
	! grep -qP '[\x00-\x08\x0b-\x1f\x7f]' out err || fail 'a raw byte printed'
done
[ "$count" = "$(ask_register 'SELECT count(*) FROM visit')" ] ||
	fail 'a bad name was kept'

# All rows or none.
{ one_sheet 'Esira Kono' 40; echo 'NT,,58,F,20,40,,,,yes'; } > sheet
expect_status 3 "$SHOAL" $day screen --csv sheet
says err 'row 2'
says err '1 of 2 rows'
[ "$count" = "$(ask_register 'SELECT count(*) FROM visit')" ] ||
	fail 'a part of a sheet was kept'

# A limit of memory, an endless input.
(ulimit -v 200000; yes | head -c 50000000 |
	"$SHOAL_PLAIN" assess --csv > out 2> err) && fail 'endless input taken'
(ulimit -v 200000; "$SHOAL_PLAIN" policy check /dev/zero > out 2> err) &&
	fail '/dev/zero taken for a policy'
says err 'zero'
