#!/bin/sh
# Feed broken bytes to each target of tests/fuzz for SECONDS seconds; a crash,
# a leak or a broken promise fails, and the bytes are kept in $B/fuzz.
# The last line is "N passed, N failed".
set -u
B=${B:-build} SECONDS_EACH=${SECONDS_EACH:-60}
passed=0 failed=0
for source in tests/fuzz/fuzz_*.c; do
	name=$(basename "$source" .c)
	room=$B/fuzz/$name.found
	mkdir -p "$room"
	# What is found is kept between runs; the fixtures are the seeds.
	if "$B/fuzz/$name" -max_total_time="$SECONDS_EACH" -timeout=10 \
		-rss_limit_mb=1024 -max_len=4096 -print_final_stats=1 \
		-artifact_prefix="$B/fuzz/$name-" "$room" \
		$(sed -n 's/^ \* seeds: //p' "$source") \
		> "$B/fuzz/$name.log" 2>&1; then
		passed=$((passed + 1))
		echo "$name: $(sed -n \
			's/^stat::number_of_executed_units: *//p' \
			"$B/fuzz/$name.log") inputs"
	else
		failed=$((failed + 1))
		tail -n 40 "$B/fuzz/$name.log"
	fi
done
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
