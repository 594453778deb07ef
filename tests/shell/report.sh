#!/bin/bash
# The page about a collation, as a browser shows and prints it.
. "$SHOAL_TREE/tests/shell/lib.sh"
new_station
wide_font
mkdir in
for day in 09 10 12; do
	{ one_sheet 'Adira Moru' 25; one_sheet '' 5 | tail -n +2
	  one_sheet '' 100 | tail -n +2; } |
		"$SHOAL" --today 2026-01-$day screen --csv - > answers
	"$SHOAL" --today 2026-01-$day tally --close --out in > /dev/null
done
python3 "$SHOAL_TREE/tests/shell/season.py" in 5 30

expect_status 3 "$SHOAL" collate --by all --report page.html in
says out all,
expect_status 2 "$SHOAL" collate --report - in
says err 'standard output'
expect_status 6 "$SHOAL" collate --report no/such/folder/page.html in
[ "$(stat -c %a page.html)" = 600 ] || fail 'others can read the page'
cp page.html first.html
expect_status 3 "$SHOAL" collate --by week --report page.html $(ls -r in/*)
cmp page.html first.html || fail 'the order shows'

# A page with nothing in it is a page.
mkdir empty
status=0
"$SHOAL" collate --report empty.html empty > out 2> err || status=$?
[ "$status" = 3 ] || fail "nothing to count: status $status"
says empty.html 'Nothing was counted'

# One file, no script, nothing from outside, nobody's name, and well formed.
for page in page.html empty.html; do
	python3 -c 'import sys, xml.etree.ElementTree as tree
root = tree.parse(sys.argv[1]).getroot()
ids = [e.get("id") for e in root.iter() if e.get("id")]
assert len(ids) == len(set(ids)), ids
links = [e.get("href")[1:] for e in root.iter("a")]
assert set(links) <= set(ids), links
charts = [e for e in root.iter("svg") if e.get("class") == "chart"]
for chart in charts:
    assert chart.get("role") == "img" and chart[0].tag == "title", chart
    assert chart[0].text, chart
    assert any(e.text for e in chart.iter("text")), chart[0].text
for parent in root.iter():  # a head comes again on the next page
    for row in parent.findall("tr"):
        cells = [cell.tag for cell in row]
        assert parent.tag == "thead" or set(cells) != {"th"}, cells
for e in root.iter():
    assert e.tag not in ("script", "img", "link", "iframe"), e.tag
    for name, value in e.items():
        assert not name.startswith("on"), name
        assert "//" not in value and "javascript" not in value, value
' "$page" || fail "$page is not well formed"
	! grep -qiE 'http|src=|@import|url\([^#]|nan|-0\.0|Moru' "$page" ||
		fail "$page holds what it may not"
	python3 "$SHOAL_TREE/tests/shell/contrast.py" "$page" || fail contrast
done
says page.html 'Mavi &lt;b&gt;&quot;hall&quot;&lt;/b&gt; &amp; {{first}} 4'

# The total is that of the CSV.
"$SHOAL" collate --by all --per programme in > sums.csv 2> err || :
total=$(awk -F, 'NR > 1 { sum += $3 } END { print sum }' sums.csv)
says page.html '3 files that came are not in the total (1 refused, 2 in conflict)'
says page.html "$total people were screened"

# The browser says nothing about it, and no line leaves a narrow screen. The
# page that measures speaks once, which shows that speaking would be heard; a
# page that is too wide shows that it would be measured.
sed 's,</h1>,</h1><p style="width:500px">wide</p>,' page.html > wide.html
cat > measure.html <<-'END'
	<!DOCTYPE html><meta charset="utf-8">
	<iframe src="page.html" style="width:360px;border:0"></iframe>
	<iframe src="empty.html" style="width:360px;border:0"></iframe>
	<iframe src="page.html" style="width:1200px;border:0"></iframe>
	<iframe src="wide.html" style="width:360px;border:0"></iframe>
	<p></p><script>
	window.onload = function () {
		var widths = [];
		for (var frame of document.querySelectorAll("iframe"))
			widths.push(frame.contentDocument.documentElement
				.scrollWidth);
		document.querySelector("p").textContent = widths.join(" ");
		console.log("measured");
	}
	</script>
	END
browser() {
	timeout 60 chromium --headless --no-sandbox --disable-gpu --hide-scrollbars \
		--user-data-dir="$PWD/browser" --enable-logging=stderr --v=0 \
		"$@" 2> console
}
browser --allow-file-access-from-files --dump-dom \
	"file://$PWD/measure.html" > dom
grep -o '<p>[0-9 ]*</p>' dom > widths || { cat console; fail 'no measure'; }
widths=$(tr -d 'p<>/' < widths)
case $widths in
'360 360 1200 '5??) ;;
*) fail "wider than the screen: $widths" ;;
esac
grep CONSOLE console > said || :
[ "$(grep -c . said)" = 1 ] && grep -q measured said ||
	{ cat said; fail 'the browser complains'; }

# On paper: A4, few pages, and the text can be read from it.
browser --no-pdf-header-footer --print-to-pdf=page.pdf \
	"file://$PWD/page.html"
pdfinfo page.pdf > about || { cat console; fail 'not printed'; }
pages=$(sed -n 's/^Pages: *//p' about)
[ "$pages" -ge 2 ] && [ "$pages" -le 6 ] || fail "$pages pages"
grep -q '^Page size:.*A4' about || { cat about; fail 'not A4'; }
pdftotext -layout page.pdf page.txt
for words in "$total people were screened" 'What was not counted' \
	'Screening is not a diagnosis' 'January 2026' 0014; do
	says page.txt "$words"
done
