"""The commands that keep something, and what has to be so after each."""
import os
import shutil
import subprocess
import sys

import bench
from bench import TODAY, WORK
from checker import (Facts, announced, judge, same_files, same_tables,
                     whole_lines)

NUMBER, OTHER = '0014-00001-98', '0014-00002-95'
# Said when a change is there, but a power cut may take it back.
UNSURE = 'holds it for now'
# Any other end is a signal, or trouble of the tool that ran it.
STATUSES = range(0, 7)

START = ['start', '--station', '0014', '--programme', 'Lantern Valley',
         '--site', 'Mavi school hall']
KEEPING = {
    'save': (['screen'], 'NT\n' + bench.PERSON),
    'sheet': (['screen', '--csv', '-'],
              bench.sheet(('Ravo Linde', ''), ('Sefa Oriel', 'Upper Mavi'))),
    'correct': (['correct', NUMBER, '--set', 'depth_right=25', '--reason',
                 'graded again'], ''),
    'void': (['void', OTHER, '--reason', 'entered twice'], ''),
    'reply': (['reply', OTHER, '--set', 'outcome=attended', '--set',
               'seen_on=2026-03-10'], ''),
    'tally': (['tally', '--close'], ''),
    'slip file': (['slip', NUMBER, '--html', '--out', 'book/slip.html'], ''),
    'yield file': (['yield', '--send'], ''),
    'policy set': (['policy', 'set', 'shallow.depth_at_or_below_percent', '15',
                    'book/policy.ini'], ''),
    'backup': (['backup', 'stick/copy.db'], ''),
    'upgrade': (['void', NUMBER, '--reason', 'entered twice'], ''),
    'start': (START, ''),
}
READING = {
    'list': (['list', '--csv'], ''),
    'slip': (['slip', NUMBER], ''),
    'decision': (['assess', '--age', '58', '--right', '15', '--left', '40'],
                 ''),
    'many decisions': (['assess', '--csv', '-'],
                       'depth_right,depth_left\n15,40\n0,5\n'),
    'policy in words': (['policy', 'show'], ''),
    'policy checked': (['policy', 'check', 'book/policy.ini'], ''),
    'policy tried': (['policy', 'try', 'book/policy.ini'], ''),
    'yield': (['yield'], ''),
    'collating': (['collate', 'book/tallies'], ''),
    'plan': (['plan', '--people', '900', '--prevalence', '6.8', '--preset',
              'cochrane-25'], ''),
}


class Case:
    """A command, the station before it and the one it wants.

    `run` runs it in a folder; the rest of the arguments is for that alone.
    """

    def __init__(self, name, run):
        self.name = name
        self.arguments, self.typed = {**KEEPING, **READING}[name]
        self.base = os.path.join(WORK, 'base-' + name.replace(' ', '-'))
        make_base(name, self.base)
        self.before = Facts(os.path.join(self.base, 'book'))
        wanted = bench.fresh_copy(self.base)
        status, self.found, self.out, err = run(self, wanted, None)
        self.wanted = Facts(os.path.join(wanted, 'book'))
        shutil.rmtree(wanted)
        if status != 0:
            sys.exit(f'{name}: status {status}:\n{self.out}{err}')

    def words(self):
        return [bench.SHOAL, '--book', 'book', '--today', TODAY,
                *self.arguments]

    def start(self, words, folder, **more):
        """Status and both streams."""
        done = subprocess.run(words, input=self.typed.encode(), cwd=folder,
                              capture_output=True, check=False, **more)
        return (done.returncode, done.stdout.decode(errors='replace'),
                done.stderr.decode(errors='replace'))


def make_base(name, folder):
    station = os.path.join(WORK, 'station')
    if not os.path.isdir(station):
        bench.make_station(station)
    if name == 'start':
        os.makedirs(folder)
        return
    shutil.copytree(station, folder)
    os.mkdir(os.path.join(folder, 'stick'))
    if name == 'upgrade':
        os.remove(os.path.join(folder, 'book', 'register.db'))
        shutil.copy(os.path.join(bench.TREE,
                                 'tests/fixtures/registers/v1.db'),
                    os.path.join(folder, 'book', 'register.db'))


def judge_try(case, folder, out, err):
    """The verdict, and what is there."""
    after = Facts(os.path.join(folder, 'book'))
    return judge(case.before, after, case.wanted, whole_lines(out, err)), after


def check_ending(case, ended, after, verdict, unheard=False, kept=False):
    """What the exit status says has to be so.

    `unheard`: what failed was the telling itself; `kept`: what failed was
    removing a file.
    """
    status, out, err = ended
    printed = out + '\n' + err
    new = [t for t in ('visit', 'reply')
           if after.rows(t) != case.before.rows(t)]
    if status not in STATUSES:
        verdict.other.append(f'it ended with {status}')
    elif status == 0:
        said = unheard or 'could not be written' in printed
        if not same_tables(after, case.wanted) or not (
                said or same_files(after.files, case.wanted.files)):
            verdict.lost.append('it ended well, but not all is there')
        if case.name in READING and out != case.out:
            verdict.corrupted.append('it ended well, but printed another '
                                     'answer')
    elif not unheard:
        if 'shoal: ' not in printed:
            verdict.other.append(f'it ended with {status} and no reason')
        if new and UNSURE in printed:
            pass
        elif new and 'NOT saved' in printed:
            verdict.other.append('NOT saved was said, but it is there')
        elif new and not announced(printed):
            verdict.other.append('it was saved, but not said')
    if after.left_over and not kept:
        verdict.other.append(f'left behind: {after.left_over}')


def follow(case, folder, printed, after, verdict):
    """The same folder goes on, and no number is given out twice."""
    if case.name == 'start':
        # What was set up already is refused, what was half is finished.
        err = bench.shoal(*START, folder=folder, status=None)[1]
        now = Facts(os.path.join(folder, 'book'))
        if now.wrong or not same_tables(now, case.wanted) or (
                not same_files(now.files, case.wanted.files)):
            verdict.other.append(f'the station cannot be set up: {err}')
        return
    out, err = bench.shoal('screen', '--csv', '-',
                           typed=bench.sheet(('Oda Fell', '')),
                           folder=folder, status=None)
    now = Facts(os.path.join(folder, 'book'))
    verdict.corrupted += now.wrong
    given = [subject for kind, subject in announced(out) if kind == 'saved']
    said = {subject for kind, subject in announced(printed)}
    if len(given) != 1:
        verdict.other.append(f'it does not go on: {err}')
    elif given[0] in after.numbers() | said:
        verdict.other.append(f'{given[0]} was given out twice')
    elif now.rows('visit')[:-1] != after.rows('visit'):
        verdict.lost.append('going on lost people')
