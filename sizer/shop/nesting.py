"""Parts nested on sheets: true outlines, small parts in the openings of larger ones.

Parts and sheets are laid on a grid of cells. A part takes every cell that comes nearer to it than
half the gap, so that two parts that share no cell are a gap apart. Largest first, each goes where
its right edge comes farthest left, in the best of four quarter turns.
"""

from dataclasses import dataclass
from functools import cached_property, lru_cache

import numpy as np
from shapely import contains_xy
from shapely.affinity import rotate, translate

from sizer.compiled import compiled

FINE_M = 0.0002  # small steps of an outline are left out, and the gap is as much wider
CELL_M = 0.005  # a finer grid nests little closer and takes longer; our judgement
QUARTERS = (0, 1, 2, 3)  # turns tried
ORDERS = (  # sizes of a part, the largest is laid first
    lambda shape: shape.envelope.area,
    lambda shape: max(shape.bounds[2] - shape.bounds[0], shape.bounds[3] - shape.bounds[1]),
    lambda shape: shape.area,
    lambda shape: shape.length,
)


@dataclass(frozen=True)
class Spot:
    """Where a part lies."""

    sheet: int  # from 0
    quarters: int  # turned so often by a quarter to the left about the origin, and then
    shift_m: tuple[float, float]  # moved, from its own place to the sheet's


@dataclass(frozen=True, eq=False)
class _Cells:
    """What a part takes of the grid under one of its turns."""

    cells: np.ndarray  # (n, m) bool
    corner_m: np.ndarray  # of the first one, (2,)

    @cached_property
    def runs(self):
        """Taken cells one after the other: (row, first, one past the last) each, (k, 3)."""
        edges = np.diff(self.cells.astype(np.int8), axis=1, prepend=0, append=0)
        row, start = np.nonzero(edges > 0)
        return np.stack([row, start, np.nonzero(edges < 0)[1]], axis=1)


def nested(shapes, sheet_m, gap_m, sheets=None, turns=None):
    """A Spot for each of some polygons, in their order; None where one finds no room. Where the
    largest first does not do, other orders are tried.

    Parameters
    ----------
    sheet_m : length, width of a sheet
    gap_m : least between parts, and from a part to the sheet's edge
    sheets : at most so many; None takes as many as needed
    turns : of each polygon, those of QUARTERS that its grain allows; None allows all"""
    grid = _grid(sheet_m, gap_m)
    turned = [{turn: _turned(shape, gap_m)[turn] for turn in allowed}
              for shape, allowed in zip(shapes, turns or [QUARTERS] * len(shapes), strict=True)]
    if sheets and _too_small(grid, sheets, turned):
        return None
    found = None
    for order in _orders(shapes, [len(one) for one in turned]):
        spots = _in_order(turned, order, grid, gap_m, sheets)
        if spots and (found is None or _count(spots) < _count(found)):
            found = spots
        if found and _count(found) == 1:
            break
    return found


def _orders(shapes, free):
    """Rows of polygons, each `free` to be turned so many ways, in the orders that are tried: the
    largest first, then so with those first that are the least free."""
    for bound in [False, True][:len(set(free))]:
        for size in ORDERS:
            yield sorted(range(len(shapes)), key=lambda row, size=size, bound=bound: (
                bound * free[row], -size(shapes[row])))


def _count(spots):
    """Of sheets taken."""
    return 1 + max(spot.sheet for spot in spots)


def _in_order(turned, order, grid, gap_m, sheets):
    """The Spots of parts laid one after the other, None where one finds no room."""
    taken, spots = [], [None] * len(turned)
    for row in order:
        for sheet in range(len(taken) + 1 if sheets is None else sheets):
            if sheet == len(taken):
                taken.append(np.full(grid, -1))
            best = _best(taken[sheet], turned[row])
            if best is not None:
                break
        else:
            return None
        turn, (across, up) = best
        part = turned[row][turn]
        _lay(taken[sheet][across:across + part.cells.shape[0]], part.cells, up)
        place = gap_m / 2.0 + np.array([across, up]) * CELL_M - part.corner_m
        spots[row] = Spot(sheet, turn, (float(place[0]), float(place[1])))
    return spots


