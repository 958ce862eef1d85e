"""Updates under a further seal that the check finds nothing wrong with, drawn by readers that
are not ours: outside the rectangle of the seal the page must look as it did before.

usage: later_seen.py LATER_FILES SEED COUNT

Makes up COUNT updates out of the whole ones of seeds/later (SEED: the same ones every time),
hands them to the check, and has poppler, mupdf and Ghostscript draw what it accepts. Ends
with the number drawn; fails when a page differs or none was accepted.
"""
import os
import random
import re
import subprocess
import sys
import tempfile

HERE = os.path.dirname(os.path.abspath(__file__))
SCALE = 2  # pixels a point
TOKEN = re.compile(rb"/[^\s/<>\[\]()]*|<<|>>|\[|\]|\([^)]*\)|[^\s/<>\[\]()]+|\s+")
READERS = {
    "poppler": ["pdftoppm", "-r", str(72 * SCALE), "-singlefile", "{pdf}", "{out}"],
    "mupdf": ["mutool", "draw", "-q", "-r", str(72 * SCALE), "-o", "{out}.ppm", "{pdf}"],
    "Ghostscript": ["gs", "-q", "-dSAFER", "-dBATCH", "-dNOPAUSE", "-sDEVICE=ppmraw",
                    f"-r{72 * SCALE}", "-o", "{out}.ppm", "{pdf}"],
}
# What readers draw by, look for or follow (ISO 32000-1, 7.7 and 12.5), and what an update
# may try besides.
WORDS = rb"""/BS<</W 60>>
/Border[0 0 99]
/MK<</BG[1 0 0]/BC[0 1 0]>>
/AS/N
/AP<</N<</A 10 0 R>>>>
/Matrix[9 0 0 9 0 0]
/BBox[0 0 99 99]
/BBox[-99 -99 99 99]
/Rect[0 0 99 99]
/Re#63t[0 0 99 99]
/F 0
/F 4
/F 12
/F 20
/Popup 9 0 R
/OC<<>>
/UserUnit 9
/Rotate 90
/Group<<>>
/DA(0 Tr)
/V 8 0 R
/NeedAppearances true
/SigFlags 0
/XFA(x)
/DR<</XObject<</A 10 0 R>>>>
/Kids[9 0 R]
/Kids[10 0 R]
/Parent 9 0 R
/Annots[9 0 R]
/Contents 10 0 R
/MediaBox[0 0 9 9]
/CropBox[0 0 9 9]
/Resources<</XObject<</A 10 0 R>>>>
/AA<<>>
/A<<>>
/QuadPoints[0 0 99 0 0 99 99 99]
/RD[-50 -50 -50 -50]
/Type/Page
/Type/Catalog
/Subtype/Stamp
/Subtype/Widget
/FT/Tx
/FT/Sig
/OpenAction[3 0 R]
/Pages 2 0 R
/Info 10 0 R
/OCProperties<</D<</OFF[]>>>>
null
<<
>>
[
]
6 0 R
9 0 R
10 0 R
3 0 obj
endobj
stream
endstream""".split(b"\n") + [
    b"%x\n", b" ", b"\0",
    b"\n12 0 obj\n<</Type/Annot/Subtype/Square/Rect[0 0 99 99]/C[1 0 0]>>\nendobj\n",
    b"\n4 0 obj\n<</Length 0>>stream\n\nendstream\nendobj\n"]


# Rectangles, and boxes that drawings are cut at, with nothing in them or no sense.
BOXES = [b"0 0 20 20"] * 3 + rb"""0 0 0 0
50 50 50 50
0 0 20 0
0 0 0 20
0 0 .001 20
20 20 0 0
5 5 5.00000001 5.00000001
-99 -99 99 99
0 0 99 99
0 0 99999999 99999999
0 0 9""".split(b"\n")
# Readers fit the box, as its matrix has it, into the rectangle (ISO 32000-1, 12.5.5).
MATRICES = [b""] * 3 + [b"/Matrix[%s]" % numbers for numbers in rb"""0 0 0 0 0 0
1 1 1 1 0 0
.00001 0 0 .00001 0 0
99999 0 0 99999 0 0""".split(b"\n")]


