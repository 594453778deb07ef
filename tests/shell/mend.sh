#!/bin/bash
# A damaged register: kept aside, what is whole goes into a new one, and no
# number is given out twice.
. "$SHOAL_TREE/tests/shell/lib.sh"
new_station
head=grader,name,age_years,sex,depth_right,depth_left,findings,reply_consent
sheet() { { echo $head; for i in $(seq 60); do echo "NT,Mira Fenn $1 $i,58,F,25,40,,yes"; done; } |
	"$SHOAL" --today "$1" screen --csv - > /dev/null 2>&1; }
sheet 2026-03-10
sheet 2026-03-11
"$SHOAL" --today 2026-03-10 tally --close > /dev/null 2>&1
"$SHOAL" --today 2026-03-11 tally > /dev/null 2>&1
cp -r "$SHOAL_BOOK/tallies" manager

expect_status 0 "$SHOAL" mend
says out 'The register is sound. Nothing was changed.'
[ "$(ls "$SHOAL_BOOK" | grep -c register)" = 1 ] || fail 'something was left'
cp "$SHOAL_BOOK/register.db" sound.db

# One page of junk in the middle, where somebody stood.
at=$(grep -abo 'Mira Fenn 2026-03-11 7,\|Mira Fenn 2026-03-11 20' sound.db | sed -n '1s/:.*//p')
damage() {
	cp sound.db "$SHOAL_BOOK/register.db"
	head -c 4096 /dev/zero | tr '\0' '#' |
		dd of="$SHOAL_BOOK/register.db" bs=4096 seek=$((at / 4096)) conv=notrunc 2> /dev/null
}
damage
expect_status 5 "$SHOAL" --today 2026-03-12 screen < /dev/null
says err 'is damaged'
cp "$SHOAL_BOOK/register.db" damaged.db
expect_status 0 "$SHOAL" --today 2026-03-12 mend
says err 'Numbers that have a slip, and no entry any more:'
says out 'The next number is 0014-00201-'
cmp damaged.db "$SHOAL_BOOK/register.db.aside-2026-03-12-1" || fail 'the damaged one was changed'
[ "$(stat -c %a "$SHOAL_BOOK"/register.db*)" = "$(printf '600\n600')" ] || fail modes
[ "$(ask_register 'PRAGMA integrity_check')" = ok ] || fail integrity
sqlite3 "$SHOAL_BOOK/register.db" "ATTACH 'sound.db' AS was;
	SELECT count(*) FROM (SELECT * FROM visit EXCEPT SELECT * FROM was.visit);
	SELECT count(*) BETWEEN 60 AND 119 FROM visit" > found
printf '0\n1\n' | cmp - found || { cat found; fail 'people'; }
lost=$((120 - $(ask_register 'SELECT count(*) FROM visit')))
[ "$(grep -c '^ 0014-' err)" = $lost ] || fail "not $lost numbers are told"
expect_status 0 "$SHOAL" --today 2026-03-12 mend
says out 'is sound'
sheet 2026-03-12
[ "$(ask_register "SELECT min(number) FROM visit WHERE number > '0014-00121'")" \> 0014-00200 ] ||
	fail 'a number came back'

# The mended one, which knows of fewer people, does not replace a day's tally.
"$SHOAL" --today 2026-03-12 tally --date 2026-03-11 > /dev/null 2>&1
"$SHOAL" --today 2026-03-12 tally > /dev/null 2>&1
status=0
"$SHOAL" collate --by day --ledger ledger.csv manager "$SHOAL_BOOK/tallies" > out 2> err || status=$?
[ $status = 3 ] || fail "collate: $status"
says ledger.csv 'a mended one'
[ "$(cut -d, -f1 out | grep -c '^2026-03-1[02]')" = 2 ] || { cat out; fail 'days of one'; }
[ "$(cut -d, -f1 out | grep -c '^2026-03-11')" = 0 ] || { cat out; fail 'a day of both'; }

# What cannot be mended stays as it is.
head -c 40000 /dev/urandom > "$SHOAL_BOOK/register.db"
cp "$SHOAL_BOOK/register.db" junk
expect_status 5 "$SHOAL" mend
says err 'not mended'
cmp junk "$SHOAL_BOOK/register.db" || fail 'changed, though not mended'
rm "$SHOAL_BOOK/register.db"
expect_status 5 "$SHOAL" mend
says err 'shoal restore'

# Killed at the Nth of the calls that change something.
SHOAL=$SHOAL_PLAIN
calls=pwrite64,fsync,link,rename,unlink
killed=0 ended=
for n in $(seq 2 23 900); do
	rm -f "$SHOAL_BOOK"/register.db*
	damage
	status=0
	strace -qq -o trace -e "trace=$calls" -e "inject=$calls:signal=KILL:when=$n" \
		"$SHOAL" --today 2026-03-12 mend > out 2>&1 || status=$?
	[ $status = 137 ] || { ended=yes; break; }
	killed=$((killed + 1))
	cmp -s damaged.db "$SHOAL_BOOK/register.db" ||
		cmp damaged.db "$SHOAL_BOOK/register.db.aside-2026-03-12-1" ||
		fail "killed at $n: the damaged one is lost"
	expect_status 0 "$SHOAL" --today 2026-03-12 mend
done
[ "$ended" = yes ] || fail 'never came to the end'
[ $killed -ge 3 ] || fail "only $killed kills"
echo "killed $killed times"
