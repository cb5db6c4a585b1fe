"""The table of offsets of a base design as CSV, in mm or in feet-inches-eighths.

One row a frame: its name, x of its reference face, then half-breadth and height of the moulded
line of each stringer. A blank cell: the stringer does not cross that frame.
"""

import csv
import io
import re
from dataclasses import dataclass

from sizer.as_typed import parse_offset_mm
from sizer.design.allowed import FARTHEST_MM
from sizer.design.check import EDGE_MM
from sizer.design.read import design_from_file, plain_text
from sizer.design.records import MOULDED_POINT
from sizer.design.write import file_of
from sizer.errors import BadInput, Fault
from sizer.units import MM_PER_M, offset_text

NOTATIONS = ("mm", "feet")
MM_ALLOWED = f"a number of mm, -{FARTHEST_MM} to {FARTHEST_MM}, such as 387.5"
PARTS = ("half-breadth", "height")
_UNIT_WORDS = {"mm": "mm", "feet": "ft-in-8ths"}
_NOTES = {
    "mm": "# unit: mm",
    "feet": "# unit: ft-in-8ths (1-3-5 is 1 ft 3 5/8 in, + is 1/16 in more)",
}
_ABOUT = (f"# moulded lines, the inside of the skin (of each stringer {MOULDED_POINT}); x aft "
          "from the foremost point; half-breadth from the centre line; height above the baseline")
_UNIT_NOTE = re.compile(r"unit: *(mm|ft-in-8ths)")
_UNIT_ENDING = re.compile(r" (mm|ft-in-8ths)$")
_FEET_CELL = re.compile(r"\s*\d+-\d+-\d+\+?\s*", re.ASCII)


def offsets_csv(design, notation="mm"):
    """The table of offsets of a BaseDesign in "mm", to 0.01 mm, or "feet", feet-inches-eighths to
    the nearest sixteenth. BadInput for another notation, and in feet for a height below the
    baseline, which the notation cannot write."""
    if notation not in NOTATIONS:
        raise BadInput([Fault("notation", repr(notation), "write mm or feet")])
    out = io.StringIO()
    out.write(f"{_NOTES[notation]}\n{_ABOUT}\n")
    rows = csv.writer(out, lineterminator="\n")
    columns = _columns([one.name for one in design.stringers])
    rows.writerow([columns[0], *(f"{one} {_UNIT_WORDS[notation]}" for one in columns[1:])])
    for frame in design.frames:
        sizes = {f"{name} {part}": size for name, point in frame.points_m.items()
                 for part, size in zip(PARTS, point, strict=True)}
        sizes["x"] = frame.x_m
        rows.writerow([frame.name, *(
            _written(sizes[one], notation, _place(frame.name, one)) if one in sizes else ""
            for one in columns[1:])])
    return out.getvalue()


def with_offsets(design, text, source="offsets"):
    """The design with x and points of its frames taken from a table of offsets.

    Frames and stringers are matched by name; the table must hold each of them once. The unit is
    read from the unit line or the headings, else from the form of the cells. Commas, semicolons or
    tabs may part the cells; beside semicolons and tabs a decimal comma is understood. A stringer
    that starts or ends at a frame still does when that frame moves. Text, source and BadInput as in
    `sizer.design.read.read_design`, by row and column."""
    table = _table(plain_text(text, source, "a table of offsets"))
    file = file_of(design)
    cells, faults = _cells(file, table)
    sizes, unreadable = _sizes(cells, table)
    parts, incomplete = _frame_parts(file, cells, sizes)
    faults = [*faults, *unreadable, *incomplete]
    if faults:
        raise BadInput([Fault(f"{source}: {one.place}", one.value, one.allowed)
                        for one in faults])
    moved = {old.x_mm: new.x_mm for old, new in zip(file.frame, parts, strict=True)}
    stringers = [_moved(one, moved) for one in file.stringer]
    return design_from_file(
        file.model_copy(update={"frame": parts, "stringer": stringers}), source, design.assumed)


def _moved(stringer, moved):
    """The stringer with an end that lay at a frame moved with that frame."""
    ends = {}
    for key in ("start", "end"):
        end = getattr(stringer, key)
        x_mm = getattr(end, "x_mm", None)
        for old, new in moved.items():
            if x_mm is not None and abs(x_mm - old) <= EDGE_MM:
                ends[key] = end.model_copy(update={"x_mm": new})
    return stringer.model_copy(update=ends)


