"""Every call to the system goes wrong once, in every command that keeps.

Each command is run from the same station until it is through, once for each
call that touches files: killed instead of the call, the call failing, the disk
running full in the middle of a write. Then the folder is compared with what
was announced, and the same station goes on.
"""
import itertools
import os
import shutil
import sys

import bench
import cases
from bench import ONLY, SHORT

STRIKE = os.path.join(bench.TOOLS, 'strike')
# Which calls can go wrong so, by the letters that strike gives them.
MODES = {'kill': '', 'ENOSPC': 's', 'ENOSPC+': 's', 'EIO': 'e', 'EIO+': 'e',
         'short': 'h', 'short+': 'h', 'full': 'h'}
# In the short version only calls that change the disk, and of those one in:
EVERY_IN_SHORT = {'kill': 4, 'ENOSPC': 12, 'ENOSPC+': 12, 'EIO': 12,
                  'EIO+': 12, 'short': 24, 'short+': 24, 'full': 12}
FOLLOWED_IN_SHORT = 4
AFTER = {'start': 'policy.ini', 'policy set': 'book/policy.ini'}


def run(case, folder, struck):
    """Status, the calls that went wrong (all when none does), streams."""
    mode, n = struck or ('count', 0)
    report = os.path.join(folder, 'report')
    status, out, err = case.start(
        [STRIKE, '-a', AFTER.get(case.name, 'station.ini'), '-o', report,
         '-m', mode, '-n', str(n), *case.words()], folder)
    with open(report, encoding='utf-8', errors='replace') as file:
        return status, [line.split(' ', 3) for line in file], out, err


def is_talk(call):
    return call[1] == 'write' and call[3].strip() in ('1', '2')


def changes_disk(call):
    """Whether the call can leave the disk in another state."""
    return not is_talk(call) and ('s' in call[2]
                                  or call[1].startswith('unlink'))


def decides(call):
    """Whether what is kept hangs on the call."""
    return call[1].startswith(('fdatasync', 'fsync', 'unlink', 'rename',
                               'link'))


def own_calls(calls):
    """Without those at the end that keep what gcov has counted."""
    return list(itertools.takewhile(lambda c: '.gcda' not in c[3], calls))


def one_try(task):
    case, mode, n, followed = task
    folder = bench.fresh_copy(case.base)
    status, struck, out, err = run(case, folder, (mode, n))
    verdict, after = cases.judge_try(case, folder, out, err)
    if mode == 'kill' and status != 137:
        verdict.other.append(f'it was not killed: {status}')
    if mode != 'kill':
        cases.check_ending(case, (status, out, err), after, verdict,
                           any(map(is_talk, struck)),
                           any(c[1].startswith('unlink') for c in struck))
    if followed:
        cases.follow(case, folder, out + '\n' + err, after, verdict)
    shutil.rmtree(folder)
    return mode, f'{mode} at {n} {" ".join(sum(struck[:1], [])).strip()}', \
        verdict


def tasks(case):
    for mode, letter in MODES.items():
        calls = [call for call in case.found if letter in call[2]]
        if ONLY:
            calls = own_calls(calls) if mode == ONLY else []
        elif SHORT:
            calls = [c for c in calls if changes_disk(c)]
            calls = [c for i, c in enumerate(calls)
                     if i % EVERY_IN_SHORT[mode] == 0
                     or mode in ('kill', 'EIO') and decides(c)]
        for i, call in enumerate(calls):
            yield (case, mode, int(call[0]),
                   not SHORT or i % FOLLOWED_IN_SHORT == 0)


def main():
    well = True
    names = cases.KEEPING if not ONLY else [*cases.KEEPING, *cases.READING]
    for name in sys.argv[1:] or names:
        case = cases.Case(name, run)
        kills = bench.Figures(f'{name}: killed at a call')
        errors = bench.Figures(f'{name}: a call failing')
        for mode, what, verdict in bench.side_by_side(one_try, tasks(case)):
            (kills if mode == 'kill' else errors).add(verdict, what)
        well = kills.print() and well
        well = errors.print() and well
    return 0 if well else 1


if __name__ == '__main__':
    sys.exit(main())
