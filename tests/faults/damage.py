"""Every beginning and every flipped bit of a small register.

A register that was cut short, emptied, overwritten with zeros or changed in
one bit is read by the program: it is refused with a sentence that says so and
stays as it is, or it holds exactly what it held.

FAULTS_BITS=8 flips each bit of each byte, else one bit per byte, another one
each time, but all of the header.
"""
import os
import re
import shutil
import sqlite3
import subprocess
import sys

import bench
from bench import SHORT, WORK
from checker import Verdict

BITS = int(os.environ.get('FAULTS_BITS', '1'))
HEADER = 100
# What a refusal may say about the file.
SAID = re.compile(r'damaged|is no register|another program|newer version|'
                  r'holds other tables|in a way that this program|belongs to '
                  r'station|is not there|cannot be (read|used|opened)')


def make_small(folder):
    """Five people, a correction, a void entry, a reply, in pages of 512."""
    bench.make_station(folder)
    people = bench.sheet(('Ravo Linde', 'Upper Mavi'), ('Sefa Oriel', ''),
                         ('Imre Toss', 'by the mill'))
    bench.shoal('screen', '--csv', '-', typed=people, folder=folder)
    bench.shoal('correct', '0014-00003-92', '--set', 'age_years=61',
                '--reason', 'asked again', folder=folder)
    bench.shoal('void', '0014-00004-89', '--reason', 'twice', folder=folder)
    path = os.path.join(folder, 'book', 'register.db')
    store = sqlite3.connect(path, isolation_level=None)
    store.execute('DROP TRIGGER policy_text_no_update')
    store.execute("UPDATE policy_text SET text = 'x'")
    store.execute(
        'CREATE TRIGGER policy_text_no_update BEFORE UPDATE ON policy_text '
        "BEGIN SELECT raise(ABORT, 'rows are only added'); END")
    store.execute('PRAGMA page_size = 512')
    store.execute('VACUUM')
    store.close()
    with open(path, 'rb') as file:
        return file.read()


def read_it(folder):
    """What the program makes of the register: two readings of it."""
    printed = []
    for arguments in (['list', '--csv', '--names'],
                      ['list', '--waiting']):
        done = subprocess.run(
            [bench.SHOAL, '--book', 'book', '--today', bench.TODAY,
             *arguments], cwd=folder, capture_output=True, check=False)
        printed.append(done.stdout)
        if done.returncode != 0:
            return done.returncode, done.stderr.decode(errors='replace')
    return 0, printed


def one_try(task):
    folder, bytes_now, what, wanted, sort = task
    path = os.path.join(folder, str(os.getpid()))
    book = os.path.join(path, 'book')
    if not os.path.isdir(book):
        shutil.copytree(os.path.join(folder, 'book'), book)
    register = os.path.join(book, 'register.db')
    with open(register, 'wb') as file:
        file.write(bytes_now)
    status, printed = read_it(path)
    verdict = Verdict()
    if status == 0 and printed != wanted:
        verdict.corrupted.append('read as sound, but it is another')
    elif status not in (0, 5):
        verdict.other.append(f'status {status}: {printed}')
    elif status == 5 and not SAID.search(printed):
        verdict.other.append(f'no reason: {printed}')
    with open(register, 'rb') as file:
        if file.read() != bytes_now:
            verdict.lost.append('the damaged file was changed')
    return sort, what, verdict


def flips(whole):
    for at, byte in enumerate(whole):
        if SHORT and at % 97 and at not in range(16, 100, 7):
            continue
        bits = range(8) if at < HEADER and not SHORT else [
            (at * 5 + i) % 8 for i in range(BITS)]
        for bit in bits:
            yield (whole[:at] + bytes([byte ^ 1 << bit]) + whole[at + 1:],
                   f'bit {bit} of byte {at}')


def beginnings(whole):
    step = 1
    if SHORT:
        step = 211
    for length in range(0, len(whole), step):
        yield whole[:length], f'the first {length} bytes'


def zeros(whole):
    """A page, or the end, that became zeros."""
    step = 512 * (8 if SHORT else 1)
    for at in range(0, len(whole), step):
        yield (whole[:at] + bytes(512) + whole[at + 512:],
               f'zeros from byte {at} on')
        yield (whole[:at] + bytes(len(whole) - at),
               f'zeros from byte {at} to the end')


def main():
    folder = os.path.join(WORK, 'small')
    whole = make_small(folder)
    status, wanted = read_it(folder)
    if status != 0 or b'Imre Toss' not in wanted[0]:
        sys.exit(f'the small register cannot be read: {wanted}')
    sorts = {'cut short': beginnings, 'a bit flipped': flips,
             'zeros in it': zeros}
    tasks = ((folder, bytes_now, what, wanted, sort)
             for sort, make in sorts.items() for bytes_now, what in make(whole)
             if bytes_now != whole)
    figures = {sort: bench.Figures(f'{len(whole)} bytes, {sort}')
               for sort in sorts}
    for sort, what, verdict in bench.side_by_side(one_try, tasks):
        figures[sort].add(verdict, what)
    well = [figures[sort].print() for sort in sorts]
    return 0 if all(well) else 1


if __name__ == '__main__':
    sys.exit(main())
