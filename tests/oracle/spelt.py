"""Words of rooms that people write in several ways: who writes "hallway" beside "hall" said of no second room."""
import re

WAYS = {"bathroom": "bath room", "bedroom": "bed room", "bdrm": "bed room", "livingroom": "living room",
        "diningroom": "dining room", "hallway": "hall", "stairway": "stairs", "stairwell": "stairs",
        "kitch": "kitchen", "ne": "north east", "nw": "north west", "se": "south east", "sw": "south west",
        "northeast": "north east", "northwest": "north west", "southeast": "south east", "southwest": "south west",
        "first": "1st", "second": "2nd", "third": "3rd",
        "stair": "stairs", "closets": "closet", "entryway": "entry", "ii": "2",
        "cocina": "kitchen", "one": "1", "two": "2", "three": "3",
        "corridor": "hall", "primary": "master", "cellar": "basement", "segundo": "2nd", "dormitorio": "bed room",
        "piso": "floor", "entrance": "entry"}
MAY_BE = {"toilet": "bath room", "wc": "bath room", "lavatory": "bath room", "restroom": "bath room",
          "washroom": "bath room", "foyer": "entry", "vestibule": "entry"}  # added up as one, counted as two


def words(name, loosely=False):
    """"2nd bedroom" is bedroom 2, and the "2nd floor bedroom" is not."""
    apart = re.sub(r"\b([^\W\d]{2,})(?=\d)", r"\1 ", name)
    ways = {**MAY_BE, **WAYS} if loosely else WAYS
    said = " ".join(ways.get(word, word) for word in apart.split())
    return set(re.sub(r"\b([1-6])(st|nd|rd|th)\b(?! floor)", r"\1", said).split())
