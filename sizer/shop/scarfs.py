"""Where a stick longer than the stock is joined: scarfs, away from the tightest bends."""

from dataclasses import dataclass
from math import ceil

import numpy as np

from sizer.design.woods import EASY_BEND_RATIO

SCARF_RATIO = 8.0  # length over the thickness that is planed; common practice, no source
LEAST_PIECE_M = 0.60  # a shorter piece is not worth a joint; our judgement
STOCK_M = (1.8, 12.0)  # lengths of stock that are taken; our judgement
STEP_M = 0.01  # places tried along the stick
BENT_SHARE = 0.5  # of the stick's hardest bend: a scarf may lie where it is less; our judgement
STRAIGHT_STRAIN = 0.5 / EASY_BEND_RATIO  # half of what bends easily is as good as straight; ours
TIDY = 1e-4  # weight of long pieces among places that are bent alike


@dataclass(frozen=True)
class Joints:
    """A stick cut from stock: its scarfs and its pieces, from the forward end."""

    stock_m: float
    scarf_m: float  # length of one scarf along the stick
    middles_m: tuple[float, ...]  # of the scarfs, from the finished forward end
    pieces_m: tuple[float, ...]  # lengths to cut, scarfs whole in each
    in_a_bend: bool  # no place away from the tight bends was within the stock's reach


def joints(along_m, strain, cut_m, spare_m, thickness_m, stock_m):
    """The joints of a stick.

    The least number of pieces; one more where only that keeps a scarf out of the tight bends. Among
    places bent alike, those that leave the longest pieces.

    Parameters
    ----------
    along_m : (n,) places along the finished stick, from its forward end
    strain : (n,) thickness over radius there, of the harder axis
    cut_m : length to cut, with what is left over at both ends
    spare_m : of that, ahead of the finished forward end
    thickness_m : the lesser of the stock's two sides
    stock_m : length of the stock, within STOCK_M
    """
    scarf = SCARF_RATIO * thickness_m
    if cut_m <= stock_m:
        return Joints(stock_m, scarf, (), (float(cut_m),), False)
    grid = np.arange(scarf, cut_m - scarf, STEP_M)
    cost = _bent(grid - spare_m, along_m, strain, scarf)
    fewest = ceil((cut_m - scarf) / (stock_m - scarf) - 1e-9)
    chosen = None
    for pieces in (fewest, fewest + 1):
        rows = _cheapest(grid, cost, pieces, cut_m, scarf, stock_m)
        if rows is not None and (chosen is None or cost[rows].sum() < cost[chosen].sum()):
            chosen = rows
        if chosen is not None and cost[chosen].sum() == 0.0:
            break
    middles = grid[chosen]
    edges = np.concatenate([[scarf / 2.0], middles, [cut_m - scarf / 2.0]])
    return Joints(stock_m, scarf, tuple((middles - spare_m).tolist()),
                  tuple((np.diff(edges) + scarf).tolist()), bool(cost[chosen].sum() > 0.0))


def _bent(middles, along, strain, scarf):
    """Cost of a scarf with its middle at each place: nothing where the stick is bent little.

    Elsewhere the hardest strain within the scarf over what is little, less one; and one more where
    the scarf's middle is within a scarf's length of the tightest place.
    """
    little = max(BENT_SHARE * float(strain.max()), STRAIGHT_STRAIN)
    offsets = np.linspace(-scarf / 2.0, scarf / 2.0, 9)
    within = np.interp(middles[:, None] + offsets, along, strain).max(axis=1)
    tightest = along[int(np.argmax(strain))]
    return np.maximum(within / little - 1.0, 0.0) + (np.abs(middles - tightest) < scarf)


def _cheapest(grid, cost, pieces, cut, scarf, stock):
    """Rows of the grid for the scarfs between so many pieces, None where none will do."""
    def worth(lengths, charge):
        fits = (lengths >= LEAST_PIECE_M) & (lengths <= stock + 1e-9)
        return np.where(fits, charge - TIDY * (lengths / stock) ** 2, np.inf)

    best = worth(grid + scarf / 2.0, cost)
    between = worth(grid[None, :] - grid[:, None] + scarf, cost[None, :])
    back = []
    for _ in range(pieces - 2):
        whole = best[:, None] + between
        back.append(whole.argmin(axis=0))
        best = whole.min(axis=0)
    best = best + worth(cut - grid + scarf / 2.0, 0.0)
    row = int(best.argmin())
    if not np.isfinite(best[row]):
        return None
    rows = [row]
    for before in reversed(back):
        rows.insert(0, int(before[rows[0]]))
    return np.array(rows)
