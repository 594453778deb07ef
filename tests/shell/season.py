"""A season of tallies, invented: season.py FOLDER STATIONS DAYS

Written from the description of the format alone: the check letters are zlib's
crc32 over the values of a row joined by the byte 0x1F, in base 26.
"""
import datetime
import os
import random
import sys
import zlib

FOLDER, STATIONS, DAYS = sys.argv[1], int(sys.argv[2]), int(sys.argv[3])
HEADER = ('schema,programme,site,station,device,date,revision,state,policy,'
          'sex,age_band,screened,same_day,urgent,routine,no_referral,depth_0,'
          'depth_5,depth_15,depth_25,depth_40,depth_75,depth_100,not_gradable,'
          'with_symptoms,late_entries,row,rows,day_total,check')
BANDS = ['0-39', '40-49', '50-59', '60-69', '70+', 'unknown']
UPPER = [.005, .02, .07, .17, .35, .6, .99, 2]  # of each grade
invent = random.Random(7)


def letters(values):
    """The check of a row."""
    left = zlib.crc32('\x1f'.join(values).encode())
    text = ''
    for _ in range(7):
        text = chr(ord('A') + left % 26) + text
        left //= 26
    return text


def people(station, band):
    """screened, four urgencies, eight grades, symptoms, late."""
    count = invent.randrange(0, 6)
    urgency, grade, symptoms = [0] * 4, [0] * 8, 0
    for _ in range(count):
        drawn = max(0, invent.random() - .02 * band - .1 * (station == 4))
        place = next(i for i in range(8) if drawn < UPPER[i])
        grade[place] += 1
        urgency[[0, 1, 1, 2, 3, 3, 3, 2][place]] += 1
        symptoms += invent.random() < .05
    return [count] + urgency + grade + [symptoms, count if band == 5 else 0]


def write(station, day, revision=1, state='closed', more=0):
    """One tally; returns its path."""
    site = 'Mavi <b>"hall"</b> & {{first}} %d' % station
    policy = 'KQZABD' if day.day > 15 and station < 3 else 'ABCDEF'
    rows = [(sex, band, people(station, i)) for sex in 'FM'
            for i, band in enumerate(BANDS)]
    rows = [row for row in rows if row[2][0] > 0]
    total = sum(row[2][0] for row in rows)
    path = os.path.join(FOLDER, 'tally-%04d-%s-r%d.csv' %
                        (station, day, revision))
    with open(path, 'w', newline='') as out:
        out.write(HEADER + '\n')
        for i, (sex, band, counts) in enumerate(rows):
            values = ['shoal-tally-1', 'Lantern Valley', site,
                      '%04d' % station, 'ABCDE' + chr(64 + station), str(day),
                      str(revision), state, policy, sex, band]
            values += [str(count) for count in counts]
            values += [str(i + 1), str(len(rows)), str(total + more)]
            out.write(','.join(quote(v) for v in values + [letters(values)]))
            out.write('\n')
    return path


def quote(value):
    """As RFC 4180 wants it."""
    if any(c in value for c in ',"'):
        return '"' + value.replace('"', '""') + '"'
    return value


FIRST = datetime.date(2026, 1, 5)
for station in range(1, STATIONS + 1):
    for number in range(DAYS):
        day = FIRST + datetime.timedelta(number)
        if day.weekday() > 4 or invent.random() < .12:
            continue
        write(station, day, state='open' if number == DAYS - 1 else 'closed')
# One whose sums do not agree, and one revision with two contents.
write(2, FIRST + datetime.timedelta(5), more=1)
conflict = FIRST + datetime.timedelta(26)
os.rename(write(3, conflict), os.path.join(FOLDER, 'mailed.csv'))
write(3, conflict)
