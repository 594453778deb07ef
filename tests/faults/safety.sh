#!/bin/bash
# Modes, links, names, core files: nobody else reads it, nothing else is
# written to, whatever the umask and whatever stands in the way.
. "$SHOAL_TREE/tests/faults/lib.sh"
day='--today 2026-03-10'
printf 'depth_right,depth_left\n15,40\n' > people.csv

# everything: each command that makes a file, once.
everything() {
	new_station
	one_sheet 'Adira Moru' 25 | "$SHOAL" $day screen --csv - > answers
	number=$(sed -n 2p answers | cut -d, -f1)
	"$SHOAL" $day reply "$number" --set outcome=attended \
		--set seen_on=2026-03-10
	"$SHOAL" $day correct "$number" --set age_years=61 --reason again
	"$SHOAL" $day tally
	"$SHOAL" $day yield --send
	"$SHOAL" $day yield --html --out made/yield.html
	"$SHOAL" $day slip "$number" --html --out made/slip.html
	"$SHOAL" $day list --waiting --html --out made/call.html
	"$SHOAL" $day forms made/forms
	"$SHOAL" policy show --html --out made/card.html
	"$SHOAL" policy set shallow.depth_at_or_below_percent 15 \
		"$SHOAL_BOOK/policy.ini"
	"$SHOAL" $day collate --report made/report.html \
		--ledger made/ledger.csv "$SHOAL_BOOK/tallies"
	! "$SHOAL" help backup > help || "$SHOAL" $day backup made/copy.db
}

# --- modes --------------------------------------------------------------------
modes_are_narrow() {
	{ find book made -type f ! -perm 600
		find book made/forms -type d ! -perm 700; } > wide
	[ ! -s wide ] || { cat wide; return 1; }
}
nothing_left_over() { ! find . -name '*tmp-*' -o -name '*-journal' | grep .; }
for mask in 000 077 022; do
	rm -rf book made
	mkdir made
	umask $mask
	everything > talk 2>&1 || { cat talk; fail "umask $mask"; }
	count_wrong modes_are_narrow
	count_wrong nothing_left_over
done

# Each file that is made is made anew and through no link; SQLite's own register
# and journal through no link.
is_exclusive() {
	strace -f -qq -e trace=open,openat,creat -o calls "$SHOAL" $day "$@" \
		> out 2>&1 < /dev/null || true
	! grep O_CREAT calls | grep -v ENOENT |
		grep -vE 'O_EXCL.*O_NOFOLLOW|O_NOFOLLOW.*O_EXCL' |
		grep -vE '-journal", .*O_NOFOLLOW'
}
count_wrong is_exclusive correct "$number" --set age_years=62 --reason again
count_wrong is_exclusive tally
count_wrong is_exclusive yield --send
count_wrong is_exclusive slip "$number" --html --out made/slip.html
count_wrong is_exclusive forms made/forms
count_wrong is_exclusive policy set shallow.depth_at_or_below_percent 5 \
	book/policy.ini
count_wrong is_exclusive collate --report made/report.html \
	--ledger made/ledger.csv book/tallies
count_wrong is_exclusive --book other start --station 0015 --programme P --site S

# --- planted links ------------------------------------------------------------
echo canary > canary
canary_lives() { [ "$(cat canary)" = canary ]; }

# behind_link FILE ARGUMENTS...: a link stands where FILE is to be written.
behind_link() {
	file=$1
	shift
	mv "$file" aside 2> /dev/null || true
	ln -s "$PWD/canary" "$file"
	status=0
	"$SHOAL" $day "$@" > out 2> err < /dev/null || status=$?
	kept=$([ -L "$file" ] && echo yes)
	rm -f "$file"
	mv aside "$file" 2> /dev/null || true
	[ "$kept" = yes ] && canary_lives && [ "$status" != 0 ] && return
	echo "status $status"
	cat err
	return 1
}
count_wrong behind_link "book/slips/$number.html" correct "$number" \
	--set depth_right=15 --reason again
