"""How a drawing at true size is divided over sheets of a home printer's paper."""

from dataclasses import dataclass, replace
from itertools import compress, product
from math import ceil

import numpy as np

PAPERS_MM = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}  # ISO 216; 8.5 x 11 in
USUAL_PAPER = next(iter(PAPERS_MM))
READ_IN = {"A4": "mm", "Letter": "in"}  # what builders measure in where that paper is sold
OVERLAP_MM = 12.0  # of neighbouring tiles, to lay one on the other; our drawing
SAME_MM = 1e-6  # nearer to a joint a mark is on it
# A mark from the middle of a hole, with its cross, its name and the hole's; our drawing
MARK_CLEAR_MM = 12.0
MARK_MOVES_MM = sorted(range(-40, 41, 4), key=abs)  # along a join, tried in order


def sheet_name(stem, paper):
    """The name of a sheet's file: it says on which paper, but for the usual one."""
    return f"{stem}{'' if paper == USUAL_PAPER else f'-{paper}'}.pdf"


def unit_read(size_mm):
    """What is measured in by those who print pages of a size, upright or lying."""
    return next((READ_IN[name] for name, sides in PAPERS_MM.items()
                 if sorted(sides) == sorted(size_mm)), READ_IN[USUAL_PAPER])


@dataclass(frozen=True)
class Tile:
    """One page's window on the drawing, in the drawing's millimetres."""

    row: int  # from the top
    column: int  # from the left
    left_mm: float
    bottom_mm: float

    def box_mm(self, window_mm):
        """Left, bottom, right, top of the window."""
        return (self.left_mm, self.bottom_mm, self.left_mm + window_mm[0],
                self.bottom_mm + window_mm[1])


@dataclass(frozen=True)
class JoinMark:
    """A cross that two neighbouring pages both show, with the same name."""

    name: str
    right_mm: float
    up_mm: float


@dataclass(frozen=True)
class Tiling:
    """All windows of one drawing, the top left page first."""

    rows: int
    columns: int
    window_mm: tuple[float, float]
    tiles: tuple[Tile, ...]
    marks: tuple[JoinMark, ...]
    upright_joins_mm: tuple[float, ...]  # where pages meet, in the middle of each overlap
    level_joins_mm: tuple[float, ...]

    def only(self, wanted):
        """The same without the windows that are not wanted, a truth for each, and without marks on
        fewer than two."""
        kept = tuple(compress(self.tiles, wanted))

        def pages(mark):
            boxes = [tile.box_mm(self.window_mm) for tile in kept]
            return sum(left < mark.right_mm < right and bottom < mark.up_mm < top
                       for left, bottom, right, top in boxes)

        return replace(self, tiles=kept,
                       marks=tuple(mark for mark in self.marks if pages(mark) > 1))


def tiling(box_mm, window_mm, aside=(0.0, 0.0)):
    """The Tiling that covers a box (left, bottom, right, top) with windows of one size, which stand
    as `starts_mm` says."""
    starts = starts_mm(box_mm, window_mm, aside)
    (lefts, bottoms), joins = ([one.tolist() for one in some]
                               for some in (starts, map(joins_mm, starts)))
    columns, rows = len(lefts), len(bottoms)
    tiles = tuple(Tile(row, column, lefts[column], bottoms[rows - 1 - row])
                  for row, column in product(range(rows), range(columns)))
    return Tiling(rows, columns, window_mm, tiles, tuple(_marks(tiles, window_mm, rows, columns)),
                  tuple(joins[0]), tuple(joins[1][::-1]))


def marks_clear(tiles, spots_mm):
    """The Tiling with each mark at the place along its join, nearest to its own, that is clear of
    some spots, (n, 2); where it is, if none is."""
    return replace(tiles, marks=tuple(_clear(tiles, one, spots_mm) for one in tiles.marks))


def _clear(tiles, mark, spots_mm):
    upright = any(abs(mark.right_mm - at) < SAME_MM for at in tiles.upright_joins_mm)
    for move in MARK_MOVES_MM:
        moved = replace(mark, **({"up_mm": mark.up_mm + move} if upright else
                                 {"right_mm": mark.right_mm + move}))
        off = np.hypot(*(np.reshape(spots_mm, (-1, 2)) - (moved.right_mm, moved.up_mm)).T)
        if (off > MARK_CLEAR_MM).all():
            return moved
    return mark


def starts_mm(box_mm, window_mm, aside):
    """Where the windows that cover a box begin, from the left and from below: two arrays.

    Windows overlap by OVERLAP_MM; what they cover beyond the box lies evenly around it, or more of
    it to one side: `aside`, for right and up, is from -1, the windows far left or low, to 1, or
    many such, (n, 1) each.
    """
    found = []
    for low, high, window, share in zip(box_mm[:2], box_mm[2:], window_mm, aside, strict=True):
        step = window - OVERLAP_MM
        count = max(1, ceil((high - low - OVERLAP_MM) / step))
        spare = count * step + OVERLAP_MM - (high - low)
        found.append(low - 0.5 * (1.0 - share) * spare + step * np.arange(count))
    return found


def joins_mm(starts):
    """Where pages meet, in the middle of each overlap, of windows that begin there."""
    return starts[..., 1:] + OVERLAP_MM / 2.0


def _marks(tiles, window_mm, rows, columns):
    """Two marks on every join of two neighbours, a and b, numbered in reading order."""
    width, height = window_mm
    number = 1
    for tile in tiles:
        joins = []
        if tile.column + 1 < columns:
            joins.append([(width - OVERLAP_MM / 2.0, share * height) for share in (0.75, 0.25)])
        if tile.row + 1 < rows:
            joins.append([(share * width, OVERLAP_MM / 2.0) for share in (0.25, 0.75)])
        for join in joins:
            for end, (right, up) in zip("ab", join, strict=True):
                yield JoinMark(f"{number}{end}", tile.left_mm + right,
                               tile.bottom_mm + up)
            number += 1
