# What the fault suites written in shell share. Sourced; in an empty folder.
. "$SHOAL_TREE/tests/shell/lib.sh"
SHOAL=$SHOAL_PLAIN

# figure TITLE TRIED LOST CORRUPTED OTHER: the last thing a suite does.
figure() {
	printf 'FIGURE\t%s\t%s\t%s\t%s\t%s\n' "$@"
	[ "$2" -gt 0 ] && [ "$3$4$5" = 000 ]
}

# count_wrong COMMAND...: runs it; a failure is shown and counted in $wrong.
tried=0 wrong=0
count_wrong() {
	tried=$((tried + 1))
	"$@" && return
	echo "went wrong: $*"
	wrong=$((wrong + 1))
}
