#!/bin/bash
# Two programs at once: both work, no number twice.
. "$SHOAL_TREE/tests/shell/lib.sh"
SHOAL=$SHOAL_PLAIN
new_station
each=100
{ printf 'NT\n'; for _ in $(seq $each); do plain_person; done; } > typed
for writer in 1 2; do
	"$SHOAL" --today 2026-03-10 screen < typed > out.$writer 2> err.$writer &
done
wait
for writer in 1 2; do
	[ "$(grep -c '^Saved ' err.$writer)" = $each ] ||
		{ tail -3 err.$writer; fail "writer $writer did not save all"; }
done
[ "$(ask_register 'SELECT count(DISTINCT number) FROM visit')" = $((2 * each)) ] ||
	fail 'a number twice, or one lost'
