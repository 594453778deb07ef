#!/bin/sh
# Feed broken bytes to each target of tests/fuzz for SECONDS_EACH seconds, as
# many targets at once as there are processors; a crash, a leak or a broken
# promise fails, and its bytes are kept in $B/fuzz. Arguments choose targets by
# name. The last line is "N passed, N failed".
#
# A target says in its first comment where its seeds are ("seeds: FOLDER...")
# and how libFuzzer is to run it ("options: ..."). What a run finds is kept in
# $B/fuzz/TARGET.found for the next one;
#   KEEP=1 sh tests/fuzz/run.sh TARGET    puts the least set that reaches as
# much into tests/fuzz/seeds/TARGET, instead of fuzzing.
set -u
B=${B:-build} SECONDS_EACH=${SECONDS_EACH:-60}
export B SECONDS_EACH

said() { sed -n "s/^ \* $1: //p" "tests/fuzz/fuzz_$2.c"; }

# run_one TARGET
run_one() {
	found=$B/fuzz/$1.found log=$B/fuzz/$1.log
	mkdir -p "$found"
	base=${TMPDIR:-/tmp}
	[ ! -w /dev/shm ] || base=/dev/shm # files of a target, never synced
	TMPDIR=$(mktemp -d "$base/shoal-fuzz-XXXXXX") || return 1
	export TMPDIR
	"$B/fuzz/fuzz_$1" -max_total_time="$SECONDS_EACH" -timeout=10 \
		-rss_limit_mb=2048 -print_final_stats=1 \
		-artifact_prefix="$B/fuzz/$1-" $(said options "$1") \
		"$found" $(said seeds "$1") > "$log" 2>&1
	echo $? > "$B/fuzz/$1.status"
	rm -rf "$TMPDIR"
}

# keep_one TARGET: the least set of inputs that reaches the branches that all do.
keep_one() {
	seeds=tests/fuzz/seeds/$1
	least=$(mktemp -d)
	TMPDIR=$least.tmp
	mkdir "$TMPDIR"
	export TMPDIR
	"$B/fuzz/fuzz_$1" -merge=1 -use_counters=0 $(said options "$1") "$least" \
		$(said seeds "$1") "$B/fuzz/$1.found" 2> "$B/fuzz/$1.merge"
	rm -rf "$seeds" "$TMPDIR"
	mkdir -p "$seeds"
	mv "$least"/* "$seeds"
	rmdir "$least"
	echo "$1: $(ls "$seeds" | wc -l) seeds"
}

case ${1:-} in
--one) run_one "$2"; exit ;;
esac
chosen=${*:-$(ls tests/fuzz/fuzz_*.c | sed 's/.*fuzz_//; s/\.c$//')}
if [ -n "${KEEP:-}" ]; then
	for name in $chosen; do keep_one "$name"; done
	exit
fi

for name in $chosen; do rm -f "$B/fuzz/$name.status"; done
printf '%s\n' $chosen | xargs -P "$(nproc)" -n 1 sh "$0" --one

passed=0 failed=0
for name in $chosen; do
	log=$B/fuzz/$name.log
	if [ "$(cat "$B/fuzz/$name.status" 2>/dev/null)" = 0 ]; then
		passed=$((passed + 1))
		sed -n 's/^stat::number_of_executed_units: *//p
			s/^stat::average_exec_per_sec: *//p
			s/.*DONE  *cov: \([0-9]*\).*/\1/p' "$log" |
			paste -s -d ' ' |
			while read -r edges inputs speed; do
				echo "$name: $inputs inputs, $speed a second," \
					"$edges branches reached"
			done
	else
		failed=$((failed + 1))
		echo "$name:"
		grep -aE 'does not hold|ERROR|SUMMARY| (src|tests)/|written to' \
			"$log" | head -n 30
	fi
done
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
