#!/bin/bash
# Small disks that run full, and a disk that can only be read.
. "$SHOAL_TREE/tests/faults/lib.sh"
PATH=$PATH:/usr/sbin:/sbin # mkfs.ext4, for those who are not root

# Without the right to mount, once more in a name space where we have it. Only
# a disk in memory can be mounted there.
if ! { mkdir -p probe && mount -t tmpfs -o size=64k tmpfs probe; } 2> /dev/null
then
	[ "${1:-}" = again ] && { echo 'no disk can be mounted here'; exit 1; }
	exec unshare --user --map-root-user --mount "$BASH" "$0" again
fi
umount probe
mkdir disk
trap 'umount -l disk 2> /dev/null' EXIT

# --- full ---------------------------------------------------------------------
sizes=$([ "${FAULTS_SHORT:-no}" = yes ] && echo '360 404' ||
	seq 300 8 620)
{ printf 'NT\n'; for _ in $(seq 900); do plain_person; done; } > typed
tried=0 lost=0 corrupted=0 other=0
complain() { echo "disk of $size KiB: $1"; }
for size in $sizes; do
	mount -t tmpfs -o "size=${size}k" tmpfs disk
	SHOAL_BOOK=$PWD/disk/book
	new_station
	status=0
	"$SHOAL" --today 2026-03-10 screen < typed > out 2> err || status=$?
	case $status in 5|6) ;; *) complain "status $status"
		other=$((other + 1)) ;; esac
	grep -q 'NOT saved' err || { complain 'NOT saved was not said'
		other=$((other + 1)); }
	sed -n 's/^Saved //p' err | sort > said
	rm -rf copy; cp -r disk/book copy
	SHOAL_BOOK=$PWD/copy
	[ "$(ask_register 'PRAGMA integrity_check')" = ok ] ||
		{ complain integrity; corrupted=$((corrupted + 1)); }
	ask_register 'SELECT number FROM visit' | sort > there
	[ -s said ] || { complain 'nobody was saved'; other=$((other + 1)); }
	missing=$(comm -23 said there | wc -l)
	extra=$(comm -13 said there | wc -l)
	[ "$missing$extra" = 00 ] || complain "$missing lost, $extra not said"
	lost=$((lost + missing)) other=$((other + extra))
	# On the full disk everybody can still be read.
	"$SHOAL" --book disk/book list --csv 2> err | tail -n +2 | cut -d, -f1 |
		sort | cmp -s - said ||
		{ complain 'reading'; head -n 2 err; other=$((other + 1)); }
	# With room again, the same register goes on.
	one_sheet | "$SHOAL" --today 2026-03-10 screen --csv - > out 2> err ||
		{ complain 'it does not go on'; other=$((other + 1)); }
	tried=$((tried + $(wc -l < said) + 1))
	umount disk
done
figure 'small disks that ran full, people' "$tried" "$lost" "$corrupted" \
	"$other" || bad=1

# --- read only ----------------------------------------------------------------
tried=0 wrong=0 size=4096
unset SHOAL_BOOK
new_station
one_sheet 'Adira Moru' 25 | "$SHOAL" --today 2026-03-10 screen --csv - > answers
number=$(sed -n 2p answers | cut -d, -f1)
"$SHOAL" --today 2026-03-10 tally > /dev/null 2>&1
printf 'depth_right,depth_left\n15,40\n' > book/people.csv
truncate -s 4M image
mkfs.ext4 -q -d book image
if mount -o loop,ro image disk 2> /dev/null; then
	kind='an ext4 image'
else
	mount -t tmpfs -o size=4m tmpfs disk
	cp -a book/. disk
	mount -o remount,ro disk 2> /dev/null ||
		mount -o remount,bind,ro disk
	kind='a tmpfs (no right to mount the image)'
fi
export SHOAL_BOOK=$PWD/disk
find disk -ls > before

reads() { "$SHOAL" --today 2026-03-10 "$@" > out 2> err < /dev/null &&
	[ -s out ]; }
refuses() {
	status=0
	printf 'NT\n\n' | "$SHOAL" --today 2026-03-10 "$@" > out 2> err ||
		status=$?
	[ "$status" = 5 ] && ! grep -qE 'Name|initials|reason' err
}
cannot_write() {
	status=0
	"$SHOAL" --today 2026-03-10 "$@" > out 2> err < /dev/null || status=$?
	[ "$status" = 6 ] && grep -q 'Read-only' err
}
for line in list 'list --csv --names' 'list --waiting' "slip $number" \
	"slip $number --html" "slip $number --narrow" yield 'yield --csv' \
	'collate disk/tallies' 'collate --verify disk disk/tallies' \
	'policy show' 'policy check disk/policy.ini' \
	'policy try disk/policy.ini' 'assess --csv disk/people.csv' \
	"slip $number --out $PWD/slip.txt --html"; do
	case $line in *--out*) count_wrong "$SHOAL" $line; continue ;; esac
	count_wrong reads $line
done
for line in screen 'screen --date 2026-03-09' "correct $number" \
	"void $number" "void $number --reason x" \
	"correct $number --set age_years=61 --reason x" tally \
	'yield --send' "reply $number --set outcome=attended --set seen_on=2026-03-10"; do
	count_wrong refuses $line
done
for line in "slip $number --out disk/slips/x.txt" \
	'policy set shallow.depth_at_or_below_percent 15 disk/policy.ini'; do
	count_wrong cannot_write $line
done
unchanged() { find disk -ls | cmp -s - before; }
count_wrong unchanged
figure "a disk that can only be read: $kind" "$tried" 0 0 "$wrong" || bad=1
exit "${bad:-0}"
