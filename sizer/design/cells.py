"""One cell of a design file: its name in words, how its text is read, and how it is written.

A cell is a path into the file's tables, such as ("frame", 2, "points_mm", "chine", 0) for the
half-breadth of the chine at the third frame.
"""

import csv
import io
import math
import re
from dataclasses import dataclass
from typing import Literal, get_args, get_origin

from sizer.as_typed import parse_length_mm, parse_mass_kg, parse_offset_mm
from sizer.border import DECIMALS, border_fields, record_in
from sizer.design.records import BaseDesign
from sizer.errors import BadInput, Fault

CHOICES = {
    (table, key): get_args(kind)
    for _, table, part, _ in border_fields(BaseDesign) if record_in(part)
    for _, key, kind, _ in border_fields(record_in(part)) if get_origin(kind) is Literal}
AXES = ("half-breadth", "height")
LISTS = (("suits",), ("seat", "stands_on"))  # one cell each, names parted by commas
LACKS = ("lacks",)  # one cell, "use: what it lacks" parted by semicolons
PAIRS = {"limits": ("lowest", "highest"), "seat_slide_mm": ("forward", "aft"),
         "footbrace_reach_mm": ("nearest", "farthest")}
PAIR_ALLOWED = "half-breadth and height, or neither"
LENGTH_ALLOWED = "a length is needed"
NUMBER_ALLOWED = "a number such as 0.95"
LIST_ALLOWED = "names parted by commas; quote one that has a comma in it"
LACKS_ALLOWED = ("a use, a colon and what it lacks, parted by semicolons, such as "
                 "\"camp-touring: room for gear\"; each use once")
END_ALLOWED = ("stem, coaming, a place such as 1200, or \"chine at 1200\" to blend into the "
               "chine there")
_OFFSET_CELL = re.compile(r"\d+-\d+-\d+\+?", re.ASCII)
_INTO = re.compile(r"(?:into\s+)?(.+\S)\s+at\s+(\S.*)", re.IGNORECASE)


@dataclass(frozen=True)
class Units:
    """What a bare number typed into a cell means."""

    length: str = "mm"
    mass: str = "kg"


@dataclass(frozen=True)
class Unread:
    """A text that cannot stand in its cell, why, and the value from before (None: none)."""

    text: str
    was: object
    allowed: str


def kind_of(path):
    """How a cell is read: "length", "mass", "number", "choice", "end" or "text"."""
    key = path[2] if path[0] in ("frame", "stringer") else path[min(1, len(path) - 1)]
    if (path[0], key) in CHOICES:
        return "choice"
    if path[0] == "stringer" and key in ("start", "end"):
        return "end"
    if path in (*LISTS, LACKS) or key in ("name", "character", "use"):
        return "text"
    return {"_mm": "length", "_kg": "mass"}.get(key[-3:], "number")


def label_of(file, path):
    """A cell's name in words: "F3 gunwale half-breadth", "limits: beam lowest"."""
    table, *keys = path
    if table in ("frame", "stringer"):
        name = file[table][keys[0]]["name"]
        words = ([keys[2], AXES[keys[3]]] if keys[1] == "points_mm" else [_plain(keys[1])])
        return " ".join([getattr(name, "was", name), *words])
    if table in ("bow", "stern"):
        if keys[0] == "lands_mm":
            return f"{table}: landing of {keys[1]}"
        if keys[0] == "profile_mm":
            return f"{table}: profile point {keys[1] + 1} {'x' if keys[2] == 0 else 'height'}"
    if len(keys) == 2:
        ends = PAIRS.get(keys[0], PAIRS.get(table))
        return f"{_plain(table)}: {_plain(keys[0])} {ends[keys[1]]}"
    return ": ".join(_plain(key) for key in path)


def labels_of(file, paths):
    """One cell's or two cells' names, what both begin with told once."""
    first, *others = (label_of(file, path).split(" ") for path in paths) if paths else ([],)
    for other in others:
        same = next((at for at, (a, b) in enumerate(zip(first, other, strict=False)) if a != b), 0)
        first = [*first, "and", *other[same:]]
    return " ".join(first)


def cells_under(path):
    """The cells of a part of a file: both of a pair, one of a list of names, none of a table."""
    for whole in (*LISTS, LACKS):
        if path[:len(whole)] == whole:
            return (whole,)
    table, length = path[0], len(path)
    if path[1:] == ("profile_mm",):
        return ((*path, 0, 0),)
    if length == (2 if table == "limits" or path[-1] in PAIRS else
                  3 if path[1:2] == ("profile_mm",) else 4 if table == "frame" else 0):
        return (*path, 0), (*path, 1)
    least = {"name": 1, "character": 1, "frame": 3, "stringer": 3}.get(table, 2)
    tables = length == least and path[-1] in ("points_mm", "lands_mm")
    return () if length < least or tables else (path,)


