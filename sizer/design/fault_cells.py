"""Where a fault sits: its place in words, as the reader tells it, back to cells of the file."""

import re
from itertools import pairwise

from sizer.design.cells import LACKS, LISTS

_BETWEEN_FRAMES = re.compile(r" at x = (-?\d+) mm$")
FLAT = ("drawn_for", "limits", "skin", "cockpit", "seat")


def cells_at(file, place, value):
    """The cells that a fault is about, as a tuple of paths; empty where it has none.

    Parameters
    ----------
    file : dict, a sound design file
    place : str, of the fault, without the file's name
    value : str, of the fault, which tells half-breadth from height
    """
    known = _places(file)
    found = max((one for one in known if _begins(place, one)), key=len, default=None)
    if found is None:
        return ()
    between = _BETWEEN_FRAMES.search(place)
    if found.startswith("stringer.") and between:
        return _beside(file, known[found][0][1], float(between[1]), value)
    if found.endswith(".profile_mm"):
        return tuple(_turning(file, *known[found][0][:2], value))
    return _narrowed(known[found], value)


def _begins(place, known):
    return place.startswith(known) and place[len(known):][:1] in ("", ".", " ")


def _narrowed(cells, value):
    """Of both cells of a point, or of a stringer, those that the fault's value names."""
    if "points_mm" in cells[0] and len(cells) == 2:
        axis = {"half-breadth": 0, "height": 1}.get(value.split(" ")[0])
        return cells if axis is None else (cells[axis],)
    if cells[0][-1] == "role" and len(cells) > 1:
        return cells[:1] if " after " in value else cells[1:]
    return cells


def _turning(file, stem, key, value):
    """The cells of a stem's profile that break its order, else where it begins."""
    axis = 1 if value.startswith("height") else 0
    sizes = [point[axis] for point in file[stem][key]]
    found = False
    for at, (before, after) in enumerate(pairwise(sizes), start=1):
        if (after <= before) if axis == 0 else (after > before if stem == "bow"
                                                else after < before):
            found = True
            yield stem, key, at, axis
    if not found:
        yield stem, key, 0, axis


def _beside(file, index, x_mm, value):
    """The points of a stringer at the frames on either side of a place."""
    name = file["stringer"][index]["name"]
    axis = 1 if " below " in value else 0
    crossing = [at for at, frame in enumerate(file["frame"]) if name in frame["points_mm"]]
    ahead = [at for at in crossing if file["frame"][at]["x_mm"] <= x_mm]
    behind = [at for at in crossing if file["frame"][at]["x_mm"] > x_mm]
    return tuple(("frame", at, "points_mm", name, axis) for at in (*ahead[-1:], *behind[:1]))


def _places(file):
    """{place in words: paths}, in all of the ways that the reader names a stringer or a frame."""
    names = [one["name"] for one in file["stringer"]]
    known = {"name": (("name",),), "character": (("character",),),
             "suits": (("suits",),), "lacks": (LACKS,),
             "cockpit": (("cockpit", "front_x_mm"), ("cockpit", "back_x_mm"))}
    for table in ("frame", "stringer"):
        for index, part in enumerate(file[table]):
            path = (table, index)
            own = (("name",) if table == "frame" else ("role", "start", "end"))
            for form in (part["name"], f"{index + 1} ({part['name']})", f"{index + 1}"):
                known[f"{table}.{form}"] = tuple((*path, key) for key in own)
                known |= dict(_part_places(path, part, f"{table}.{form}", names))
    for table in ("bow", "stern"):
        known |= dict(_part_places((table,), file[table], table, names))
    for table in FLAT:
        known |= dict(_part_places((table,), file[table], table, names))
    return known


def _part_places(path, part, place, names):
    """Places of a part's values, also of the points and landings that it does not have."""
    for key, value in part.items():
        if key == "points_mm":
            for name in names:
                yield from _value_places((*path, key, name), [0, 0], f"{place}.{key}.{name}")
        elif key == "lands_mm":
            for name in names:
                yield f"{place}.{key}.{name}", ((*path, key, name),)
        else:
            yield from _value_places((*path, key), value, f"{place}.{key}")


def _value_places(path, value, place):
    """The place of a value, and of each number where it is a list of them."""
    if path in LISTS or not isinstance(value, list):
        yield place, (path,)
        return
    cells = []
    for index, one in enumerate(value):
        for inner, paths in _value_places((*path, index), one, f"{place}.{index + 1}"):
            yield inner, paths
            cells += paths if len(paths) == 1 else ()
    yield place, tuple(cells)
