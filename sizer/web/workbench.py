"""A builder's own design on the bench: the table as it stands, and the last good boat."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from itertools import count
from string import ascii_lowercase

from sizer.design import edit
from sizer.design.allowed import MOST_LETTERS
from sizer.design.cells import sound
from sizer.design.check import EDGE_MM
from sizer.design.grids import grid_with
from sizer.design.records import BaseDesign
from sizer.design.write import design_toml, file_of
from sizer.errors import BadInput, Fault
from sizer.hull.boat import Boat, scaled_boat
from sizer.hull.fairness import Unfairness, fairness
from sizer.hull.lines import fair_lines
from sizer.hull.scale import Scaling
from sizer.units import MM_PER_M
from sizer.web.own_table import OwnTable, file_json, json_file

COPY = ", own copy"


@dataclass(frozen=True, eq=False)
class Drawn:
    """A design without fault, as its boat."""

    design: BaseDesign
    boat: Boat
    unfair: tuple[Unfairness, ...]


@dataclass(frozen=True, eq=False)
class Sheet:
    """One state of the table: the file, its faults, and the last boat that had none."""

    file: dict  # as sizer.design.edit has it
    faults: tuple[Fault, ...]  # with the cells that each is about
    drawn: Drawn  # of this file where it has no faults, else of the last good one
    text: str  # the file that was opened, whose comments are kept
    frame: str | None = None  # name of the frame that was worked on


@dataclass
class Workbench:
    """The table in hand: `now()` is its Sheet, `put` takes the next one, which can be undone."""

    now: Callable[[], Sheet]
    put: Callable[[Sheet], None]
    grid: str = "frames"  # the table in view
    focus: tuple[int, tuple | None] = (0, None)  # how often asked, and the cell to go to
    seen: int = 0  # number of the last edit that came from the table
    file_faults: tuple[Fault, ...] = ()  # of a file that was not taken

    @property
    def sheet(self):
        return self.now()

    @property
    def good(self):
        """Whether the table as it stands is a design without fault."""
        return not self.sheet.faults

    def open(self, design, text):
        """Puts another design, of a file's text, on the bench."""
        self._push(sheet_with(design, text))

    def toml(self):
        """The last good design as a file, with the comments of the one that was opened."""
        return design_toml(self.sheet.drawn.design, self.sheet.text)

    def enter(self, texts, units):
        """Sets cells from what was typed, {path: text}."""
        frame = next((path[1] for path in texts if path[0] == "frame"), None)
        file = edit.with_cells(self.sheet.file, texts, units)
        name = None if frame is None else sound(file["frame"][frame]["name"])
        if file != self.sheet.file:
            self._edit(file, name)

    def add_frame(self, index):
        """Adds a frame on the fair lines, midway between this one and the next."""
        frame = _frame_between(self.sheet, index)
        self._edit(edit.with_frame(self.sheet.file, index + 1, frame), frame["name"])

    def remove_frame(self, index):
        self._edit(edit.without_frame(self.sheet.file, index))

    def can_add_stringer(self, index):
        """Whether this stringer and the next above it leave room to speak of between them."""
        return self.good and len(edit.crossing_both(self.sheet.file, index)) > 1

    def add_stringer(self, index):
        taken = {one["name"] for one in self.sheet.file["stringer"]}
        name = next(name for number in count(1) if (name := f"added {number}") not in taken)
        self._edit(edit.with_stringer(self.sheet.file, index, name))

    def remove_stringer(self, index):
        self._edit(edit.without_stringer(self.sheet.file, index))

    def show(self, grid):
        self.grid = grid

    def go_to(self, cell):
        """Shows the table with this cell, and the cell in hand."""
        self.grid, self.focus = grid_with(cell), (self.focus[0] + 1, cell)

    def _edit(self, file, frame=None):
        self._push(_sheet(file, self.sheet, frame))

    def _push(self, sheet):
        self.file_faults = ()
        self.put(sheet)


def sheet_with(design, text=""):
    """The Sheet of a design; `text` is of the file that it came from. Raises BadInput, where its
    curves cross."""
    return Sheet(file_of(design).model_dump(), (), drawn_of(design), text)


def table_of(sheet):
    good = "" if not sheet.faults else file_json(file_of(sheet.drawn.design).model_dump())
    return OwnTable(file=file_json(sheet.file), good=good, text=sheet.text, frame=sheet.frame)


def sheet_of(table):
    """The Sheet of an OwnTable; raises BadInput, where the last good one was none."""
    file = json_file(table.file)
    drawn = drawn_of(edit.edited_design(json_file(table.good) if table.good else file))
    good = Sheet(file, (), drawn, table.text, table.frame)
    return _sheet(file, good, table.frame) if table.good else good


def copied(design, what=COPY):
    """The design under a name of its own, which ends in `what` it is."""
    name = design.name.removesuffix(what)[:MOST_LETTERS - len(what)]
    return replace(design, name=name + what)


def drawn_of(design):
    """A design as its boat, with its fairness; raises BadInput, where its curves cross."""
    boat = scaled_boat(fair_lines(design), Scaling())
    return Drawn(design, boat, fairness(boat))


def _sheet(file, before, frame):
    """The sheet of a file, by hand from the one before it."""
    faults = edit.cell_faults(file)
    if not faults:
        try:
            return Sheet(file, (), drawn_of(edit.edited_design(file)), before.text, frame)
        except BadInput as error:
            faults = edit.in_cells(file, error.faults)
    return Sheet(file, tuple(faults), before.drawn, before.text, frame)


def _frame_between(sheet, index):
    """A frame like the one before it, a dict in mm, where the fair lines are midway to the next."""
    before, after = sheet.file["frame"][index:index + 2]
    x_m = 0.5 * (before["x_mm"] + after["x_mm"]) / MM_PER_M
    edge = EDGE_MM / MM_PER_M
    points = {line.stringer.name: [round(float(size) * MM_PER_M, 1) for size in line.curve(x_m)]
              for line in sheet.drawn.boat.lines.lines
              if line.start_x_m + edge < x_m < line.end_x_m - edge}
    taken = {one["name"] for one in sheet.file["frame"]}
    name = next(name for name in (f"{before['name']}{letter}" for letter in ascii_lowercase)
                if name not in taken)
    return before | {"name": name, "x_mm": round(x_m * MM_PER_M, 1), "points_mm": points}
