#!/bin/bash
# Slips and forms in every language as the browser prints them with Debian's
# fonts: so many pages, nothing cut off, the words that matter on them, the
# right eye on the left, names of other scripts in fonts that have them, and a
# code that can be scanned.
. "$SHOAL_TREE/tests/shell/lib.sh"
export SHOAL_BOOK=$PWD/book
"$SHOAL" start --station 0014 --programme 'Lantern Valley Eye Programme' \
	--site 'Mavi school hall' --clinic 'Ridge Eye Clinic' \
	--address 'Market road, behind the water tower, Ridge town' \
	--days 'Monday to Friday, 8 to 12' --door 'green gate, room 4' \
	--cost free --phone '099 555 0123' --camp-phone '099 555 0199' > start
cat > people.csv << 'END'
grader,name,contact,age_years,sex,depth_right,depth_left,pressure_right,pressure_left,findings,reply_consent
AB,عائشة بنت يوسف,قرية النخيل,68,F,5,15,54,18,eye_pain;nausea;haloes;right:red_eye;right:hazy_cornea;right:fixed_pupil,yes
AB,क्षितिज श्रेष्ठ,,63,F,5,5,,,,no
AB,Efua Cornea,,50,M,100,75,14,15,,yes
END
"$SHOAL" --today 2026-11-25 screen --csv people.csv > answers
mkdir pages
for language in en fr es sw ar; do
	while IFS=, read -r number urgency _; do
		[ "$urgency" != urgency ] || continue
		[ "$urgency" != no_referral ] || [ $language != en ] || continue
		"$SHOAL" slip "$number" --html --language $language \
			--out pages/$language-slip-$urgency.html
	done < answers
	"$SHOAL" forms forms --language $language > /dev/null
	case $language in fr|sw|ar) ;; *) continue ;; esac
	for form in paper-register paper-slips reply-sheet; do
		[ $language-$form != sw-reply-sheet ] || continue
		# One person, the front and the back, or one page of lines.
		awk -v most=$([ $form = paper-slips ] && echo 2 || echo 1) '
			/<section/ { sections++ }
			sections <= most || !/<section/ && /<\/body>|<\/html>/
			' forms/$form.html > pages/$language-$form.html
	done
