"""Signals at every prompt, on a terminal of its own.

At each question of each dialogue: Ctrl-C, SIGTERM, SIGHUP, and Ctrl-Z with
what follows. Afterwards `stty -a` says what it said before, what was announced
as saved is there, and a half entry is nowhere. Where there is a one-screen
form, the same after each of a row of keys.
"""
import fcntl
import os
import select
import shutil
import signal
import subprocess
import sys
import termios

import bench
import cases
from bench import SHORT, WORK
from checker import Facts, Verdict, announced

PATIENCE = 10
FIRST, QUIET = 0.4, 0.05  # the form has no prompt to wait for
FORM = b'\x1b['  # what only a form writes
SIGNALS = ['INT', 'TERM', 'HUP', 'TSTP']
# The answers of each dialogue, one per prompt, in the order of the prompts.
PERSON = ['Oda Fell', 'Upper Mavi', '58', '1', '', '', '', '', '', '', '40',
          '40', '16', '17', '1', '']
DIALOGUES = {
    'screen': (['screen'], ['NT', *PERSON, *PERSON[:3], '<']),
    'correct': (['correct', cases.NUMBER], ['3', '61', '', 'asked again']),
    'void': (['void', cases.OTHER], ['entered twice']),
    'reply': (['reply', cases.OTHER], ['1', '2026-03-10', 'NT', '1', '2']),
    'start': (['--book', 'new', 'start'], ['0015', 'Lantern', 'Mavi', '', '']),
}
FORM_KEYS = ['NT\r', '\t', 'O', 'd', 'a', '\r', '\x1b[B', '5', '8',
             '\t', '1', '\x1b[A', '\r', '\t', '4', '\r', '\x7f', '2', '\r']


class Terminal:
    """A program as a shell on a terminal would start it."""

    def __init__(self, words, folder, kind):
        self.master, self.slave = os.openpty()
        fcntl.ioctl(self.slave, termios.TIOCSWINSZ, b'\x18\0\x50\0\0\0\0\0')
        self.before = self.stty()
        self.seen = b''
        self.ended = False
        events, told = os.pipe()
        self.shell = os.fork()
        if self.shell == 0:
            os.close(events)
            self.be_the_shell(words, folder, kind, told)
        os.close(told)
        self.events = os.fdopen(events)
        self.program = int(self.events.readline())

    def stty(self):
        return subprocess.run(['stty', '-a'], stdin=self.slave, check=True,
                              capture_output=True).stdout

    def be_the_shell(self, words, folder, kind, told):
        """Without a shell of the same session no program can be stopped."""
        os.close(self.master)
        os.setsid()
        fcntl.ioctl(self.slave, termios.TIOCSCTTY, 0)
        for ignored in (signal.SIGTTOU, signal.SIGHUP):
            signal.signal(ignored, signal.SIG_IGN)
        program = os.fork()
        if program == 0:
            os.setpgid(0, 0)
            os.tcsetpgrp(self.slave, os.getpid())
            for default in (signal.SIGTTOU, signal.SIGHUP):
                signal.signal(default, signal.SIG_DFL)
            for stream in range(3):
                os.dup2(self.slave, stream)
            os.chdir(folder)
            os.execve(words[0], words, {**os.environ, 'TERM': kind})
        os.write(told, f'{program}\n'.encode())
        while True:
            status = os.waitpid(program, os.WUNTRACED | os.WCONTINUED)[1]
            if os.WIFSTOPPED(status):
                os.write(told, b'stopped\n')
            elif os.WIFCONTINUED(status):
                os.write(told, b'continued\n')
            else:
                os.write(told, f'ended {status}\n'.encode())
                os._exit(0)

    def wait_for(self, *words):
        """Until it ends in one of the words or holds it, or the program has
        ended; without words until it is quiet."""
        seen, wait = b'', PATIENCE if words else FIRST
        while not any(seen.endswith(word) or word in seen and word == FORM
                      for word in words):
            ready = select.select([self.master, self.events], [], [], wait)[0]
            if self.master in ready:
                seen += os.read(self.master, 65536)
            elif not ready or self.ended:
                break
            else:
                self.ended = True
            wait = PATIENCE if words and not self.ended else QUIET
        self.seen += seen

    def type(self, text, *words):
        if not self.ended:
            os.write(self.master, text.encode())
            self.wait_for(*words)

    def strike(self, name):
        """As it comes to a program: by key, or from outside."""
        if name == 'INT':
            os.write(self.master, b'\x03')
        elif name == 'TSTP':
            os.write(self.master, b'\x1a')
        else:
            self.send('SIG' + name)

    def send(self, name):
        """A dialogue may have come to its end by itself."""
        try:
            os.killpg(self.program, getattr(signal, name))
        except ProcessLookupError:
            pass

    def next_event(self):
        if not select.select([self.events], [], [], PATIENCE)[0]:
            self.send('SIGKILL')
            return 'nothing'
        return self.events.readline().strip()

    def close(self):
        while select.select([self.master], [], [], 0)[0]:
            self.seen += os.read(self.master, 65536)
        os.waitpid(self.shell, 0)
        self.events.close()
        os.close(self.master)
        os.close(self.slave)


