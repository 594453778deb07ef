"""Hold the colours of a page to the contrast of WCAG 2: contrast.py FILE.html

W3C, Web Content Accessibility Guidelines 2.1: "relative luminance" and
"contrast ratio" in the glossary; success criteria 1.4.3 (text, 4.5 to 1) and
1.4.11 (what drawings are read by, 3 to 1); formula and figures from memory.
The page is white and no text stands on a colour.
"""
import re
import sys

page = open(sys.argv[1], encoding='utf-8').read()


def luminance(colour):
    """0 for black to 1 for white."""
    digits = colour[1:]
    if len(digits) == 3:
        digits = ''.join(2 * digit for digit in digits)
    parts = [int(digits[i:i + 2], 16) / 255 for i in (0, 2, 4)]
    red, green, blue = (part / 12.92 if part <= 0.03928 else
                        ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def on_white(colour):
    """Contrast ratio, 1 to 21."""
    return 1.05 / (luminance(colour) + 0.05)


# Check the formula: #777 on white is known as the grey that just fails.
assert abs(on_white('#000') - 21) < 1e-9
assert 4.4 < on_white('#777') < 4.5 < on_white('#767676')

assert re.search(r'html \{ background: #fff', page)
assert not re.search(r'rgb\(|hsl\(|opacity', page)
text = set(re.findall(r'[{;"\s]color:\s*(#[0-9a-f]+)', page))
text |= set(re.findall(r'<svg class="chart"[^>]*? fill="(#[0-9a-f]+)"', page))
drawn = set(re.findall(r'(?:fill|stroke)="(#[0-9a-f]+)"', page))
drawn |= set(re.findall(r'solid (#[0-9a-f]+)', page))
assert len(text) >= 3 and len(drawn) >= 2, (text, drawn)
for colour in sorted(text):
    assert on_white(colour) >= 4.5, 'text in ' + colour
for colour in sorted(drawn - {'#fff'}):
    assert on_white(colour) >= 3, 'drawn in ' + colour
