#!/bin/bash
# Two programs at once, 500 people each: nobody lost, no number twice.
. "$SHOAL_TREE/tests/faults/lib.sh"
new_station
each=500
{ printf 'NT\n'; for _ in $(seq $each); do plain_person; done; } > typed
for writer in 1 2; do
	"$SHOAL" --today 2026-03-10 screen < typed > out.$writer 2> err.$writer &
done
wait
sed -n 's/^Saved //p' err.1 err.2 | sort > said
ask_register 'SELECT number FROM visit' | sort > there
lost=$(comm -23 said there | wc -l)
twice=$(uniq -d said | wc -l)
[ "$(wc -l < said)" = $((2 * each)) ] ||
	{ tail -n 3 err.1 err.2; other=1; }
[ "$(wc -l < there)" = $((2 * each)) ] || lost=$((lost + 1))
# Whole serials, none left out.
[ "$(ask_register "SELECT count(DISTINCT substr(number, 6, 5)) || ' ' ||
	max(substr(number, 6, 5)) FROM visit")" = "1000 01000" ] || twice=1
[ "$(ask_register 'PRAGMA integrity_check')" = ok ] || corrupted=1
figure 'two programs, 500 people each' $((2 * each)) "$lost" \
	"${corrupted:-0}" $((twice + ${other:-0}))
