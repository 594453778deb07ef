#!/bin/sh
# The running program gives nobody a look at its memory: no core, no new
# rights, and its files under /proc belong to root, not to the user.
set -eu
fail() { echo "$*"; exit 1; }

# As somebody who is not root, for whom the system makes a difference; the
# program is opened here, since that user may not look into this folder.
as_user() {
	if [ "$(id -u)" -eq 0 ]; then
		exec setpriv --reuid=65534 --regid=65534 --clear-groups "$@"
	fi
	exec "$@"
}

mkfifo typed
exec 4< "$SHOAL_PLAIN" 5<> typed

(as_user sleep 100) < typed > /dev/null 2>&1 &
other=$!
(as_user /proc/self/fd/4 assess --csv -) < typed > /dev/null 2>&1 &
shoal=$!
trap 'kill "$other" "$shoal" 2> /dev/null || true' EXIT

# Until it has started and waits for its input.
tries=0
until grep -q '^NoNewPrivs:[[:space:]]*1' "/proc/$shoal/status"; do
	tries=$((tries + 1))
	[ "$tries" -lt 100 ] || fail 'the program may still get new rights'
	sleep 0.1
done
[ "$(stat -c %u "/proc/$other/mem")" -ne 0 ] ||
	fail 'this test can tell nothing: any program is root here'
[ "$(stat -c %u "/proc/$shoal/mem")" -eq 0 ] ||
	fail 'others of the user can read the memory of the program'
grep -q '^Max core file size *0  *0 ' "/proc/$shoal/limits" ||
	fail 'the program may leave a core file'
