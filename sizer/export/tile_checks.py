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
from sizer.drawing.record import LETTER_WIDTH
from sizer.drawing.told import READERS
from sizer.drawing.true_size import JOINED_WITHIN
from sizer.export.lengths import marked
from sizer.export.tile_words import INSET_MM, at_once, mark_rooms, pieces_of, words_of
from sizer.units import INCH_PARTS, MM_PER_IN, MM_PER_M, inches_text

CHECKED = (
    "Pieces of several tiles have lettered crosses in squares. Once taped, measure from A to B and "
    f"from C to D: each {JOINED_WITHIN} of what stands there. Where not, lay the joints again; "
    "where that mends nothing, the paper is not at true size: draw round none of it.")
NAMES = "ABCD"
LINES = ("cut", "mark", "drill", "guide", "stick", "extension", "centre")
REACH_MM = 3.0  # half a cross and half the square round it; our drawing
CLEAR_MM = 2.0  # from square and words to any line; our drawing
STEP_MM = 4.0  # of places tried
LETTERS_MM = 3.0  # of its words; our drawing
ASIDE_MM = 2.0  # of its words; our drawing
STEPS_MM = {"mm": 1.0, "in": MM_PER_IN / INCH_PARTS}  # of a length, by its reader's unit
USUAL_MM = 1014.0  # a length whose words are as long as any usual one: 39 15/16 in
WORDLESS = 0.3  # what a cross without room for its words loses, of the way to the far corner


@dataclass(frozen=True)
class CheckLength:
    """A length in whole steps of its reader's unit between two crosses on different pages."""

    names: str  # of its crosses, two letters
    ends_mm: tuple[tuple[float, float], tuple[float, float]]
    anchors: tuple[str, str]  # of the words beside each: "start" on its right, "end" on its left
    unit: str = READERS[0]

    @property
    def length_mm(self):
        """From cross to cross."""
        step = STEPS_MM[self.unit]
        return round(dist(*self.ends_mm) / step) * step

    @property
    def says(self):
        """Both its crosses and how long it is."""
        return f"{self.names[0]} to {self.names[1]} {marked(self.length_mm / MM_PER_M)}"


def check_lengths(drawing, tiles, unit=READERS[0]):
    """The CheckLengths of a Drawing on its Tiling, two, in a reader's unit; none where one page
    holds it."""
    if len(tiles.tiles) < 2:
        return ()
    spots, page, side = _lone_spots(tiles, unit)
    taken = shapely.STRtree([*pieces_of(drawing, LINES), *words_of(drawing), *mark_rooms(tiles)])
    wordless = side == 0

    def first(amounts):
        return _first_free(spots, side, amounts, taken, unit)

    low, high = ([spots[first(np.where(wordless, way * at, np.inf)), axis]
                  for axis, at in enumerate(spots.T)] for way in (1.0, -1.0))
    across, up = ((spots - low) / (np.array(high) - low)).T
    bare = WORDLESS * wordless
    found = []
    for names, along in ((NAMES[:2], across - up), (NAMES[2:], across + up)):
        start = first(along + bare)
        end = first(np.where(page == page[start], np.inf, bare - along))
        found.append(_whole(names, spots[[start, end]], side[[start, end]], unit))
    return tuple(found)


def with_checks(drawing, lengths):
    """The Drawing with the crosses of its CheckLengths and what each tells, before all other words,
    which give way."""
    return replace(drawing, strokes=(*(
        stroke for one in lengths for stroke in _strokes(one)), *drawing.strokes))


def checks_text(lengths):
    """What to measure of one piece, a line; none of a piece on one page."""
    return [f"Taped: {', '.join(one.says for one in lengths)}."] if lengths else []


