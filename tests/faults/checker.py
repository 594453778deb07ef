"""What a station's folder holds, against what the program announced.

Shares no code with the program: SQL through Python's own sqlite3, and what is
printed is read as a person reads it. Used by the walks; by itself it compares
three folders and a file with everything that was printed:

    checker.py BEFORE AFTER WANTED PRINTED

and prints the figures: "tried 1, lost L, silently corrupted C, other O".
"""
import os
import re
import shutil
import sqlite3
import sys
import tempfile
import zlib

# Columns that tell when something was typed, not what.
WHEN = {'entered_at', 'recorded_at'}
# The letters over all other values of a row, which are checked by themselves.
OVER_ALL = 'row_mark'


def letters_over(values):
    """CRC-32 of the values joined by 0x1F, seven letters in base 26."""
    left = zlib.crc32('\x1f'.join(
        '' if value is None else str(value) for value in values).encode())
    letters = ''
    for _ in range(7):
        letters = chr(ord('A') + left % 26) + letters
        left //= 26
    return letters


class Facts:
    """A station's folder as it is: rows of the register, and every other file,
    also those on the stick beside it."""

    def __init__(self, folder):
        self.wrong = []     # what no program may leave behind
        self.tables = {}    # table: list of rows
        self.files = {}     # path in the folder: bytes
        self.left_over = []  # temporary files
        self.empty = not os.path.isdir(folder)
        if self.empty:
            return
        stick = os.path.join(os.path.dirname(folder), 'stick')
        for at, _, names in [*os.walk(folder), *os.walk(stick)]:
            for name in names:
                path = os.path.join(at, name)
                self._see_file(os.path.relpath(path, folder), path)
        if os.path.exists(os.path.join(folder, 'register.db')):
            self._read_register(folder)

    def _see_file(self, name, path):
        if '.tmp-' in name:
            self.left_over.append(name)
        elif not name.startswith('register.db'):
            with open(path, 'rb') as file:
                self.files[name] = file.read()

    def _read_register(self, folder):
        """From a copy, with its journal, so that nothing is changed here."""
        with tempfile.TemporaryDirectory() as copy:
            for name in ('register.db', 'register.db-journal'):
                if os.path.exists(os.path.join(folder, name)):
                    shutil.copy(os.path.join(folder, name), copy)
            store = sqlite3.connect(os.path.join(copy, 'register.db'))
            try:
                self._read_store(store)
            except sqlite3.Error as error:
                self.wrong.append(f'the register cannot be read: {error}')
            store.close()

    def _read_store(self, store):
        found = store.execute('PRAGMA integrity_check').fetchone()[0]
        if found != 'ok':
            self.wrong.append(f'integrity: {found}')
        if store.execute('PRAGMA foreign_key_check').fetchone():
            self.wrong.append('a row names one that is not there')
        names = [row[0] for row in store.execute(
            "SELECT name FROM sqlite_schema WHERE type = 'table' "
            "AND name NOT LIKE 'sqlite~_%' ESCAPE '~' ORDER BY name")]
        for name in names:
            rows = store.execute(f'SELECT * FROM "{name}" ORDER BY rowid')
            columns = [column[0] for column in rows.description]
            rows = list(rows)
            if columns[-1] == OVER_ALL and any(
                    row[-1] != letters_over(row[:-1]) for row in rows):
                self.wrong.append(f'a row of {name} does not fit its letters')
            self.tables[name] = [
                tuple((c, v) for c, v in zip(columns, row)
                      if c not in WHEN | {OVER_ALL} and v is not None)
                for row in rows]

    def rows(self, table):
        return self.tables.get(table, [])

    def numbers(self):
        return {dict(row).get('number') for row in self.rows('visit')}


CODE = re.compile(rb'<svg class="code".*?</svg>', re.S)


def same(found, wanted):
    """A page may go without pictures for scanners, never with half of one."""
    if found is None or wanted is None:
        return found == wanted
    return (CODE.sub(b'', found) == CODE.sub(b'', wanted)
            and set(CODE.findall(found)) <= set(CODE.findall(wanted)))


def same_files(found, wanted):
    return found.keys() == wanted.keys() and all(
        same(found[name], wanted[name]) for name in wanted)


def same_tables(found, wanted):
    """But for the letters that each new station draws."""
    return found.tables.keys() == wanted.tables.keys() and all(
        found.rows(name) == wanted.rows(name)
        for name in wanted.tables if name != 'station')


class Verdict:
    """Counts of one try, each with its sentence."""

    def __init__(self):
        self.lost, self.corrupted, self.other = [], [], []

    def sentences(self):
        return ([f'LOST: {s}' for s in self.lost]
                + [f'CORRUPTED: {s}' for s in self.corrupted]
                + [f'WRONG: {s}' for s in self.other])

    def figures(self):
        return (f'lost {len(self.lost)}, silently corrupted '
                f'{len(self.corrupted)}, other {len(self.other)}')