def _lay(rows, cells, up):
    """Takes a part's cells, from cell `up` on, of as many rows of a sheet."""
    here = np.arange(rows.shape[1])
    free = rows != here
    free[:, up:up + cells.shape[1]] &= ~cells
    np.maximum.accumulate(np.where(free, -1, here), axis=1, out=rows)


def laid(shape, spot):
    """A polygon where its Spot has it."""
    return translate(rotate(shape, 90.0 * spot.quarters, origin=(0.0, 0.0)), *spot.shift_m)


def fits(shape, sheet_m, gap_m):
    """Whether a polygon alone finds room on an empty sheet."""
    grid = sorted(_grid(sheet_m, gap_m))
    return all(own <= room for own, room in zip(sorted(_turned(shape, gap_m)[0].cells.shape), grid,
                                                strict=True))


def _grid(sheet_m, gap_m):
    """Cells along and across a sheet; half a gap stays free all round."""
    return [int((side - gap_m) / CELL_M + 1e-6) for side in sheet_m]


def _too_small(grid, sheets, turned):
    """Whether so many sheets have fewer cells than the parts, or none a part's length or width."""
    parts = [[part.cells for part in one.values()] for one in turned]
    return sum(cells[0].sum() for cells in parts) > sheets * np.prod(grid) or any(
        all((np.array(one.shape) > grid).any() for one in cells) for cells in parts)


@lru_cache(maxsize=128)
def _turned(shape, gap_m):
    """The _Cells of a part under each of QUARTERS: kept, as each sheet and part sheet asks anew."""
    cells, (left, low) = _cells(shape, gap_m)
    found = []
    for _ in QUARTERS:
        found.append(_Cells(cells, np.array([left, low])))
        left, low = -(low + cells.shape[1] * CELL_M), left
        cells = cells[:, ::-1].T
    return found


def _cells(shape, gap_m):
    """The cells a part takes, (n, m) bool, and the place of the first one's corner."""
    reach = gap_m / 2.0 + FINE_M
    wide = shape.simplify(FINE_M).buffer(reach + CELL_M / 2**0.5)
    left, low, right, high = np.array(shape.bounds) + reach * np.array([-1.0, -1.0, 1.0, 1.0])
    across, up = (np.arange(start + CELL_M / 2.0, end + CELL_M / 2.0, CELL_M)
                  for start, end in ((left, right), (low, high)))
    inside = contains_xy(wide, *(one.ravel() for one in np.meshgrid(across, up, indexing="ij")))
    return inside.reshape(across.size, up.size), np.array([left, low])


def _best(taken, turned):
    """(which of a part's turns, its first cell) with the least right edge, then the least top, on
    a sheet; None where there is no room."""
    best = None
    for turn, part in turned.items():
        long, wide = part.cells.shape
        last = taken.shape[0] - long if best is None else best[0][0] - long
        across, up = compiled(_first_free)(taken, part.runs, last, taken.shape[1] - wide)
        if across >= 0 and (best is None or (across + long, up + wide) < best[0]):
            best = (across + long, up + wide), turn, (across, up)
    return None if best is None else best[1:]


def _first_free(taken, runs, last_across, last_up):
    """The first place, by its row and then its cell, where none of a part's runs of cells meets a
    taken one; (-1, -1) where there is none. From a run that does, the part moves on past the last
    cell it meets."""
    one, count = 0, len(runs)
    for across in range(last_across + 1):
        up = clear = 0
        while clear < count and up <= last_up:
            row, start, end = runs[one]
            met = taken[across + row, up + end - 1]
            if met >= up + start:
                up, clear = met - start + 1, 0
            else:
                one, clear = (one + 1) % count, clear + 1
        if clear == count:
            return across, up
    return -1, -1
