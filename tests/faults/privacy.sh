#!/bin/bash
# Names and contacts of people never leave the camp: they are in no file meant
# for others, no file's name, no error and no figure.
. "$SHOAL_TREE/tests/faults/lib.sh"
new_station
day='--today 2026-03-10'
# Invented; no word of them stands in any text of the program.
cat > people <<'END'
NT,Zephrin Quillamor,Brackwater lane 40771,58,F,15,40,16,17,,yes
NT,Örsolva Vintrek,Tamsin's yard 88215,61,M,5,5,24,17,,yes
NT,Hollis Umbergard,,,X,0,0,,,severe_eye_pain,no
NT,Zephrin Quillamor,Brackwater lane 40771,58,F,15,40,16,17,,yes
NT,कमला Dervane,Nethercombe,44,F,40,40,16,17,,yes
END
secrets='Zephrin|Quillamor|Brackwater|40771|rsolva|Vintrek|Tamsin|88215|Hollis|Umbergard|कमला|Dervane|Nethercombe|Fennimore'
header=grader,name,contact,age_years,sex,depth_right,depth_left,pressure_right,pressure_left,findings,reply_consent
{ echo "$header"; cat people; } > sheet
"$SHOAL" $day screen --csv sheet > numbers 2> talk || fail 'the sheet'
first=$(sed -n 2p numbers | cut -d, -f1) second=$(sed -n 3p numbers | cut -d, -f1)
fourth=$(sed -n 5p numbers | cut -d, -f1)
[ "$(ask_register "SELECT count(*) FROM visit WHERE name LIKE 'Z%'")" = 2 ] ||
	fail 'the names are not in the register'
mkdir out

# exchange NAME ARGUMENTS...: what it prints, both streams, is for others.
commands=0
exchange() {
	name=$1
	shift
	commands=$((commands + 1))
	"$SHOAL" $day "$@" > "out/$commands-$name" 2>&1 < /dev/null || true
	[ -s "out/$commands-$name" ] || fail "nothing was printed by $*"
}
exchange correct correct "$first" --set 'name=Zephrin Fennimore' --reason 'misread'
exchange void void "$fourth" --reason 'entered twice'
exchange reply reply "$second" --set outcome=attended --set seen_on=2026-03-10
exchange tally tally
exchange tally-closed tally --close
exchange tally-csv tally --out -
for what in '' --csv --html; do exchange "yield$what" yield $what; done
exchange yield-send yield --send
exchange list-csv list --csv
exchange try policy try "$SHOAL_BOOK/policy.ini"
exchange collate collate --report out/report.html --ledger out/ledger.csv book/tallies
exchange public collate --public 5 book/tallies
exchange verify collate --verify book book/tallies
exchange forms forms out/forms
exchange show policy show --html --grid
# What is refused, with names in it.
n=0
for row in 'NT,=Quillamor,,58,F,15,40,16,17,,yes' \
	'NT,Zephrin Quillamor,+40771,58,F,15,40,16,17,,yes' \
	'NT,Zephrin Quillamor,,158,F,15,40,16,17,,yes' \
	"NT,Zephrin $(printf 'Quillamor%.0s' {1..10}),,58,F,15,40,16,17,,yes" \
	'Zephrin Quillamor,NT,,58,F,15,40,16,17,,yes' \
	'NT,Zephrin Quillamor,,58,F,15,40,16,17' \
	$'NT,Zephrin\x1bQuillamor,,58,F,15,40,16,17,,yes' \
	$'NT,Zephrin\xffQuillamor,,58,F,15,40,16,17,,yes'; do
	n=$((n + 1))
	{ echo "$header"; echo "$row"; } > bad
	exchange "refused-$n" screen --csv bad
done
exchange void-again void "$fourth" --reason 'entered twice'
exchange void-slip slip "$fourth"
exchange correct-bad correct "$first" --set 'name==Quillamor' --reason x
exchange correct-same correct "$first" --set 'name=Zephrin Fennimore' --reason x
exchange reply-again reply "$second" --set outcome=attended --set seen_on=2026-03-10
exchange reply-void reply "$fourth" --set outcome=attended --set seen_on=2026-03-10
! "$SHOAL" help backup > /dev/null 2>&1 || exchange backup backup stick.db
cp -r book/tallies out/tallies
# A damaged register says nothing of whom it holds.
cp -r book spoiled
size=$(stat -c %s spoiled/register.db)
truncate -s $((size - 4096)) spoiled/register.db
for line in 'list --csv' tally yield "slip $first"; do
	exchange spoiled --book spoiled $line
done

# no_secret WHERE: prints what was found.
no_secret() { ! grep -rniE -- "$secrets" "$1"; }
names_of_files() { ! find . | grep -iE -- "$secrets"; }
for file in out/*; do count_wrong no_secret "$file"; done
count_wrong names_of_files
# The search would find them where they may be.
grep -rqiE -- "$secrets" book/slips || fail 'the search finds nothing at all'
"$SHOAL" list --csv --names | grep -qE Quillamor || fail 'no name anywhere'
figure 'names in outputs for others' "$tried" 0 0 "$wrong"
