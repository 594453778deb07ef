#!/bin/bash
# A full disk: NOT saved is said, the register stays whole, work goes on later.
. "$SHOAL_TREE/tests/shell/lib.sh"
[ "$(id -u)" = 0 ] || { echo 'needs root to mount a small disk'; exit 1; }
mkdir disk
mount -t tmpfs -o size=400k tmpfs disk
trap 'umount -l disk' EXIT
SHOAL_BOOK=$PWD/disk/book
SHOAL=$SHOAL_PLAIN
new_station
{ printf 'NT\n'; for _ in $(seq 600); do plain_person; done; } > typed
status=0
"$SHOAL" --today 2026-03-10 screen < typed > out 2> err || status=$?
case $status in 5|6) ;; *) tail -3 err; fail "status $status" ;; esac
said=$(grep -c '^Saved ' err)
[ "$said" -gt 0 ] || fail 'nobody was saved at all'
says err 'NOT saved'
cp -r disk/book copy
SHOAL_BOOK=$PWD/copy
[ "$(ask_register 'PRAGMA integrity_check')" = ok ] || fail 'integrity'
[ "$(ask_register 'SELECT count(*) FROM visit')" = "$said" ] ||
	fail 'announced and kept differ'
# With room again, the same register goes on.
one_sheet | "$SHOAL" --today 2026-03-10 screen --csv - > out ||
	fail 'the register does not go on'
