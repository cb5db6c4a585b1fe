"""How a drawing at true size is divided over sheets of a home printer's paper."""

from dataclasses import dataclass, replace
from itertools import compress, product
from math import ceil

PAPERS_MM = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}  # ISO 216; 8.5 x 11 in
USUAL_PAPER = next(iter(PAPERS_MM))
OVERLAP_MM = 12.0  # of neighbouring tiles, to lay one on the other; our drawing


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


def tiling(box_mm, window_mm):
    """The Tiling that covers a box (left, bottom, right, top) with windows of one size.

    Windows overlap by OVERLAP_MM; what they cover beyond the box lies evenly around it.
    """
    left, bottom, right, top = box_mm
    columns, first_left = _row(left, right, window_mm[0])
    rows, lowest = _row(bottom, top, window_mm[1])
    step = (window_mm[0] - OVERLAP_MM, window_mm[1] - OVERLAP_MM)
    tiles = tuple(Tile(row, column, first_left + column * step[0],
                       lowest + (rows - 1 - row) * step[1])
                  for row, column in product(range(rows), range(columns)))
    uprights = tuple(first_left + column * step[0] + OVERLAP_MM / 2.0
                     for column in range(1, columns))
    levels = tuple(lowest + (rows - row) * step[1] + OVERLAP_MM / 2.0 for row in range(1, rows))
    return Tiling(rows, columns, window_mm, tiles,
                  tuple(_marks(tiles, window_mm, rows, columns)), uprights, levels)


def _row(low, high, window):
    """Count of windows in a row, and where the first begins."""
    count = max(1, ceil((high - low - OVERLAP_MM) / (window - OVERLAP_MM)))
    covered = count * (window - OVERLAP_MM) + OVERLAP_MM
    return count, low - (covered - (high - low)) / 2.0


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
