#!/bin/sh
# Hold the sources to the plan of the house in floors.txt.
set -eu
exec awk '
function complain(text) { print text; bad++ }

# floors.txt
FNR == NR && $1 == "floor" {
	floor = $2; sub(/:$/, "", floor)
	if (!(floor in rank)) rank[floor] = ++floors
	for (i = 3; i <= NF; i++) place[floor "/" $i] = ++places
	next
}
FNR == NR && /^(library|system):/ {
	for (i = 2; i <= NF; i++) origin[$i] = $1
	next
}
FNR == NR { next }

# src/FLOOR/ROOM.c or .h
FNR == 1 {
	split(FILENAME, part, "/")
	here = part[2]; room = part[3]; sub(/\.[ch]$/, "", room)
	room = here "/" room; seen[room] = 1
	if (!(room in place))
		complain(FILENAME ":1: this room is not in floors.txt")
}
/^[ \t]*#[ \t]*include/ {
	at = FILENAME ":" FNR ": "
	name = $0
	if (sub(/^[ \t]*#[ \t]*include[ \t]*"/, "", name)) {
		sub(/".*/, "", name)
		house_include(name)
	} else if (sub(/^[ \t]*#[ \t]*include[ \t]*</, "", name)) {
		sub(/>.*/, "", name)
		outside_include(name)
	} else
		complain(at "an include that is neither \"...\" nor <...>")
}

function house_include(name,    there, split_name) {
	if (name !~ /^[a-z]+\/[a-z_]+\.h$/) {
		complain(at "write \"floor/room.h\", not \"" name "\"")
		return
	}
	sub(/\.h$/, "", name)
	split(name, split_name, "/"); there = split_name[1]
	if (!(name in place))
		complain(at name " is not in floors.txt")
	else if (rank[there] > rank[here])
		complain(at here " may not look up to " name)
	else if (there == here && name != room && place[name] > place[room])
		complain(at room " may not include " name ", which comes later")
}

function outside_include(name) {
	if (!(name in origin))
		complain(at "<" name "> is in floors.txt neither as library" \
			" nor as system")
	else if (origin[name] == "library:") {
		if (FILENAME ~ /\.h$/)
			complain(at "the library header <" name "> in a header")
		if (name in user && user[name] != FILENAME)
			complain(at "<" name "> is already in " user[name])
		user[name] = FILENAME
	}
}

END {
	for (room in place)
		if (room in seen)
			rooms++
		else
			complain("floors.txt: there is no room " room)
	printf "note: %d rooms on %d floors\n", rooms, floors
	exit bad > 0
}' tests/house/floors.txt src/*/*.c src/*/*.h
