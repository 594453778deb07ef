#!/bin/bash
# A real terminal of 40 columns: a whole person, keystrokes counted, and the
# terminal as before after an interrupt.
. "$SHOAL_TREE/tests/shell/lib.sh"
. "$SHOAL_TREE/tests/shell/screenlib.sh"
new_station
behind=2000
open_terminal 40 24 dumb

# Setting up asks what is not given; what is wrong is asked again.
type_line "$SHOAL start --book asked --programme P"
wait_for 'Station code'
type_line 14
wait_for 'Not taken'
type_line 0014
for answer in 'Mavi school hall' '?' '' '' '<' '?' '' '' '' '' '' '' ''; do
	type_line "$answer"
done
wait_for 'Station 0014 is set up'
grep -q '^site = "Mavi school hall"' asked/station.ini || fail 'the site'
settle
type_line "$SHOAL --today 2026-03-10 screen"
wait_for 'initials'
type_line NT
wait_for 'Name [no name]'
for answer in '' '' 58 1 '' '' '' '' '' '' 40 40 16 17 2; do
	type_line "$answer"
done
wait_for 'NO REFERRAL'
wait_for 'Save [yes]'
type_line ''
wait_for 'Saved 0014-00001-'
wait_for 'screened 1, referred 0'
press C-c
sleep 0.3
in_shell 'stty -a > after'
cmp before after || fail 'the terminal was left in another state'
[ "$(ask_register 'SELECT count(*) FROM visit')" = 1 ] || fail 'one person'

# A smaller grade on a red, painful eye: said at once, before the depth.
asked=$(picture | grep -c 'depth in %')
type_line "$SHOAL --today 2026-03-10 screen"
wait_for 'initials'
type_line NT
for answer in '' '' 66 1 13 '' '' '' 12; do type_line "$answer"; done
wait_for '*** SEND TODAY ***'
[ "$(picture | grep -c 'depth in %')" = "$asked" ] ||
	fail 'the depth was asked before the alarm'
type_line '<'
press C-d
wait_for 'not kept'
[ "$(ask_register 'SELECT count(*) FROM visit')" = 1 ] || fail 'a half person'
