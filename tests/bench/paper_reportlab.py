"""The same words drawn by Debian's python3-reportlab: seconds for `times` papers."""
import io
import sys
import time

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen import canvas

FONT = "/usr/share/fonts/truetype/liberation/LiberationSans-Regular.ttf"
words = [line.rstrip("\n").split("\t") for line in open(sys.argv[1], encoding="utf-8")]
times = int(sys.argv[2])
begin = time.perf_counter()
for _ in range(times):
    pdfmetrics.registerFont(TTFont("Sans", FONT))
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
print(f"{time.perf_counter() - begin:.4f}")