says out "Saved $number"
says err 'a link stands there'
# The names that these would take next.
tally=made/$(basename "$("$SHOAL" $day tally --out made 2>&1 |
	sed -n 's/^Tally.*: //p')")
yield=made/$(basename "$("$SHOAL" $day yield --send made 2>&1 |
	sed -n 's/^Yield.*: //p')")
count_wrong behind_link "$tally" tally --out made
count_wrong behind_link "$yield" yield --send made
count_wrong behind_link made/yield.html yield --html --out made/yield.html
count_wrong behind_link made/slip.html slip "$number" --html --out made/slip.html
count_wrong behind_link made/call.html list --waiting --html --out made/call.html
count_wrong behind_link made/card.html policy show --html --out made/card.html
count_wrong behind_link made/report.html collate --report made/report.html \
	book/tallies
count_wrong behind_link made/ledger.csv collate --ledger made/ledger.csv \
	book/tallies
count_wrong behind_link made/forms/tally-sheet.html forms made/forms
cp book/policy.ini linked.ini
count_wrong behind_link linked.ini policy set \
	shallow.depth_at_or_below_percent 25 linked.ini
[ ! -e made/copy.db ] || count_wrong behind_link made/copy.db backup made/copy.db
for name in register.db station.ini policy.ini; do
	mkdir -p empty
	count_wrong behind_link "empty/$name" --book empty start --station 0016 \
		--programme P --site S
	rm -rf empty
done
# A register that is a link is refused, and so is a journal that is one.
refused_link() {
	status=0
	"$SHOAL" --book linked list > out 2> err || status=$?
	[ "$status" = 5 ]
}
mkdir linked
ln -s "$PWD/book/register.db" linked/register.db
cp book/station.ini book/policy.ini linked
count_wrong refused_link
rm linked/register.db
cp book/register.db linked
ln -s "$PWD/canary" linked/register.db-journal
"$SHOAL" --book linked $day void "$number" --reason x > out 2>&1 || true
count_wrong canary_lives

# An existing station is never set up again; its bytes stay.
before=$(cksum < book/register.db)
expect_status 5 "$SHOAL" start --station 0015 --programme P --site S
[ "$before" = "$(cksum < book/register.db)" ] || fail 'register touched'

# --- core files ---------------------------------------------------------------
leaves_no_core() {
	mkfifo keyboard
	(ulimit -c unlimited 2> /dev/null
		exec "$SHOAL" $day screen < keyboard > out 2> err) &
	exec 3> keyboard
	echo NT >&3
	until grep -q Name err; do sleep 0.05; done
	grep -q '^Max core file size *0 *0 ' "/proc/$!/limits" || return 1
	kill -"$1" $!
	exec 3>&-
	wait $! 2> /dev/null || true
	rm keyboard
	[ -z "$(find . -name 'core*')" ]
}
for signal in SEGV ABRT QUIT; do
	count_wrong leaves_no_core $signal
done

# --- names that may not be kept -----------------------------------------------
# Nothing is saved, no bad byte is printed.
count=$(ask_register 'SELECT count(*) FROM visit')
refused_name() {
	one_sheet "$1" > sheet
	status=0
	"$SHOAL" $day screen --csv sheet > out 2> err || status=$?
	[ "$status" = 3 ] && ! grep -qP '[\x00-\x08\x0b-\x1f\x7f]' out err
}
for bad in '=1+1' '+49' '@x' $'a\eb' $'a\x01' $'\xff' $'\xc0\x80' \
	$'a\xe2\x80\xaeb' $'\xed\xa0\x80' "$(printf 'x%.0s' {1..81})"; do
	count_wrong refused_name "$bad"
done
# All rows or none.
{ one_sheet 'Esira Kono' 40; echo 'NT,,58,F,20,40,,,,yes'; } > sheet
expect_status 3 "$SHOAL" $day screen --csv sheet
says err 'row 2'
says err '1 of 2 rows'
[ "$count" = "$(ask_register 'SELECT count(*) FROM visit')" ] ||
	fail 'a bad name or a part of a sheet was kept'
figure 'modes, planted links, core files, bad names' "$tried" 0 0 "$wrong"
