"""Words of rooms that people write in several ways: who writes "hallway" beside "hall" said of no second room."""
import re

from facts import alike

WAYS = {"bathroom": "bath room", "bedroom": "bed room", "bdrm": "bed room", "livingroom": "living room",
        "diningroom": "dining room", "hallway": "hall", "stairway": "stairs", "stairwell": "stairs",
        "kitch": "kitchen", "ne": "north east", "nw": "north west", "se": "south east", "sw": "south west",
        "northeast": "north east", "northwest": "north west", "southeast": "south east", "southwest": "south west",
        "first": "1st", "second": "2nd", "third": "3rd",
        "stair": "stairs", "closets": "closet", "entryway": "entry", "ii": "2",
        "cocina": "kitchen", "dormitorio": "bed room", "bano": "bath room", "pasillo": "hall", "comedor": "dining room", "sala": "living room", "primer": "1st", "segundo": "2nd", "tercer": "3rd", "one": "1", "two": "2", "three": "3",
        "corridor": "hall", "primary": "master", "cellar": "basement", "piso": "floor", "entrance": "entry"}
MAY_BE = {"toilet": "bath room", "wc": "bath room", "lavatory": "bath room", "restroom": "bath room",
          "washroom": "bath room", "lav": "bath room", "aseo": "bath room", "foyer": "entry", "vestibule": "entry",
          "vestibulo": "entry", "zaguan": "entry"}  # added up as one, counted as two


SIDES = ({"north": "n", "norte": "n", "northern": "n", "south": "s", "sur": "s", "southern": "s", "east": "e", "este": "e",
          "eastern": "e", "west": "w", "oeste": "w", "western": "w", "ne": "ne", "nw": "nw", "se": "se", "sw": "sw",
          "northeast": "ne", "northwest": "nw", "southeast": "se", "southwest": "sw"},
         {"front": "f", "rear": "b", "back": "b", "left": "l", "right": "r"})
LETTERS = ("nsew", "abcd")
OF_A_SIDE = {"side", "elevation", "wall", "face", "lado", "fachada", "pared"}
ANY_SIDE = {"all", "every", "each", "both", "other", "rest", "whole", "around", "not", "but", "except", "todos", "todas"}


def of(name):
    """The words of a name, and not what stands between them."""
    from beside import words as plain  # which asks others that ask this
    return words(plain(name or ""))


def same(name, other):
    """No two rooms, however they are written."""
    return alike(name) == alike(other) or bool(of(name) and of(name) - {"room"} == of(other) - {"room"})


def within(name, whole):
    """A piece of the whole: all that tells that apart is said of it too; "room" and a number tell nothing."""
    tells = [w for w in of(whole) if w != "room" and not w[0].isdigit()]
    return alike(name) == alike(whole) or bool(tells and of(whole) - {"room"} <= of(name))


def side_alone(name):
    """"north": a window of that "room" may be in any room of that side."""
    return bool(of(name)) and of(name) <= set(SIDES[0]) | set(SIDES[1]) | OF_A_SIDE


def may_be(name, other):
    one, two = of(name), of(other)
    return side_alone(name) or side_alone(other) or bool(one and two and (one <= two or two <= one)) or same(name, other) or within(name, other) or within(other, name)


def sides(name):
    """By the compass, from the street, by letter: of each the sides that are named; none is not known."""
    from beside import words as plain
    said = plain(name or "").split()
    left = [w for w in said if w not in OF_A_SIDE] if len(said) < 3 else []
    if ANY_SIDE & set(said):
        return [set(), set(), set()]
    compass, street = ({side for w in said for side in known.get(w, "")} for known in SIDES)
    lone = left[0] if len(left) == 1 else ""
    compass |= {lone} if lone and lone in LETTERS[0] else set()
    return [compass, street, {lone} if lone and lone in LETTERS[1] else set()]


def may_be_one_side(side, place):
    """Not where both say on which side in one manner, and say another."""
    return alike(side) == alike(place) or all(not a or not b or a & b for a, b in zip(sides(side), sides(place)))


def words(name, loosely=False):
    """"2nd bedroom" is bedroom 2, and the "2nd floor bedroom" is not."""
    apart = re.sub(r"\b([^\W\d]{2,})(?=\d)", r"\1 ", name)
    ways = {**MAY_BE, **WAYS} if loosely else WAYS
    said = " ".join(ways.get(word, word) for word in apart.split())
    return set(re.sub(r"\b([1-6])(st|nd|rd|th)\b(?! floor)", r"\1", said).split())
