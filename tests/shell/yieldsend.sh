#!/bin/sh
# The files of a month's yield as they are sent again and again: with a higher
# revision whenever anything in them is different, also by a register that went
# on from a copy, and when nobody of the month is left.
. "$SHOAL_TREE/tests/shell/lib.sh"
new_station
today='--today 2026-07-01'
one_sheet 'Adira Moru' 25 | "$SHOAL" --today 2026-03-10 screen --csv - > answers 2> quiet
"$SHOAL" --today 2026-03-20 reply "$(sed -n 2p answers | cut -d, -f1)" \
	--set outcome=attended --set seen_on=2026-03-17 \
	--set deepest_right=none < /dev/null > quiet

# The revision rises with whatever changes the content: here the rule by which
# an angle is called closed, the programme's name, and a clock that was behind.
mkdir manager stick
"$SHOAL" $today yield --send manager > /dev/null 2> said
says said 'Yield of 2026-03 (revision 2)'
"$SHOAL" $today policy set gonioscopy.hidden_quadrants 3 book/policy.ini > /dev/null
"$SHOAL" $today yield --send manager > /dev/null 2> said
says said 'Yield of 2026-03 (revision 3)'
sed -i 's/^programme = .*/programme = "Lantern Hill Programme"/' book/station.ini
"$SHOAL" --today 2026-03-15 yield --send manager > /dev/null 2> said
says said 'Yield of 2026-03 (revision 4)'
"$SHOAL" $today yield --send manager > /dev/null 2> said
says said 'Yield of 2026-03 (revision 5)'
"$SHOAL" $today yield --send manager > /dev/null 2> said
says said 'Yield of 2026-03 (revision 5)'
expect_status 0 "$SHOAL" collate --yields --per programme manager
says err '4 files: 1 yield counted, 0 the same again, 3 superseded'

# A register that went on from a copy: what it sends takes the place of what was
# sent before, unless the copy did not have it all.
"$SHOAL" $today backup stick > /dev/null
one_sheet 'Bekuro Tal' 25 | "$SHOAL" $today screen --csv - > /dev/null 2>&1
mkdir late
"$SHOAL" $today yield --send late > /dev/null 2>&1
"$SHOAL" $today restore stick/backup-0014-*.db --yes > /dev/null 2>&1
expect_status 0 "$SHOAL" $today yield --send manager
says err 'Yield of 2026-03 (revision 6)'
expect_status 0 "$SHOAL" collate --yields --per '' --ledger ledger.csv manager
says err '5 files: 1 yield counted, 0 the same again, 4 superseded'
says ledger.csv 'went on from a copy of this one'
says err '4 yields of a register that went on from a copy were superseded'
expect_status 3 "$SHOAL" collate --yields --by month --per '' --ledger ledger.csv manager late
says ledger.csv 'tells of the same month'

# A month all of whose people are void, or were moved, takes itself back.
"$SHOAL" $today policy set gonioscopy.hidden_quadrants 2 book/policy.ini > quiet
number=$(sed -n 2p answers | cut -d, -f1)
"$SHOAL" $today correct "$number" --set screened_on=2026-02-28 --reason 'wrong day' > /dev/null
mkdir moved
expect_status 0 "$SHOAL" $today yield --send moved
says err 'Yield of 2026-02'
says err 'Yield of 2026-03'
expect_status 0 "$SHOAL" collate --yields --by month --per '' manager moved
[ "$(cut -d, -f1,2 out | tr '\n' ' ')" = 'month,people 2026-02,1 2026-03,0 ' ] || { cat out; fail 'a month moved'; }
"$SHOAL" $today void "$number" --reason 'nobody' > /dev/null
expect_status 0 "$SHOAL" $today yield --send moved
expect_status 3 "$SHOAL" $today yield
says err 'nobody was screened in these days'
expect_status 0 "$SHOAL" collate --yields --by all --per '' manager moved
[ "$(sed 1d out | cut -d, -f2)" = 0 ] || { cat out; fail 'somebody void was counted'; }
