"""Words of rooms that people write in several ways: who writes "hallway" beside "hall" said of no second room."""
import re

WAYS = {"bathroom": "bath room", "bedroom": "bed room", "bdrm": "bed room", "livingroom": "living room",
        "diningroom": "dining room", "hallway": "hall", "stairway": "stairs", "stairwell": "stairs",
        "kitch": "kitchen", "ne": "north east", "nw": "north west", "se": "south east", "sw": "south west",
        "northeast": "north east", "northwest": "north west", "southeast": "south east", "southwest": "south west",
        "first": "1st", "second": "2nd", "third": "3rd",
        "stair": "stairs", "closets": "closet", "entryway": "entry", "one": "1", "two": "2", "three": "3"}


def words(name):
    apart = re.sub(r"\b([^\W\d]{2,})(?=\d)", r"\1 ", name)
    return {w for word in apart.split() for w in WAYS.get(word, word).split()}
