#!/bin/sh
# A reader that knows only the description of the tally takes every row of one,
# and refuses what is altered.
. "$SHOAL_TREE/tests/shell/lib.sh"
new_station
{ one_sheet '' 25; one_sheet '' 0 | tail -n 1; printf 'NT,,,X,75,100,,,,no\n'; } |
	"$SHOAL" --today 2026-03-10 screen --csv - > answers
"$SHOAL" --today 2026-03-10 tally > table

# Datatypes as in W3C's "Metadata Vocabulary for Tabular Data" of 17 December
# 2015: format, minimum, maximum, maxLength, null, required, primaryKey.
cat > reader.py <<'PY'
import csv, datetime, json, re, sys

def wrong(value, column, null):
    kind = column["datatype"]
    if value == null:
        return column["required"]
    if kind["base"] == "integer":
        return not re.fullmatch("[0-9]+", value) or not \
            kind["minimum"] <= int(value) <= kind["maximum"]
    if kind["base"] == "date":
        assert kind["format"] == "yyyy-MM-dd", kind
        try:
            return datetime.date.fromisoformat(value).isoformat() != value
        except ValueError:
            return True
    assert kind["base"] == "string", kind
    return not re.search(kind.get("format", ""), value) or \
        len(value) > kind.get("maxLength", len(value))

about = json.load(open(sys.argv[1], encoding="utf-8"))
columns = about["tableSchema"]["columns"]
key = about["tableSchema"]["primaryKey"]
null = about["tableSchema"]["null"]
dialect = about["dialect"]
with open(sys.argv[2], newline="", encoding=dialect["encoding"]) as f:
    rows = list(csv.reader(f, delimiter=dialect["delimiter"],
        quotechar=dialect["quoteChar"], doublequote=dialect["doubleQuote"]))
names = [c["titles"] for c in columns]
assert rows[0] == names, rows[0]
assert len(rows) == 3, "two kinds of people were screened"
seen = set()
for row in rows[1:]:
    assert len(row) == len(columns), row
    for value, column in zip(row, columns):
        assert not wrong(value, column, null), (column["name"], value)
    mine = tuple(row[names.index(k)] for k in key)
    assert mine not in seen, mine
    seen.add(mine)

bad = {"schema": "shoal-tally-2", "programme": "", "site": "x" * 121,
    "station": "14", "device": "ABCDE1", "date": "10/03/2026",
    "revision": "10000", "state": "shut", "policy": "abcdef", "sex": "female",
    "age_band": "40 to 49", "row": "401", "rows": "-1", "day_total": "1.5",
    "check": "1234567"}
for column in columns:
    assert wrong(bad.get(column["name"], "100000"), column, null), column
PY
python3 reader.py "$SHOAL_TREE/config/tally.csv-metadata.json" book/tallies/*.csv ||
	fail 'the description does not fit the tally'
