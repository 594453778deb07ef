#!/bin/bash
# A policy file is changed whole or not at all, and nothing else is touched.
. "$SHOAL_TREE/tests/shell/lib.sh"
umask 022
day='--today 2026-03-10'
cp "$SHOAL_TREE/config/policy.ini" .
chmod 644 policy.ini

# kept: policy.ini is what it was, and nothing lies beside it.
cp policy.ini before
kept() {
	cmp -s policy.ini before || fail "policy.ini was changed: $1"
	[ -z "$(find . -name '*tmp*' -o -name '.*' -type f)" ] ||
		fail "left behind: $1"
}

# What check refuses, set refuses: with the same sentence, and nothing written.
while IFS='|' read -r key value; do
	expect_status 4 "$SHOAL" policy set "$key" "$value" policy.ini
	says err "'policy.ini' stays as it was"
	[ ! -s out ] || fail "output for $key"
	kept "$key = $value"
	line=$(sed -n '1s/^policy.ini:\([0-9]*\):.*/\1/p' err)
	[ -n "$line" ] || fail "no line is named for $key"
	told=$(head -1 err)
	case $key in
	rescreen.months)
		sed "${line}s/= .*/= $value/" before > by-hand.ini
		expect_status 4 "$SHOAL" policy check by-hand.ini
		says err "by-hand.ini${told#policy.ini}" ;;
	esac
done << 'END'
rescreen.months|0
rescreen.months|0x18
rescreen.months|2,5
rescreen.months|24 months
rescreen.months|
shallow.depth_at_or_below_percent|20
shallow.depth_below_percent|25
shallow.rescreen_within_months|12
shallow.all_of|sore_eye
shallow.say|
shallow.say|=1+1
shallow.say|a \ b
shallow.say|say "this"
policy.name|
tally.age_bands|60,40
END

# What names no value, or no file.
expect_status 3 "$SHOAL" policy set shalow.say x policy.ini
expect_status 3 "$SHOAL" policy set shallow.said x policy.ini
expect_status 3 "$SHOAL" policy set shallow.say $'x\nnone_of = iridotomy' policy.ini
expect_status 2 "$SHOAL" policy set shallow x policy.ini
expect_status 2 "$SHOAL" policy set policy.approved_by 'Dr Adira Moru' policy.ini
expect_status 2 "$SHOAL" policy set policy.approved_on 2026-03-10 policy.ini
expect_status 2 "$SHOAL" policy set shallow.refer_within_days 20 - < policy.ini
expect_status 2 "$SHOAL" policy set shallow.refer_within_days 20
kept 'nothing to set'
expect_status 4 "$SHOAL" policy set shallow.refer_within_days 20 missing.ini
[ ! -e missing.ini ] || fail 'a file was made'
expect_status 4 "$SHOAL" policy set shallow.refer_within_days 20 /dev/zero
expect_status 4 "$SHOAL" policy set shallow.refer_within_days 20 .

# A link is not followed.
ln -s policy.ini link.ini
status=0
"$SHOAL" policy set shallow.refer_within_days 20 link.ini > out 2> err || status=$?
[ "$status" != 0 ] || fail 'a link was followed'
[ -L link.ini ] || fail 'a link was replaced'
kept 'through a link'

# One value: one line differs, and the file is its owner's alone.
expect_status 0 "$SHOAL" policy set shallow.refer_within_days 20 policy.ini
[ "$(diff before policy.ini | grep -c '^[<>]')" = 2 ] || fail 'more than a line'
[ "$(stat -c %a policy.ini)" = 600 ] || fail 'mode of policy.ini'
says out '- refer_within_days = 30'
says out '+ refer_within_days = 20'
mark=$(sed -n 's/^fingerprint \([A-Z]*\), before .*/\1/p' out)
"$SHOAL" policy check policy.ini | grep -q "fingerprint $mark:" ||
	fail 'the fingerprint told is not the file'"'"'s'
"$SHOAL" policy check before | grep -q "fingerprint $(sed -n \
	's/^fingerprint .*, before \([A-Z]*\)$/\1/p' out):" || fail 'the one before'

# Approval: given by name with the day, gone with the next change, kept where
# nothing changes.
expect_status 0 "$SHOAL" $day policy set policy.version 2 policy.ini \
	--approved-by 'Dr Adira Moru'
"$SHOAL" policy check policy.ini > out
says out 'approved by Dr Adira Moru on 2026-03-10'
cp policy.ini before
expect_status 0 "$SHOAL" policy set policy.version 2 policy.ini
says out 'nothing was changed'
kept 'the same value'
expect_status 4 "$SHOAL" policy set rescreen.months 0 policy.ini
kept 'approved, refused'
expect_status 4 "$SHOAL" policy set rescreen.months 12 policy.ini --approved-by ''
kept 'approved by nobody'
expect_status 0 "$SHOAL" policy set rescreen.months 12 policy.ini
says out 'not yet approved by an eye doctor'
[ "$(diff before policy.ini | grep -c '^>')" = 3 ] || fail 'three lines'
"$SHOAL" policy check policy.ini > out
says out 'not yet approved'

# A faulty file is mended where the fault is in the one value.
sed -i 's/^months = 12/months = twelve/' policy.ini
expect_status 0 "$SHOAL" policy set rescreen.months 12 policy.ini
says out 'before (the file was refused)'

# No room: the file stays; no room for what is told: that is said.
cp policy.ini before
[ "$(id -u)" = 0 ] || { echo 'needs root to mount a small disk'; exit 1; }
mkdir disk
mount -t tmpfs -o size=48k tmpfs disk
trap 'umount -l disk' EXIT
cp policy.ini disk/policy.ini
dd if=/dev/zero of=disk/full bs=1k 2> /dev/null || true
expect_status 6 "$SHOAL" policy set rescreen.months 18 disk/policy.ini
cmp -s policy.ini disk/policy.ini || fail 'changed on a full disk'
[ "$(ls -A disk | sort | tr '\n' ' ')" = 'full policy.ini ' ] ||
	fail 'left behind on a full disk'
status=0
"$SHOAL" policy set rescreen.months 18 policy.ini > /dev/full 2> err || status=$?
[ "$status" = 6 ] || fail "status $status with a full output"
status=0
"$SHOAL" --book none policy show > /dev/full 2> err || status=$?
[ "$status" = 6 ] || fail "policy show: status $status with a full output"
expect_status 6 "$SHOAL" --book none policy show --html --out disk/card.html
[ ! -e disk/card.html ] || fail 'half a card'

# An earlier policy comes out of the register as it was, to the byte, also
# when the one in force is at fault.
new_station
cp before "$SHOAL_BOOK/policy.ini"
one_sheet '' 25 | "$SHOAL" $day screen --csv - > /dev/null
mark=$("$SHOAL" policy check before | sed -n 's/.*fingerprint \([A-Z]*\):.*/\1/p')
echo broken > "$SHOAL_BOOK/policy.ini"
expect_status 0 "$SHOAL" policy show --fingerprint "$mark" --out kept.ini
cmp -s kept.ini before || fail 'the text kept differs'
"$SHOAL" policy show --fingerprint "$mark" | cmp -s - before ||
	fail 'the text printed differs'
expect_status 5 "$SHOAL" policy show --fingerprint ABCDEF
expect_status 2 "$SHOAL" policy show --fingerprint abcdef
expect_status 2 "$SHOAL" policy show --fingerprint "$mark" --html
expect_status 4 "$SHOAL" policy show
