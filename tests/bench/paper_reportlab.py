"""The same words by Debian's python3-reportlab: seconds for `times` papers.

Two ways. "put": each word at its place, which is bare drawing. "laid": the library
lays the lines out itself as tables of paragraphs that go on over pages, which is
what a paper's program does.
"""
import io
import sys
import time
from itertools import groupby
from xml.sax.saxutils import escape

from reportlab.lib.styles import ParagraphStyle
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen import canvas
from reportlab.platypus import Paragraph, SimpleDocTemplate, Table

FONT = "/usr/share/fonts/truetype/liberation/LiberationSans-Regular.ttf"


def put(words):
    out = canvas.Canvas(io.BytesIO(), pagesize=(612, 792), pageCompression=1)
    page = "1"
    for number, x, y, size, text in words:
        if number != page:
            out.showPage()
            page = number
        out.setFont("Sans", float(size))
        out.drawString(float(x), float(y), text)
    out.showPage()
    out.save()


def rows_of(words):
    """Lines of cells: a gap of two blanks begins a new cell. Five cells at most."""
    for _, line in groupby(words, key=lambda w: (w[0], w[2])):
        cells, end = [], None
        for _, x, _, size, text in line:
            if cells and (end is None or float(x) - end < 6 or len(cells) == 5):
                cells[-1] += " " + text
            else:
                cells.append(text)
            end = float(x) + len(text) * float(size) * 0.5
        yield cells + [""] * (5 - len(cells))


def laid(words):
    style = ParagraphStyle("cell", fontName="Sans", fontSize=8.2, leading=10.4)
    rows = [[Paragraph(escape(c), style) for c in row] for row in rows_of(words)]
    doc = SimpleDocTemplate(io.BytesIO(), pagesize=(612, 792), leftMargin=48, rightMargin=48)
    doc.build([Table(rows[i:i + 40], colWidths=[103] * 5, repeatRows=1)
               for i in range(0, len(rows), 40)])


lines = [line.rstrip("\n").split("\t") for line in open(sys.argv[1], encoding="utf-8")]
pdfmetrics.registerFont(TTFont("Sans", FONT))
begin = time.process_time()
for _ in range(int(sys.argv[3])):
    {"put": put, "laid": laid}[sys.argv[2]](lines)
print(f"{time.process_time() - begin:.4f}")
