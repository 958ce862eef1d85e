"""Independent readers of what mistfold exports; each prints what a test compares.

usage: readers.py csv|jsonl|xlsx|ics FILE
"""
import csv
import json
import re
import sys
import zipfile
import xml.etree.ElementTree as ET

SHEET = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"


def read_csv(path):
    with open(path, newline="", encoding="utf-8") as file:
        rows = list(csv.reader(file, strict=True))
    assert len({len(row) for row in rows}) == 1, "rows of different length"
    print(len(rows) - 1, "rows", ",".join(rows[0]))


def read_jsonl(path):
    kinds = {}
    for line in open(path, encoding="utf-8"):
        kind = json.loads(line)["kind"]
        kinds[kind] = kinds.get(kind, 0) + 1
    print(" ".join(f"{kind}:{n}" for kind, n in sorted(kinds.items())))


def read_xlsx(path):
    book = zipfile.ZipFile(path)
    assert book.testzip() is None
    strings = ["".join(t.text or "" for t in item.iter(SHEET + "t"))
               for item in ET.fromstring(book.read("xl/sharedStrings.xml"))]
    sheets = ET.fromstring(book.read("xl/workbook.xml")).find(SHEET + "sheets")
    for number, sheet in enumerate(sheets, 1):
        rows = ET.fromstring(book.read(f"xl/worksheets/sheet{number}.xml")).iter(SHEET + "row")
        rows = [[strings[int(c.find(SHEET + "v").text)] if c.get("t") == "s"
                 else float(c.find(SHEET + "v").text)
                 for c in row.iter(SHEET + "c") if c.find(SHEET + "v") is not None]
                for row in rows]
        numbers = sum(isinstance(cell, float) for row in rows for cell in row)
        print(sheet.get("name"), len(rows) - 1, "rows", numbers, "numbers")


def read_ics(path):
    data = open(path, "rb").read()
    assert data.endswith(b"\r\n") and b"\n" not in data.replace(b"\r\n", b""), "line ends"
    assert all(len(line) <= 75 for line in data.split(b"\r\n")), "longer than 75 octets"
    lines = data.decode("utf-8").replace("\r\n ", "").split("\r\n")[:-1]
    assert lines[0] == "BEGIN:VCALENDAR" and lines[-1] == "END:VCALENDAR" and "VERSION:2.0" in lines
    event, uids = {}, set()
    for line in lines:
        name, value = re.fullmatch(r"([A-Z-]+)(?:;[^:]*)?:(.*)", line).groups()
        if line == "BEGIN:VEVENT":
            event = {}
        elif line == "END:VEVENT":
            assert {"UID", "DTSTAMP", "DTSTART", "SUMMARY"} <= set(event)
            assert re.fullmatch(r"\d{8}T\d{6}Z", event["DTSTAMP"])
            assert event["UID"] not in uids, "two events of one UID"
            uids.add(event["UID"])
            print(event["DTSTART"], event["DTEND"], event["UID"])
        event[name] = value


{"csv": read_csv, "jsonl": read_jsonl, "xlsx": read_xlsx, "ics": read_ics}[sys.argv[1]](sys.argv[2])
