#!/bin/sh
# How long collating takes, as ratios to other programs that do the same sums
# (of every count, by day and site, as the same CSV), whose answers are compared
# with it byte for byte; and, for many files, to walking, opening and reading
# them. The others verify nothing; shoal verifies every row.
#
#   STATIONS=50 DAYS=100   a smaller season than the 1000 stations and 365 days
#   ROUNDS=3               of the quick ones; their median counts
#   BENCH_FOLDER=/folder   where the season is made (default: beside the program)
#
# Which others are there is up to you: mawk, mlr (miller), sqlite3, and DuckDB as
# the npm package @duckdb/node-api, installed with -g or found by NODE_PATH.
set -eu
: "${SHOAL:?set SHOAL to the program}"
stations=${STATIONS:-1000} days=${DAYS:-365} rounds=${ROUNDS:-3}
tree=$(cd "$(dirname "$0")/../.." && pwd)
room=$(mktemp -d "${BENCH_FOLDER:-$(dirname "$SHOAL")}/bench.XXXXXX")
trap 'rm -rf "$room"' EXIT
trap 'exit 1' HUP INT TERM

# A file takes a block of 4 KiB and its place in a folder; the one file stands
# beside, and twice more in the databases of others.
needed=$((stations * days * 9))
free=$(df -Pk "$room" | awk 'NR == 2 { print $4 }')
[ "$free" -gt "$needed" ] || {
	echo "$((needed / 1024)) MiB are needed in $room, $((free / 1024)) MiB"
	echo 'are free; BENCH_FOLDER names another place, STATIONS and DAYS less.'
	exit 1
}

for program in pace season walk; do
	${CC:-cc} -std=c17 -O2 -D_XOPEN_SOURCE=700 -D_DEFAULT_SOURCE \
		-o "$room/$program" "$tree/tests/bench/$program.c" -lz
done
cd "$room"
export SHOAL tree
set -- $(./season "$stations" "$days" tallies one.csv)
files=$1 rows=$2
bytes=$(wc -c < one.csv)
echo "$files files; $rows rows in one file of $((bytes / 1000000)) MB"

counts=$(head -n 1 one.csv | cut -d, -f 12-26)
for name in $(echo "$counts" | tr , ' '); do
	sums="${sums:-}, sum($name) AS $name"
done
export counts sums

# pace RUNS COMMAND: median microseconds and peak KiB of a shell command.
pace() { ./pace "$1" /dev/null - /bin/sh -c "$2"; }
seconds() { awk -v us="$1" 'BEGIN { printf "%.3f", us / 1e6 }'; }

# ratio WHAT VALUE LIMIT atmost|atleast UNIT
missed=0
ratio() {
	awk -v what="$1" -v value="$2" -v limit="$3" -v how="$4" -v unit="$5" '
	BEGIN {
		bad = how == "most" ? value > limit : value < limit
		printf "%-58s %8.2f %-4s (to reach: at %s %s)%s\n", what, value,
			unit, how, limit, bad ? "  MISSED" : ""
		exit bad
	}' || missed=$((missed + 1))
}
over() { awk -v a="$1" -v b="$2" 'BEGIN { printf "%.4f", a / b }'; }

# --- one file ---------------------------------------------------------------

set -- $(pace "$rounds" 'exec cat one.csv')
echo "cat                                   $(seconds "$1") s"
set -- $(pace "$rounds" 'exec "$SHOAL" collate one.csv > shoal.csv')
one=$1 peak=$2
echo "shoal collate                         $(seconds "$one") s," \
	"$(awk -v r="$rows" -v us="$one" 'BEGIN { printf "%.0f", r / us * 1e6 }')" \
	"rows a second"