@dataclass(frozen=True)
class _Table:
    """The cells of a table as text, and how its numbers are written."""

    heading: tuple[str, ...]  # without units
    rows: tuple[tuple[str, ...], ...]
    notation: str
    decimal_comma: bool


def _table(text):
    """Parts the text into notes, heading and rows, and finds the notation."""
    lines = [line for line in text.splitlines() if line.strip(" ,;\t\"")]
    notes = " ".join(line for line in lines if line.lstrip(' "').startswith("#"))
    lines = [line for line in lines if not line.lstrip(' "').startswith("#")] or [""]
    sign = max(",;\t", key=lines[0].count)
    heading, *rows = (tuple(cell.strip() for cell in row)
                      for row in csv.reader(lines, delimiter=sign))
    unit = _UNIT_NOTE.search(notes) or _UNIT_ENDING.search(heading[-1])
    if unit:
        notation = "mm" if unit[1] == "mm" else "feet"
    else:
        in_feet = any(_FEET_CELL.fullmatch(cell) for row in rows for cell in row[1:])
        notation = "feet" if in_feet else "mm"
    return _Table(tuple(_UNIT_ENDING.sub("", one) for one in heading), tuple(rows), notation,
                  sign != ",")


def _cells(file, table):
    """{frame: {column: text}} of the known rows and columns, and what is amiss with them."""
    known = _columns([one.name for one in file.stringer])
    stringers = ", ".join(one.name for one in file.stringer)
    faults = [*_amiss("column", table.heading, known,
                      f"frame, x, or half-breadth or height of one of: {stringers}")]
    names = [row[0] for row in table.rows]
    frames = [one.name for one in file.frame]
    faults += _amiss("row", names, frames, f"one of {', '.join(frames)}")
    cells = {}
    for name, row in zip(names, table.rows, strict=True):
        if any(row[len(table.heading):]):
            faults.append(Fault(f"row {name}", f"{len(row)} cells",
                                f"at most {len(table.heading)}, one under each heading"))
        cells[name] = dict(zip(table.heading, row, strict=False))
    return cells, faults


def _amiss(kind, given, known, allowed):
    for name in dict.fromkeys(given):
        if name not in known:
            yield Fault(f"{kind} {name!r}", "not in the design", allowed)
        elif given.count(name) > 1:
            yield Fault(f"{kind} {name!r}", f"given {given.count(name)} times", "once")
    for name in known:
        if name not in given:
            yield Fault(f"{kind} {name!r}", "missing", "is needed, as the design has it")


def _columns(stringers):
    return ["frame", "x", *(f"{name} {part}" for name in stringers for part in PARTS)]


def _sizes(cells, table):
    """{(frame, column): mm} of the cells that are filled, and what cannot be read."""
    sizes, faults = {}, []
    for frame, row in cells.items():
        for column, text in list(row.items())[1:]:
            if text:
                try:
                    sizes[frame, column] = _size_mm(text, table, _place(frame, column))
                except BadInput as error:
                    faults += error.faults
    return sizes, faults


def _size_mm(text, table, place):
    if table.notation == "feet":
        return parse_offset_mm(text, place)
    try:
        size = float(text.replace(",", ".") if table.decimal_comma else text)
    except ValueError:
        size = float("nan")
    if not abs(size) <= FARTHEST_MM:
        raise BadInput([Fault(place, repr(text[:40]), MM_ALLOWED)])
    return size


def _frame_parts(file, cells, sizes):
    """The frames with the table's numbers, and what is blank that should not be."""
    parts, faults = [], []
    for frame in file.frame:
        row = cells.get(frame.name, {})
        blank = [column for column in row if not row[column]]
        if "x" in blank:
            faults.append(Fault(_place(frame.name, "x"), "blank", "the frame's x"))
        points = {}
        for one in file.stringer:
            pair = [f"{one.name} {part}" for part in PARTS]
            if sum(column in blank for column in pair) == 1:
                column = next(column for column in pair if column in blank)
                faults.append(Fault(_place(frame.name, column), "blank",
                                    "half-breadth and height, or neither"))
            if all((frame.name, column) in sizes for column in pair):
                points[one.name] = [sizes[frame.name, column] for column in pair]
        parts.append(frame.model_copy(update={
            "x_mm": sizes.get((frame.name, "x"), frame.x_mm), "points_mm": points}))
    return parts, faults


def _place(frame, column):
    return f"row {frame}, column {column}"


def _written(metres, notation, place):
    mm = metres * MM_PER_M
    return offset_text(mm, place) if notation == "feet" else f"{round(mm, 2) + 0.0:g}"
