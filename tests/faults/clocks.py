"""Clocks as laptops have them: flat batteries, jumps, midnight, zones.

The program runs with a clock that the test sets, also between two answers.
Whatever the clock says, numbers rise by one, nobody is lost, and each person
belongs to exactly one day: the tallies of all days add up to all people.
"""
import calendar
import glob
import os
import re
import select
import sqlite3
import subprocess
import sys
import time

import bench
from bench import WORK
from checker import Verdict

SHIM = os.path.join(bench.TOOLS, 'clock.so')
PATIENCE = 30  # seconds
QUESTION = 'Is that right?'


def seconds(text):
    """Of 'YYYY-MM-DD HH:MM', UTC."""
    return calendar.timegm(time.strptime(text, '%Y-%m-%d %H:%M'))


class Session:
    """shoal screen, answer by answer."""

    def __init__(self, folder, clock, zone='UTC0'):
        self.clock_file = os.path.join(folder, 'clock')
        self.set_clock(clock)
        self.seen = b''
        self.program = subprocess.Popen(
            [bench.SHOAL, '--book', 'book', 'screen'], cwd=folder,
            stdin=subprocess.PIPE, stdout=subprocess.DEVNULL,
            stderr=subprocess.PIPE, bufsize=0,
            env={**os.environ, 'LD_PRELOAD': SHIM, 'TZ': zone,
                 'CLOCK_FILE': self.clock_file})

    def set_clock(self, clock):
        new = self.clock_file + '.new'
        with open(new, 'w', encoding='ascii') as file:
            file.write(f'{seconds(clock)}\n')
        os.rename(new, self.clock_file)

    def wait_for(self, *words):
        """Which of the words came first; what came before is forgotten."""
        until = time.monotonic() + PATIENCE
        while True:
            for word in words:
                at = self.seen.find(word.encode())
                if at >= 0:
                    self.seen = self.seen[at + len(word):]
                    return word
            left = until - time.monotonic()
            if left <= 0 or not select.select(
                    [self.program.stderr], [], [], left)[0]:
                raise AssertionError(f'never said: {words}')
            more = os.read(self.program.stderr.fileno(), 65536)
            if not more:
                raise AssertionError(f'ended before it said: {words}')
            self.seen += more

    def answer(self, text):
        self.program.stdin.write(text.encode())

    def person(self):
        self.answer(bench.PERSON)
        self.wait_for('\nSaved ')
        self.wait_for('Name [')

    def begin(self, asked=None):
        """Up to the first person; `asked`: the day to give when the clock's
        is doubted, '' to say that it is right, None when it is not to be
        doubted."""
        doubted = self.wait_for(QUESTION, 'Your initials') == QUESTION
        if doubted != (asked is not None):
            raise AssertionError('the day was ' + ('' if doubted else 'not ')
                                 + 'doubted')
        self.confirm(asked)
        self.answer('NT\n')
        self.wait_for('Name [')

    def confirm(self, asked):
        if asked is not None:
            self.answer(f'2\n{asked}\n' if asked else '1\n')

    def end(self):
        self.program.stdin.close()
        if self.program.wait(PATIENCE) != 0:
            raise AssertionError('it did not end well')


# --- what happens ------------------------------------------------------------
# Each scene gets a folder with an empty station and returns the days wanted.

def flat_battery(folder):
    one = Session(folder, '1970-01-01 00:00')
    one.begin('2026-03-09')
    one.person()
    one.person()
    one.end()
    # Still wrong the next day, and doubted again.
    one = Session(folder, '1970-01-01 00:20')
    one.begin('2026-03-10')
    one.person()
    one.end()
    return ['2026-03-09'] * 2 + ['2026-03-10']


def far_ahead(folder):
    days = []
    for day in ('2026-03-09', '2038-01-18', '2038-01-20', '2099-12-31',
                '2106-02-08'):
        one = Session(folder, f'{day} 09:00')
        one.begin('')
        one.person()
        one.end()
        days.append(day)
    return days


def ahead_by_mistake(folder):
    one = Session(folder, '2026-03-09 09:00')
    one.begin('')
    one.person()
    one.end()
    one = Session(folder, '2099-03-10 09:00')
    one.begin('2026-03-10')
    one.person()
    one.end()
    return ['2026-03-09', '2026-03-10']


