"""The power fails after any call: what was not synced may be there or not.

A kill leaves all that was written; a power cut does not. Each command's calls
are recorded once, with what they wrote. Then, for the moment after each call,
the disks are built that a power cut could leave: what was synced is there; of
what was not, nothing, everything, everything but one write, one write alone,
or the last one half; and of the changes of a folder that was not synced, the
first few. On each of them everything announced up to that moment has to be
there, and the register whole.

Slips are left out: they are renamed but not synced, since each can be printed
again.
"""
import hashlib
import os
import re
import shutil
import subprocess
import sys

import bench
import cases
from bench import SHORT
from checker import Facts, judge, whole_lines

NAMES_IN_SHORT = ['save', 'tally', 'policy set']
NAMES = ['save', 'sheet', 'correct', 'void', 'reply', 'tally', 'slip file',
         'yield file', 'policy set', 'backup', 'start']
CALLS = ('openat,write,pwrite64,ftruncate,fsync,fdatasync,rename,link,unlink,'
         'mkdir,close')
LINE = re.compile(r'^(\w+)\((.*)\) += (-?\d+)')
TEXT = re.compile(r'"((?:\\x[0-9a-f]{2})*)"')


def run(case, folder, _):
    log = os.path.join(folder, 'calls')
    status, out, err = case.start(
        ['strace', '-xx', '-s', '1000000', '-e', 'trace=' + CALLS,
         '-e', 'signal=none', '-o', log, *case.words()], folder)
    with open(log, encoding='ascii', errors='replace') as file:
        calls = [parse(line, folder) for line in file]
    os.remove(log)
    return status, [call for call in calls if call], out, err


def parse(line, folder):
    """(name, texts, numbers, result), paths relative to the folder."""
    found = LINE.match(line)
    if not found or int(found[3]) < 0:
        return None
    name, arguments, result = found[1], found[2], int(found[3])
    texts = [bytes.fromhex(t.replace('\\x', ''))
             for t in TEXT.findall(arguments)]
    rest = TEXT.sub('', arguments)
    if name in ('openat', 'rename', 'link', 'unlink', 'mkdir'):
        texts = [os.path.relpath(os.path.join(folder, t.decode()), folder)
                 for t in texts]
    return name, texts, rest, result


