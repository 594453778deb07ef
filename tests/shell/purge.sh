#!/bin/bash
# Names of camps that are over are gone from every byte, and nothing else is.
. "$SHOAL_TREE/tests/shell/lib.sh"
new_station
sheet() { "$SHOAL" --today "$1" screen --csv - > out 2> quiet || { cat out quiet; fail sheet; }; }
head=grader,name,contact,age_years,sex,depth_right,depth_left,findings,reply_consent
{ echo $head
  echo 'NT,Mira Fenn,Mavi 0155501,58,F,25,40,,yes'
  echo 'NT,Oda Lund,Tarn 0155502,61,M,75,75,,yes'
  echo 'NT,Pia Roos,Tarn 0155503,71,F,15,40,,yes'; } | sheet 2026-01-10
{ echo $head; echo 'NT,Ina Vale,Holm 0155504,44,F,25,25,,yes'; } | sheet 2026-02-10
"$SHOAL" --today 2026-01-11 correct 0014-00002-95 --set age_years=62 \
	--reason 'Lund told it' > /dev/null 2>&1
"$SHOAL" --today 2026-01-20 reply 0014-00001-98 --set outcome=elsewhere \
	--set seen_on=2026-01-15 --set seen_where='Fenns cousin' \
	--set 'teach=tell Fenn' > /dev/null 2>&1
# More people than one page, so that something is moved about.
{ echo $head; for i in $(seq 100); do echo "NT,Quill Zorn $i,Zornhof $i,50,M,75,75,,yes"; done; } | sheet 2026-01-12
for day in 01-10 01-12 02-10; do
	"$SHOAL" --today 2026-02-11 tally --date 2026-$day > /dev/null 2>&1
done
counts() {
	"$SHOAL" --today 2026-02-11 yield --csv --out -
	for day in 01-10 01-12 02-10; do
		"$SHOAL" --today 2026-02-11 tally --date 2026-$day --out -
	done
	ask_register 'SELECT entry, revises, number, screened_on, age_years, sex,
		depth_right, depth_left, urgency, rules, policy, state FROM visit'
	ask_register 'SELECT entry, number, outcome, seen_on FROM reply'
}
counts > before 2>&1
schema='SELECT sql FROM sqlite_schema ORDER BY type, name'
ask_register "$schema" > schema_before
cp "$SHOAL_BOOK/register.db" original

# What it would do, and nothing without the word.
status=0
printf '?\nyes\n' | "$SHOAL" --today 2026-02-11 purge --before 2026-02-01 > out 2> err || status=$?
says err 'only when the whole word is typed'
[ $status = 3 ] || fail 'purged by yes'
says err 'People whose names are removed: 102, screened 2026-01-10 to 2026-01-12'
says err 'these KEEP their names'
says err ' 0014-00003-92'
cmp original "$SHOAL_BOOK/register.db" || fail 'changed without the word'
expect_status 3 "$SHOAL" --today 2026-02-11 purge --before 2026-02-01 < /dev/null
expect_status 3 "$SHOAL" --today 2026-02-11 purge --before 2026-02-12 --yes
expect_status 3 "$SHOAL" --today 2026-02-11 purge --before 2026-02-30 --yes
expect_status 2 "$SHOAL" purge --yes

cp "$SHOAL_BOOK/register.db" "$SHOAL_BOOK/register.db.v1"
# What a program left that was killed while it wrote a slip.
cp "$SHOAL_BOOK/slips/0014-00001-98.html" \
	"$SHOAL_BOOK/slips/0014-00001-98.html.tmp-77-0"
echo purge | "$SHOAL" --today 2026-02-11 purge --before 2026-02-01 > out 2> err
says out 'Purged, people 102; 1 keep their names'
says err "$SHOAL_BOOK/register.db.v1"
rm "$SHOAL_BOOK/register.db.v1"
gone='Fenn\|Lund\|Zorn\|0155501\|0155502'
! grep -raqi "$gone" "$SHOAL_BOOK" || { grep -rai -l "$gone" "$SHOAL_BOOK"; fail 'a name is still there'; }
grep -aq 'Pia Roos' "$SHOAL_BOOK/register.db" || fail 'who waits has lost her name'
grep -aq 'Ina Vale' "$SHOAL_BOOK/register.db" || fail 'who came later has lost her name'
[ -e "$SHOAL_BOOK/slips/0014-00003-92.txt" ] || fail 'a slip too many'
[ ! -e "$SHOAL_BOOK/slips/0014-00001-98.txt" ] || fail 'a slip is left'
[ ! -e "$SHOAL_BOOK/register.db-journal" ] || fail 'a journal is left'
counts > after 2>&1
cmp before after || { diff before after | head -5; fail 'something else was changed'; }
ask_register "$schema" | cmp - schema_before || fail 'other tables than before'
[ "$(ask_register 'PRAGMA integrity_check')" = ok ] || fail integrity
expect_status 0 "$SHOAL" --today 2026-02-11 list
expect_status 0 "$SHOAL" --today 2026-02-11 correct 0014-00001-98 --set age_years=59 --reason misread

# Those who wait, when asked to.
expect_status 0 "$SHOAL" --today 2026-02-11 purge --before 2026-02-01 --waiting-too --yes
! grep -raqi 'Roos\|0155503' "$SHOAL_BOOK" || fail 'who waited kept her name'

# A copy from before would bring the names back: that is asked.
expect_status 3 "$SHOAL" --today 2026-02-12 restore original < /dev/null
says err 'Names that were purged here are still in the copy'

# Killed at the Nth of the calls that change something: all names or none, and
# a second try finds nothing left to do but what was left undone.
rm -f "$SHOAL_BOOK"/register.db*
cp original "$SHOAL_BOOK/register.db"
everything='SELECT * FROM visit ORDER BY entry'
names='SELECT count(*) FROM visit WHERE name NOT NULL'
all=$(ask_register "$names")
SHOAL=$SHOAL_PLAIN
calls=pwrite64,fsync,fdatasync,unlink,ftruncate,write
killed=0 ended=
for n in $(seq 4 37 900); do
	cp original "$SHOAL_BOOK/register.db"
	rm -f "$SHOAL_BOOK"/register.db-journal
	status=0
	strace -qq -o trace -e "trace=$calls" -e "inject=$calls:signal=KILL:when=$n" \
		"$SHOAL" --today 2026-02-11 purge --before 2026-02-01 --yes > out 2>&1 || status=$?
	[ $status = 137 ] || { ended=yes; break; }
	killed=$((killed + 1))
	expect_status 0 "$SHOAL" --today 2026-02-11 list
	left=$(sqlite3 "$SHOAL_BOOK/register.db" "$names")
	[ "$left" = "$all" ] || [ "$left" = 2 ] || fail "killed at $n: $left names"
	expect_status 0 "$SHOAL" --today 2026-02-11 purge --before 2026-02-01 --yes
	! grep -raqi "$gone" "$SHOAL_BOOK" || { grep -rail "$gone" "$SHOAL_BOOK"; fail "killed at $n: a name is still there"; }
done
[ "$ended" = yes ] || fail 'never came to the end'
[ $killed -ge 3 ] || fail "only $killed kills"
echo "killed $killed times"
