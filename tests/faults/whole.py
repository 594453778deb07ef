"""The whole register is moved or renewed, and everything goes wrong once.

Sealing a copy, restoring one, mending and purging: killed at each call that
touches files, each call failing, the disk running full, requests for memory
refused. Whatever happened, the bytes that stood there before are still
somewhere, what stands there now is the old register or the new one, and the
command run once more gets through.
"""
import os
import shutil
import sqlite3
import subprocess
import sys

import bench
import memory
import walk
from bench import ONLY, REQUESTS_ONLY, SHORT, WORK
from checker import Facts, Verdict, same_tables, whole_lines

NAMES = (b'Adira Moru', b'Tamsin village', b'Esira Kono')
REGISTER = 'book/register.db'
COPY, SEALED, KEY = 'stick/copy.db', 'stick/copy.sealed', 'office.key'
# The command and what it says when it has done it.
COMMANDS = {
    'sealed copy': (['backup', '--key', 'public.txt', SEALED],
                    'Copied and read back: '),
    'restore': (['restore', COPY, '--yes'], 'Restored, people'),
    'unseal': (['restore', SEALED, '--key', KEY, '--yes'],
               'Restored, people'),
    'mend': (['mend'], 'Mended. The new register'),
    'purge': (['purge', '--before', '2026-03-11', '--waiting-too', '--yes'],
              'Purged, people'),
}
TODAY = '2026-03-12'
# Of the requests for memory, which are many thousands, at most:
REQUESTS = REQUESTS_ONLY if ONLY else 12 if SHORT else 2000


def read(folder, name):
    with open(os.path.join(folder, name), 'rb') as file:
        return file.read()


def break_an_index(register):
    """Zeros over a page that every entry can be read without."""
    store = sqlite3.connect(register)
    size = store.execute('PRAGMA page_size').fetchone()[0]
    page = store.execute("SELECT rootpage FROM sqlite_schema WHERE name = "
                         "'visit_day'").fetchone()[0]
    store.close()
    with open(register, 'r+b') as file:
        file.seek((page - 1) * size)
        file.write(bytes(size))


def make_base(name, folder):
    bench.make_station(folder)
    os.mkdir(os.path.join(folder, 'stick'))
    bench.shoal('key', KEY, folder=folder)
    public, _ = bench.shoal('key', '--show', KEY, folder=folder)
    with open(os.path.join(folder, 'public.txt'), 'w', encoding='ascii') as f:
        f.write(public)
    if name == 'restore':
        bench.shoal('backup', COPY, folder=folder)
    if name == 'unseal':
        bench.shoal('backup', '--key', 'public.txt', SEALED, folder=folder)
    if name in ('restore', 'unseal'):
        bench.shoal('screen', '--csv', '-', folder=folder,
                    typed=bench.sheet(('Oda Fell', '')))
    if name == 'mend':
        break_an_index(os.path.join(folder, REGISTER))


class Case:
    """What a walk needs to know: the base, how to start, the calls found."""

    def __init__(self, name):
        self.name = name
        self.arguments, self.done = COMMANDS[name]
        self.base = os.path.join(WORK, 'whole-' + name.replace(' ', '-'))
        make_base(name, self.base)
        self.before = Facts(os.path.join(self.base, 'book'))
        self.old = read(self.base, REGISTER)
        wanted = bench.fresh_copy(self.base)
        status, self.found, out, err = walk.run(self, wanted, None)
        self.wanted = Facts(os.path.join(wanted, 'book'))
        if status != 0 or self.done not in out + err or self.wanted.wrong:
            sys.exit(f'{name}: status {status}: {self.wanted.wrong}\n'
                     f'{out}{err}')
        shutil.rmtree(wanted)
        counted = bench.fresh_copy(self.base)
        self.requests = memory.run(self, counted, None)[1]
        shutil.rmtree(counted)

    def words(self):
        return [bench.SHOAL, '--book', 'book', '--today', TODAY,
                *self.arguments]

    @staticmethod
    def start(words, folder, **more):
        done = subprocess.run(words, stdin=subprocess.DEVNULL, cwd=folder,
                              capture_output=True, check=False, **more)
        return (done.returncode, done.stdout.decode(errors='replace'),
                done.stderr.decode(errors='replace'))


def kept_somewhere(case, folder):
    """Whether the old bytes are there, in place or aside."""
    book = os.path.join(folder, 'book')
    return any(read(book, name) == case.old for name in os.listdir(book)
               if name.startswith('register.db'))


def names_left(folder):
    """Files of the station that still hold a name."""
    return [os.path.join(at, name)
            for at, _, names in os.walk(os.path.join(folder, 'book'))
            for name in names
            if any(n in read(at, name) for n in NAMES)]