class Disk:
    """Files and folders, and which of their changes were synced."""

    def __init__(self, folder):
        self.files, self.folders = {}, set()
        for at, folders, names in os.walk(folder):
            here = os.path.relpath(at, folder)
            self.folders |= {os.path.normpath(os.path.join(here, f))
                             for f in folders}
            for name in names:
                with open(os.path.join(at, name), 'rb') as file:
                    self.files[os.path.normpath(os.path.join(here, name))] = (
                        len(self.files), file.read())
        # Synced bytes of each file, by its number; then its changes since.
        self.synced = dict(self.files.values())
        self.entries = {path: n for path, (n, _) in self.files.items()}
        self.now = dict(self.entries)
        self.writes = []    # (number, offset or None, bytes or length)
        self.moves = []     # (what, path, other path or number)
        self.handles = {}   # handle: [path, number, offset]
        self.printed = b''

    def see(self, name, texts, rest, result):
        getattr(self, 'see_' + name)(texts, rest, result)

    def see_openat(self, texts, rest, result):
        path = texts[0]
        if 'O_CREAT' in rest and path not in self.now:
            number = len(self.synced)
            self.synced[number] = b''
            self.move('create', path, number)
        self.handles[result] = [path, self.now.get(path), 0]
        if 'O_TRUNC' in rest and path in self.now:
            self.writes.append((self.now[path], None, 0))

    def see_close(self, _, rest, _result):
        self.handles.pop(int(rest), None)

    def see_write(self, texts, rest, result):
        handle = int(rest.split(',')[0])
        if handle in (1, 2):
            self.printed += texts[0][:result]
        elif handle in self.handles:
            path_number = self.handles[handle]
            self.writes.append((path_number[1], path_number[2],
                                texts[0][:result]))
            path_number[2] += result

    def see_pwrite64(self, texts, rest, result):
        handle, offset = int(rest.split(',')[0]), int(rest.split(',')[-1])
        self.writes.append((self.handles[handle][1], offset,
                            texts[0][:result]))

    def see_ftruncate(self, _, rest, _result):
        handle, length = (int(part) for part in rest.split(','))
        self.writes.append((self.handles[handle][1], None, length))

    def see_fsync(self, _, rest, _result):
        path, number, _ = self.handles[int(rest)]
        if number is None:
            self.moves, done = (
                [m for m in self.moves if os.path.dirname(m[1]) != path],
                [m for m in self.moves if os.path.dirname(m[1]) == path])
            for move in done:
                apply_move(self.entries, self.folders, move)
        else:
            for write in self.writes:
                if write[0] == number:
                    self.synced[number] = apply_write(self.synced[number],
                                                      write)
            self.writes = [w for w in self.writes if w[0] != number]

    see_fdatasync = see_fsync

    def see_rename(self, texts, _, _result):
        self.move('rename', texts[0], texts[1])

    def see_link(self, texts, _, _result):
        self.move('link', texts[0], texts[1])

    def see_unlink(self, texts, _, _result):
        self.move('unlink', texts[0], None)

    def see_mkdir(self, texts, _, _result):
        self.move('mkdir', texts[0], None)

    def move(self, what, path, other):
        self.moves.append((what, path, other))
        apply_move(self.now, set(), self.moves[-1])

    def cuts(self):
        """(files, folders) that a power cut now could leave."""
        for moved in range(len(self.moves) + 1):
            entries, folders = dict(self.entries), set(self.folders)
            for move in self.moves[:moved]:
                apply_move(entries, folders, move)
            for kept in self.kept_writes():
                synced = dict(self.synced)
                for write in kept:
                    synced[write[0]] = apply_write(synced[write[0]], write)
                yield ({p: synced[n] for p, n in entries.items()}, folders)

    def kept_writes(self):
        writes = self.writes
        yield []
        yield writes
        for i, (number, offset, data) in enumerate(writes):
            yield writes[:i] + writes[i + 1:]
            yield [writes[i]]
            if offset is not None and len(data) > 1:
                yield [*writes[:i], (number, offset, data[:len(data) // 2])]


def apply_write(held, write):
    _, offset, data = write
    if offset is None:
        return held[:data] + bytes(max(0, data - len(held)))
    held = held + bytes(max(0, offset - len(held)))
    return held[:offset] + data + held[offset + len(data):]


def apply_move(entries, folders, move):
    what, path, other = move
    if what == 'create':
        entries[path] = other
    elif what == 'mkdir':
        folders.add(path)
    elif what == 'unlink':
        entries.pop(path, None)
    elif path in entries:
        entries[other] = entries[path]
        if what == 'rename':
            del entries[path]


def build(files, folders, folder):
    os.makedirs(folder, exist_ok=True)
    for name in sorted(folders):
        os.makedirs(os.path.join(folder, name), exist_ok=True)
    for name, held in files.items():
        path = os.path.join(folder, name)
        os.makedirs(os.path.dirname(path), exist_ok=True)
        with open(path, 'wb') as file:
            file.write(held)


def without_slips(facts):
    facts.files = {name: held for name, held in facts.files.items()
                   if not name.startswith('slips')}
    return facts


def one_cut(task):
    """Each disk that is possible after so many calls, each once."""
    case, count = task
    disk = Disk(case.base)
    for call in case.found[:count]:
        disk.see(*call)
    printed = whole_lines(disk.printed.decode(errors='replace'))
    printed = re.sub(r'^Slip: .*$', '', printed, flags=re.M)
    if case.name == 'slip file' and count == len(case.found):
        printed += '\nSlip: book/slip.html\n'  # said by ending well
    verdicts, seen = [], set()
    for files, folders in disk.cuts():
        mark = hashlib.sha256(repr(sorted(files.items())).encode()).digest()
        if mark in seen:
            continue
        seen.add(mark)
        folder = os.path.join(bench.WORK, f'cut-{os.getpid()}')
        build(files, folders, folder)
        after = without_slips(Facts(os.path.join(folder, 'book')))
        verdicts.append(judge(case.before, after, case.wanted, printed))
        shutil.rmtree(folder)
    return f'after call {count} {case.found[count - 1][0]}', verdicts


def finds_missing_syncs(case):
    """The same calls without a sync have to lose what was announced."""
    calls = case.found
    case.found = [call for call in calls if 'sync' not in call[0]]
    verdicts = one_cut((case, len(case.found)))[1]
    case.found = calls
    return any(verdict.lost for verdict in verdicts)


def main():
    well = True
    for name in sys.argv[1:] or (NAMES_IN_SHORT if SHORT else NAMES):
        case = cases.Case(name, run)
        without_slips(case.before)
        without_slips(case.wanted)
        if not finds_missing_syncs(case):
            print(f'{name}: without syncs nothing is lost: the test is blind')
            well = False
        first = next(i for i, call in enumerate(case.found)
                     if call[0] != 'close' and call[0] != 'openat'
                     and not is_talk(call))
        counts = [n for n in range(first, len(case.found) + 1)
                  if n == len(case.found) or is_worth(case.found[n - 1])]
        if SHORT:
            counts = counts[::4] + counts[-1:]
        figures = bench.Figures(f'{name}: power cut, possible disks')
        for what, verdicts in bench.side_by_side(
                one_cut, ((case, n) for n in counts)):
            for verdict in verdicts:
                figures.add(verdict, what)
        well = figures.print() and well
    return 0 if well else 1


def is_talk(call):
    return call[0] == 'write' and call[2].split(',')[0] in ('1', '2')


def is_worth(call):
    """Whether the call makes another disk, or says something."""
    return call[0] not in ('close',) and not (
        call[0] == 'openat' and 'O_CREAT' not in call[2])


if __name__ == '__main__':
    sys.exit(main())
