"""What the suites share: a station made once, tries run side by side, figures.

A suite prints one line per figure, FIGURE, title, tried, lost, silently
corrupted, otherwise wrong, with tabs between; run.sh adds them up.
"""
import itertools
import multiprocessing
import os
import shutil
import subprocess
import sys

SHOAL = os.environ['SHOAL_PLAIN']
TOOLS = os.environ['FAULTS_TOOLS']
TREE = os.environ['SHOAL_TREE']
WORK = os.environ['FAULTS_WORK']
SHORT = os.environ.get('FAULTS_SHORT') == 'yes'
TODAY = '2026-03-10'
# Instead of the short version: failures of this kind alone, at every call of
# every command, and so many requests for memory, for what they make reach.
ONLY = os.environ.get('FAULTS_ONLY', '')
REQUESTS_ONLY = 150
SHOWN_MOST = 12

HEADER = ('grader,name,contact,age_years,sex,depth_right,depth_left,'
          'pressure_right,pressure_left,findings,reply_consent')
# Answers to every question about one person with normal findings.
PERSON = '\n\n58\n1\n\n\n\n\n\n\n40\n40\n16\n17\n2\n\n'


def shoal(*arguments, typed='', folder=WORK, status=0, today=TODAY):
    """Runs the program; what it printed, both streams."""
    done = subprocess.run(
        [SHOAL, '--book', 'book', '--today', today, *arguments],
        input=typed.encode(), cwd=folder, capture_output=True, check=False)
    if status is not None and done.returncode != status:
        sys.exit(f'{arguments}: status {done.returncode} instead of {status}:'
                 f'\n{done.stdout.decode()}{done.stderr.decode()}')
    return done.stdout.decode(), done.stderr.decode()


def sheet(*people):
    """A typed sheet of (name, contact)."""
    rows = [f'NT,{name},{contact},58,F,15,40,16,17,,yes'
            for name, contact in people]
    return '\n'.join([HEADER, *rows]) + '\n'


def make_station(folder):
    """A station with two people, a reply and a tally, in folder/book."""
    os.makedirs(folder)
    shoal('start', '--station', '0014', '--programme', 'Lantern Valley',
          '--site', 'Mavi school hall', '--clinic', 'Ridge Eye Clinic',
          folder=folder)
    shoal('screen', '--csv', '-', folder=folder,
          typed=sheet(('Adira Moru', 'Tamsin village'), ('Esira Kono', '')))
    shoal('reply', '0014-00001-98', '--set', 'outcome=attended', '--set',
          'seen_on=2026-03-10', folder=folder)
    shoal('tally', folder=folder)


numbering = itertools.count()


def fresh_copy(folder):
    """A copy to be spoiled; the caller removes it."""
    copy = os.path.join(WORK, f'try-{os.getpid()}-{next(numbering)}')
    shutil.copytree(folder, copy)
    return copy


def side_by_side(work, tasks):
    """The results of work(task), in the order in which they end."""
    with multiprocessing.Pool(os.cpu_count()) as pool:
        yield from pool.imap_unordered(work, tasks, chunksize=8)


class Figures:
    """One line of the table."""

    def __init__(self, title):
        self.title = title
        self.tried = self.lost = self.corrupted = self.other = 0
        self.shown = 0

    def add(self, verdict, what):
        self.tried += 1
        self.lost += bool(verdict.lost)
        self.corrupted += bool(verdict.corrupted)
        self.other += bool(verdict.other)
        for sentence in verdict.sentences():
            if self.shown < SHOWN_MOST:
                print(f'{self.title}: {what}: {sentence}')
            self.shown += 1

    def print(self):
        """False when anything went wrong, or nothing was tried."""
        print('FIGURE', self.title, self.tried, self.lost, self.corrupted,
              self.other, sep='\t', flush=True)
        return self.tried > 0 and not (self.lost or self.corrupted
                                       or self.other)