def unsealed(folder):
    """What a sealed copy holds, in another station of the same code."""
    shutil.rmtree(os.path.join(folder, 'other'), ignore_errors=True)
    bench.shoal('start', '--book', 'other', '--station', '0014',
                '--programme', 'Lantern Valley', '--site', 'Office',
                folder=folder)
    err = bench.shoal('restore', '--book', 'other', '--yes', '--key', KEY,
                      SEALED, folder=folder, status=None, today=TODAY)[1]
    return Facts(os.path.join(folder, 'other')), err


def judge_copy(case, folder, said, verdict):
    if read(folder, REGISTER) != case.old:
        verdict.corrupted.append('copying changed the register')
    if os.path.exists(os.path.join(folder, SEALED)):
        facts, err = unsealed(folder)
        if facts.wrong or not same_tables(facts, case.before):
            verdict.corrupted.append(f'half a copy: {facts.wrong} {err}')
    elif said:
        verdict.lost.append('a copy was announced and is not there')


def judge_purge(case, folder, said, verdict):
    now = Facts(os.path.join(folder, 'book'))
    verdict.corrupted += now.wrong
    purged = same_tables(now, case.wanted)
    if not purged and not same_tables(now, case.before):
        verdict.corrupted.append('neither purged nor as it was')
    if said and (not purged or names_left(folder)):
        verdict.lost.append(f'purged was said, with {names_left(folder)}')


def judge_exchange(case, folder, said, verdict):
    if not kept_somewhere(case, folder):
        verdict.lost.append('the register that stood there is gone')
    if not os.path.exists(os.path.join(folder, REGISTER)):
        verdict.lost.append('no register stands in its place')
    elif read(folder, REGISTER) != case.old:
        now = Facts(os.path.join(folder, 'book'))
        verdict.corrupted += now.wrong
        if not same_tables(now, case.wanted):
            verdict.corrupted.append('neither the old register nor the new')
    elif said:
        verdict.lost.append('it was announced, but the old one stands there')


def judge(case, folder, ended):
    status, out, err = ended
    verdict = Verdict()
    said = case.done in whole_lines(out, err)
    {'sealed copy': judge_copy, 'purge': judge_purge}.get(
        case.name, judge_exchange)(case, folder, said, verdict)
    if status == 0 and not said:
        verdict.other.append('it ended well and did not say what it did')
    if status not in range(0, 7) and status != 137:
        verdict.other.append(f'it ended with {status}')
    if status in range(1, 7) and 'shoal: ' not in err:
        verdict.other.append(f'it ended with {status} and no reason')
    return verdict


def once_more(case, folder, verdict):
    """The same command gets through now, from whatever was left."""
    if (case.name in ('restore', 'unseal', 'mend')
            and read(folder, REGISTER) != case.old):
        return  # it is through
    _, out, err = case.start(case.words(), folder)
    after = Verdict()
    if case.done not in whole_lines(out, err):
        verdict.other.append(f'it does not get through once more: {out}{err}')
        return
    {'sealed copy': judge_copy, 'purge': judge_purge}.get(
        case.name, judge_exchange)(case, folder, True, after)
    verdict.other += [f'once more: {s}' for s in after.sentences()]


def one_call(task):
    case, mode, n, followed = task
    folder = bench.fresh_copy(case.base)
    status, struck, out, err = walk.run(case, folder, (mode, n))
    verdict = judge(case, folder, (status, out, err))
    if any(map(walk.is_talk, struck)):
        verdict.other.clear()
    if mode == 'kill' and status != 137:
        verdict.other.append(f'it was not killed: {status}')
    if followed:
        once_more(case, folder, verdict)
    shutil.rmtree(folder)
    return mode, f'{mode} at {n} {" ".join(sum(struck[:1], [])).strip()}', \
        verdict


def one_request(task):
    case, mode, n = task
    folder = bench.fresh_copy(case.base)
    status, _, out, err = memory.run(case, folder, (mode, n))
    verdict = judge(case, folder, (status, out, err))
    shutil.rmtree(folder)
    return 'memory', f'request {n} refused {mode}', verdict


def requests(case):
    step = max(1, case.requests // REQUESTS)
    for n in range(step, case.requests + 1, step):
        yield case, 'once', n
        if not SHORT:
            yield case, 'for good', n


def main():
    well = True
    for name in sys.argv[1:] or COMMANDS:
        case = Case(name)
        figures = {title: bench.Figures(f'{name}: {title}') for title in (
            'killed at a call', 'a call failing', 'memory refused')}
        for results in (bench.side_by_side(one_call, walk.tasks(case)),
                        bench.side_by_side(one_request, requests(case))):
            for mode, what, verdict in results:
                title = {'kill': 'killed at a call',
                         'memory': 'memory refused'}.get(mode,
                                                         'a call failing')
                figures[title].add(verdict, what)
        for figure in figures.values():
            well = figure.print() and well
    return 0 if well else 1


if __name__ == '__main__':
    sys.exit(main())