def read_cell(file, path, text, units):
    """The value of a typed text, None for a landing taken out, or Unread; a bare number is in the
    Units.

    A text that may hold several names is read as a list, or for what is lacking as a dict.
    """
    was = sound(value_at(file, path))
    kind = kind_of(path)
    if kind == "length" and not text:
        if path[1] == "lands_mm":
            return None
        return Unread("", was, PAIR_ALLOWED if path[2:3] == ("points_mm",) else LENGTH_ALLOWED)
    try:
        if kind == "length":
            return _length_mm(text, units)
        if kind == "mass":
            return round(parse_mass_kg(text, units.mass, ""), DECIMALS)
        if kind == "end":
            return _end(file, text, units)
        if path in LISTS:
            return _parted(text, ",", LIST_ALLOWED)
        if path == LACKS:
            return _lacks(text)
    except BadInput as error:
        return Unread(text, was, error.faults[0].allowed)
    if kind == "number":
        return _number(text, was)
    return text


def cell_text(path, value, units, typed_text):
    """How a cell is written; `typed_text` writes a length in mm or a mass in kg in a unit."""
    if isinstance(value, Unread):
        return value.text
    if value is None:
        return ""
    if path in LISTS:
        return _joined(value, ",")
    if path == LACKS:
        return _joined([f"{use}: {what}" for use, what in value.items()], ";")
    kind = kind_of(path)
    if kind == "end" and isinstance(value, dict):
        place = typed_text(value["x_mm"], units.length)
        return f"{value['into']} at {place}" if "into" in value else place
    if kind in ("length", "mass"):
        return typed_text(value, getattr(units, kind))
    return f"{value:g}" if kind == "number" else value


def value_at(file, path):
    """What stands in a cell; None where the file has nothing."""
    for key in path:
        if isinstance(file, dict):
            file = file.get(key)
        else:
            file = file[key] if isinstance(file, list) and key < len(file) else None
    return file


def sound(part):
    """A part of a file with every Unread replaced by what was there before, or left out."""
    if isinstance(part, Unread):
        return part.was
    if isinstance(part, dict):
        kept = {key: sound(value) for key, value in part.items()}
        return {key: value for key, value in kept.items() if value is not None}
    if isinstance(part, list):
        kept = [sound(one) for one in part]
        return None if any(one is None for one in kept) else kept
    return part


def _plain(key):
    for ending in ("_mm", "_kg", "_gpm2"):
        key = key.removesuffix(ending)
    return key.replace("_z", " height").replace("_", " ")


def _length_mm(text, units):
    if _OFFSET_CELL.fullmatch(text):
        return round(parse_offset_mm(text, ""), DECIMALS)
    return round(parse_length_mm(text, units.length, ""), DECIMALS)


def _number(text, was):
    try:
        number = float(text.replace(",", "."))
    except ValueError:
        number = math.nan
    return number if math.isfinite(number) else Unread(text, was, NUMBER_ALLOWED)


def _parted(text, sign, allowed):
    """The parts of a text between signs, blank ones left out; a quoted part may hold the sign."""
    try:
        rows = list(csv.reader(io.StringIO(text, newline=""), delimiter=sign,
                               skipinitialspace=True, strict=True))
    except csv.Error as error:
        raise BadInput([Fault("", text, allowed)]) from error
    return [part.strip() for row in rows for part in row if part.strip()]


def _joined(parts, sign):
    """Parts as one text that `_parted` takes apart again."""
    return f"{sign} ".join(_quoted(part) if part[:1] == '"' or {sign, "\n", "\r"} & {*part}
                           else part for part in parts)


def _quoted(part):
    return '"' + part.replace('"', '""') + '"'


def _lacks(text):
    """{use: what it lacks} of a text such as "camp-touring: room for gear; rough-water: ..."."""
    parts = [part.partition(":") for part in _parted(text, ";", LACKS_ALLOWED)]
    found = {use.strip(): what.strip() for use, _, what in parts}
    if not all((*found, *found.values())) or len(found) < len(parts):
        raise BadInput([Fault("", text, LACKS_ALLOWED)])
    return found


def _end(file, text, units):
    """Where a stick ends: "stem", "coaming", "1200" or "chine at 1200"."""
    word, into = text.lower(), _INTO.fullmatch(text)
    if word in ("stem", "coaming"):
        return word
    if into is None and not re.match(r"-?[\d.,]", text):
        raise BadInput([Fault("", text, END_ALLOWED)])
    x_mm = _length_mm(into[2] if into else text, units)
    if into is None:
        return {"x_mm": x_mm}
    names = {one["name"].lower(): one["name"] for one in sound(file["stringer"])}
    return {"into": names.get(into[1].lower(), into[1]), "x_mm": x_mm}
