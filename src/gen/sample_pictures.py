#!/usr/bin/env python3
"""Draws the invented pictures of sample-data: nothing in them was photographed.

    python3 src/gen/sample_pictures.py sample-data

kitchen-floor.png  a room seen from the door: window, sheeting, tape measure
bagged-waste.png   two closed bags on sheeting
owner-hand.png     a pen stroke, as somebody draws it on a screen
"""
import math
import struct
import sys
import zlib


class Picture:
    def __init__(self, w, h, paper):
        self.w, self.h = w, h
        self.rows = [[paper] * w for _ in range(h)]

    def dot(self, x, y, ink):
        if 0 <= x < self.w and 0 <= y < self.h:
            self.rows[y][x] = ink

    def box(self, x0, y0, x1, y1, ink):
        for y in range(int(y0), int(y1)):
            for x in range(int(x0), int(x1)):
                self.dot(x, y, ink)

    def shape(self, points, ink):
        """Fills a polygon, row by row."""
        for y in range(self.h):
            cuts = []
            for (x0, y0), (x1, y1) in zip(points, points[1:] + points[:1]):
                if (y0 <= y) != (y1 <= y):
                    cuts.append(x0 + (y - y0) * (x1 - x0) / (y1 - y0))
            cuts.sort()
            for left, right in zip(cuts[::2], cuts[1::2]):
                self.box(left, y, right, y + 1, ink)

    def stroke(self, points, wide, ink):
        for (x0, y0), (x1, y1) in zip(points, points[1:]):
            steps = int(max(abs(x1 - x0), abs(y1 - y0))) + 1
            for i in range(steps + 1):
                x, y = x0 + (x1 - x0) * i / steps, y0 + (y1 - y0) * i / steps
                self.box(x - wide / 2, y - wide / 2, x + wide / 2, y + wide / 2, ink)

    def save(self, path):
        raw = b"".join(b"\0" + bytes(v for ink in row for v in ink) for row in self.rows)

        def chunk(kind, data):
            body = kind + data
            return struct.pack(">I", len(data)) + body + struct.pack(">I", zlib.crc32(body))

        with open(path, "wb") as out:
            out.write(b"\x89PNG\r\n\x1a\n")
            out.write(chunk(b"IHDR", struct.pack(">IIBBBBB", self.w, self.h, 8, 2, 0, 0, 0)))
            out.write(chunk(b"IDAT", zlib.compress(raw, 9)))
            out.write(chunk(b"IEND", b""))


WALL, WOOD, SKY, FILM, TAPE, DARK = (
    (226, 221, 207), (171, 138, 96), (186, 211, 226), (205, 214, 220), (232, 190, 40), (50, 50, 50))


def kitchen_floor():
    pic = Picture(480, 320, WALL)
    pic.box(160, 30, 320, 170, WOOD)
    pic.box(172, 42, 308, 158, SKY)
    pic.box(172, 96, 308, 104, WOOD)
    pic.box(150, 168, 330, 178, WOOD)
    pic.shape([(0, 319), (70, 210), (410, 210), (479, 319)], FILM)
    for i in range(6):  # folds
        pic.stroke([(90 + i * 60, 212), (30 + i * 84, 318)], 1, (180, 190, 197))
    pic.stroke([(70, 210), (410, 210)], 6, TAPE)
    pic.stroke([(240, 214), (240, 316)], 5, TAPE)
    for i in range(14):
        pic.stroke([(240, 216 + i * 7), (248 if i % 2 else 254, 216 + i * 7)], 1, DARK)
    return pic


def bagged_waste():
    pic = Picture(400, 300, WALL)
    pic.box(0, 200, 400, 300, FILM)
    for x in (70, 220):
        pic.shape([(x, 250), (x + 10, 120), (x + 45, 90), (x + 65, 90), (x + 100, 120), (x + 110, 250)], DARK)
        pic.box(x + 42, 80, x + 68, 92, TAPE)
        pic.shape([(x + 44, 80), (x + 36, 58), (x + 74, 58), (x + 66, 80)], DARK)
    return pic


def owner_hand():
    pic = Picture(600, 180, (255, 255, 255))
    line = []
    for i in range(400):
        t = i / 399
        line.append((40 + 500 * t, 95 - 55 * math.sin(t * 34) * (1 - t) - 18 * math.sin(t * 9)))
    pic.stroke(line, 4, (20, 25, 60))
    pic.stroke([(60, 150), (300, 138), (520, 146)], 3, (20, 25, 60))
    return pic


def main():
    folder = sys.argv[1]
    kitchen_floor().save(folder + "/kitchen-floor.png")
    bagged_waste().save(folder + "/bagged-waste.png")
    owner_hand().save(folder + "/owner-hand.png")


main()
