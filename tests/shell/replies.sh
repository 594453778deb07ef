#!/bin/bash
# A reply at a real terminal of 40 columns, an interrupt in the middle of one,
# and who may read what is written for the phone calls.
. "$SHOAL_TREE/tests/shell/lib.sh"
. "$SHOAL_TREE/tests/shell/screenlib.sh"
new_station
{ one_sheet 'Adira Moru' 15; one_sheet 'Bekuro Tal' 5 | tail -n 1; } > people.csv
"$SHOAL" --today 2026-03-10 screen --csv people.csv > numbers
first=$(sed -n 's/^\(0014-00001-..\),.*/\1/p' numbers)
second=$(sed -n 's/^\(0014-00002-..\),.*/\1/p' numbers)
behind=2000
open_terminal 40 24 dumb

settle
type_line "$SHOAL --today 2026-03-30 reply $first"
wait_for 'Adira Moru'
wait_for 'off the pupil.'
for answer in 1 2026-03-24 'Dr T' 5 1 3 1 2 '==' 16 40 1 1 '==' '=' 2 1 1 '' \
	1 '' ''; do
	type_line "$answer"
done
wait_for 'Save [yes]'
[ "$(ask_register 'SELECT count(*) FROM reply')" = 0 ] ||
	fail 'kept before the summary was answered'
type_line ''
wait_for "Saved the reply for $first"
[ "$(ask_register "SELECT group_concat(outcome || ' ' || seen_on || ' ' ||
	deepest_left_temporal || ' ' || pressure_left || ' ' || done)
	FROM reply")" = 'attended 2026-03-24 scleral_spur 16 nothing' ] ||
	fail 'what is kept'

# An interrupt keeps nothing, and leaves the terminal as it was.
type_line clear
type_line "$SHOAL --today 2026-03-30 reply $second"
wait_for 'Bekuro Tal'
for answer in 1 2026-03-25 '' 1; do type_line "$answer"; done
wait_for 'contour of the iris'
press C-c
sleep 0.3
in_shell 'stty -a > after'
cmp before after || fail 'the terminal was left in another state'
[ "$(ask_register 'SELECT count(*) FROM reply')" = 1 ] || fail 'a half reply'

# Names stand where they were asked for, and only the owner can read them.
expect_status 0 "$SHOAL" --today 2026-03-30 list --waiting --csv
says out "$second,urgent,"
if grep -q 'Bekuro' out err; then fail 'a name without --names'; fi
expect_status 0 "$SHOAL" --today 2026-03-30 list --waiting --html --out calls.html
says calls.html 'Bekuro Tal'
says calls.html '<meta name="viewport" content="width=device-width">'
[ "$(stat -c %a calls.html)" = 600 ] || fail 'others can read the call sheet'
if grep -q 'Adira' calls.html; then fail 'somebody who has a reply'; fi
expect_status 6 "$SHOAL" list --waiting --html --out /nowhere/calls.html
expect_status 6 "$SHOAL" list --waiting --html --out /dev/full
printf 'number,outcome,seen_on\n%s,attended,2026-03-25\n' "$second" > sheet.csv
status=0
"$SHOAL" --today 2026-03-30 reply --csv sheet.csv > /dev/full 2> err || status=$?
[ $status = 6 ] || fail "status $status when the answer cannot be written"
[ "$(ask_register 'SELECT count(*) FROM reply')" = 2 ] ||
	fail 'the sheet was announced as saved'
expect_status 0 "$SHOAL" --today 2026-03-30 list --waiting
says err '0 people wait for a reply, 0 overdue'
