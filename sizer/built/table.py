"""The table of a dry fit as it is typed at the bench, read with every fault at once.

Columns `side`, `frame`, `stringer`, `half_breadth_mm`, `height_mm`; for a diagonal `diagonal_mm`,
`to_side`, `to_frame`, `to_stringer`; `length_mm` (over all) and `mark_mm` (of a frame, from the
strongback's forward end). Any cell may be blank. Cells take what
`sizer.units` reads, such as 387.5, 15 1/4 in; the bare number is in the unit given.
"""

import csv
import io
from dataclasses import dataclass
from functools import partial

import numpy as np

from sizer.as_typed import parse_length_mm
from sizer.border import unknown_keys
from sizer.built.measures import AXES, BOTH, Reach
from sizer.errors import BadInput, Fault, caught
from sizer.shop.stations import BASELINE_OVER_STRONGBACK_M
from sizer.spreadsheet import BYTE_ORDER_MARK
from sizer.units import MM_PER_M

COLUMNS = ("side", "frame", "stringer", "half_breadth_mm", "height_mm", "diagonal_mm", "to_side",
           "to_frame", "to_stringer", "length_mm", "mark_mm")
SIDE_WORDS = ("starboard", "port", BOTH)
DATUMS = {"strongback": BASELINE_OVER_STRONGBACK_M, "baseline": 0.0}
MOST_ROWS = 2000
EXAMPLE = "side,frame,stringer,half_breadth_mm,height_mm and a row such as port,F4,gunwale,251,"


@dataclass(frozen=True)
class Measured:
    reaches: tuple[Reach, ...]
    length_m: float | None = None
    marks_m: tuple[tuple[str, float], ...] = ()  # frame, from the strongback's forward end

    @property
    def count(self):
        return len(self.reaches) + len(self.marks_m) + (self.length_m is not None)


def read_measured(text, unit="mm", heights_from="strongback"):
    """The Measured of a CSV text, as `readable`; raises BadInput with every fault."""
    measured, faults = readable(text, unit, heights_from)
    if faults:
        raise BadInput(faults)
    return measured


def readable(text, unit="mm", heights_from="strongback"):
    """(Measured of all that can be read of a CSV text, every Fault of the rest); lines behind # are
    left out.

    A bare number is in the unit, "mm", "cm" or "in", heights from one of DATUMS: over the baseline
    a keel that stands low has one below zero. The places of faults name the row and column.
    """
    lines = [line for line in text.removeprefix(BYTE_ORDER_MARK).splitlines()
             if line.strip() and not line.lstrip().startswith(("#", '"#'))]
    table = csv.DictReader(io.StringIO("\n".join(lines)), skipinitialspace=True)
    heads = [str(one).strip() for one in table.fieldnames or ()]
    missing = [one for one in COLUMNS[:3] if one not in heads]
    faults = unknown_keys(heads, COLUMNS, "column ")
    if missing:
        faults.append(Fault("columns", f"no {', '.join(missing)}", f"the heading {EXAMPLE}"))
    if len(lines) > MOST_ROWS:
        faults.append(Fault("rows", str(len(lines)), f"at most {MOST_ROWS}"))
    if faults:
        return Measured(()), faults
    table.fieldnames = heads
    reaches, lengths, marks = [], [], []
    for number, row in enumerate(table, start=1):
        place = f"row {number}"
        if None in row:
            faults.append(Fault(place, "more cells than columns", "one cell a column"))
            continue
        cells = _cells({key: (value or "").strip() for key, value in row.items()}, unit, place,
                       faults)
        reaches += _reaches(cells, DATUMS[heights_from], place, faults)
        lengths += _there(cells, "length_mm")
        marks += [(cells.get("frame", ""), mark) for mark in _there(cells, "mark_mm")]
    if len(set(lengths)) > 1:
        faults.append(Fault("length_mm", f"{len(lengths)} of them", "one overall length"))
    return Measured(tuple(reaches), lengths[0] if lengths else None, tuple(marks)), faults


def measured_text(measured):
    """The CSV text that `read_measured` reads back, in mm and with heights from the baseline."""
    rows = []
    for one in measured.reaches:
        row = {"side": one.side, "frame": one.frame, "stringer": one.stringer,
               f"{one.what}_mm": _cell(one.value_m)}
        if one.to is not None:
            row |= dict(zip(("to_side", "to_frame", "to_stringer"), one.to, strict=True))
        rows.append(row)
    rows += [{"frame": frame, "mark_mm": _cell(mark)} for frame, mark in measured.marks_m]
    if measured.length_m is not None:
        rows.append({"length_mm": _cell(measured.length_m)})
    stream = io.StringIO()
    table = csv.DictWriter(stream, COLUMNS, lineterminator="\n")
    table.writeheader()
    table.writerows(rows)
    return stream.getvalue()


def _cell(value_m):
    """A length in mm as `parse_length_mm` reads it: never with an exponent."""
    return np.format_float_positional(value_m * MM_PER_M, precision=12, trim="0")


def _cells(row, unit, place, faults):
    """The filled cells, lengths in m, None where one cannot be read; adds the faults of those."""
    cells = {key: cell for key, cell in row.items() if cell}
    for key in [key for key in cells if key.endswith("_mm")]:
        mm = caught(partial(parse_length_mm, cells[key], unit, f"{place}, {key}"), faults)
        cells[key] = None if mm is None else mm / MM_PER_M
    return cells


def _there(cells, key):
    """A list of the length of a cell; empty where it is blank or cannot be read."""
    return [cells[key]] if cells.get(key) is not None else []


def _reaches(cells, datum_m, place, faults):
    """The Reaches of a row's cells, none where one of them is at fault; adds its faults."""
    filled = [what for what in AXES if f"{what}_mm" in cells]
    if not filled:
        return []
    values = {what: value for what in filled for value in _there(cells, f"{what}_mm")}
    side, frame, stringer = (cells.get(key, "") for key in COLUMNS[:3])
    to = tuple(cells.get(f"to_{key}", "") for key in COLUMNS[:3])
    found = [Fault(f"{place}, side", repr(one), "starboard, port or both") for one in
             (side, *([to[0]] if "diagonal" in filled else [])) if one not in SIDE_WORDS]
    if "diagonal" in filled and BOTH in (side, to[0]):
        found.append(Fault(f"{place}, side", "both", "a diagonal has one side at each end"))
    found += [Fault(f"{place}, {what}_mm", f"{value * MM_PER_M:g}", "not below zero")
              for what, value in values.items()
              if value < 0.0 and not (what == "height" and datum_m == DATUMS["baseline"])]
    faults += found
    if found:
        return []
    return [Reach(what, value - (datum_m if what == "height" else 0.0), side, frame, stringer,
                  to if what == "diagonal" else None, f"{place}, {what}_mm")
            for what, value in values.items()]
