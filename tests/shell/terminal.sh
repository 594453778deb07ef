#!/bin/bash
# A real terminal of 40 columns: a whole person, keystrokes counted, and the
# terminal as before after an interrupt.
. "$SHOAL_TREE/tests/shell/lib.sh"
new_station
session=shoal$$
clean_up() { tmux -L $session kill-server 2> /dev/null || true; }
trap clean_up EXIT
tmux -L $session -f /dev/null new-session -d -x 40 -y 24 \
	"env SHOAL_BOOK='$SHOAL_BOOK' TERM=dumb bash --norc -i"
type_keys() { tmux -L $session send-keys -l -- "$1"; tmux -L $session send-keys Enter; }
screen() { tmux -L $session capture-pane -p -S -2000; }
wait_for() {
	for _ in $(seq 100); do
		screen | grep -qF -- "$1" && return
		sleep 0.1
	done
	screen
	fail "the terminal never showed: $1"
}

# Setting up asks what is not given; what is wrong is asked again.
type_keys "$SHOAL start --book asked --programme P"
wait_for 'Station code'
type_keys 14
wait_for 'Not taken'
type_keys 0014
for answer in 'Mavi school hall' '' '' '' '' '' '' ''; do
	type_keys "$answer"
done
wait_for 'Station 0014 is set up'
grep -q '^site = "Mavi school hall"' asked/station.ini || fail 'the site'
type_keys clear
type_keys 'stty -a > before; clear; echo begun $((40 + 2))'
wait_for 'begun 42'
type_keys "$SHOAL --today 2026-03-10 screen"
wait_for 'initials'
type_keys NT
wait_for 'Name [no name]'
for answer in '' '' 58 1 '' '' '' '' '' '' 40 40 16 17 2; do
	type_keys "$answer"
done
wait_for 'NO REFERRAL'
wait_for 'Save [yes]'
type_keys ''
wait_for 'Saved 0014-00001-'
wait_for 'screened 1, referred 0'
tmux -L $session send-keys C-c
sleep 0.3
type_keys 'stty -a > after; echo ended $((40 + 2))'
wait_for 'ended 42'
cmp before after || fail 'the terminal was left in another state'
[ "$(ask_register 'SELECT count(*) FROM visit')" = 1 ] || fail 'one person'

# A smaller grade on a red, painful eye: said at once, before the depth.
asked=$(screen | grep -c 'depth in %')
type_keys "$SHOAL --today 2026-03-10 screen"
wait_for 'initials'
type_keys NT
for answer in '' '' 66 1 13 '' '' '' 12; do type_keys "$answer"; done
wait_for '*** SEND TODAY ***'
[ "$(screen | grep -c 'depth in %')" = "$asked" ] ||
	fail 'the depth was asked before the alarm'
type_keys '<'
tmux -L $session send-keys C-d
wait_for 'not kept'
[ "$(ask_register 'SELECT count(*) FROM visit')" = 1 ] || fail 'a half person'
