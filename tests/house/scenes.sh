#!/bin/sh
# Run the scenes: whole stories at the command line, compared word for word.
#
#   sh tests/house/scenes.sh            all of them
#   sh tests/house/scenes.sh first-day  only tests/scenes/first-day
#   UPDATE=1 sh tests/house/scenes.sh   write what came out as expected; read
#                                       the difference before you keep it
# A scene is a folder tests/scenes/STORY with
#   command          shell lines, run with sh -eu in an empty folder
#   typed            what is typed (without it: nothing)
#   expected/stdout  what is printed (without it: nothing)
#   expected/stderr  what is said (without it: nothing)
#   expected/status  the exit status (without it: 0)
#   expected/files/  files as they must be in the folder afterwards; with
#                    UPDATE=1 those that are there are written anew
# The environment is empty but for PATH (the program first), HOME (the empty
# folder), LC_ALL=C, TERM=dumb, TMPDIR and SHOAL_SCENE (the scene's folder).
# Those two folders are written HOME and SCENE in what is compared, as they
# differ from run to run.
# Set SHOAL to try another build. The last line is "N passed, N failed".
set -u
B=${B:-build}
tree=$(pwd)
SHOAL=${SHOAL:-$B/asan/shoal}
SHOAL=$(realpath "$SHOAL")
UPDATE=${UPDATE:-}
if [ ! -x "$SHOAL" ]; then
	echo "there is no program $SHOAL"
	echo '0 passed, 1 failed'
	exit 1
fi

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
trap 'exit 1' HUP INT TERM
passed=0 failed=0

# run_scene FOLDER: leaves $work/{home,stdout,stderr,status,asan}.
run_scene() {
	rm -rf "${work:?}"/*
	mkdir "$work/home" "$work/tmp" "$work/asan" "$work/bin"
	ln -s "$SHOAL" "$work/bin/shoal"
	typed=$1/typed
	[ -e "$typed" ] || typed=/dev/null
	(cd "$work/home" && exec env -i HOME="$work/home" LC_ALL=C TERM=dumb \
		PATH="$work/bin:/usr/local/bin:/usr/bin:/bin" \
		TMPDIR="$work/tmp" SHOAL_SCENE="$1" \
		ASAN_OPTIONS="log_path=$work/asan/asan:detect_leaks=1" \
		UBSAN_OPTIONS="log_path=$work/asan/ubsan" \
		timeout 60 sh -eu "$1/command") \
		< "$typed" > "$work/raw-stdout" 2> "$work/raw-stderr"
	echo $? > "$work/status"
	for stream in stdout stderr; do
		sed "s|$work/home|HOME|g; s|$1|SCENE|g" "$work/raw-$stream" \
			> "$work/$stream"
	done
}

# update_scene FOLDER: what came out becomes what is expected.
update_scene() {
	mkdir -p "$1/expected"
	for stream in stdout stderr; do
		rm -f "$1/expected/$stream"
		[ ! -s "$work/$stream" ] ||
			cp "$work/$stream" "$1/expected/$stream"
	done
	rm -f "$1/expected/status"
	echo 0 | cmp -s - "$work/status" ||
		cp "$work/status" "$1/expected/status"
	listed_files "$1" | while read -r file; do
		cp "$work/home/$file" "$1/expected/files/$file"
	done
}

listed_files() {
	[ ! -d "$1/expected/files" ] ||
		(cd "$1/expected/files" && find . -type f | sed 's|^\./||' | sort)
}

# same FOLDER NAME CAME [DEFAULT]: compare what came with expected/NAME, or
# with the file DEFAULT where nothing is expected.
same() {
	expected=$1/expected/$2
	[ -e "$expected" ] || expected=${4:-/dev/null}
	diff -u --label "expected $2" --label 'what came' "$expected" "$3"
}

# compare_scene FOLDER: prints every difference; false when there is one.
compare_scene() {
	if [ ! -d "$1/expected" ]; then
		echo 'there is no folder expected'
		return 1
	fi
	differs=0
	echo 0 > "$work/zero"
	same "$1" status "$work/status" "$work/zero" || differs=1
	same "$1" stdout "$work/stdout" || differs=1
	same "$1" stderr "$work/stderr" || differs=1
	for file in $(listed_files "$1"); do
		same "$1" "files/$file" "$work/home/$file" || differs=1
	done
	return $differs
}

if [ $# -eq 0 ]; then
	for story in tests/scenes/*/; do
		[ -d "$story" ] || continue
		# The demo is a script of its own (make demo).
		[ ! -e "$story/run.sh" ] || continue
		set -- "$@" "$(basename "$story")"
	done
fi
for story in "$@"; do
	scene=$tree/tests/scenes/$story
	run_scene "$scene"
	[ -z "$UPDATE" ] || update_scene "$scene"
	good=yes
	compare_scene "$scene" > "$work/difference" 2>&1 || good=no
	for log in "$work"/asan/*; do
		[ -e "$log" ] || continue
		cat "$log" >> "$work/difference"
		good=no
	done
	if [ $good = yes ]; then
		passed=$((passed + 1))
	else
		failed=$((failed + 1))
		echo "scene $story:"
		sed 's/^/    /' "$work/difference"
	fi
done
if [ $((passed + failed)) -eq 0 ]; then
	echo 'there is no scene'
	failed=1
fi
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
