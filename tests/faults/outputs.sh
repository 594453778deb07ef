#!/bin/bash
# An output that cannot be written never looks like success: every command,
# both streams on a full device, and a closed one.
. "$SHOAL_TREE/tests/faults/lib.sh"
new_station
one_sheet 'Adira Moru' 25 | "$SHOAL" --today 2026-03-10 screen --csv - > answers
number=$(sed -n 2p answers | cut -d, -f1)
"$SHOAL" --today 2026-03-10 tally > /dev/null 2>&1
printf 'depth_right,depth_left\n15,40\n' > people.csv
printf 'case,grader,reference\n1,15,25\n2,40,40\n' > eyes.csv
"$SHOAL" policy show --fingerprint "$("$SHOAL" list --csv | sed -n 's/.*,\([A-Z]\{6\}\),current$/\1/p')" > /dev/null

# words COMMAND: lines of arguments with which it has a result to print.
words() {
	case $1 in
	start) echo 'start --book new --station 0015 --programme P --site S' ;;
	screen) echo 'screen --csv sheet' ;;
	assess) echo 'assess --right 25 --left 25'; echo 'assess --csv people.csv' ;;
	slip) echo "slip $number"; echo "slip $number --html"
		echo "slip $number --narrow" ;;
	forms) echo 'forms paper' ;;
	list) echo list; echo 'list --csv --names'; echo 'list --waiting'
		echo 'list --waiting --html' ;;
	correct) echo "correct $number --set age_years=61 --reason again" ;;
	void) echo "void $number --reason twice" ;;
	reply) echo "reply $number --set outcome=attended --set seen_on=2026-03-10"
		echo 'reply --fields' ;;
	tally) echo tally; echo 'tally --out -' ;;
	yield) echo yield; echo 'yield --csv'; echo 'yield --html' ;;
	collate) echo 'collate book/tallies'
		echo 'collate --verify book book/tallies' ;;
	'policy check') echo 'policy check book/policy.ini' ;;
	'policy show') echo 'policy show'; echo 'policy show --html --grid' ;;
	'policy set') echo 'policy set shallow.depth_at_or_below_percent 15 new.ini' ;;
	'policy try') echo 'policy try new.ini' ;;
	plan) echo 'plan --people 900 --prevalence 6.8 --preset cochrane-25'
		echo 'plan --people 900 --prevalence 6.8 --preset cochrane-25 --csv' ;;
	agree) echo 'agree eyes.csv'; echo 'agree --sheet' ;;
	help) echo help; echo 'help screen'; echo 'help --man'
		echo 'help --completion'; echo '--version' ;;
	*) echo "$1 --help" ;;
	esac
}

# to_full ARGUMENTS: the result on a full device, then on a closed stream, then
# the talk on a full device, where the result has to come all the same.
to_full() {
	rm -rf book new
	cp -r kept book
	cp book/policy.ini new.ini
	status=0
	timeout 60 "$SHOAL" --today 2026-03-10 "$@" > /dev/full 2> err < /dev/null ||
		status=$?
	[ "$status" = 6 ] && grep -q 'could not be written' err && return
	echo "status $status instead of 6: $*"
	head -n 3 err
	return 1
}

to_closed() {
	rm -rf book new
	cp -r kept book
	status=0
	timeout 60 "$SHOAL" --today 2026-03-10 "$@" >&- 2> err < /dev/null ||
		status=$?
	[ "$status" = 6 ] && return
	echo "status $status instead of 6, standard output closed: $*"
	return 1
}

# The talk may be lost; the result, and what is kept, may not.
talk_to_full() {
	rm -rf book new
	cp -r kept book
	"$SHOAL" --today 2026-03-10 "$@" > wanted 2> /dev/null < /dev/null || true
	cp -r book after
	rm -rf book new
	cp -r kept book
	"$SHOAL" --today 2026-03-10 "$@" > out 2> /dev/full < /dev/null || true
	for folder in after book; do
		sqlite3 -readonly $folder/register.db 'SELECT number, state,
			age_years FROM visit' > $folder.rows
	done
	rm -rf after
	cmp -s wanted out && cmp -s after.rows book.rows
}

one_sheet > sheet
cp -r book kept
"$SHOAL" help --summaries > commands
# A command with an option that is needed before anything else is printed
# stands under its first one or two words.
sed 's/^  \([a-z]*\( [a-z]\{2,\}\)\{0,1\}\)  .*/\1/' commands > names
nth=0
while read -r command; do
	words "$command" > lines
	while read -r line; do
		count_wrong to_full $line
		# One of three, when it is to be short.
		nth=$((nth + 1))
		[ "${FAULTS_SHORT:-no}" = no ] || [ $((nth % 3)) = 0 ] ||
			continue
		count_wrong to_closed $line
		count_wrong talk_to_full $line
	done < lines
done < names
[ "$(wc -l < names)" -ge 19 ] || fail 'commands are missing'

# Only a terminal would ever get an escape byte, and even it does not here.
rm -rf book; cp -r kept book
{ "$SHOAL" --today 2026-03-10 screen < /dev/null; "$SHOAL" list
	"$SHOAL" help; "$SHOAL" slip "$number"; } > all 2>&1
escapes() { ! grep -q "$(printf '\033')" all; }
count_wrong escapes
figure 'outputs of every command full or closed' "$tried" 0 0 "$wrong"
