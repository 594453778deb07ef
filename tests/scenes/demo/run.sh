#!/bin/sh
# The main job on an invented camp: 40 people typed in, slips, tally.
# Every run has a folder of its own; nothing is ever removed.
set -eu

here=$(cd "$(dirname "$0")" && pwd)
: "${SHOAL:?set SHOAL to the program}"
base=$(dirname "$SHOAL")/demo
book=$base
count=1
while [ -e "$book" ]; do
	count=$((count + 1))
	book=$base-$count
done
day=2026-03-10
export SHOAL_BOOK="$book"

say() { printf '\n== %s\n' "$1"; }

say "A station for an invented programme"
"$SHOAL" start --station 0014 --programme "Lantern Valley Eye Programme" \
	--site "Mavi school hall" --camp-phone "0088 555 0100" \
	--clinic "Ridge Eye Clinic" \
	--address "Ridge road, behind the market" \
	--days "Monday to Friday, 8 to 12" --door "blue door, ground floor" \
	--cost "free" --phone "0088 555 0101"

say "A camp day of 40 people, typed from a paper sheet"
"$SHOAL" --today $day screen --csv "$here/camp.csv" > "$book/sheet-answers.csv"

say "Who was referred"
"$SHOAL" --today $day list | grep -v 'no_referral' || true

say "The day's tally"
"$SHOAL" --today $day tally --close

say "What to look at, and what to try next"
first=$("$SHOAL" list | awk '$7 == "same_day" { print $1; exit }')
slips=$(ls "$book/slips" | grep -c '\.html$')
cat <<TXT
Register   $book/register.db
Slips      $book/slips ($slips people, as .html to print and .txt to read)
Tally      $book/tallies
Answers    $book/sheet-answers.csv

Try:  export SHOAL_BOOK=$book
      $SHOAL slip $first            the paper of somebody sent today
      $SHOAL assess --age 66 --right 25 --left 15 --explain
      $SHOAL screen                       screen somebody yourself
      $SHOAL policy check $book/policy.ini
      $SHOAL help

All people and places here are invented. Screening is not a diagnosis.
TXT
