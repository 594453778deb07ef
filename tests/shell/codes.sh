#!/bin/bash
# The code on the slip: read back from the printed page, as a scanner types it,
# and a slip that is complete without it.
. "$SHOAL_TREE/tests/shell/lib.sh"
new_station
one_sheet 'Adira Moru' 5 | "$SHOAL" --today 2026-03-10 screen --csv - > answers
number=$(sed -n 2p answers | cut -d, -f1)
slip=book/slips/$number.html

# From the page as it is printed, at the resolution of a plain fax.
chromium --headless --no-sandbox --disable-gpu --no-pdf-header-footer \
	--user-data-dir="$PWD/browser" --print-to-pdf=slip.pdf \
	"file://$PWD/$slip" > browser.log 2>&1 || { cat browser.log; fail 'browser'; }
pdftoppm -r 150 -gray slip.pdf page
for page in page-*.pgm; do
	zbarimg -q --raw "$page" 2> /dev/null || true
done | sort > read
printf '%s\n%s\n' "$number" "$number" | cmp - read || {
	cat read; fail 'the code on the slip is not its number'; }
# A module is at least 0.8 mm.
python3 - "$slip" << 'END' || fail 'the modules are too small'
import re, sys
page = open(sys.argv[1]).read()
side = int(re.search(r'class="code"[^>]*viewBox="0 0 (\d+)', page)[1])
sizes = re.findall(r'\.code \{ width: ([\d.]+)mm; height: ([\d.]+)mm', page)
assert sizes and all(float(mm) / side >= 0.8 for pair in sizes for mm in pair)
END

# What a scanner types: hyphens or none, Enter or a tab behind.
digits=$(echo "$number" | tr -d -)
for typed in "$number" "$digits" "$number"$'\r' "$digits"$'\t\r\n'; do
	expect_status 3 "$SHOAL" --today 2026-03-30 reply "$typed" \
		--set outcome=attended --set seen_on=2026-04-24
	says err 'seen_on'
done
expect_status 0 "$SHOAL" --today 2026-03-30 reply "$digits"$'\r' \
	--set outcome=attended --set seen_on=2026-03-24
says out "$number"

# Without the library everything else is there, and one line tells of it.
mkdir broken && : > broken/libqrencode.so.4
export LD_LIBRARY_PATH=$PWD/broken
expect_status 0 "$SHOAL" slip "$number" --html
says err 'libqrencode4'
[ "$(wc -l < err)" = 1 ] || fail 'more than one line about the library'
! grep -q 'class="code"><' out || fail 'a code without the library'
says out "<span class=\"number\">$number</span>"
sed 's/<svg class="code".*<\/svg>//' "$slip" > without
sed 's/<svg class="code".*<\/svg>//' out | cmp - without ||
	fail 'the slip differs by more than the code'