def back_two_hours(folder):
    one = Session(folder, '2026-03-09 11:00')
    one.begin('')
    one.person()
    one.set_clock('2026-03-09 09:00')
    one.person()
    one.end()
    one = Session(folder, '2026-03-09 08:00')
    one.begin()
    one.person()
    one.end()
    return ['2026-03-09'] * 3


def back_over_midnight(folder):
    """Set back under a session, the new day is asked about."""
    one = Session(folder, '2026-03-10 00:30')
    one.begin('')
    one.person()
    one.set_clock('2026-03-09 22:30')
    # The question stands before the next person but one.
    one.answer(bench.PERSON)
    one.wait_for(QUESTION)
    one.confirm('2026-03-10')
    one.wait_for('Name [')
    one.person()
    one.end()
    return ['2026-03-10'] * 3


def midnight(folder):
    """A person begun before midnight belongs to the day begun with."""
    one = Session(folder, '2026-03-09 23:58')
    one.begin('')
    one.person()
    one.set_clock('2026-03-10 00:01')
    one.answer(bench.PERSON)
    one.wait_for('It is now Tuesday 10 March 2026')
    one.wait_for('Name [')
    one.person()
    one.end()
    return ['2026-03-09'] * 2 + ['2026-03-10']


def zones(folder):
    """The laptop's zone changed between sessions: east, then far west."""
    clock, days = '2026-03-10 23:30', []
    for zone, asked, day in (('UTC0', '', '2026-03-10'),
                             ('<+0545>-5:45', None, '2026-03-11'),
                             ('<-05>5', '2026-03-11', '2026-03-11'),
                             ('<+14>-14', None, '2026-03-11')):
        one = Session(folder, clock, zone)
        one.begin(asked)
        one.person()
        one.end()
        days.append(day)
    return days


def leap_days(folder):
    days = []
    for asked, day in (('', '2028-02-28'), (None, '2028-02-29'),
                       (None, '2028-03-01'), ('', '2100-02-28'),
                       (None, '2100-03-01')):
        one = Session(folder, f'{day} 12:00')
        one.begin(asked)
        one.person()
        one.end()
        days.append(day)
    return days


SCENES = [flat_battery, far_ahead, ahead_by_mistake, back_two_hours,
          back_over_midnight, midnight, zones, leap_days]


def check(folder, wanted, verdict):
    path = os.path.join(folder, 'book', 'register.db')
    store = sqlite3.connect(f'file:{path}?mode=ro', uri=True)
    rows = store.execute('SELECT number, screened_on, late FROM visit '
                         'ORDER BY entry').fetchall()
    store.close()
    serials = [int(row[0][5:10]) for row in rows]
    if len(rows) != len(wanted):
        verdict.lost.append(f'{len(rows)} people instead of {len(wanted)}')
    if serials != list(range(1, len(rows) + 1)):
        verdict.other.append(f'serials {serials}')
    if [row[1] for row in rows] != wanted:
        verdict.corrupted.append(f'days {[row[1] for row in rows]} instead '
                                 f'of {wanted}')
    counted = 0
    for day in sorted(set(wanted)):
        bench.shoal('tally', '--date', day, folder=folder, today=day)
    for name in glob.glob(os.path.join(folder, 'book/tallies/*.csv')):
        with open(name, encoding='utf-8') as file:
            counted += int(re.split(',', file.read().splitlines()[1])[-2])
    if counted != len(wanted):
        verdict.lost.append(f'the tallies count {counted} people')


def main():
    figures = bench.Figures('clocks: 1970, 2038, 2099, back, midnight, zones')
    for scene in SCENES:
        folder = os.path.join(WORK, scene.__name__)
        os.makedirs(folder)
        bench.shoal('start', '--station', '0014', '--programme', 'P',
                    '--site', 'S', folder=folder)
        verdict = Verdict()
        try:
            check(folder, scene(folder), verdict)
        except AssertionError as error:
            verdict.other.append(str(error))
        figures.add(verdict, scene.__name__.replace('_', ' '))
    return 0 if figures.print() else 1


if __name__ == '__main__':
    sys.exit(main())
