"""The suites can fail: announcements that lie, and damage, are found out.

The checker is given stations that were spoiled on purpose, and what a lying
program would have printed; each has to be found, and the honest one not.
"""
import os
import shutil
import sqlite3
import sys

import bench
import cases
from bench import WORK
from checker import Facts, Verdict, judge


def run(case, folder, _):
    status, out, err = case.start(case.words(), folder)
    return status, [], out, err


def change(folder, sql):
    store = sqlite3.connect(os.path.join(folder, 'book/register.db'))
    for name in ('no_update', 'no_delete'):
        store.execute(f'DROP TRIGGER visit_{name}')
    store.execute(sql)
    store.commit()
    store.close()


def nothing(_):
    pass


def forget(folder):
    change(folder, 'DELETE FROM visit WHERE entry = 3')


def make_older(folder):
    change(folder, 'UPDATE visit SET age_years = 59 WHERE entry = 1')


def age_the_new_one(folder):
    change(folder, 'UPDATE visit SET age_years = 59 WHERE entry = 3')


def spoil_letters(folder):
    change(folder, "UPDATE visit SET row_mark = 'AAAAAAA' WHERE entry = 3")


def empty(folder):
    os.remove(os.path.join(folder, 'book/register.db'))


def halve(folder):
    path = os.path.join(folder, 'book/slips/0014-00003-92.html')
    os.truncate(path, os.path.getsize(path) // 2)


def tear(folder):
    path = os.path.join(folder, 'book/register.db')
    with open(path, 'r+b') as file:
        file.seek(4096 * 3)
        file.write(b'\xff' * 4096)


def shorten_policy(folder):
    os.truncate(os.path.join(folder, 'book/policy.ini'), 100)


# What was done to the folder, what was printed more, which count has to rise.
LIES = [
    (nothing, '', None),
    (nothing, 'Saved 0014-00009-74\n', 'lost'),
    (nothing, '0014-00002-95 is void\n', 'lost'),
    (nothing, 'Tally (open, revision 9): book/tallies/none.csv\n', 'lost'),
    (forget, '', 'lost'),
    (empty, '', 'lost'),
    (make_older, '', 'corrupted'),
    (age_the_new_one, '', 'corrupted'),
    (spoil_letters, '', 'corrupted'),
    (halve, '', 'corrupted'),
    (tear, '', 'corrupted'),
    (shorten_policy, '', 'corrupted'),
]


def main():
    case = cases.Case('save', run)
    figures = bench.Figures('the checker itself: lies that were found out')
    for spoil, more, wanted in LIES:
        folder = bench.fresh_copy(case.base)
        out, err = run(case, folder, None)[2:]
        spoil(folder)
        found = judge(case.before, Facts(os.path.join(folder, 'book')),
                      case.wanted, out + '\n' + err + '\n' + more)
        verdict = Verdict()
        if wanted is None and found.sentences():
            verdict.other.append(f'honest, but: {found.sentences()}')
        elif wanted is not None and not getattr(found, wanted):
            verdict.other.append(f'not found: {found.figures()}')
        figures.add(verdict, f'{spoil.__name__} {more.strip()}')
        shutil.rmtree(folder)
    return 0 if figures.print() else 1


if __name__ == '__main__':
    sys.exit(main())