# other NAME LABEL COMMAND [AT-LEAST]: one that writes NAME.csv, if it is there.
other() {
	set -- "$1" "$2" "$3" "${4:-}" $(pace 1 "$3")
	echo "$2" "$(seconds "$5") s, peak $(($6 / 1024)) MiB" |
		awk '{ name = $1; $1 = ""; printf "%-37s%s\n", name, $0 }'
	cmp "$1.csv" shoal.csv || {
		echo "$2 does not give the same sums"
		missed=$((missed + 1))
		return
	}
	if [ -n "$4" ]; then
		ratio "$2 / shoal collate" "$(over "$5" "$one")" "$4" least x
	else
		echo "    $(over "$5" "$one") times as long"
	fi
}
absent() { echo "$1 is not installed: not compared"; }

cat > sums.awk <<'AWK'
NR == 1 { next }
{
	key = $6 "," $3
	if (!(key in seen)) seen[key]
	for (i = 12; i <= 26; i++) sum[key, i] += $i
}
END {
	for (key in seen) {
		line = key
		for (i = 12; i <= 26; i++) line = line "," sum[key, i]
		print line | "LC_ALL=C sort"
	}
}
AWK
echo "day,site,$counts" > head.csv
if command -v mawk > /dev/null; then
	other mawk mawk '{ cat head.csv; mawk -F , -f sums.awk one.csv; } > mawk.csv' 10
else
	absent mawk
fi

if command -v mlr > /dev/null; then
	other mlr miller 'exec mlr --csv stats1 -a sum -f "$counts" -g date,site \
		then rename -r "^(.*)_sum$,\1" then rename date,day \
		then sort -c day,site one.csv > mlr.csv'
else
	absent miller
fi

if command -v sqlite3 > /dev/null; then
	other sqlite sqlite3 'sqlite3 :memory: ".read $tree/config/tally.sql" \
		".import --csv --skip 1 one.csv tally" ".headers on" ".mode list" \
		".separator ," "SELECT date AS day, site$sums FROM tally
		GROUP BY date, site ORDER BY date, site" > sqlite.csv'
else
	absent sqlite3
fi

export NODE_PATH="${NODE_PATH:-$(npm root -g 2> /dev/null || true)}"
if node -e 'require("@duckdb/node-api")' 2> /dev/null; then
	cat > duckdb.js <<'JS'
const { DuckDBInstance } = require('@duckdb/node-api');
(async () => {
	const base = await DuckDBInstance.create(':memory:', { threads: '2' });
	const ask = await base.connect();
	await ask.run(`COPY (SELECT date AS day, site${process.env.sums}
		FROM read_csv('one.csv', header = true, auto_detect = true)
		GROUP BY date, site ORDER BY date, site)
		TO 'duckdb.csv' (HEADER, DELIMITER ',')`);
})();
JS
	other duckdb DuckDB 'exec node duckdb.js' 8
else
	absent 'DuckDB (@duckdb/node-api)'
fi
ratio 'peak memory, one file' "$(over "$peak" 1024)" 48 most MiB

# --- many files -------------------------------------------------------------

# In turns, so that whatever else the machine does slows both.
pace 1 'exec ./walk tallies' > /dev/null
for round in $(seq "$rounds"); do
	echo $(pace 1 'exec ./walk tallies') \
		$(pace 1 'exec "$SHOAL" collate tallies > many.csv')
done > turns
# median EXPRESSION: of a figure of each turn, by awk.
median() {
	awk "{ printf \"%.4f\\n\", $1 }" turns | sort -n |
		awk '{ its[NR] = $1 } END { print its[int((NR + 1) / 2)] }'
}
walk=$(median '$1') many=$(median '$3')
peak=$(awk '$4 > most { most = $4 } END { print most }' turns)
echo "walking, opening, reading             $(seconds "$walk") s"
echo "shoal collate                         $(seconds "$many") s," \
	"$(awk -v f="$files" -v us="$many" 'BEGIN { printf "%.0f", f / us * 1e6 }')" \
	"files a second"
cmp many.csv shoal.csv || {
	echo 'the folder and the one file do not give the same sums'
	missed=$((missed + 1))
}
ratio 'shoal collate, many files / walk, open, read' \
	"$(median '$3 / $1')" 1.6 most x
ratio 'peak memory, many files' "$(over "$peak" 1024)" 48 most MiB
[ "$missed" -eq 0 ]
