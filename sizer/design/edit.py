"""A design file under the builder's hands: cells are set by what is typed, and faults kept by cell.

The file is a dict as `DesignFile.model_dump()` gives it, in mm, in which a text that cannot stand
is an `Unread`; the value from before stands in for it, so that the rest can still be checked.
Nothing here changes a file that it is given; every change is a new one.
"""

import copy
from dataclasses import replace

from pydantic import ValidationError

from sizer.design.cells import (
    PAIR_ALLOWED,
    Unread,
    cells_under,
    kind_of,
    label_of,
    labels_of,
    read_cell,
    sound,
    value_at,
)
from sizer.design.check import EDGE_MM, faults_between
from sizer.design.read import design_from_file, plain_faults
from sizer.design.schema import DesignFile
from sizer.errors import Fault


def with_cells(file, texts, units):
    """The file with cells set from what was typed, {path: text}; a blank takes a point or a landing
    out.

    A text that cannot be read, or that the cell may not hold by itself, is kept as `Unread`.
    """
    values = {path: read_cell(file, path, text.strip(), units) for path, text in texts.items()}
    values |= _twice(file, values)
    edited = _with_values(file, values)
    refused = {
        path: Unread(texts[path].strip(), sound(value_at(file, path)), allowed)
        for path, allowed in _refused(edited).items() if path in texts}
    return _with_values(file, values | refused) if refused else edited


def cell_faults(file):
    """Every fault of a file as `in_cells` has it: what cannot stand, then what does not agree."""
    unread = dict(_unread(file, ()))
    found = [Fault(label_of(file, path), repr(one.text) if one.text else "blank", one.allowed,
                   (path,)) for path, one in unread.items()]
    whole = sound(file)
    try:
        faults = faults_between(DesignFile.model_validate(whole), "")
    except ValidationError as error:
        faults = plain_faults(error, whole, "")
    # What is said of a value that merely stands in would mislead.
    return [*found, *(one for one in in_cells(file, faults) if unread.keys().isdisjoint(one.at))]


def in_cells(file, faults):
    """Faults of a design with their places as cells, and told in the cells' words if there are any.

    A fault is about no cell where the file has too few or too many of a part.
    """
    found = []
    for fault in faults:
        cells = tuple(cell for path in fault.at for cell in cells_under(path))
        words = labels_of(file, cells[:2]) or fault.place.removeprefix(": ")
        found.append(replace(fault, place=words, at=cells))
    return found


def edited_design(file):
    """The BaseDesign of a file without an Unread; BadInput where parts do not agree."""
    return design_from_file(DesignFile.model_validate(file), file["name"])


def with_frame(file, index, frame):
    """The file with a frame, a dict in mm, put in at this place."""
    return file | {"frame": [*file["frame"][:index], frame, *file["frame"][index:]]}


def without_frame(file, index):
    """The file without one of its frames; a seat that stood on it has one name less."""
    gone = sound(file["frame"][index]["name"])
    edited = file | {"frame": [one for at, one in enumerate(file["frame"]) if at != index]}
    return edited | {"seat": _off(file["seat"], "frame", gone)}


def with_stringer(file, index, name):
    """The file, free of faults, with a stringer midway between this one and the next above it.

    It crosses every frame that both cross, and runs on to a stem where both land there; elsewhere
    it ends at the last such frame.
    """
    below, above = file["stringer"][index:index + 2]
    edited = copy.deepcopy(file)
    both = crossing_both(edited, index)
    for frame in both:
        points = frame["points_mm"]
        points[name] = _midway(points[below["name"]], points[above["name"]])
    at, ends = [frame["x_mm"] for frame in both], {}
    for key, stem, x_mm in (("start", "bow", at[0]), ("end", "stern", at[-1])):
        lands = edited[stem]["lands_mm"]
        on_stem = below["name"] in lands and above["name"] in lands
        if on_stem:
            lands[name] = _midway([lands[below["name"]]], [lands[above["name"]]])[0]
        ends[key] = "stem" if on_stem else {"x_mm": x_mm}
    role = "chine" if above["role"] in ("chine", "gunwale") else "deck"
    edited["stringer"].insert(index + 1, below | ends | {"name": name, "role": role})
    _tidy(edited)
    return edited


def crossing_both(file, index):
    """The frames that both this stringer and the next above it cross, a list."""
    names = {one["name"] for one in file["stringer"][index:index + 2]}
    return [frame for frame in file["frame"] if len(names & set(frame["points_mm"])) == 2]


def _midway(one, other):
    return [round(0.5 * (a + b), 1) for a, b in zip(one, other, strict=True)]


