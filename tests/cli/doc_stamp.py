"""Adds a document time stamp to a sealed paper, as another program would (ETSI EN 319
142-1, 5.4.3): an update with one more signature field, with nothing drawn, whose value is
an authority's token over all other bytes.

usage: doc_stamp.py IN.pdf OUT.pdf URL-OF-AUTHORITY [drawn|other|page]
  drawn  with a picture over the page; other  the token is of other bytes; page  a page
  is changed as well
"""
import hashlib
import re
import subprocess
import sys
import urllib.request

ROOM = 16384


def newest(pdf, number):
    """The object of that number, as text between obj and endobj."""
    found = list(re.finditer(rb"(?:^|[\r\n])%d 0 obj\s(.*?)\sendobj" % number, pdf, re.S))
    return found[-1].group(1)


def grown(text, key, number):
    """The dictionary with a reference more in the array of that key, which may be missing."""
    more = b"%d 0 R" % number
    if re.search(rb"/%s\s*\[" % key, text):
        return re.sub(rb"(/%s\s*\[[^\]]*)\]" % key, rb"\1 " + more + b"]", text, count=1)
    return text.rstrip()[:-2] + b"/" + key + b" [" + more + b"]\n>>"


def token_of(digest, url):
    query = subprocess.run(["openssl", "ts", "-query", "-digest", digest, "-sha256", "-cert"],
                           check=True, capture_output=True).stdout
    ask = urllib.request.Request(url + "good", query, {"Content-Type": "application/timestamp-query"})
    reply = urllib.request.urlopen(ask, timeout=20).read()
    return subprocess.run(["openssl", "ts", "-reply", "-in", "/dev/stdin", "-token_out"], input=reply,
                          check=True, capture_output=True).stdout


def main():
    pdf, how = open(sys.argv[1], "rb").read(), sys.argv[4] if len(sys.argv) > 4 else ""
    trailer = pdf[pdf.rindex(b"trailer"):]
    size = int(re.search(rb"/Size (\d+)", trailer).group(1))
    root = int(re.search(rb"/Root (\d+) 0 R", trailer).group(1))
    before = int(re.search(rb"startxref\s+(\d+)", trailer).group(1))
    identity = re.search(rb"/ID\s*\[.*?\]", trailer, re.S)
    info = re.search(rb"/Info \d+ 0 R", trailer)
    page = None
    for number in range(1, size):
        try:
            text = newest(pdf, number)
        except IndexError:
            continue
        if re.search(rb"/Type\s*/Page\b", text):
            page = number
            break
    field, value, look = size, size + 1, size + 2
    rect = b"[72 300 400 500]" if how == "drawn" else b"[0 0 0 0]"
    objects = {
        root: grown(newest(pdf, root), b"Fields", field),
        page: grown(newest(pdf, page), b"Annots", field),
        field: b"<< /Type /Annot /Subtype /Widget /FT /Sig /T (Time%d) /F 132 /Rect %s /P %d 0 R /V %d 0 R%s >>"
        % (size, rect, page, value, b" /AP << /N %d 0 R >>" % look if how == "drawn" else b""),
        value: b"<< /Type /DocTimeStamp /Filter /Adobe.PPKLite /SubFilter /ETSI.RFC3161 /ByteRange "
        b"[0 AAAAAAAAAA BBBBBBBBBB CCCCCCCCCC] /Contents <" + b"0" * (2 * ROOM) + b"> >>",
    }
    if how == "page":
        objects[page] = objects[page].rstrip()[:-2] + b"/Rotate 90\n>>"
    if how == "drawn":
        ops = b"0 0 0 rg 0 0 328 200 re f"
        objects[look] = (b"<< /Type /XObject /Subtype /Form /BBox [0 0 328 200] /Length %d >>\nstream\n%s\nendstream"
                         % (len(ops), ops))
    out, at = pdf if pdf.endswith(b"\n") else pdf + b"\n", {}
    for number, text in objects.items():
        at[number] = len(out)
        out += b"%d 0 obj\n%s\nendobj\n" % (number, text)
    table = len(out)
    out += b"xref\n"
    for number in sorted(at):
        out += b"%d 1\n%010d 00000 n \n" % (number, at[number])
    out += b"trailer\n<< /Size %d /Root %d 0 R /Prev %d %s %s >>\nstartxref\n%d\n%%%%EOF\n" % (
        max(at) + 1, root, before, info.group(0) if info else b"", identity.group(0) if identity else b"", table)
    gap = out.rindex(b"/Contents <") + len(b"/Contents ")
    end = gap + 2 * ROOM + 2
    for mark, number in ((b"A", gap), (b"B", end), (b"C", len(out) - end)):
        out = out.replace(mark * 10, b"%10d" % number)
    covered = out[:gap] + out[end:]
    digest = hashlib.sha256(covered + (b"x" if how == "other" else b"")).hexdigest()
    token = token_of(digest, sys.argv[3])
    open(sys.argv[2], "wb").write(out[:gap + 1] + token.hex().encode().ljust(2 * ROOM, b"0") + out[end - 1:])
    open(sys.argv[2] + ".token", "wb").write(token)
    open(sys.argv[2] + ".covered", "wb").write(covered)


main()
