# What the shell tests share. Sourced; every test runs in an empty folder.
set -eu

fail() {
	echo "FAILED: $*"
	exit 1
}

# A station in $SHOAL_BOOK (default: a folder beside).
new_station() {
	: "${SHOAL_BOOK:=$PWD/book}"
	export SHOAL_BOOK
	"$SHOAL" start --station "${1:-0014}" \
		--programme 'Lantern Valley Eye Programme' \
		--site 'Mavi school hall' --clinic 'Ridge Eye Clinic' > /dev/null
}

sheet_header='grader,name,age_years,sex,depth_right,depth_left,pressure_right,pressure_left,findings,reply_consent'

# One person as a sheet, with the given name and right depth.
one_sheet() {
	printf '%s\nNT,%s,58,F,%s,40,16,17,,yes\n' "$sheet_header" \
		"${1:-}" "${2:-40}"
}

# Answers to all questions for one person with normal findings and no name.
plain_person() { printf '\n\n58\n1\n\n\n\n\n\n\n40\n40\n16\n17\n2\n\n'; }

# A question to the register that shares no code with the program.
ask_register() { sqlite3 -readonly "$SHOAL_BOOK/register.db" "$1"; }

# The last entry of each number, as SQL for a FROM clause.
people='(SELECT * FROM visit v WHERE NOT EXISTS
	(SELECT 1 FROM visit w WHERE w.revises = v.entry))'

# expect STATUS COMMAND...: runs it, output to out and err.
expect_status() {
	wanted=$1; shift
	status=0
	"$@" > out 2> err || status=$?
	[ "$status" = "$wanted" ] && return
	cat out err
	fail "status $status instead of $wanted: $*"
}

says() { grep -qF -- "$2" "$1" || { cat "$1"; fail "$1 does not say: $2"; }; }

# The browser gets the widest of the usual fonts and no other: what fits with
# it fits with theirs, whatever a laptop has.
wide_font() {
	cat > wide.conf <<-END
		<?xml version="1.0"?>
		<!DOCTYPE fontconfig SYSTEM "fonts.dtd">
		<fontconfig>
		<dir>/usr/share/fonts/truetype/dejavu</dir>
		<cachedir>$PWD/fontcache</cachedir>
		<selectfont><rejectfont><glob>*Condensed*</glob></rejectfont></selectfont>
		</fontconfig>
		END
	export FONTCONFIG_FILE="$PWD/wide.conf"
	fc-list | grep -q 'DejaVu Sans' || fail 'the wide font is not there'
}
