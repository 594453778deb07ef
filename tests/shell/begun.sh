#!/bin/bash
# Nobody who was begun is lost on the one screen: by keys typed ahead, by an
# interrupt, at the next start; and no notice contradicts what was saved.
. "$SHOAL_TREE/tests/shell/lib.sh"
. "$SHOAL_TREE/tests/shell/screenlib.sh"
new_station
one_sheet 'Adira Moru' > one.csv
"$SHOAL" --today 2026-03-10 screen --csv one.csv > /dev/null
open_terminal
begin
shows 'screened 1,'

# What was typed ahead answers no question that nobody has seen: the keys of the
# complaints neither pass over the twin nor drop the entry.
type_text 'adira moru'
press Enter Enter 5 8 Enter f Enter 0 Enter 1 3 Enter
wait_for 'Perhaps the same person'
press 0 1 Enter
sleep 0.2
shows 's the same: drop this entry'
press s
wait_for 'Drop this person?'
press Enter
wait_for '8 headache'
shows 'Name adira moru'
press 2
wait_for '*** SEND TODAY ***'

# Ended by an interrupt, who has to go today is named as such; so is the offer,
# which is left by an answer only.
press C-c
wait_for 'offered at the next start'
shows '*** SEND TODAY ***'
type_line "clear; $screen_command"
wait_for 'Go on with this person?'
shows '*** SEND TODAY ***'
type_line '<'
wait_for 'This is the first question.'
type_line 2
wait_for 'Drop this person?'
press Enter
wait_for 'Your initials'
type_line '<'
wait_for 'Number [1]: '
press Enter
wait_for 'Your initials'
type_line NT
wait_for '>Risks'
press BTab
wait_for '*2 the same pain'
press 0
wait_for 'Complaints none'

# Somebody referred is saved while another policy comes into force, by which
# nobody would be: what stands over the notice is what was saved.
press Enter Enter Enter Enter Enter Enter 2 5 Enter 4 0 Enter Enter Enter 1
wait_for '*1 yes'
press Enter
wait_for 'ROUTINE: refer within 30 days'
sed -i '/^\[rule shallow\]/,/^$/s/percent = 25/percent = 15/' \
	"$SHOAL_BOOK/policy.ini"
one_sheet 'Bekuro Maf' > two.csv
"$SHOAL" --today 2026-03-10 screen --csv two.csv > /dev/null
press Enter
wait_for 'THE POLICY HAS CHANGED'
shows 'Saved 0014-00003-'
shows 'ROUTINE: refer within 30 days'
lacks 'NO REFERRAL'
# The other program's person is counted too.
shows 'screened 3, referred 1,'
press Enter
wait_for '>Name'

# Of a policy that cannot be used what matters stands first.
sed -i 's/^urgent_within_days = 14/urgent_within_days = 0,14/
	s/percent = 15/percent = 0,15/' "$SHOAL_BOOK/policy.ini"
press Enter Enter 6 6 Enter Enter Enter Enter Enter Enter Enter Enter 4 0 \
	Enter 4 0 Enter Enter Enter 1
wait_for '*1 yes'
press Enter
wait_for 'Enter saves'
press Enter
wait_for 'stays in force'
shows "'shoal policy check' tells all of it"
shows 'Saved 0014-00004-'
press Enter
wait_for '>Name'
press Escape
wait_for '3 finish'
press 3
wait_for 'screened 4,'
"$SHOAL" policy check "$SHOAL_BOOK/policy.ini" > /dev/null 2>&1 &&
	fail 'the policy is sound'
sed -i 's/= 0,/= /' "$SHOAL_BOOK/policy.ini"

# Where no draft can be kept an interrupt is asked about, and a second one ends.
begin
mkdir "$SHOAL_BOOK/draft.txt"
press A m a Enter
wait_for 'Enter goes on'
press Enter
wait_for '>Phone'
press C-c
wait_for 'cannot be kept for the next start'
press Enter
wait_for '>Phone'
press C-c
wait_for 'cannot be kept for the next start'
press C-c
wait_for 'The unfinished person was not kept.'
rmdir "$SHOAL_BOOK/draft.txt"

# What cannot be read of one is kept beside, and the next one is kept as ever.
echo 'shoal-draft-1' > "$SHOAL_BOOK/draft.txt"
begin
press O d a Enter
wait_for '>Phone'
press Escape
wait_for '3 finish'
press 3
wait_for 'offered at the next start'
[ "$(cat "$SHOAL_BOOK/draft.txt.unread-1")" = shoal-draft-1 ] ||
	fail 'an unfinished person who could not be read is gone'
rm "$SHOAL_BOOK/draft.txt.unread-1" "$SHOAL_BOOK/draft.txt"

# A paper number that is somebody's is refused where it is typed.
begin --date 2026-03-08
type_text "$(ask_register 'SELECT min(number) FROM visit')"
press Enter
wait_for 'is in the register already: Adira Moru'
wait_for '>Paper number'
press Enter
wait_for '>Name'
press Escape
wait_for '3 finish'
press 3
wait_for 'offered at the next start'
