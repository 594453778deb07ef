#!/bin/bash
# A register of an older form: read where nothing can be written, brought up
# to date where it can, and whole when that is killed at any moment.
. "$SHOAL_TREE/tests/shell/lib.sh"
old=$SHOAL_TREE/tests/fixtures/registers/v1.db
new_station
everything='SELECT entry, revises, reason, folded_name, number, state, name,
	rules FROM visit ORDER BY entry'
sqlite3 -readonly "$old" "$everything" > wanted

# old_register: in $SHOAL_BOOK, and nothing left of an earlier try.
old_register() {
	rm -f "$SHOAL_BOOK"/register.db*
	(umask 077; cp "$old" "$SHOAL_BOOK/register.db")
}

# whole FILE: it holds everybody, and SQLite finds nothing wrong with it.
whole() {
	[ "$(sqlite3 "$1" 'PRAGMA integrity_check')" = ok ] || fail "integrity $2"
	sqlite3 "$1" "$everything" | cmp - wanted || fail "people $2"
}

# A command that writes, but is refused after the register was opened.
write_nothing() { "$@" void 0014-00099-95 --reason x; }

old_register
expect_status 0 "$SHOAL" list
says out 'Mira Fenn'
cmp "$old" "$SHOAL_BOOK/register.db" || fail 'reading changed it'
expect_status 3 write_nothing "$SHOAL"
[ "$(ask_register 'PRAGMA user_version')" = 3 ] || fail 'not brought up to date'
whole "$SHOAL_BOOK/register.db" now
whole "$SHOAL_BOOK/register.db.v1" 'of the copy'
[ "$(stat -c %a "$SHOAL_BOOK/register.db.v1")" = 600 ] || fail 'mode of the copy'

# A newer one stays as it is.
sqlite3 "$SHOAL_BOOK/register.db" 'PRAGMA user_version = 4'
cp "$SHOAL_BOOK/register.db" newer
for command in list 'void 0014-00001-98 --reason x'; do
	expect_status 5 "$SHOAL" $command
	says err 'newer version'
done
cmp newer "$SHOAL_BOOK/register.db" || fail 'a newer register was touched'

# Killed at the Nth of the calls that change something on the disk.
calls=pwrite64,fsync,fdatasync,unlink,unlinkat,link,linkat,rename,renameat2
SHOAL=$SHOAL_PLAIN
killed=0 ended=
for n in $(seq 300); do
	old_register
	status=0
	strace -qq -o trace -e "trace=$calls" \
		-e "inject=$calls:signal=KILL:when=$n" \
		"$SHOAL" void 0014-00099-95 --reason x > out 2>&1 || status=$?
	if [ $status != 137 ]; then
		ended=yes
		break
	fi
	killed=$((killed + 1))
	# The next to open it undoes what was left half done.
	expect_status 0 "$SHOAL" list
	case $(ask_register 'PRAGMA user_version') in
	1) ;;
	3) whole "$SHOAL_BOOK/register.db.v1" "of the copy, killed at $n" ;;
	*) fail "another form, killed at $n" ;;
	esac
	whole "$SHOAL_BOOK/register.db" "killed at $n"
done
[ "$ended" = yes ] || fail 'never came to the end'
[ $killed -ge 20 ] || fail "only $killed kills"
echo "killed $killed times, everybody there each time"
