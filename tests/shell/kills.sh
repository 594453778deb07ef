#!/bin/bash
# SIGKILL at any instant: what was announced as saved is there, whole.
. "$SHOAL_TREE/tests/shell/lib.sh"
SHOAL=$SHOAL_PLAIN # the sanitizers would only make it slower
new_station
tries=205

{ printf 'NT\n'; for _ in $(seq 200); do plain_person; done; } > typed
: > announced
landed=0
for try in $(seq $tries); do
	day=2026-03-$(printf %02d $((try % 28 + 1)))
	"$SHOAL" --today "$day" screen < typed > talk.out 2> talk.err &
	child=$!
	# Saves go on by now; the kill falls 0 to 30 ms later, each time
	# elsewhere in them.
	until grep -q '^Saved ' talk.err; do
		kill -0 $child 2> /dev/null || break
		sleep 0.005
	done
	sleep "0.0$(printf %02d $(((try * 37) % 31)))"
	kill -9 $child 2> /dev/null && landed=$((landed + 1))
	wait $child 2> /dev/null || true
	sed -n 's/^Saved //p' talk.err >> announced
done
[ $landed -ge 200 ] || fail "only $landed of $tries kills fell among saves"

# The next to open it undoes what the last kill left half done.
"$SHOAL" list > /dev/null 2>&1 || fail 'the register does not open'
[ "$(ask_register 'PRAGMA integrity_check')" = ok ] || fail 'integrity'
ask_register "SELECT number FROM visit" | sort > there
sort announced > said
[ -z "$(uniq -d said)" ] || fail 'a number was announced twice'
[ -z "$(comm -23 said there)" ] || fail 'announced as saved, but not there'
half=$(ask_register "SELECT count(*) FROM visit WHERE urgency IS NULL
	OR depth_right IS NULL OR policy IS NULL OR entered_at IS NULL")
[ "$half" = 0 ] || fail "$half people are there in part"
serials=$(ask_register "SELECT count(DISTINCT number) = count(*) FROM visit")
[ "$serials" = 1 ] || fail 'a number stands twice'
echo "kills $tries, among saves $landed, announced $(wc -l < said), kept $(wc -l < there), lost 0"
