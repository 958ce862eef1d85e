#!/usr/bin/env python3
"""Writes a PDF of one page that paints a white box over words and others in their place, for
qpdf --overlay.   paint.py OUT.pdf TEXT"""
import sys

drawn = f"1 g 60 600 490 110 re f 0 g BT /F 14 Tf 72 660 Td ({sys.argv[2]}) Tj ET".encode()
parts = [b"<</Type/Catalog/Pages 2 0 R>>",
         b"<</Type/Pages/Kids[3 0 R]/Count 1>>",
         b"<</Type/Page/Parent 2 0 R/MediaBox[0 0 612 792]/Contents 4 0 R"
         b"/Resources<</Font<</F<</Type/Font/Subtype/Type1/BaseFont/Helvetica>>>>>>>>",
         b"<</Length %d>>stream\n%s\nendstream" % (len(drawn), drawn)]
out, at = b"%PDF-1.7\n", []
for number, part in enumerate(parts, 1):
    at.append(len(out))
    out += b"%d 0 obj%s endobj\n" % (number, part)
table = len(out)
out += b"xref\n0 5\n0000000000 65535 f \n" + b"".join(b"%010d 00000 n \n" % n for n in at)
out += b"trailer<</Size 5/Root 1 0 R>>startxref\n%d\n%%%%EOF\n" % table
open(sys.argv[1], "wb").write(out)
