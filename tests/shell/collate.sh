#!/bin/sh
# Collating at its limits: thousands of files with few handles and little
# memory, any order, pipes and endless input, and a word on a terminal when it
# takes long.
. "$SHOAL_TREE/tests/shell/lib.sh"
shoal() { "$SHOAL_PLAIN" "$@"; }

# Tallies of 40 stations over 50 days, in two sizes of season.
python3 - << 'END'
import os, zlib
head = ('schema,programme,site,station,device,date,revision,state,policy,sex,'
        'age_band,screened,same_day,urgent,routine,no_referral,depth_0,depth_5,'
        'depth_15,depth_25,depth_40,depth_75,depth_100,not_gradable,'
        'with_symptoms,late_entries,row,rows,day_total,check\n')
def letters(values):
    crc, text = zlib.crc32('\x1f'.join(values).encode()), ''
    for _ in range(7):
        crc, digit = divmod(crc, 26)
        text = chr(65 + digit) + text
    return text
def tally(station, day, revision, people):
    v = ['shoal-tally-1', 'Lantern Valley', 'Site %d' % (station % 7),
         '%04d' % station, 'QWERTZ', '2026-%02d-%02d' % (day // 25 + 1, day % 25 + 1),
         str(revision), 'closed', 'VYZXCS', 'F', '40-49']
    n = str(people)
    v += [n, '0', '0', '0', n] + ['0'] * 6 + [n, '0', '0', '0', '1', '1', n]
    return ','.join(v + [letters(v)]) + '\n'
os.makedirs('few/0'), os.makedirs('many/deep/er')
for station in range(1, 41):
    folder = 'many/deep/er/%d' % station
    os.mkdir(folder)
    for day in range(50):
        name = 'tally-%04d-%03d-r1.csv' % (station, day)
        text = head + tally(station, day, 1, station)
        with open('%s/%s' % (folder, name), 'w') as out: out.write(text)
        if day % 5 == 0:  # a later revision, and a copy of it
            text = head + tally(station, day, 2, station + 1)
            for where in (folder, 'many/deep'):
                with open('%s/r2-%s' % (where, name), 'w') as out: out.write(text)
        if station <= 2 and day < 2:
            with open('few/0/' + name, 'w') as out: out.write(text)
with open('one.csv', 'w') as out:
    out.write(head)
    for station in range(1, 41):
        for day in range(50):
            late = day % 5 == 0
            out.write(tally(station, day, 2 if late else 1, station + late))
END
[ "$(find many -name '*.csv' | wc -l)" = 2800 ] || fail 'the files'

# 64 handles, all files in one folder and in many; the sums of the one file.
shoal collate --per station --by month one.csv > wanted 2> said
(ulimit -n 64; shoal collate --per station --by month --ledger ledger.csv many) > out 2> said ||
	{ cat said; fail 'few handles'; }
cmp out wanted || fail 'the sums'
says said '2800 files: 2000 tallies counted, 400 the same again, 400 superseded, 0 in conflict; 0 files refused.'
[ "$(wc -l < ledger.csv)" = 2801 ] || fail 'the ledger'

# Any order, any way to name them: the same bytes.
find many -name '*.csv' | sort -r > names
(ulimit -n 64; cd many/deep; find . -name '*.csv' | sort -R | xargs -n 5000 "$SHOAL_PLAIN" \
	collate --per station --by month) > out 2> said || { cat said; fail 'named'; }
cmp out wanted || fail 'another order'
shoal collate --per station --by month --ledger two.csv many/deep/er/[1-3]* \
	many/deep/er many/deep/r2* > out 2> said || fail 'twice named'
cmp out wanted || fail 'twice named'

# Memory hangs on the days counted, not on names or rows: under 64 bytes a
# tally.
peak() {
	python3 -c 'import resource, subprocess, sys
subprocess.run(sys.argv[1:], stdout=subprocess.DEVNULL,
	stderr=subprocess.DEVNULL, check=True)
print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)' "$@"
}
few=$(peak "$SHOAL_PLAIN" collate few)
many=$(peak "$SHOAL_PLAIN" collate many)
[ $((many - few)) -lt 1024 ] || fail "memory: $few KiB, then $many KiB"

