"""The Nth request for memory is refused, for every N of every command."""
import contextlib
import filecmp
import os
import shutil
import sys

import bench
import cases
from bench import ONLY, REQUESTS_ONLY, SHORT
from checker import Verdict, announced

SHIM = os.path.join(bench.TOOLS, 'memory.so')
TRIES_IN_SHORT = REQUESTS_ONLY if ONLY else 5


def run(case, folder, refused):
    """Status, how many requests there were, both streams."""
    report = os.path.join(folder, 'report')
    more = {**os.environ, 'LD_PRELOAD': SHIM, 'MEMORY_REPORT': report}
    if refused is not None:
        more['MEMORY_AT'] = str(refused[1])
        if refused[0] == 'for good':
            more['MEMORY_FOR_GOOD'] = 'yes'
    status, out, err = case.start(case.words(), folder, env=more)
    if refused is not None:
        return status, 0, out, err
    with open(report, encoding='ascii') as file:
        return status, int(file.read()), out, err


def untouched(folder, base):
    """Whether every file is as it was, byte by byte."""
    found, held = ({os.path.relpath(os.path.join(at, name), top)
                    for at, _, names in os.walk(top) for name in names}
                   for top in (folder, base))
    return found == held and not filecmp.cmpfiles(
        folder, base, found, shallow=False)[1]


def one_try(task):
    case, mode, n = task
    folder = bench.fresh_copy(case.base)
    status, _, out, err = run(case, folder, (mode, n))
    with contextlib.suppress(FileNotFoundError):
        os.remove(os.path.join(folder, 'report'))
    if status in range(1, 7) and 'shoal: ' in err and not announced(
            out + '\n' + err) and untouched(folder, case.base):
        # By far the most: nothing announced, nothing changed.
        shutil.rmtree(folder)
        return f'request {n} refused {mode}', Verdict()
    verdict, after = cases.judge_try(case, folder, out, err)
    cases.check_ending(case, (status, out, err), after, verdict)
    if case.name in cases.KEEPING and n % 7 == 0:
        cases.follow(case, folder, out + '\n' + err, after, verdict)
    shutil.rmtree(folder)
    return f'request {n} refused {mode}', verdict


def tasks(case):
    step = max(1, case.found // TRIES_IN_SHORT) if SHORT else 1
    for i, n in enumerate(range(step, case.found + 1, step)):
        for mode in ('once', 'for good'):
            if ONLY and mode != 'once':
                continue
            if not SHORT or ONLY or (mode == 'once') == (i % 2 == 0):
                yield case, mode, n


def main():
    names = sys.argv[1:] or [*cases.KEEPING, *cases.READING]
    figures = bench.Figures('memory refused')
    for name in names:
        case = cases.Case(name, run)
        for what, verdict in bench.side_by_side(one_try, tasks(case)):
            figures.add(verdict, f'{name}: {what}')
    return 0 if figures.print() else 1


if __name__ == '__main__':
    sys.exit(main())
