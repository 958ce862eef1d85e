"""The time stamp of a paper's first seal, found by reading the DER of RFC 5652 anew.

usage: token_of.py PAPER                     writes token.der and signature.bin
       token_of.py PAPER OTHER.pdf OUT.pdf   OUT is OTHER with the stamp of PAPER
"""
import re
import sys


def element(data, at):
    """Tag, where the content begins, where it ends."""
    n, begin = data[at + 1], at + 2
    if n & 0x80:
        begin += n & 0x7f
        n = int.from_bytes(data[at + 2:begin], "big")
    return data[at], begin, begin + n


def parts(data, begin, end):
    out = []
    while begin < end:
        _, _, stop = element(data, begin)
        out.append((begin, stop))
        begin = stop
    return out


def inside(data, at):
    _, begin, end = element(data, at)
    return parts(data, begin, end)


def der(tag, body):
    n = len(body)
    size = bytes([n]) if n < 128 else bytes([0x81, n]) if n < 256 else bytes([0x82, n >> 8, n & 255])
    return bytes([tag]) + size + body


def contents(pdf):
    found = re.search(rb"/Contents <([0-9a-f]+)>", pdf)
    return found.start(1), found.end(1), bytes.fromhex(found.group(1).decode())


def take_apart(cms):
    """The pieces of the SignedData, the pieces of the signer, the token."""
    signed = inside(cms, inside(cms, inside(cms, 0)[1][0])[0][0])
    signer = inside(cms, inside(cms, signed[-1][0])[0][0])
    assert cms[signer[-1][0]] == 0xa1, "no unsigned attributes"
    attribute = inside(cms, inside(cms, signer[-1][0])[0][0])
    token = inside(cms, attribute[1][0])[0]
    return signed, signer, cms[token[0]:token[1]]


def with_token(cms, token):
    signed, signer, _ = take_apart(cms)
    oid = cms[slice(*inside(cms, inside(cms, signer[-1][0])[0][0])[0])]
    attributes = der(0xa1, der(0x30, oid + der(0x31, token)))
    one = der(0x30, b"".join(cms[a:b] for a, b in signer[:-1]) + attributes)
    data = der(0x30, b"".join(cms[a:b] for a, b in signed[:-1]) + der(0x31, one))
    kind = cms[slice(*inside(cms, 0)[0])]
    return der(0x30, kind + der(0xa0, data))


def main():
    cms = contents(open(sys.argv[1], "rb").read())[2]
    _, signer, token = take_apart(cms)
    _, begin, end = element(cms, signer[-2][0])
    open("token.der", "wb").write(token)
    open("signature.bin", "wb").write(cms[begin:end])
    if len(sys.argv) > 2:
        other = open(sys.argv[2], "rb").read()
        at, stop, theirs = contents(other)
        new = with_token(theirs, token).hex().encode().ljust(stop - at, b"0")
        open(sys.argv[3], "wb").write(other[:at] + new + other[stop:])


main()
