#!/bin/bash
# A copy on a stick: whole, read back from the disk, and never a half one.
. "$SHOAL_TREE/tests/shell/lib.sh"
new_station
one_sheet 'Mira Fenn' 25 | "$SHOAL" --today 2026-03-10 screen --csv - > /dev/null
one_sheet 'Oda Lund' 15 | "$SHOAL" --today 2026-03-11 screen --csv - > /dev/null
everything='SELECT * FROM visit ORDER BY entry'
ask_register "$everything" > wanted

# whole FILE WORDS: everybody is in it, and SQLite finds nothing wrong.
whole() {
	[ "$(sqlite3 -readonly "$1" 'PRAGMA integrity_check')" = ok ] || fail "integrity $2"
	sqlite3 -readonly "$1" "$everything" | cmp - wanted || fail "people $2"
}

mkdir stick
expect_status 0 "$SHOAL" --today 2026-03-12 backup stick
copy=stick/backup-0014-2026-03-12.db
says out 'people 2, entries 2'
says out 'last number 0014-00002-95'
says out 'Wednesday 11 March 2026'
whole $copy now
[ "$(stat -c %a $copy)" = 600 ] || fail 'mode of the copy'

# On a disk in memory, which is another one than the register's.
other=$(mktemp -d -p /dev/shm)
trap 'rm -rf "$other"' EXIT
expect_status 0 "$SHOAL" backup "$other/copy.db"
says out 'You may pull out the stick'
whole "$other/copy.db" 'on another disk'

# A full disk, an error of the disk at each of the calls that matter, once and
# for good: no copy is announced, the older one stays whole.
cp $copy older
calls=pwrite64,fsync,fdatasync,rename,ftruncate
for error in ENOSPC EIO; do
	for when in 1 3 1+; do
		status=0
		strace -qq -f -o trace -e "trace=$calls" \
			-e "inject=$calls:error=$error:when=$when" \
			"$SHOAL_PLAIN" --today 2026-03-12 backup stick \
			> out 2> err || status=$?
		[ $status != 0 ] || ! grep -q INJECTED trace ||
			fail "$error at $when was not told"
		! grep -q 'pull out' out || [ $status = 0 ] || fail "announced at $when"
		whole $copy "after $error at $when"
		ls stick > left
		[ "$(cat left)" = "${copy#stick/}" ] || { cat left; fail "left over after $error at $when"; }
	done
done

# A stick whose file system has no links, as most have.
status=0
strace -qq -o trace -e trace=link,linkat -e inject=link,linkat:error=EPERM \
	"$SHOAL_PLAIN" backup stick/second.db > out 2> err || status=$?
[ $status = 0 ] || { cat err; fail 'no copy without links'; }
whole stick/second.db 'without links'

# Killed at the Nth of the calls that change something: the older copy or the
# new one, whole, and the register as it was.
one_sheet 'Pia Roos' 40 | "$SHOAL" --today 2026-03-12 screen --csv - > /dev/null
cp wanted before
ask_register "$everything" > after
calls=pwrite64,fsync,rename,unlink,ftruncate,openat
killed=0 ended=
for n in $(seq 5 7 300); do
	cp older $copy
	rm -f stick/*.tmp-*
	status=0
	strace -qq -o trace -e "trace=$calls" \
		-e "inject=$calls:signal=KILL:when=$n" \
		"$SHOAL_PLAIN" --today 2026-03-12 backup stick > out 2>&1 || status=$?
	if [ $status != 137 ]; then ended=yes; break; fi
	killed=$((killed + 1))
	cp before wanted
	cmp -s older $copy || cp after wanted
	whole $copy "killed at $n"
	! grep -q 'pull out\|read back' out || fail "announced, but killed at $n"
	[ "$(ask_register "$everything" | cmp - after && echo same)" = same ] ||
		fail "register killed at $n"
done
[ "$ended" = yes ] || fail 'never came to the end'
[ $killed -ge 4 ] || fail "only $killed kills"

# A damaged register is not copied over a good copy.
cp after wanted
whole $copy 'at last'
at=$(grep -abo 'oda lund' "$SHOAL_BOOK/register.db" | sed -n '1s/:.*//p')
printf 'X' | dd of="$SHOAL_BOOK/register.db" bs=1 seek="$at" conv=notrunc 2> /dev/null
expect_status 5 "$SHOAL" --today 2026-03-12 backup stick
says err 'is damaged; keep it as it is'
whole $copy 'beside a damaged register'
echo "killed $killed times"
