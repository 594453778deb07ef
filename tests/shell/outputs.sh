#!/bin/bash
# An output that cannot be written never looks like success.
. "$SHOAL_TREE/tests/shell/lib.sh"
new_station
one_sheet 'Adira Moru' 25 | "$SHOAL" --today 2026-03-10 screen --csv - > answers
number=$(sed -n 2p answers | cut -d, -f1)
day='--today 2026-03-10'

to_full() {
	status=0
	"$SHOAL" "$@" > /dev/full 2> err || status=$?
	[ "$status" = 6 ] || { cat err; fail "status $status instead of 6: $*"; }
	says err 'could not be written'
}
to_full help
to_full --version
to_full list
to_full list --csv
to_full slip "$number"
to_full slip "$number" --html
to_full assess --right 25 --left 25
to_full $day tally --out -
to_full policy check "$SHOAL_BOOK/policy.ini"
one_sheet > sheet
status=0
"$SHOAL" $day screen --csv sheet > /dev/full 2> err || status=$?
[ "$status" = 6 ] || fail "sheet: status $status"

# Only a terminal would ever get an escape byte, and even it does not here.
"$SHOAL" $day screen < /dev/null > all 2>&1
"$SHOAL" list >> all 2>&1; "$SHOAL" help >> all; "$SHOAL" slip "$number" >> all
! grep -q "$(printf '\033')" all || fail 'an escape byte'
