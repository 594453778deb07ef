#!/bin/sh
# What a decision and a save cost, as ratios to the least that could be done:
# starting a program that does nothing, and one synced append of 200 bytes.
set -eu
: "${SHOAL:?set SHOAL to the program}"
tree=$(cd "$(dirname "$0")/../.." && pwd)
room=$(mktemp -d "$(dirname "$SHOAL")/bench.XXXXXX")
trap 'rm -rf "$room"' EXIT

${CC:-cc} -std=c17 -O2 -D_XOPEN_SOURCE=700 -o "$room/pace" \
	"$tree/tests/bench/pace.c"
cd "$room"
export SHOAL_BOOK="$room/book"
"$SHOAL" start --station 0014 --programme Bench --site Bench >/dev/null

cat > one.csv <<'CSV'
grader,age_years,sex,depth_right,depth_left,pressure_right,pressure_left,findings,reply_consent
NT,58,F,25,40,16,17,,yes
CSV
people=200
printf 'NT\n' > none.txt
{ printf 'NT\n'
  i=0
  while [ $i -lt $people ]; do
	printf '\n\n58\n1\n\n\n\n\n\n\n40\n40\n16\n17\n1\n\n'
	i=$((i + 1))
  done; } > many.txt

# pace RUNS INPUT APPEND COMMAND...: median microseconds, peak KiB
pace() { ./pace "$@"; }
first() { echo "$1"; }

true_us=$(first $(pace 300 /dev/null - /bin/true))
assess=$(pace 300 /dev/null - "$SHOAL" assess --age 58 --sex F --right 25 \
	--left 40 --pressure-right 16)
append_us=$(first $(pace 200 /dev/null a.log))
both_us=$(first $(pace 200 /dev/null a.log /bin/true))
save=$(pace 100 one.csv - "$SHOAL" --today 2026-03-10 screen --csv -)
# A session in a fresh register each time; the median of seven.
session() {
	for run in 1 2 3 4 5 6 7; do
		"$SHOAL" start --book "session$run" --station 0014 \
			--programme Bench --site Bench > /dev/null
		pace 1 "$1" - "$SHOAL" --book "session$run" \
			--today 2026-03-10 screen
		rm -r "session$run"
	done | sort -n | sed -n 4p
}
none_us=$(first $(session none.txt))
many=$(session many.txt)

# The least that a save can cost: one text of 200 bytes in one table, kept by
# SQLite in the same way, and nothing more.
least_us=0
rows() {
	echo 'PRAGMA journal_mode = DELETE; PRAGMA synchronous = EXTRA;'
	echo 'PRAGMA secure_delete = ON; CREATE TABLE one(value TEXT) STRICT;'
	i=0
	while [ $i -lt "$1" ]; do
		printf "INSERT INTO one VALUES('%0200d');\n" $i
		i=$((i + 1))
	done
}
if command -v sqlite3 > /dev/null; then
	rows 0 > none.sql
	rows $people > many.sql
	kept() {
		rm -f least.db
		pace 1 "$1" - "$(command -v sqlite3)" -bail least.db
	}
	least_us=$(echo "$(first $(kept many.sql)) $(first $(kept none.sql))" |
		awk -v people=$people '{ print ($1 - $2) / people }')
fi

strip -o stripped "$SHOAL"
size=$(wc -c < stripped)

awk -v t="$true_us" -v a="$(first $assess)" -v p="$append_us" \
	-v b="$both_us" -v s="$(first $save)" -v n="$none_us" \
	-v m="$(first $many)" -v people=$people -v size="$size" \
	-v least="$least_us" \
	-v kib="${many#* }" '
function line(what, value, limit, unit) {
	printf "%-58s %8.2f %-4s (to reach: at most %s)%s\n", what, value, \
		unit, limit, (value > limit) ? "  MISSED" : ""
	missed += (value > limit)
}
BEGIN {
	printf "/bin/true %.0f us, synced append of 200 bytes %.0f us\n", t, p
	line("assess / true", a / t, 2, "x")
	line("one person saved by one command / (true + append)", \
		s / b, 5, "x")
	line("one person inside an open screen / append", \
		(m - n) / people / p, 6, "x")
	if (least > 0)
		printf "    SQLite alone, one row of one text, takes %.2f x\n",
			least / p
	line("stripped program", size / 1024, 300, "KiB")
	line("peak memory", kib / 1024, 8, "MiB")
	exit missed > 0
}'