# Without end, or waiting for ever: refused, and soon.
mkfifo waits.csv
expect_status 3 timeout 20 "$SHOAL_PLAIN" collate waits.csv few
says err 'waits.csv: it is no plain file'
expect_status 3 timeout 20 sh -c '"$SHOAL" collate - < /dev/zero'
says err 'a NUL byte'
expect_status 3 timeout 20 sh -c 'yes tally | "$SHOAL" collate -'
says err 'it is no tally'
expect_status 3 timeout 20 sh -c 'tr "\0" a < /dev/zero | "$SHOAL" collate -'
says err 'the row is longer than 4096 bytes'
expect_status 3 timeout 20 "$SHOAL" collate /dev/zero
says err 'it is no plain file'

# What is printed goes to a file inside what is read; a full disk is told of.
(cd few && "$SHOAL" collate . > total.csv 2> ../said) || fail 'its own output'
[ "$(wc -l < few/total.csv)" = 5 ] || { cat few/total.csv; fail 'the sums there'; }
expect_status 0 "$SHOAL" collate few
says err '0 files refused, 1 passed over'
rm few/total.csv
expect_status 6 sh -c '"$SHOAL" collate few > /dev/full'
expect_status 6 "$SHOAL" collate --ledger none/ledger.csv few

expect_status 2 "$SHOAL" collate
expect_status 2 "$SHOAL" collate --by never few
expect_status 3 "$SHOAL" collate nowhere
says err 'in what was given there is no tally to count'

# On a terminal a line is shown after a second and wiped out; off a terminal,
# and in the first second, nothing. A clock that runs a hundred times as fast
# makes the second short.
cat > clock.c << 'END'
#include <dlfcn.h>
#include <time.h>
int clock_gettime(clockid_t which, struct timespec *now)
{
	int (*real)(clockid_t, struct timespec *) =
		(int (*)(clockid_t, struct timespec *))dlsym(RTLD_NEXT, "clock_gettime");
	int got = real(which, now);
	long long all = (now->tv_sec % 1000000 * 1000000000LL + now->tv_nsec) * 100;
	if (which != CLOCK_MONOTONIC)
		return got;
	now->tv_sec = all / 1000000000;
	now->tv_nsec = all % 1000000000;
	return got;
}
END
gcc -D_GNU_SOURCE -shared -fPIC -o clock.so clock.c
on_terminal() { # COMMAND: what a terminal is sent, to seen
	python3 - "$1" > seen << 'END'
import os, pty, sys
read = lambda handle: os.read(handle, 65536)
pty.spawn(['/bin/sh', '-c', sys.argv[1]], read)
END
}
export TERM=xterm SHOAL_PLAIN
on_terminal 'LD_PRELOAD=$PWD/clock.so "$SHOAL_PLAIN" collate many > out' < /dev/null
grep -q 'Reading: file [0-9]*, tally [0-9]*' seen || { cat seen; fail 'no progress'; }
! grep -q "$(printf '\033')" seen || fail 'an escape byte'
tr '\r' '\n' < seen | grep -q '^2800 files' || fail 'the line is not wiped out'
on_terminal '"$SHOAL_PLAIN" collate few > out' < /dev/null
! grep -q Reading seen || fail 'progress in the first second'
on_terminal 'TERM=dumb LD_PRELOAD=$PWD/clock.so "$SHOAL_PLAIN" collate many > out' < /dev/null
! grep -q Reading seen || fail 'progress on a dumb terminal'
LD_PRELOAD=$PWD/clock.so "$SHOAL_PLAIN" collate many > out 2> said
! grep -q Reading said || fail 'progress into a file'
