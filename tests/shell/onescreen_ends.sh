#!/bin/bash
# However the one screen ends, the terminal is as before, what was saved stays,
# and who was begun is offered at the next start; where it has no room the
# prompts come by themselves.
. "$SHOAL_TREE/tests/shell/lib.sh"
. "$SHOAL_TREE/tests/shell/screenlib.sh"
new_station
open_terminal
settle
begin
type_text '田中 عائشة é'
press Enter
wait_for '>Phone'

# Stopped and gone on; a window too small, and large again.
press C-z
ended 'Stopped'
type_line fg
wait_for 'Esc menu'
shows 'Name 田中 عائشة é'
tmux resize-window -x 60 -y 20
wait_for 'This window is too small.'
press 9 9 9 Enter
tmux resize-window -x 120 -y 40
wait_for 'Esc menu'
shows 'Name 田中 عائشة é'
lacks '999'
tmux resize-window -x 80 -y 24
wait_for '>Phone or village'

# A signal, an interrupt: what was answered is offered at the next start.
kill -TERM "$(cat pid)"
ended 'offered at the next start'
[ -s "$SHOAL_BOOK/draft.txt" ] || fail 'there is no draft'
type_line "clear; $screen_command"
wait_for 'Go on with this person?'
shows 'grader NT, is here: 田中'
press Enter
wait_for 'Your initials'
type_line NT
wait_for '>Phone or village'
shows 'Name 田中 عائشة é'
press Enter
wait_for '>Age'
press C-c
ended 'offered at the next start'

# A kill is like a power cut. The terminal is then closed under the program,
# which ends.
type_line "clear; $screen_command"
wait_for 'Go on with this person?'
shows '2 answers'
press Enter
wait_for 'Your initials'
type_line NT
wait_for '>Age'
type_text '66'
press Enter 1
wait_for '*1 F'
kill -9 "$(cat pid)"
wait_for 'Killed'
in_shell 'stty sane'
type_line "clear; $screen_command"
wait_for 'sex F, 4 answers'
press Enter
wait_for 'Your initials'
type_line NT
wait_for '>Complaints'
program=$(cat pid)
tmux kill-server
for _ in $(seq 100); do
	kill -0 "$program" 2> /dev/null || break
	sleep 0.05
done
! kill -0 "$program" 2> /dev/null || fail 'it outlived its terminal'
[ "$(entries)" = 0 ] || fail 'something was saved by itself'

# Where a screen has no room the prompts come by themselves, and with --plain,
# and on a terminal that can do nothing; they keep a draft as well.
open_terminal 40 24
type_line "clear; $screen_command"
wait_for 'Go on with this person?'
press Enter
wait_for 'Your initials'
type_line NT
wait_for 'Questions come line by line: this'
wait_for 'Name [田中 عائشة é]'
press Enter Enter Enter Enter
wait_for 'Complaints'
type_line 8
wait_for 'Risks'
kill -9 "$(cat pid)"
wait_for 'Killed'
tmux resize-window -x 80 -y 24
type_line "clear; $screen_command --plain"
wait_for 'Go on with this person?'
shows '5 answers'
type_line 2
wait_for 'Drop this person?'
type_line 1
wait_for 'Your initials'
[ ! -e "$SHOAL_BOOK/draft.txt" ] || fail 'what was not wanted is still there'
type_line NT
wait_for 'Name [no name]'
lacks 'line by line'
type_line '<'
wait_for '3 finish'
type_line 3
wait_for 'screened 0, referred 0'
type_line "clear; TERM=dumb $SHOAL --today 2026-03-10 screen"
wait_for 'Your initials'
type_line NT
wait_for 'Name [no name]'
lacks 'line by line'
press C-c
type_line "clear; TERM=nonesuch $SHOAL --today 2026-03-10 screen"
wait_for 'Your initials'
type_line NT
wait_for 'cannot be drawn on'
wait_for 'Name [no name]'
press C-c
# Without the library: the first of its name that is looked at is none.
mkdir none
: > none/libncursesw.so.6
type_line "clear; LD_LIBRARY_PATH=none $SHOAL --today 2026-03-10 screen"
wait_for 'Your initials'
type_line NT
wait_for 'install the package libncursesw6'
wait_for 'Name [no name]'
press C-c
in_shell true
