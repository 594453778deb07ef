#!/bin/bash
# Clocks at a camp: 1970 after a flat battery, the day confirmed, midnight.
. "$SHOAL_TREE/tests/shell/lib.sh"
new_station

# An empty register, or a gap of days: the day is asked about, and one typed by
# hand counts for everything that follows.
{ printf '2\n2026-03-09\nNT\n'; plain_person; } > typed
expect_status 0 "$SHOAL" screen < typed
says err 'Is that right?'
[ "$(ask_register 'SELECT screened_on FROM visit')" = 2026-03-09 ] ||
	fail 'the day typed by hand'
[ "$(ask_register 'SELECT late FROM visit')" = 0 ] || fail 'not late'
says err 'screened 1'

# A clock behind the last person is doubted; one day after it is not.
{ printf 'NT\n'; plain_person; } > typed
expect_status 0 "$SHOAL" --today 2026-03-10 screen < typed
! grep -q 'Is that right' err || fail 'a day given by hand was doubted'

# A day in the future is refused, an earlier one is a paper day.
expect_status 3 "$SHOAL" --today 2026-03-10 screen --date 2026-03-11 < typed
says err 'is after today'
{ printf 'NT\n0014-90001-19\n'; plain_person; } > paper
expect_status 3 "$SHOAL" --today 2026-03-10 screen --date 2026-03-08 < paper
says err 'do not fit'
check=$(python3 -c 'print("%02d" % (98 - 1490001 * 100 % 97))')
{ printf 'NT\n0014-90001-%s\n' "$check"; plain_person; } > paper
expect_status 0 "$SHOAL" --today 2026-03-10 screen --date 2026-03-08 < paper
[ "$(ask_register "SELECT screened_on, late FROM visit
	WHERE number LIKE '0014-90001-%'")" = '2026-03-08|1' ] ||
	fail 'the paper day'
# The next new person does not follow the paper serial.
{ printf 'NT\n'; plain_person; } > typed
expect_status 0 "$SHOAL" --today 2026-03-10 screen < typed
says err 'Saved 0014-00003-'
# A paper number that was used already is refused at once, with whose it is, and
# asked for again.
before=$(ask_register 'SELECT count(*) FROM visit')
head -n 2 paper > used
expect_status 0 "$SHOAL" --today 2026-03-10 screen --date 2026-03-08 < used
says err 'is in the register already: no name, screened on'
[ "$before" = "$(ask_register 'SELECT count(*) FROM visit')" ] ||
	fail 'a paper number twice'
{ cat used; echo; plain_person; } > corrected
expect_status 0 "$SHOAL" --today 2026-03-10 screen --date 2026-03-08 < corrected
says err 'Saved 0014-00004-'
