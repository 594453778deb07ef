#!/bin/bash
# The one screen in a real terminal, key by key: what stands there, what is
# saved.
. "$SHOAL_TREE/tests/shell/lib.sh"
. "$SHOAL_TREE/tests/shell/screenlib.sh"
new_station
open_terminal

# Somebody well: each key, and what then stands there. Nobody is called well
# before the last answer, and nothing is saved before the last key.
begin
shows 'screened 0, referred 0, same day 0'
shows 'RIGHT EYE (on your left)'
typed=0
while IFS='|' read -r key words; do
	press "$key"
	typed=$((typed + 1))
	wait_for "$words"
	case $words in
	'*2 no' | 'Enter saves') shows 'NO REFERRAL: screen again in 12 months' ;;
	Saved*) ;;
	*) lacks 'NO REFERRAL' ;;
	esac
	case $words in Saved*) ;; *) [ "$(entries)" = 0 ] || fail "$key saved" ;; esac
done <<'KEYS'
Enter|>Phone or village
Enter|>Age
5|>Age 5
8|>Age 58
Enter|>Sex
1|*1 F
Enter|>Complaints
3|*3 nausea or vomiting with it
3|Complaints none
Enter|>Risks
Enter|>History
Tab|none >History
Enter|>Signs
Enter|none >Signs
Enter|>Depth
4|####################........|
Enter|40 % >Depth
7| ####################...............|
Enter|>Pressure
1|>Pressure 1
6|>Pressure 16
Enter|16 >Pressure
Enter|>May the clinic write back to you
n|*2 no
Enter|Enter saves
Enter|Saved 0014-00001-98
KEYS
[ "$typed" -le 30 ] || fail "$typed keys for somebody well"
[ "$(entries)" = 1 ] || fail 'one person'
wait_for 'screened 1, referred 0, same day 0'

# Somebody to be sent today: in words, at once, in reverse; the menu and a key
# that nobody knows do not hide it.
press Enter Enter 6 6 Enter 1 Enter 7
wait_for '*** SEND TODAY ***'
tmux capture-pane -pe | grep -q '7m\*\*\* SEND TODAY' || fail 'not in reverse'
press F5
press Escape
wait_for '3 finish'
shows '*** SEND TODAY ***'
press Escape
wait_for '8 headache'
press Enter Enter Enter Enter Enter Enter
# A 10 is no beginning of 100.
press 1 0 Enter
wait_for "Not taken: '10'"
press BSpace 5 Enter x Enter
wait_for '>why'
# What is typed ahead saves nobody whose decision was not seen.
press 2 Enter Enter Enter 1 Enter Enter Enter Enter
wait_for 'SEND TODAY: same-day referral'
[ "$(entries)" = 1 ] || fail 'saved by keys typed ahead'
press '?'
wait_for 'Any key goes back'
shows 'less urgent reason'
press a
wait_for 'Enter saves'
# An answer is mended from the end, and the end comes back.
press BTab
wait_for '>May the clinic'
press Up Up
wait_for '>Depth 15 %'
press 4 Enter
wait_for 'Enter saves'
shows 'Depth 40 %'
[ "$(entries)" = 1 ] || fail 'saved without being told to'
press 0
wait_for 'Drop this person?'
press 0
wait_for 'Enter saves'
press Enter
wait_for 'Saved 0014-00002-95'
shows 'screened 2, referred 1, same day 1'

# The last one is taken back, with a reason.
press Escape
wait_for 'take back the last person, 0014-00002-95'
press 4
wait_for 'because of'
press 0
wait_for 'screened 2,'
press Escape
wait_for '3 finish'
press 4
wait_for 'because of'
press 2
wait_for '0014-00002-95 is void'
shows 'screened 1, referred 0, same day 0'
press Enter
wait_for 'New person'
[ "$(ask_register "SELECT reason FROM visit WHERE state = 'void'")" = \
	'entered twice' ] || fail 'the reason'
grep -q 'Not valid' "$SHOAL_BOOK/slips/0014-00002-95.txt" ||
	fail 'the slip that was taken back looks valid'

# Names of any width and direction; what may not be kept is refused.
type_text '=Adira'
press Enter
wait_for 'it may not begin with'
for _ in 1 2 3 4 5 6; do press BSpace; done
type_text '田中 عائشة é'
wait_for 'Name 田中 عائشة é'
[ "$(tmux display-message -p '#{cursor_x}')" = 18 ] || fail 'the cursor'
press Enter
wait_for '>Phone'