def whole_lines(*streams):
    """What was said to the end; a line that was cut off says nothing yet."""
    return '\n'.join(stream[:stream.rfind('\n') + 1] for stream in streams)


def announced(printed):
    """What the program said it has done: kinds and their subjects."""
    said = set()
    for number in re.findall(r'^Saved ([0-9-]{13})$', printed, re.M):
        said.add(('saved', number))
    for number in re.findall(r'^([0-9-]{13}),(?:same_day|urgent|routine|'
                             r'no_referral),', printed, re.M):
        said.add(('saved', number))
    for count in re.findall(r'^Saved ([0-9]+) (?:person|people)\.', printed,
                            re.M):
        said.add(('people', count))
    for number in re.findall(r'^([0-9-]{13}) is void', printed, re.M):
        said.add(('void', number))
    for number in re.findall(r'^Saved the reply for ([0-9-]{13})$', printed,
                             re.M):
        said.add(('reply', number))
    for path in re.findall(r'^(?:Tally|Yield of) .*\): (.*)$', printed, re.M):
        said.add(('file', path))
    for path in re.findall(r'^Slip: (.*)$', printed, re.M):
        said.add(('file', path))
    for path in re.findall(r'^Copied and read back: (.*)$', printed, re.M):
        said.add(('file', path))
    if re.search(r'^fingerprint [A-Z]{6}, before', printed, re.M):
        said.add(('file', 'policy.ini'))
    if re.search(r'^Station [0-9]{4} is set up', printed, re.M):
        said.add(('station', ''))
    return said


def there(fact, after, wanted, before):
    """Whether an announced fact is so."""
    kind, subject = fact
    if kind == 'saved':
        new = [dict(r) for r in after.rows('visit')[len(before.rows('visit')):]]
        return any(row.get('number') == subject for row in new)
    if kind == 'people':
        return int(subject) == len(after.rows('visit')) - len(
            before.rows('visit'))
    if kind == 'void':
        return any(dict(r).get('number') == subject and dict(r).get('state') == 'void'
                   for r in after.rows('visit'))
    if kind == 'reply':
        return any(dict(r).get('number') == subject for r in after.rows('reply'))
    if kind == 'station':
        return same_tables(after, wanted) and same_files(after.files,
                                                         wanted.files)
    if kind == 'file':
        ends = [n for n in wanted.files
                if subject.endswith(n.removeprefix('../'))]
        return bool(ends) and all(
            same(after.files.get(n), wanted.files[n]) for n in ends)
    return False


def compare_tables(before, after, wanted, verdict):
    """Only whole things are added, and only those that were to be."""
    for name in set(before.tables) | set(after.tables):
        old, new = before.rows(name), after.rows(name)
        if name not in after.tables:
            verdict.corrupted.append(f'table {name} is gone')
        elif new[:len(old)] != old:
            verdict.corrupted.append(f'rows of {name} changed or are gone')
        elif new[len(old):] not in ([], wanted.rows(name)[len(old):]):
            if name != 'station' or not before.empty:
                verdict.corrupted.append(f'{name} holds what was never '
                                         f'entered')


def compare_files(before, after, wanted, verdict):
    for name in set(before.files) | set(after.files):
        if name in before.files and name not in after.files:
            verdict.lost.append(f'the file {name} is gone')
        elif (after.files.get(name) != before.files.get(name)
              and not same(after.files.get(name), wanted.files.get(name))):
            verdict.corrupted.append(f'the file {name} is neither the old one '
                                     f'nor the new one')


def judge(before, after, wanted, printed):
    """One try, in which anything may have gone wrong."""
    verdict = Verdict()
    verdict.corrupted += after.wrong
    if not before.empty and not after.tables:
        verdict.lost.append('the register is gone')
        return verdict
    compare_tables(before, after, wanted, verdict)
    compare_files(before, after, wanted, verdict)
    for fact in announced(printed):
        if not there(fact, after, wanted, before):
            verdict.lost.append('announced, but not there: '
                                + ' '.join(fact))
    return verdict


def main():
    before, after, wanted = (Facts(folder) for folder in sys.argv[1:4])
    with open(sys.argv[4], encoding='utf-8', errors='replace') as file:
        verdict = judge(before, after, wanted, file.read())
    for sentence in verdict.sentences():
        print(sentence)
    print(f'tried 1, {verdict.figures()}')
    return 1 if verdict.sentences() else 0


if __name__ == '__main__':
    sys.exit(main())
