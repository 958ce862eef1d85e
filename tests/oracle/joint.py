"""Composite samples of several rooms of made-up jobs: that pass, or fail and are taken anew."""
from wiped import again, capitals, fails, passes, wipe

MOST = 4


def groups(r, names):
    """So many places in one sample."""
    names, found = r.sample(names, len(names)), []
    while names:
        n = r.randrange(1, min(MOST, len(names)) + 1)
        found.append(names[:n])
        names = names[n:]
    return found


def place_of(r, names):
    return capitals(r, r.choice((" and ", " and ", ", ", " / ")).join(names))


def sample(d, r, area, surface, names, on, at):
    """One sample of several places; the day of the last."""
    for _ in range(r.choice((0, 0, 0, 1, 1, 2)) if d.floor[area["id"]] or surface != "floor" else 0):
        wipe(d, area, surface, place_of(r, names), on, at, **fails(r, surface, on, len(names)))
        on, at = again(d, r, area, surface, on)
        if r.random() < 0.5:
            one_by_one(d, r, area, surface, names, on, at)
            return on
    said = passes(r, surface, on, len(names))
    if r.random() < 0.1:  # fewer wipes than places
        said["wipes"] -= 1
    wipe(d, area, surface, place_of(r, names), on, at, **said)
    return on


def one_by_one(d, r, area, surface, names, on, at):
    """A wipe in each place; or one is left out, too early, or one wipe for all of them."""
    if r.random() < 0.15:
        wipe(d, area, surface, place_of(r, names), on, at, **passes(r, surface, on))
        return
    for name in names:
        how = r.random()
        if how > 0.07:
            wipe(d, area, surface, capitals(r, name), on, "09:50" if how < 0.12 else at, **passes(r, surface, on))
