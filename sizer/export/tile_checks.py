"""Check lengths over the joints of a piece on tiles, from lettered cross to lettered cross: to be
measured once its pages are taped.

Two run from corner to corner of the joined pages: a page that is laid askew, too near or too far
changes one of them or both, and so does a printer that stretches the paper.
"""

from dataclasses import dataclass, replace
from math import dist

import numpy as np
import shapely

from sizer.drawing.marks import box, line
from sizer.drawing.measured import label
from sizer.drawing.true_size import JOINED_WITHIN
from sizer.export.lengths import marked
from sizer.export.tile_words import INSET_MM, mark_rooms, pieces_of, words_of
from sizer.units import MM_PER_M

CHECKED = (
    "Pieces of several tiles have lettered crosses in squares. Once taped, measure from A to B and "
    f"from C to D: each {JOINED_WITHIN} of what stands there. Where not, lay the joints again; "
    "where that mends nothing, the paper is not at true size: draw round none of it.")
NAMES = "ABCD"
LINES = ("cut", "mark", "drill", "guide", "stick", "extension", "centre")
REACH_MM = 3.0  # half a cross and half the square round it; our drawing
CLEAR_MM = 5.0  # from a cross's middle to any line; our drawing
STEP_MM = 4.0  # of places tried
LETTERS_MM = 3.0  # of its words; our drawing
ASIDE_MM = 2.0  # of its words; our drawing


@dataclass(frozen=True)
class CheckLength:
    """A length in whole mm between two crosses on different pages."""

    names: str  # of its crosses, two letters
    ends_mm: tuple[tuple[float, float], tuple[float, float]]

    @property
    def length_mm(self):
        """From cross to cross."""
        return round(dist(*self.ends_mm))

    @property
    def says(self):
        """Both its crosses and how long it is."""
        return f"{self.names[0]} to {self.names[1]} {marked(self.length_mm / MM_PER_M)}"


def check_lengths(drawing, tiles):
    """The CheckLengths of a Drawing on its Tiling, two; none where one page holds it."""
    if len(tiles.tiles) < 2:
        return ()
    spots, page = _free_spots(drawing, tiles)
    low, high = spots.min(axis=0), spots.max(axis=0)
    across, up = ((spots - low) / (high - low)).T
    found = []
    for names, along in ((NAMES[:2], across - up), (NAMES[2:], across + up)):
        start = int(np.argmin(along))
        there = np.where(page == page[start], -np.inf, along)
        found.append(_whole_mm(names, spots[start], spots[int(np.argmax(there))]))
    return tuple(found)


def with_checks(drawing, lengths):
    """The Drawing with the crosses of its CheckLengths and what each tells."""
    return replace(drawing, strokes=(*drawing.strokes, *(
        stroke for one in lengths for stroke in _strokes(one))))


def checks_text(lengths):
    """What to measure of one piece, a line; none of a piece on one page."""
    return [f"Taped: {', '.join(one.says for one in lengths)}."] if lengths else []


def _free_spots(drawing, tiles):
    """Middles of crosses clear of lines and words, each on one page alone, (n, 2), and the row of
    that page, (n,)."""
    boxes = np.array([tile.box_mm(tiles.window_mm) for tile in tiles.tiles])
    low, high = boxes[:, :2].min(axis=0), boxes[:, 2:].max(axis=0)
    spots = np.stack(np.meshgrid(*(np.arange(start, end, STEP_MM) for start, end in zip(
        low, high, strict=True))), axis=-1).reshape(-1, 2)

    def on(room_mm):
        return ((spots[:, None] > boxes[:, :2] + room_mm)
                & (spots[:, None] < boxes[:, 2:] - room_mm)).all(axis=-1)

    room = REACH_MM + INSET_MM
    whole = on(room)
    free = whole.any(axis=1) & (on(-room).sum(axis=1) == 1)
    taken = shapely.STRtree([*pieces_of(drawing, LINES), *words_of(drawing), *mark_rooms(tiles)])
    near, _ = taken.query(shapely.points(spots[free] / MM_PER_M), "dwithin", CLEAR_MM / MM_PER_M)
    free[np.flatnonzero(free)[near]] = False
    return spots[free], whole[free].argmax(axis=1)


def _whole_mm(names, start, end):
    """The CheckLength from one spot towards another, the end moved by less than a millimetre."""
    whole = np.floor(dist(start, end))
    end = start + (end - start) * whole / dist(start, end)
    return CheckLength(names, (tuple(start.tolist()), tuple(end.tolist())))


def _strokes(one):
    reach = REACH_MM / MM_PER_M
    for (name, other), end_mm in zip((one.names, one.names[::-1]), one.ends_mm, strict=True):
        x, y = np.array(end_mm) / MM_PER_M
        yield line("dimension", (x - reach, y), (x + reach, y))
        yield line("dimension", (x, y - reach), (x, y + reach))
        yield box("dimension", x - reach, y - reach, x + reach, y + reach)
        yield label((x + reach + ASIDE_MM / MM_PER_M, y),
                    f"{name}: {one.length_mm} mm to {other}", LETTERS_MM / MM_PER_M, pen="size")
