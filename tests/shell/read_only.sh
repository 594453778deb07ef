#!/bin/bash
# A read-only medium: reading works and leaves nothing; saving is refused
# before the first question.
. "$SHOAL_TREE/tests/shell/lib.sh"
[ "$(id -u)" = 0 ] || { echo 'needs root to mount a disk'; exit 1; }
mkdir disk
mount -t tmpfs -o size=4m tmpfs disk
trap 'umount -l disk' EXIT
SHOAL_BOOK=$PWD/disk/book
new_station
one_sheet 'Adira Moru' 25 | "$SHOAL" --today 2026-03-10 screen --csv - > answers
number=$(sed -n 2p answers | cut -d, -f1)
mount -o remount,ro disk
ls -laR disk > before
expect_status 0 "$SHOAL" list
says out "$number"
expect_status 0 "$SHOAL" slip "$number"
expect_status 0 "$SHOAL" slip "$number" --html
ls -laR disk > after
cmp before after || fail 'reading left something behind'
plain_person > typed
expect_status 5 "$SHOAL" --today 2026-03-10 screen < typed
! grep -q 'Name' err || fail 'a question was asked before the refusal'
expect_status 5 "$SHOAL" --today 2026-03-10 void "$number" --reason x
