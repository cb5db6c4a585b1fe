"""Parts nested on sheets: true outlines, small parts in the openings of larger ones.

Parts and sheets are laid on a grid of cells. A part takes every cell that comes nearer to it than
half the gap, so that two parts that share no cell are a gap apart. Largest first, each goes where
its right edge comes farthest left, in the best of four quarter turns.
"""

from dataclasses import dataclass
from functools import cache, lru_cache, partial

import numpy as np
from scipy.fft import irfft2, next_fast_len, rfft2
from shapely import contains_xy
from shapely.affinity import rotate, translate

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


def nested(shapes, sheet_m, gap_m, sheets=None, turns=None):
    """A Spot for each of some polygons, in their order; None where one finds no room.

    Where the largest first does not do, other orders are tried.

    Parameters
    ----------
    shapes : sequence of Polygon, with their openings
    sheet_m : length, width of a sheet
    gap_m : least between parts, and from a part to the sheet's edge
    sheets : at most so many; None takes as many as needed
    turns : of each polygon, those of QUARTERS that its grain allows; None allows all
    """
    grid = _grid(sheet_m, gap_m)
    turned = [{turn: _turned(shape, gap_m)[turn] for turn in allowed}
              for shape, allowed in zip(shapes, turns or [QUARTERS] * len(shapes), strict=True)]
    if sheets and _too_small(grid, sheets, turned):
        return None
    wide = [next_fast_len(side, real=True) for side in grid]

    @cache
    def spectrum(row, turn):
        return np.conj(rfft2(turned[row][turn][0].astype(np.float32), wide))

    found = None
    for size in ORDERS:
        order = sorted(range(len(shapes)), key=lambda row, size=size: -size(shapes[row]))
        spots = _in_order(turned, order, grid, gap_m, sheets, spectrum)
        if spots and (found is None or _count(spots) < _count(found)):
            found = spots
        if found and _count(found) == 1:
            break
    return found


def _count(spots):
    """Of sheets taken."""
    return 1 + max(spot.sheet for spot in spots)


def _in_order(turned, order, grid, gap_m, sheets, spectrum):
    """The Spots of parts laid one after the other, None where one finds no room."""
    taken, spots = [], [None] * len(turned)
    for row in order:
        cells = {turn: one for turn, (one, _) in turned[row].items()}
        for sheet in range(len(taken) + 1 if sheets is None else sheets):
            if sheet == len(taken):
                taken.append(np.zeros(grid, bool))
            best = _best(taken[sheet], cells, partial(spectrum, row))
            if best is not None:
                break
        else:
            return None
        turn, (across, up) = best
        mask, corner = turned[row][turn]
        taken[sheet][across:across + mask.shape[0], up:up + mask.shape[1]] |= mask
        place = gap_m / 2.0 + np.array([across, up]) * CELL_M - corner
        spots[row] = Spot(sheet, turn, (float(place[0]), float(place[1])))
    return spots


def laid(shape, spot):
    """A polygon where its Spot has it."""
    return translate(rotate(shape, 90.0 * spot.quarters, origin=(0.0, 0.0)), *spot.shift_m)


def fits(shape, sheet_m, gap_m):
    """Whether a polygon alone finds room on an empty sheet."""
    grid = sorted(_grid(sheet_m, gap_m))
    return all(own <= room for own, room in zip(sorted(_turned(shape, gap_m)[0][0].shape), grid,
                                                strict=True))


def _grid(sheet_m, gap_m):
    """Cells along and across a sheet; half a gap stays free all round."""
    return [int((side - gap_m) / CELL_M + 1e-6) for side in sheet_m]


def _too_small(grid, sheets, turned):
    """Whether so many sheets have fewer cells than the parts, or none a part's length or width."""
    parts = [[cells for cells, _ in one.values()] for one in turned]
    return sum(cells[0].sum() for cells in parts) > sheets * np.prod(grid) or any(
        all((np.array(one.shape) > grid).any() for one in cells) for cells in parts)


@lru_cache(maxsize=128)
def _turned(shape, gap_m):
    """`_cells` of a part under each of QUARTERS: kept, as each sheet and part sheet asks anew."""
    cells, (left, low) = _cells(shape, gap_m)
    found = []
    for _ in QUARTERS:
        found.append((cells, np.array([left, low])))
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


def _best(taken, turned, spectrum):
    """(which of a part's turns, its first cell) with the least right edge, then the least top; by
    `spectrum(turn)` the conjugate transform of its cells on the sheet's grid."""
    shape = [next_fast_len(side, real=True) for side in taken.shape]
    full, best = rfft2(taken.astype(np.float32), shape), None
    for turn, cells in turned.items():
        room = [side - own + 1 for side, own in zip(taken.shape, cells.shape, strict=True)]
        if min(room) <= 0:
            continue
        # how many taken cells the part would meet, at every place where it is wholly on the sheet
        met = irfft2(full * spectrum(turn), shape)
        free = np.argwhere(met[:room[0], :room[1]] < 0.5)
        if len(free):
            rank = (int(free[0, 0]) + cells.shape[0], int(free[0, 1]) + cells.shape[1])
            if best is None or rank < best[0]:
                best = rank, turn, tuple(int(one) for one in free[0])
    return None if best is None else best[1:]
