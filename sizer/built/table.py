"""The table of a dry fit as it is typed at the bench, read with every fault at once.

Columns `side`, `frame`, `stringer`, `half_breadth_mm`, `height_mm`; for a diagonal `diagonal_mm`,
`to_side`, `to_frame`, `to_stringer`; `length_mm` (over all) and `mark_mm` (of a frame, from the
strongback's forward end). Any cell may be blank. Cells take what
`sizer.units` reads, such as 387.5, 15 1/4 in; the bare number is in the unit given.
"""

import csv
import io
from dataclasses import dataclass

from sizer.border import unknown_keys
from sizer.built.measures import BOTH, Reach
from sizer.errors import BadInput, Fault
from sizer.shop.stations import BASELINE_OVER_STRONGBACK_M
from sizer.spreadsheet import BYTE_ORDER_MARK
from sizer.units import MM_PER_M, parse_length_mm

COLUMNS = ("side", "frame", "stringer", "half_breadth_mm", "height_mm", "diagonal_mm", "to_side",
           "to_frame", "to_stringer", "length_mm", "mark_mm")
SIDE_WORDS = ("starboard", "port", BOTH)
DATUMS = {"strongback": BASELINE_OVER_STRONGBACK_M, "baseline": 0.0}
MOST_ROWS = 2000
EXAMPLE = "side,frame,stringer,half_breadth_mm,height_mm and a row such as port,F4,gunwale,251,"


@dataclass(frozen=True)
class Measured:
    """All that was read off the tape."""

    reaches: tuple[Reach, ...]
    length_m: float | None = None
    marks_m: tuple[tuple[str, float], ...] = ()  # frame, from the strongback's forward end

    @property
    def count(self):
        """How many measures were taken."""
        return len(self.reaches) + len(self.marks_m) + (self.length_m is not None)


def read_measured(text, unit="mm", heights_from="strongback"):
    """The Measured of a CSV text; lines behind # are left out.

    A bare number is in the unit, "mm", "cm" or "in", heights from one of DATUMS.

    Raises
    ------
    BadInput with every fault; places name the row and column.
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
        raise BadInput(faults)
    table.fieldnames = heads
    reaches, lengths, marks = [], [], []
    for number, row in enumerate(table, start=1):
        if None in row:
            faults.append(Fault(f"row {number}", "more cells than columns", "one cell a column"))
            continue
        try:
            cells = _cells({key: (value or "").strip() for key, value in row.items()}, unit,
                           f"row {number}")
            reaches += _reaches(cells, DATUMS[heights_from], f"row {number}")
            lengths += [cells["length_mm"]] if "length_mm" in cells else []
            marks += [(cells["frame"], cells["mark_mm"])] if "mark_mm" in cells else []
        except BadInput as error:
            faults += error.faults
    if len(set(lengths)) > 1:
        faults.append(Fault("length_mm", f"{len(lengths)} of them", "one overall length"))
    if faults:
        raise BadInput(faults)
    return Measured(tuple(reaches), lengths[0] if lengths else None, tuple(marks))


def measured_text(measured):
    """The CSV text that `read_measured` reads back, in mm and with heights from the baseline."""
    rows = []
    for one in measured.reaches:
        row = {"side": one.side, "frame": one.frame, "stringer": one.stringer,
               f"{one.what}_mm": repr(one.value_m * MM_PER_M)}
        if one.to is not None:
            row |= dict(zip(("to_side", "to_frame", "to_stringer"), one.to, strict=True))
        rows.append(row)
    rows += [{"frame": frame, "mark_mm": repr(mark * MM_PER_M)} for frame, mark in measured.marks_m]
    if measured.length_m is not None:
        rows.append({"length_mm": repr(measured.length_m * MM_PER_M)})
    stream = io.StringIO()
    table = csv.DictWriter(stream, COLUMNS, lineterminator="\n")
    table.writeheader()
    table.writerows(rows)
    return stream.getvalue()


def _cells(row, unit, place):
    """The filled cells, lengths in m."""
    return {key: parse_length_mm(cell, unit, f"{place}, {key}") / MM_PER_M
            if key.endswith("_mm") else cell for key, cell in row.items() if cell}


def _reaches(cells, datum_m, place):
    values = {"half_breadth": cells.get("half_breadth_mm"), "height": cells.get("height_mm"),
              "diagonal": cells.get("diagonal_mm")}
    values = {what: value for what, value in values.items() if value is not None}
    if not values:
        return []
    side, frame, stringer = (cells.get(key, "") for key in COLUMNS[:3])
    to = tuple(cells.get(f"to_{key}", "") for key in COLUMNS[:3])
    faults = [Fault(f"{place}, side", repr(one), "starboard, port or both") for one in
              (side, *([to[0]] if "diagonal" in values else [])) if one not in SIDE_WORDS]
    if "diagonal" in values and BOTH in (side, to[0]):
        faults.append(Fault(f"{place}, side", "both", "a diagonal has one side at each end"))
    faults += [Fault(f"{place}, {what}_mm", f"{value * MM_PER_M:g}", "not below zero")
               for what, value in values.items() if value < 0.0]
    if faults:
        raise BadInput(faults)
    return [Reach(what, value - (datum_m if what == "height" else 0.0), side, frame, stringer,
                  to if what == "diagonal" else None, f"{place}, {what}_mm")
            for what, value in values.items()]