def _lone_spots(tiles, unit):
    """Where a cross has room on one page alone: (n, 2), the row of that page, and on which side its
    words have room too, both (n,); a spot comes once for each side, and as often without words."""
    pages = np.array([tile.box_mm(tiles.window_mm) for tile in tiles.tiles])
    low, high = pages[:, :2].min(axis=0), pages[:, 2:].max(axis=0)
    along = [np.arange(start, end, STEP_MM) for start, end in zip(low, high, strict=True)]
    every = np.stack(np.meshgrid(*along), axis=-1).reshape(-1, 2)
    found = []
    for side in (1, -1, 0):
        free, page = _alone(*_room_mm(along, side, unit), pages)
        found.append((every[free], page[free], np.full(free.sum(), side)))
    return tuple(np.concatenate(one) for one in zip(*found, strict=True))


def _room_mm(spots, side, unit):
    """Left and low, right and upper ends of the room of a cross at each spot, with its words on one
    side of it or, 0, without them: two (n,) each; `spots` are the same of the crosses."""
    words_mm = ASIDE_MM + LETTER_WIDTH * LETTERS_MM * len(_words("AB", USUAL_MM, unit))
    left, right = (REACH_MM + words_mm * (np.asarray(side) == way) for way in (-1, 1))
    across, up = spots
    return (across - left, up - REACH_MM), (across + right, up + REACH_MM)


def _first_free(spots, side, amounts, taken, unit):
    """Which of some spots is clear of what is taken and has the least of some amount."""
    order = np.argsort(amounts, kind="stable")
    for lot in at_once(len(order)):
        some = order[slice(*lot)]
        low, high = _room_mm(spots[some].T, side[some], unit)
        rooms = shapely.box(*((end - CLEAR_MM) / MM_PER_M for end in low),
                            *((end + CLEAR_MM) / MM_PER_M for end in high))
        free = np.delete(some, taken.query(rooms, "intersects")[0])
        if len(free):
            return int(free[0])
    raise ValueError("no room for a check length")


def _alone(low, high, pages):
    """Which boxes, of every pair of some left and right and some low and upper ends, these slowest,
    lie well inside one page and touch no other; and the row of that page."""
    ends = [(low[axis][:, None], high[axis][:, None], pages[:, axis], pages[:, axis + 2])
            for axis in (1, 0)]
    inside = [((left > start + INSET_MM) & (right < end - INSET_MM)).astype(float)
              for left, right, start, end in ends]
    touched = [((right > start) & (left < end)).astype(float) for left, right, start, end in ends]
    pages_in, pages_touched, row = (  # how many, and the sum of their rows
        (up @ across.T).ravel() for up, across in (
            inside, touched, (inside[0] * np.arange(len(pages)), inside[1])))
    return (pages_in > 0.0) & (pages_touched == 1.0), row.astype(int)


def _whole(names, spots, sides, unit):
    """The CheckLength from one spot towards another, the end moved by less than a step."""
    start, end = spots
    whole = np.floor(dist(start, end) / STEPS_MM[unit]) * STEPS_MM[unit]
    end = start + (end - start) * whole / dist(start, end)
    return CheckLength(names, (tuple(start.tolist()), tuple(end.tolist())),
                       tuple("end" if side < 0 else "start" for side in sides), unit)


def _words(names, long_mm, unit):
    """What stands beside the first of two crosses so far apart."""
    long = f"{inches_text(long_mm, INCH_PARTS)} in" if unit == "in" else f"{long_mm:.0f} mm"
    return f"{names[0]}: {long} to {names[1]}"


def _strokes(one):
    reach = REACH_MM / MM_PER_M
    for names, (x, y), anchor in zip(
            (one.names, one.names[::-1]), np.array(one.ends_mm) / MM_PER_M, one.anchors,
            strict=True):
        yield line("dimension", (x - reach, y), (x + reach, y))
        yield line("dimension", (x, y - reach), (x, y + reach))
        yield box("dimension", x - reach, y - reach, x + reach, y + reach)
        aside = (reach + ASIDE_MM / MM_PER_M) * (1.0 if anchor == "start" else -1.0)
        yield label((x + aside, y), _words(names, one.length_mm, one.unit),
                    LETTERS_MM / MM_PER_M, anchor, pen="size")
