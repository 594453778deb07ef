#!/bin/bash
# One invented camp day, typed on the one screen, at the prompts and as a sheet:
# the three registers and all slips are the same.
. "$SHOAL_TREE/tests/shell/lib.sh"
. "$SHOAL_TREE/tests/shell/screenlib.sh"
day() { python3 "$SHOAL_TREE/tests/shell/campday.py" "$@"; }

for way in keys prompts sheet; do
	(SHOAL_BOOK=$PWD/$way; new_station)
done

# As a sheet; what was undone elsewhere is made void here.
SHOAL_BOOK=$PWD/sheet; export SHOAL_BOOK
day sheet > day.csv
day sheet paper > paper.csv
"$SHOAL" --today 2026-03-10 screen --csv day.csv > answers 2> err ||
	{ cat err; fail 'the sheet'; }
"$SHOAL" --today 2026-03-10 void "$(sed -n 11p answers | cut -d, -f1)" \
	--reason 'the wrong person' > /dev/null
"$SHOAL" --today 2026-03-10 screen --date 2026-03-09 --csv paper.csv \
	> paper.out 2> err || { cat err; fail 'the paper sheet'; }

SHOAL_BOOK=$PWD/prompts
day prompts > typed
day prompts paper > typed.paper
expect_status 0 "$SHOAL" --today 2026-03-10 screen < typed
says err 'Perhaps the same person'
expect_status 0 "$SHOAL" --today 2026-03-10 screen --date 2026-03-09 \
	< typed.paper

# type_day FILE: the keys of campday.py; after COUNT one more is counted.
type_day() {
	count=${2:-0}
	while IFS= read -r line; do
		case $line in
		WAIT\ *) wait_for "${line#WAIT }" ;;
		COUNT) count=$((count + 1)); wait_for "screened $count," ;;
		*)
			IFS=$'\t' read -ra keys <<< "$line"
			press "${keys[@]}"
			;;
		esac
		case $line in WAIT*void) count=$((count - 1)) ;; esac
	done < "$1"
}
SHOAL_BOOK=$PWD/keys
counted() {
	sqlite3 -readonly sheet/register.db "SELECT count(*) FROM $people
		WHERE state <> 'void' AND screened_on = '2026-03-10' AND $1"
}
day keys > keys.day
day keys paper > keys.paper
open_terminal
type_line "$SHOAL --today 2026-03-10 screen"
wait_for 'Your initials'
type_line NT
wait_for 'New person'
type_day keys.day
referred=$(counted "urgency <> 'no_referral'")
today=$(counted "urgency = 'same_day'")
shows "screened $(counted 1), referred $referred, same day $today"
press Escape; wait_for '3 finish'; press 3
wait_for "screened 13, referred $referred, sent the same day $today."
type_line "clear; $SHOAL --today 2026-03-10 screen --date 2026-03-09"
wait_for 'Your initials'
type_line NT
wait_for 'Paper number'
type_day keys.paper
press Escape; wait_for '3 finish'; press 3
wait_for 'screened 3, referred'

# All columns but the time of entry, of the last entry of each number.
columns=$(ask_register 'PRAGMA table_info(visit)' | cut -d'|' -f2 |
	grep -v -x -e entry -e revises -e entered_at -e row_mark |
	paste -sd,)
for way in keys prompts sheet; do
	SHOAL_BOOK=$PWD/$way
	[ ! -e "$way/draft.txt" ] || fail "$way: a draft is left"
	ask_register "SELECT $columns FROM $people ORDER BY number" > "$way.people"
	ask_register 'SELECT count(*) FROM visit' > "$way.entries"
done
[ "$(wc -l < sheet.people)" = 17 ] || fail 'there are not 17 people'
for way in keys prompts; do
	diff sheet.people "$way.people" || fail "the registers differ: $way"
	cmp sheet.entries "$way.entries" || fail "the entries differ: $way"
	diff -r sheet/slips "$way/slips" > slips.diff ||
		{ head -50 slips.diff; fail "the slips differ: $way"; }
done
[ "$(ls sheet/slips | wc -l)" = 34 ] || fail 'two slips for each'