def other_box(found):
    if found[1] == b"/Rect":
        return b"/Rect[%s]" % random.choice(BOXES)
    box = random.choice([b"", *(b"/BBox[%s]" % numbers for numbers in BOXES)])
    return box + random.choice(MATRICES)


def made_up(update):
    if random.random() < 0.5:
        update = re.sub(rb"(/Rect|/BBox)\[[^]]*\]", other_box, update)
        if random.random() < 0.5:
            return update
    parts = TOKEN.findall(update)
    for _ in range(random.choice((1, 1, 2, 2, 3, 4))):
        at, other, how = random.randrange(len(parts)), random.randrange(len(parts)), random.random()
        if how < 0.5:
            parts.insert(at, random.choice(WORDS))
        elif how < 0.65:
            del parts[at]
        elif how < 0.8:
            parts.insert(other, parts[at])
        elif how < 0.9:
            parts[at] = parts[other]
        else:
            parts[at], parts[other] = parts[other], parts[at]
    return b"".join(parts)


def draw(reader, folder, name):
    """Width, height and pixels; None when the reader gives none."""
    out = f"{folder}/{name}.{reader}"
    line = [part.format(pdf=f"{folder}/{name}.pdf", out=out) for part in READERS[reader]]
    subprocess.run(line, capture_output=True)
    try:
        with open(out + ".ppm", "rb") as file:
            picture = file.read()
        os.remove(out + ".ppm")
    except FileNotFoundError:
        return None
    head = re.match(rb"P6\s(?:#.*\s)?(\d+)\s(\d+)\s255\s", picture)
    return int(head[1]), int(head[2]), picture[head.end():]


def outside(picture, page, x, y, w, h):
    """The pixels, without those of the rectangle and one point around it."""
    width, height, pixels = picture
    rows = [pixels[i * width * 3:(i + 1) * width * 3] for i in range(height)]
    if page == 0:
        return rows
    left = max(0, min(width, int((x - 1) * SCALE))) * 3
    right = max(0, min(width, int((x + w + 1) * SCALE))) * 3
    top, bottom = height - int((y + h + 1) * SCALE), height - int((y - 1) * SCALE)
    return [row[:left] + row[right:] if top <= i < bottom else row for i, row in enumerate(rows)]


def main():
    random.seed(int(sys.argv[2]))
    seeds = [open(f"{HERE}/seeds/later/{name}", "rb").read() for name in ("seal", "split")]
    # They draw more than has room in their boxes.
    seeds = [seed.replace(b"0 0 20 20 re f ", b"-9 -9 99 99 re f") for seed in seeds]
    drawn = bad = 0
    with tempfile.TemporaryDirectory() as folder:
        updates = [f"{folder}/{i}" for i in range(int(sys.argv[3]))]
        for path in updates:
            with open(path, "wb") as file:
                file.write(made_up(random.choice(seeds)))
        done = subprocess.run([sys.argv[1], folder] + updates, capture_output=True, text=True,
                              check=True)
        accepted = [line.split() for line in done.stdout.splitlines()]
        for reader in READERS:
            before = draw(reader, folder, "base")
            assert before is not None, f"{reader} draws nothing"
            for name, page, *numbers in accepted:
                look = (int(page), *map(float, numbers))
                after = draw(reader, folder, name)
                drawn += after is not None
                if after and (after[:2] != before[:2] or
                              outside(after, *look) != outside(before, *look)):
                    bad += 1
                    print(f"{reader} shows another page:\n", open(updates[int(name) - 1], "rb").read())
    print(f"later: {len(updates)} updates, {len(accepted)} accepted, drawn {drawn} times, {bad} differ")
    return 1 if bad or not drawn else 0


sys.exit(main())
