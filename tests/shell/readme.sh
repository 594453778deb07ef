#!/bin/bash
# What the README shows is what the program says.
. "$SHOAL_TREE/tests/shell/lib.sh"
. "$SHOAL_TREE/tests/shell/screenlib.sh"
export SHOAL_BOOK=/home/nurse/.local/share/shoal
SHOAL_BOOK=$PWD/book
{ "$SHOAL" start --station 0014 --programme "Lantern Valley Eye Programme" \
	--site "Mavi school hall"
  printf 'NT\n\n\n66\n1\n\n\n\n\n\n\n25\n40\n16\n17\n2\n\n' |
	"$SHOAL" --today 2026-03-10 screen
  "$SHOAL" --today 2026-03-10 tally --close
  "$SHOAL" policy check book/policy.ini
  sed -e '/^\[rule shallow\]/,/^$/s/depth_at_or_below_percent = 25/depth_at_or_below_percent = 0,25/' \
	-e 's/^urgent_within_days/urgent_withn_days/' \
	book/policy.ini > new.ini
  "$SHOAL" policy check new.ini || true
} > said 2>&1
sed -i "s|$SHOAL_BOOK|/home/nurse/.local/share/shoal|" said

# The indented lines of the two sections, without the typed commands.
sed -n '/^## A nurse/,/^## The clinic/s/^    //p' "$SHOAL_TREE/README.md" |
	grep -v -e '^\$' -e '^cp ' -e '^nano ' -e '^shoal policy' \
		-e '^shoal --policy' > shown
[ "$(wc -l < shown)" -ge 10 ] || fail 'the README shows too little'
while IFS= read -r line; do
	says said "$line"
done < shown

# The picture of the one screen is what a terminal shows.
sed -n '/^<!-- screen -->/,/^<!-- .screen -->/p' "$SHOAL_TREE/README.md" |
	sed '/^```/d; /^<!--/d' > drawn
[ "$(wc -l < drawn)" -ge 10 ] || fail 'the README shows no screen'
open_terminal
begin
type_text 'Adira Moru'
press Enter
type_text 'Upper Mavi village'
press Enter 6 0 '*' Enter 1 Enter Enter Enter Enter Enter Enter Enter 2
wait_for '25 %'
press Enter
wait_for '>Depth'
picture > seen
while IFS= read -r line; do
	grep -qxF -- "$line" seen || { cat seen; fail "the screen has not: $line"; }
done < drawn
