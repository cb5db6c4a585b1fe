"""A design file as tables to edit: frames, stringers, and the rest; every entry is a cell's path.

A row begins with what it is: a name to edit, or words.
"""

from dataclasses import dataclass

from sizer.border import border_fields
from sizer.design.cells import AXES, CHOICES, LACKS, LISTS, label_of, labels_of, sound
from sizer.design.records import Frame, Stringer

GRIDS = {"frames": "Frames", "stringers": "Stringers", "rest": "Cockpit, stems and limits"}


@dataclass(frozen=True)
class Entry:
    """One place of a table: a cell of the file, or words where `path` is None."""

    path: tuple | None
    words: str  # the cell's name, or what stands there
    choices: tuple[str, ...] = ()


@dataclass(frozen=True)
class Grid:
    """A table to edit: two lines of headings, then rows of entries."""

    headings: tuple[tuple[str, str], ...]
    rows: tuple[tuple[Entry, ...], ...]


def grid_of(file, name):
    """The table of a file, by its key in GRIDS."""
    return {"frames": _frames, "stringers": _stringers, "rest": _rest}[name](file)


def grid_with(path):
    """The key of the table that holds a cell."""
    return {"frame": "frames", "stringer": "stringers"}.get(path[0], "rest")


def _frames(file):
    names = [sound(one["name"]) for one in file["stringer"]]
    plain = [key for _, key, _, _ in border_fields(Frame) if key != "points_mm"]
    headings = (("frame", ""),
                *(("", key.removesuffix("_mm").replace("ness", "")) for key in plain[1:]),
                *((name, axis) for name in names for axis in ("out", "up")))
    keys = [*((key,) for key in plain),
            *(("points_mm", name, axis) for name in names for axis in range(len(AXES)))]
    return Grid(headings, tuple(
        tuple(_entry(file, ("frame", index, *key)) for key in keys)
        for index in range(len(file["frame"]))))


def _stringers(file):
    keys = tuple(key for _, key, _, _ in border_fields(Stringer))
    headings = (("stringer", ""), *(("", key.removesuffix("_mm")) for key in keys[1:]))
    return Grid(headings, tuple(
        tuple(_entry(file, ("stringer", index, key)) for key in keys)
        for index in range(len(file["stringer"]))))


def _rest(file):
    rows = [(("name",),), (("character",),), (("suits",),), (LACKS,)]
    for table in ("cockpit", "seat", "bow", "stern", "limits", "drawn_for", "skin"):
        for key, value in file[table].items():
            path = (table, key)
            if key == "profile_mm":
                rows += [((*path, at, 0), (*path, at, 1)) for at in range(len(value))]
            elif key == "lands_mm":
                rows += [((*path, name),) for name in _landing(file, table)]
            else:
                pair = isinstance(value, list) and path not in LISTS
                rows.append(((*path, 0), (*path, 1)) if pair else (path,))
    return Grid((("of the boat", ""), ("", "value"), ("", "and")), tuple(
        (Entry(None, labels_of(file, paths)),
         *(_entry(file, path) for path in paths), *[Entry(None, "")] * (2 - len(paths)))
        for paths in rows))


def _landing(file, stem):
    """Names of the stringers that land on a stem, or should."""
    key = "start" if stem == "bow" else "end"
    names = [(sound(one["name"]), one[key]) for one in file["stringer"]]
    return [name for name, end in names if end == "stem" or name in file[stem]["lands_mm"]]


def _entry(file, path):
    key = path[2] if path[0] in ("frame", "stringer") else path[-1]
    return Entry(path, label_of(file, path), CHOICES.get((path[0], key), ()))
