#!/bin/bash
# A register brought back from a copy: nothing is lost, no number is given to
# two people, and a copy that was older is noticed in the manager's total.
. "$SHOAL_TREE/tests/shell/lib.sh"
new_station
sheet() { one_sheet "$2" "${3:-40}" | "$SHOAL" --today "$1" screen --csv - > out 2> quiet || { cat out quiet; fail sheet; }; }
everything='SELECT * FROM visit ORDER BY entry'
mkdir stick

sheet 2026-03-10 'Mira Fenn' 25
"$SHOAL" --today 2026-03-10 tally --close > /dev/null 2>&1
sheet 2026-03-11 'Oda Lund' 15
"$SHOAL" --today 2026-03-11 tally > /dev/null 2>&1
"$SHOAL" --today 2026-03-11 backup stick > /dev/null
copy=$PWD/stick/backup-0014-2026-03-11.db
ask_register "$everything" > in_copy
# What the copy will not have.
sheet 2026-03-11 'Pia Roos' 40
"$SHOAL" --today 2026-03-11 tally > /dev/null 2>&1
sheet 2026-03-12 'Ina Vale' 40
"$SHOAL" --today 2026-03-12 tally > /dev/null 2>&1
ask_register "$everything" > all
mkdir manager; cp "$SHOAL_BOOK"/tallies/* manager

# Not without the word, and nothing is changed then.
cp "$SHOAL_BOOK/register.db" before
for word in '' no yes; do
	status=0
	echo "$word" | "$SHOAL" --today 2026-03-13 restore "$copy" > out 2> err || status=$?
	[ $status = 3 ] || fail "restored by '$word'"
	says err 'It has 2 entries that the copy does NOT have'
	cmp before "$SHOAL_BOOK/register.db" || fail 'changed without the word'
	[ "$(ls "$SHOAL_BOOK" | grep -c register)" = 1 ] || fail 'something was left'
done
expect_status 3 "$SHOAL" restore "$copy" < /dev/null
expect_status 3 "$SHOAL" restore "$PWD/nothing" --yes
says err 'nothing was restored'
head -c 3000 "$copy" > cut.db
expect_status 3 "$SHOAL" restore cut.db --yes
says err 'cut short'

# With it: the register is kept aside, numbers go on after the last slip.
echo restore | "$SHOAL" --today 2026-03-13 restore "$copy" > out 2> err
says out 'The next number is 0014-00005-86'
aside=$SHOAL_BOOK/register.db.aside-2026-03-13-1
cmp before "$aside" || fail 'what was kept aside was changed'
[ "$(stat -c %a "$aside" "$SHOAL_BOOK/register.db" | sort -u)" = 600 ] || fail modes
ask_register "$everything" | cmp - in_copy || fail 'not what was in the copy'
[ "$(ask_register 'PRAGMA integrity_check')" = ok ] || fail integrity
sheet 2026-03-13 'Tove Lark' 40
says out 0014-00005-86

# The older copy in the total. Days of one register count; 11 March, which both
# report, counts for neither, though the restored one has a higher revision.
"$SHOAL" --today 2026-03-13 tally > /dev/null 2>&1
expect_status 0 "$SHOAL" collate --by day --ledger ledger.csv manager "$SHOAL_BOOK/tallies"
[ "$(cut -d, -f1,3 out | grep -c '^2026-03-1[0-3],1$')" = 3 ] || { cat out; fail 'days of one register'; }
sheet 2026-03-13 'Una Moss' 40
one_sheet 'Eda Kirk' 40 > late.csv
for day in 11 12; do
	"$SHOAL" --today 2026-03-13 screen --date 2026-03-$day --csv late.csv > /dev/null 2>&1
	"$SHOAL" --today 2026-03-13 tally --date 2026-03-$day > /dev/null 2>&1
done
# No tally of before was written over.
for file in manager/*; do
	cmp "$file" "$SHOAL_BOOK/tallies/${file#manager/}" || fail "$file was written over"
done
expect_status 3 "$SHOAL" collate --by day --ledger ledger.csv manager "$SHOAL_BOOK/tallies"
says ledger.csv 'went on from a copy'
[ "$(grep -c ',conflict,' ledger.csv)" = 8 ] || { cat ledger.csv; fail conflicts; }
[ "$(cut -d, -f1 out | grep -c '^2026-03-1[12]')" = 0 ] || { cat out; fail 'a day of both was counted'; }
[ "$(cut -d, -f1 out | grep -c '^2026-03-1[03]')" = 2 ] || { cat out; fail 'a day of one was not counted'; }

# On a new laptop, where nobody knows how far the numbers went: sealed.
"$SHOAL" key "$PWD/office.key" > public.txt 2> /dev/null
expect_status 0 "$SHOAL" --today 2026-03-13 backup stick --key public.txt
says out 'Sealed'
sealed=stick/backup-0014-2026-03-13.sealed
! grep -aq 'Fenn\|fenn\|Lark' $sealed || fail 'a name in a sealed copy'
! ls "$SHOAL_BOOK" | grep -q copy || fail 'the unsealed copy is still there'
ask_register "$everything" > all
SHOAL_BOOK=$PWD/second
new_station
expect_status 3 "$SHOAL" restore $sealed
says err 'give the file of the private key'
"$SHOAL" key "$PWD/wrong.key" > /dev/null 2>&1
expect_status 3 "$SHOAL" restore $sealed --key wrong.key
says err 'sealed to another key'
expect_status 0 "$SHOAL" restore $sealed --key office.key
says out 'The next number is 0014-01001-'
ask_register "$everything" | cmp - all || fail 'not what was sealed'
! ls "$SHOAL_BOOK" | grep -q tmp || fail 'something was left'
SHOAL_BOOK=$PWD/other
new_station 0015
expect_status 3 "$SHOAL" restore "$copy"
says err 'the copy is of station 0014'

# The key in station.ini; a mistyped one is refused.
SHOAL_BOOK=$PWD/second
sed -i "s/^key = .*/$(cat public.txt)/" "$SHOAL_BOOK/station.ini"
expect_status 0 "$SHOAL" --today 2026-03-14 backup stick --to-key
expect_status 0 "$SHOAL" --today 2026-03-14 backup stick --to-key
tr 0-9a-f 1-9a-f0 < public.txt > mistyped.txt
expect_status 3 "$SHOAL" backup stick --key mistyped.txt
expect_status 3 "$SHOAL" backup stick --key office.key
says err 'belongs in the office'