def without_stringer(file, index):
    """The file without a stringer; sticks that blended into it end freely where they did."""
    gone = sound(file["stringer"][index]["name"])
    edited = copy.deepcopy(file)
    del edited["stringer"][index]
    for frame in edited["frame"]:
        frame["points_mm"].pop(gone, None)
    for stem in ("bow", "stern"):
        edited[stem]["lands_mm"].pop(gone, None)
    edited["seat"] = _off(edited["seat"], "stringer", gone)
    for one, key, end in _ends(edited):
        if end.get("into") == gone:
            one[key] = {"x_mm": end["x_mm"]}
    return edited


def _with_values(file, values):
    """The file with values put in, and what follows from them; None takes a landing out."""
    edited = copy.deepcopy(file)
    for path, value in values.items():
        if path[2:3] == ("points_mm",):
            blank = Unread("", None, PAIR_ALLOWED)
            edited["frame"][path[1]]["points_mm"].setdefault(path[3], [blank, blank])
        part = value_at(edited, path[:-1])
        if value is None:
            part.pop(path[-1], None)
        else:
            part[path[-1]] = value
    changed = [(path, sound(value_at(file, path)), value) for path, value in values.items()
               if not isinstance(value, Unread)]
    renamed = {table: {was: value for path, was, value in changed
                       if path[0] == table and path[2] == "name"}
               for table in ("stringer", "frame")}
    _rename(edited, renamed["stringer"])
    if ("seat", "stands_on") not in values:
        edited["seat"] = _on_renamed(edited["seat"], renamed)
    _move_ends(edited, [(was, value) for path, was, value in changed
                        if path[0] == "frame" and path[2] == "x_mm"])
    _tidy(edited)
    return edited


def _twice(file, values):
    """{path: Unread} of the set names that another stringer or frame has too."""
    found = {}
    for table in ("frame", "stringer"):
        paths = [(table, at, "name") for at in range(len(file[table]))]
        names = [values.get(path, value_at(file, path)) for path in paths]
        found |= {path: Unread(name, sound(value_at(file, path)), "each name once")
                  for path, name in zip(paths, names, strict=True)
                  if path in values and names.count(name) > 1}
    return found


def _rename(file, renamed):
    """Gives stringers' points, landings and blends their new names, all at once."""
    for table in (*(frame["points_mm"] for frame in file["frame"]),
                  file["bow"]["lands_mm"], file["stern"]["lands_mm"]):
        items = [(renamed.get(name, name), value) for name, value in table.items()]
        table.clear()
        table.update(items)
    for one, key, end in _ends(file):
        if end.get("into") in renamed:
            one[key] = end | {"into": renamed[end["into"]]}


def _stood_on(seat):
    """The table of what a seat stands on: "stringer" or "frame"."""
    return "stringer" if sound(seat["kind"]) == "panel" else "frame"


def _on_renamed(seat, renamed):
    """The seat on sticks or frames by their new names."""
    if isinstance(seat["stands_on"], Unread):
        return seat
    names = renamed[_stood_on(seat)]
    return seat | {"stands_on": [names.get(name, name) for name in seat["stands_on"]]}


def _off(seat, table, gone):
    """The seat that stands on a stringer or frame no more."""
    if isinstance(seat["stands_on"], Unread) or _stood_on(seat) != table:
        return seat
    return seat | {"stands_on": [name for name in seat["stands_on"] if name != gone]}


def _move_ends(file, moved):
    """Lets sticks that end at a frame end there still; as `with_offsets` does."""
    for one, key, end in _ends(file):
        for was, x_mm in moved:
            if abs(end["x_mm"] - was) <= EDGE_MM:
                one[key] = end | {"x_mm": x_mm}


def _ends(file):
    """(stringer, key, end) of the ends that are tables: free ones and blends."""
    for one in file["stringer"]:
        for key in ("start", "end"):
            if isinstance(one[key], dict):
                yield one, key, one[key]


def _tidy(file):
    """Takes out points of two blanks; puts points and landings in the stringers' order."""
    names = [sound(one["name"]) for one in file["stringer"]]
    for frame in file["frame"]:
        points = frame["points_mm"]
        frame["points_mm"] = {
            name: points[name] for name in names
            if name in points and any(getattr(one, "text", "-") for one in points[name])}
    for stem in (file["bow"], file["stern"]):
        stem["lands_mm"] = {name: stem["lands_mm"][name] for name in names
                            if name in stem["lands_mm"]}


def _refused(file):
    """{path: what is allowed} of the cells that the file's own types and ranges refuse."""
    whole = sound(file)
    try:
        DesignFile.model_validate(whole)
    except ValidationError as error:
        units = {"length": ", in mm", "mass": ", in kg"}
        return {cell: fault.allowed + units.get(kind_of(cell), "")
                for fault in plain_faults(error, whole, "")
                for path in fault.at for cell in cells_under(path)}
    return {}


def _unread(part, path):
    if isinstance(part, Unread):
        yield path, part
    elif isinstance(part, (dict, list)):
        for key, value in part.items() if isinstance(part, dict) else enumerate(part):
            yield from _unread(value, (*path, key))
