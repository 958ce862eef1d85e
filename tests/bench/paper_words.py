"""The words of a PDF with their places, one a line: page, x, baseline, size, text."""
import html
import re
import sys

page = 0
for line in sys.stdin:
    if "<page " in line:
        page += 1
    m = re.search(r'xMin="([\d.]+)" yMin="([\d.]+)" xMax="[\d.]+" yMax="([\d.]+)">(.*)</word>', line)
    if m:
        x, top, bottom = (float(m.group(i)) for i in (1, 2, 3))
        size = (bottom - top) / 1.15
        print(page, f"{x:.2f}", f"{792 - top - size * 0.9:.2f}", f"{size:.2f}",
              html.unescape(m.group(4)), sep="\t")