# While another program has the register open it is not replaced.
mkfifo typed
"$SHOAL" --today 2026-03-14 screen < typed > /dev/null 2>&1 &
exec 9> typed
sleep 0.5
expect_status 5 "$SHOAL" restore "$copy" --yes
says err 'open in another program'
exec 9>&-
wait
# Killed at the Nth of the calls that change something: one of the two stands
# there, whole, and the one before is never lost.
SHOAL_BOOK=$PWD/book
ask_register "$everything" > now
cp "$SHOAL_BOOK/register.db" before
calls=pwrite64,fsync,link,rename,unlink,write
killed=0 ended=
for n in $(seq 3 9 300); do
	rm -f "$SHOAL_BOOK"/register.db*
	cp before "$SHOAL_BOOK/register.db"
	status=0
	strace -qq -o trace -e "trace=$calls" -e "inject=$calls:signal=KILL:when=$n" \
		"$SHOAL_PLAIN" --today 2026-03-15 restore "$copy" --yes > out 2>&1 || status=$?
	[ $status = 137 ] || { ended=yes; break; }
	killed=$((killed + 1))
	ask_register "$everything" > found
	if ! cmp -s found now; then
		cmp -s found in_copy || fail "killed at $n: neither of the two"
		cmp "$SHOAL_BOOK/register.db.aside-2026-03-15-1" before || fail "killed at $n: the one before is lost"
	fi
done
[ "$ended" = yes ] || fail 'never came to the end'
[ $killed -ge 3 ] || fail "only $killed kills"
echo "killed $killed times"
