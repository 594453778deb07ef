#!/bin/bash
# The commands that load tallies into SQLite and PostgreSQL, as config/tally.sql
# and the README show them, run here; sums by SQL are the tallies' own.
. "$SHOAL_TREE/tests/shell/lib.sh"

# PostgreSQL refuses to run as root, and a test must not need to be root: as
# root the server runs as the user that Debian's package made for it. Only a
# socket in this folder leads to it.
room=$(mktemp -d /tmp/shoal-database.XXXXXX)
if [ "$(id -u)" = 0 ]; then
	server=postgres
	chown postgres "$room"
	as_server() {
		(cd "$room" && exec setpriv --reuid=postgres --regid=postgres \
			--init-groups -- "$@")
	}
else
	server=$(id -un)
	as_server() { (cd "$room" && exec "$@"); }
fi
programs=$(ls -d /usr/lib/postgresql/*/bin | sort -V | tail -n 1)
stop() {
	[ ! -e "$room/data/postmaster.pid" ] ||
		as_server "$programs/pg_ctl" -D "$room/data" -m immediate \
			-w stop > /dev/null
	rm -rf "$room"
}
trap stop EXIT
trap 'exit 1' HUP INT TERM
(cd "$room"
 as_server "$programs/initdb" -D data -A trust -E UTF8 --locale=C.UTF-8 \
	--no-sync > initdb.log 2>&1 || { cat initdb.log; fail 'initdb'; }
 printf '%s\n' "listen_addresses = ''" "unix_socket_directories = '$room'" \
	'fsync = off' 'max_connections = 5' >> data/postgresql.conf
 as_server "$programs/pg_ctl" -D data -l server.log -w start > start.log 2>&1 ||
	{ cat start.log server.log; fail 'the server does not start'; })
export PGHOST=$room PGUSER=$server
psql -q -d postgres -c 'CREATE DATABASE year'

# Two stations, two days, one day with a second revision, a site with a comma.
station() {
	rm -rf book
	SHOAL_BOOK=$PWD/book
	new_station "$1"
	{ one_sheet '' 25; printf 'NT,,61,M,0,5,18,18,,no\nNT,,,X,75,100,,,eye_pain,no\n'; } |
		"$SHOAL" --today 2026-03-10 screen --site 'Mavi, "old" hall' \
			--csv - > answers 2>&1
	"$SHOAL" --today 2026-03-10 tally --out "tallies/$1" > table 2>&1
	number=$(sed -n '/^[0-9]/{p;q}' answers | cut -d, -f1)
	"$SHOAL" --today 2026-03-10 correct "$number" --set depth_right=5 \
		--reason 'read again' > table 2>&1
	"$SHOAL" --today 2026-03-10 tally --close --out "tallies/$1" > table 2>&1
	one_sheet '' 15 | "$SHOAL" --today 2026-03-11 screen --csv - > answers 2>&1
	"$SHOAL" --today 2026-03-11 tally --out "tallies/$1" > table 2>&1
}
mkdir -p tallies/0014 tallies/0021 config
station 0014
station 0021
echo 'a note that somebody left' > tallies/notes.txt
[ "$(ls tallies/*/*.csv | wc -l)" = 6 ] || fail 'six tallies'
cp "$SHOAL_TREE/tests/fixtures/tallies/yield.csv" \
	tallies/0014/yield-0014-2026-03-r33.csv
cp "$SHOAL_TREE/config/tally.sql" config/

# The two commands, as they are shown.
sed -n 's/^--     //p' config/tally.sql > commands
[ "$(wc -l < commands)" = 2 ] || fail 'two commands'
while IFS= read -r command; do
	bash -c "$command" > said 2>&1 || { cat said; fail "$command"; }
	! grep -i error said || fail "$command"
done < commands
while IFS= read -r command; do
	says "$SHOAL_TREE/README.md" "    $command"
done < commands

# Sums of every count by day and site, by Python from the files.
counts=$(head -n 1 tallies/0014/*-03-11-r1.csv | cut -d, -f 12-26)
python3 - > wanted tallies/*/tally-*.csv <<'PY' || fail 'the sums by Python'
import csv, sys
rows = [r for name in sys.argv[1:] for r in csv.DictReader(open(name, newline=""))]
last, sums = {}, {}
for r in rows:
    key = r["station"], r["date"]
    last[key] = max(last.get(key, 0), int(r["revision"]))
for r in rows:
    if int(r["revision"]) == last[r["station"], r["date"]]:
        key = r["date"], r["site"]
        sums.setdefault(key, [0] * 15)
        for i, name in enumerate(list(r)[11:26]):
            sums[key][i] += int(r[name])
assert sum(v[0] for v in sums.values()) == 8, sums
for key in sorted(sums):
    print(*key, *sums[key], sep="|")
PY
summed=$(echo "$counts" | sed 's/[a-z_0-9]*/sum(&)/g')
ask="SELECT date, site, $summed FROM tally_counted
	GROUP BY date, site ORDER BY date, site"
by_sqlite() { sqlite3 -list year.db "$ask"; }
by_postgresql() { psql -q -d year -A -t -c "$ask"; }
by_sqlite > by_sqlite
by_postgresql > by_postgresql
cmp wanted by_sqlite || { cat by_sqlite; fail 'sums by SQLite'; }
cmp wanted by_postgresql || { cat by_postgresql; fail 'sums by PostgreSQL'; }
"$SHOAL" collate --by day --per site tallies/0014 tallies/0021 > collated.csv 2> said ||
	{ cat said; fail 'collate'; }
python3 -c 'import csv
for row in list(csv.reader(open("collated.csv", newline="")))[1:]:
    print(*row, sep="|")' | cmp wanted - || fail 'sums by collate'
[ "$(sqlite3 year.db "SELECT DISTINCT typeof(screened) || typeof(station)
	FROM tally")" = integertext ] || fail 'types in SQLite'

# The same rows once more change nothing; a row whose sums are altered is
# refused by both.
while IFS= read -r command; do
	bash -c "$command" > said 2>&1 || true
	grep -qiE 'unique|duplicate' said || { cat said; fail 'no row twice'; }
done < commands
mkdir altered
sed 's/,1,\([01]\),0,0,\([01]\),/,2,\1,0,0,\2,/' \
	tallies/0014/*-03-11-r1.csv > altered/tally-0014-2026-03-11-r1.csv
! cmp -s altered/*.csv tallies/0014/*-03-11-r1.csv || fail 'nothing altered'
sed -i 's/2026-03-11/2026-03-12/' altered/*.csv
sed 's/ tallies/ altered/' commands > others
while IFS= read -r command; do
	bash -c "$command" > said 2>&1 || true
	grep -qi 'check' said || { cat said; fail "altered sums: $command"; }
done < others
by_sqlite | cmp wanted - || fail 'SQLite, again'
by_postgresql | cmp wanted - || fail 'PostgreSQL, again'