done
python3 "$SHOAL_TREE/tests/shell/print.py" pages/*.html
python3 - "$SHOAL_TREE" << 'END' || fail 'what was printed'
import glob, os, re, subprocess, sys, unicodedata

PAGES = {'slip-same_day': 2, 'slip-urgent': 2, 'slip-no_referral': 1,
         'paper-register': 1, 'paper-slips': 2, 'reply-sheet': 1}
SIZES = {'slip': (420, 595), 'paper': (842, 595), 'reply': (595, 842)}
# What is nearer to the edge is cut off by many printers.
EDGE = 4.2 * 72 / 25.4
PHRASES = {'slip-same_day': ['urgency.same_day', 'patient.same_day_1',
                             'patient.same_day_4', 'patient.bring',
                             'patient.at_once', 'patient.not_a_diagnosis',
                             'slip.part_clinic', 'slip.deciding',
                             'reply.title', 'reply.tear_off',
                             'approval.wording_not_reviewed'],
           'slip-urgent': ['urgency.urgent', 'patient.urgent_2',
                           'patient.show_before_drops', 'reply.to_learn',
                           'not_done.pressure_both'],
           'slip-no_referral': ['urgency.no_referral',
                                'patient.no_referral_2',
                                'patient.at_once_haloes'],
           'paper-register': ['forms.register',
                              'finding.past_attack',
                              'approval.wording_not_reviewed'],
           'paper-slips': ['urgency.same_day', 'urgency.no_referral',
                           'patient.not_a_diagnosis', 'slip.part_clinic',
                           'approval.wording_not_reviewed', 'reply.to_learn'],
           'reply-sheet': ['forms.reply', 'forms.reply_drawing',
                           'approval.wording_not_reviewed']}


def words_of(language):
    section, words = '', {}
    name = '%s/config/wording-%s.ini' % (sys.argv[1], language)
    for line in open(name, encoding='utf-8'):
        head = re.match(r'\[(.*)\]', line)
        if head:
            section = head[1]
        pair = re.match(r'([a-z0-9_]+) = "(.*)"$', line)
        if pair:
            words[section + '.' + pair[1]] = pair[2]
    return words


def printed(pdf, *options):
    return subprocess.run(['pdftotext', *options, pdf, '-'], check=True,
                          capture_output=True).stdout.decode()


def plain(text):
    """Letters and digits of each word; Arabic without marks. The reader of
    the PDF turns a lam and an alef written as one around, so words with them
    are left out."""
    text = unicodedata.normalize('NFKC', text)
    found = []
    for word in re.split(r'[^\w\u0300-\u036f\u064b-\u065f]+', text):
        arabic = any('\u0600' <= c <= '\u06ff' for c in word)
        if arabic and re.search('ل[اأإآ]|ا[لﻝ]?[أإآ]|[\u064b-\u065f]', word):
            continue
        found.append(word)
    return [word for word in found if word]


def check(pdf):
    language, kind = re.match(r'pages/(..)-(.*)\.pdf', pdf).groups()
    words = words_of(language)
    box = printed(pdf, '-bbox')
    sizes = [tuple(map(float, size)) for size in
             re.findall(r'<page width="([\d.]+)" height="([\d.]+)"', box)]
    assert len(sizes) == PAGES[kind], (pdf, len(sizes))
    wanted = SIZES[kind.split('-')[0]]
    for size in sizes:
        assert all(abs(a - b) < 2 for a, b in zip(size, wanted)), (pdf, size)
    places = [(word, float(x0), float(y0), float(x1), float(y1))
              for x0, y0, x1, y1, word in
              re.findall(r'<word xMin="(\S+)" yMin="(\S+)" xMax="(\S+)" '
                         r'yMax="(\S+)">(.*?)</word>', box)]
    for word, x0, y0, x1, y1 in places:
        # The boxes are those of the fonts, taller than the letters.
        air = 0.15 * (y1 - y0)
        assert x0 >= EDGE and y0 + air >= EDGE and \
            x1 <= wanted[0] - EDGE and y1 - air <= wanted[1] - EDGE, \
            (pdf, word, x0, y0, x1, y1)
    text = printed(pdf)
    there = set(plain(text))
    for key in PHRASES[kind]:
        for word in plain(words[key]):
            assert word in there, (pdf, key, word)
    if kind.startswith('slip'):
        check_slip(pdf, kind, words, places, text, there)
    check_fonts(pdf, kind)


def check_slip(pdf, kind, words, places, text, there):
    assert '0014-0000' in text and '2026-11-25' in text, pdf
    # The right eye on the left: where the words that tell the eyes apart stand
    # on one line. (With its place an Arabic word comes backwards.)
    sides = []
    for eye in 'slip.right_eye', 'slip.left_eye':
        own = set(plain(words[eye])) - set(plain(
            words['slip.left_eye' if 'right' in eye else 'slip.right_eye']))
        assert own, eye
        sides.append([(y0, x0) for word, x0, y0, x1, y1 in places
                      if set(plain(word) + plain(word[::-1])) & own])
    rows = [(x, x2) for y, x in sides[0] for y2, x2 in sides[1]
            if abs(y - y2) < 2]
    assert len(rows) >= (3 if kind != 'slip-no_referral' else 1), (pdf, rows)
    assert all(right < left for right, left in rows), (pdf, rows)


def check_fonts(pdf, kind):
    fonts = subprocess.run(['pdffonts', pdf], check=True,
                           capture_output=True).stdout.decode()
    for line in fonts.split('\n')[2:]:
        assert not line or re.search(r' yes (yes|no) +(yes|no) ', line), line
    if kind == 'slip-same_day':
        assert 'DejaVuSans' in fonts, fonts
    if kind == 'slip-urgent':
        assert 'Lohit-Devanagari' in fonts, fonts
        assert 'क्षितिज' in printed(pdf), pdf


pdfs = sorted(glob.glob('pages/*.pdf'))
assert len(pdfs) == 5 * 2 + 4 + 8, pdfs
for pdf in pdfs:
    check(pdf)
END
for language in fr ar; do
	pdftoppm -r 110 -gray pages/$language-slip-same_day.pdf code
	zbarimg -q --raw code-*.pgm > codes || fail "no code, $language"
	[ "$(tr '\n' ' ' < codes)" = '0014-00001-98 0014-00001-98 ' ] ||
		fail "codes in $language: $(cat codes)"
	rm code-*.pgm
done
