"""Print pages as PDF with one start of the browser: print.py PAGE.html...

Each PAGE.pdf is written beside its page. The browser (chromium) is driven
through a pipe; every command and answer is a JSON text that ends with a NUL.
"""
import base64
import json
import os
import shutil
import subprocess
import sys
import tempfile


class Browser:
    def __init__(self):
        self.profile = tempfile.mkdtemp()
        read, self.to = os.pipe()
        self.came, write = os.pipe()
        # It reads from 3 and writes to 4.
        self.process = subprocess.Popen(
            ['sh', '-c', 'exec chromium "$@" 3<&%d 4>&%d' % (read, write),
             'sh', '--headless', '--no-sandbox', '--disable-gpu',
             '--remote-debugging-pipe', '--user-data-dir=' + self.profile],
            pass_fds=(read, write), stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL)
        os.close(read)
        os.close(write)
        self.buffer = b''
        self.count = 0
        self.events = []
        self.session = None
        target = self.ask('Target.createTarget', url='about:blank')
        self.session = self.ask('Target.attachToTarget', flatten=True,
                                targetId=target['targetId'])['sessionId']
        self.ask('Page.enable')

    def message(self):
        while b'\0' not in self.buffer:
            more = os.read(self.came, 1 << 20)
            if not more:
                sys.exit('the browser went away')
            self.buffer += more
        text, self.buffer = self.buffer.split(b'\0', 1)
        return json.loads(text)

    def ask(self, method, **given):
        self.count += 1
        order = {'id': self.count, 'method': method, 'params': given}
        if self.session:
            order['sessionId'] = self.session
        os.write(self.to, json.dumps(order).encode() + b'\0')
        while True:
            answer = self.message()
            if answer.get('id') == self.count:
                if 'error' in answer:
                    sys.exit('%s: %s' % (method, answer['error']))
                return answer['result']
            self.events.append(answer.get('method'))

    def await_event(self, method):
        while method not in self.events:
            self.events.append(self.message().get('method'))

    def print(self, page):
        self.events = []
        self.ask('Page.navigate', url='file://' + os.path.abspath(page))
        self.await_event('Page.loadEventFired')
        made = self.ask('Page.printToPDF', preferCSSPageSize=True,
                        printBackground=False)
        with open(os.path.splitext(page)[0] + '.pdf', 'wb') as out:
            out.write(base64.b64decode(made['data']))

    def close(self):
        self.session = None
        os.write(self.to, json.dumps({'id': 0, 'method': 'Browser.close'})
                 .encode() + b'\0')
        self.process.wait()
        shutil.rmtree(self.profile, ignore_errors=True)


if __name__ == '__main__':
    browser = Browser()
    for page in sys.argv[1:]:
        browser.print(page)
    browser.close()