def go_on(terminal, keys, prompts, verdict):
    """After a stop: the terminal was as before, and all goes on."""
    event = terminal.next_event()
    if event.startswith('ended'):
        return event
    if event != 'stopped':
        verdict.other.append(f'Ctrl-Z: {event}')
    if terminal.stty() != terminal.before:
        verdict.other.append('stopped, the terminal is another')
    terminal.send('SIGCONT')
    event = terminal.next_event()
    if event.startswith('ended'):
        return event
    if event != 'continued':
        verdict.other.append('it did not go on')
    for key in keys if prompts else [''.join(keys)]:
        terminal.type(key, *prompts)
    terminal.send('SIGTERM')
    return terminal.next_event()


def check(case, folder, terminal, event, verdict):
    name, base = case
    if not event.startswith('ended'):
        verdict.other.append(f'it did not end: {event}')
    if terminal.stty() != terminal.before:
        verdict.other.append('the terminal is another')
    printed = terminal.seen.decode(errors='replace').replace('\r', '')
    before, after = (Facts(os.path.join(f, 'book')) for f in (base, folder))
    verdict.corrupted += after.wrong
    said = {s for kind, s in announced(printed) if kind == 'saved'}
    new = after.rows('visit')[len(before.rows('visit')):]
    kept = {dict(row)['number'] for row in new
            if dict(row)['state'] != 'void'}
    if said - kept:
        verdict.lost.append(f'announced, not there: {said - kept}')
    if len(new) != len(kept) and name != 'void':
        verdict.other.append('an entry of a dialogue that was ended')
    if name in ('screen', 'form') and kept - said:
        verdict.other.append(f'there, not announced: {kept - said}')


def one_try(task):
    name, words, keys, kind, at, struck = task
    base = os.path.join(WORK, 'station')
    folder = bench.fresh_copy(base)
    verdict = Verdict()
    prompts = [] if name == 'form' else [b': ']
    terminal = Terminal(words, folder, kind)
    terminal.wait_for(b': ', FORM)
    # A form takes keys as fast as they come.
    for key in keys[:at] if prompts else [''.join(keys[:at])]:
        terminal.type(key, *prompts)
    if not prompts and at > 0 and FORM not in terminal.seen:
        terminal.wait_for(FORM)
    terminal.strike(struck)
    event = (go_on(terminal, keys[at:], prompts, verdict) if struck == 'TSTP'
             else terminal.next_event())
    check((name, base), folder, terminal, event, verdict)
    terminal.close()
    if name == 'form' and at > 0 and FORM not in terminal.seen:
        verdict.other.append('there was no form')
    if struck == 'TSTP' and name == 'screen' and (
            b'Saved ' not in terminal.seen):
        verdict.lost.append('stopped and continued, nobody was saved')
    shutil.rmtree(folder)
    return f'{name}: SIG{struck} after {at} answers', verdict


def tasks():
    front = [bench.SHOAL, '--book', 'book', '--today', bench.TODAY]
    has_form = '--plain' in bench.shoal('help', 'screen')[0]
    for name, (words, answers) in DIALOGUES.items():
        words = front + words + (['--plain'] if has_form
                                 and name == 'screen' else [])
        keys = [answer + '\n' for answer in answers]
        for at in range(len(keys) + 1):
            for i, struck in enumerate(SIGNALS):
                if not SHORT or (at + i) % 4 == 0:
                    yield name, words, keys[:], 'dumb', at, struck
    for at in range(len(FORM_KEYS) + 1 if has_form else 0):
        for i, struck in enumerate(SIGNALS):
            if not SHORT or (at + i) % 4 == 0:
                yield ('form', front + ['screen'], FORM_KEYS, 'xterm', at,
                       struck)


def main():
    bench.make_station(os.path.join(WORK, 'station'))
    figures = bench.Figures('signals at every prompt')
    for what, verdict in bench.side_by_side(one_try, tasks()):
        figures.add(verdict, what)
    return 0 if figures.print() else 1


if __name__ == '__main__':
    sys.exit(main())
