"""Where a stick longer than the stock is joined: scarfs, clear of frames, of the tightest bends and
of what is lashed to the stick between frames; and the cutting plan, the pieces into lengths of
stock, longest first, where each first fits.

Of a pair, one side's scarfs stand away from the other's, so that no place of the boat is joined on
both sides; and of one side, those of neighbouring sticks stand in different bays between frames.
TRIM_M of every length stays unused, so that both ends can be sawn clean.
"""

from collections import Counter
from dataclasses import dataclass
from math import ceil

import numpy as np

from sizer.design.woods import EASY_BEND_RATIO
from sizer.shop.settings import SHOP
from sizer.units import MM_PER_M

SCARF_RATIO = 8.0  # length over the thickness that is planed; common practice, no source
LEAST_PIECE_M = 0.60  # a shorter piece is not worth a joint; our judgement
TRIM_M = 0.050  # of a length of stock, for both its ends together: checks, dirt; our judgement
FRAME_CLEAR_M = 0.060  # from a scarf's end to a frame's plywood; common practice, no source
STAGGER_M = 0.300  # between the middles of a scarf to port and one to starboard; common practice
STEP_M = 0.01  # places tried along the stick
BENT_SHARE = 0.5  # of the stick's hardest bend: a scarf may lie where it is less; our judgement
STRAIGHT_STRAIN = 0.5 / EASY_BEND_RATIO  # half of what bends easily is as good as straight; ours
TIDY = 1e-4  # weight of long pieces among places that are bent alike
MORE_PIECES = 2  # than the fewest, at most; our judgement
ROUNDING_M = 1e-9
BESIDE = 0.5  # of a scarf in one bay with a neighbour's, over a bend's: bends come first; ours
UNDER_CORD = 0.4  # of one under a lashing between frames; ours
CORD_M = 0.010  # from a scarf's end to the middle of such a lashing: its turns; our judgement
SAME_SIDE = 0.1  # of one in a bay with another stick's of that side; ours
IN_THE_WAY = 100.0  # of a scarf at a frame or beside the other side's, over any bend's; ours
KERF_M = 0.004  # lost to a saw cut; our judgement
SPARE_SHARE = 0.10  # of the lengths, whole ones, for knots and short grain; our judgement


@dataclass(frozen=True)
class Joints:
    """A stick cut from stock: its scarfs and its pieces, from the forward end."""

    stock_m: float  # the longest there is
    scarf_m: float  # length of one scarf along the stick
    middles_m: tuple[float, ...]  # of the scarfs, from the finished forward end
    pieces_m: tuple[float, ...]  # lengths to cut, scarfs whole in each
    in_a_bend: bool  # no place away from the tight bends was within the stock's reach
    clear_m: float | None = None  # least from a scarf's end to a frame's plywood, below 0 over it
    apart_m: float | None = None  # least between a scarf's middle and one of the other side
    beside: bool = False  # one stands in one bay with a scarf of the stick next to it
    lashed: bool = False  # one comes under a lashing between frames

    @property
    def says(self):
        """What of the rules could not be kept, in words for the bench; empty where all are."""
        said = []
        if self.in_a_bend:
            said.append("a scarf lies in a tight bend")
        if self.clear_m is not None and self.clear_m < FRAME_CLEAR_M - ROUNDING_M:
            said.append(f"a scarf comes within {FRAME_CLEAR_M * MM_PER_M:.0f} mm of a frame")
        if self.apart_m is not None and self.apart_m < STAGGER_M - ROUNDING_M:
            said.append(f"port and starboard scarfs are less than {STAGGER_M * MM_PER_M:.0f} mm "
                        "apart")
        if self.beside:
            said.append("a scarf stands in one bay with a neighbouring stick's")
        if self.lashed:
            said.append("a scarf comes under the thigh brace's cord, so plane it flush there first")
        return f"{'; '.join(said)}: longer stock avoids it" if said else ""


def joints(along_m, strain, cut_m, spare_m, thickness_m, stock_m, frames_m=(), others_m=(),
           beside_m=(), same_side_m=(), lashed_m=()):
    """The joints of a stick.

    The least number of pieces; more where only that keeps a scarf clear of frames, of the other
    side's scarfs, and out of the tight bends. Among places alike, bays where no stick beside it or
    on its side is joined and places under no lashing, then those that leave the longest pieces.
    TRIM_M of every length of stock stays unused.

    Parameters
    ----------
    along_m : (n,) places along the finished stick, from its forward end
    strain : (n,) thickness over radius there, of the harder axis
    cut_m : length to cut, with what is left over at both ends
    spare_m : of that, ahead of the finished forward end
    thickness_m : the lesser of the stock's two sides
    stock_m : length of the stock
    frames_m : (first, last) place of each frame's plywood along the finished stick
    others_m : middles of the scarfs on the other side of the boat
    beside_m : (first, last) place of each bay where a neighbouring stick of this side is joined
    same_side_m : of each where another one of this side is
    lashed_m : middles of what is lashed to the stick between frames
    """
    scarf, longest = SCARF_RATIO * thickness_m, stock_m - TRIM_M
    if cut_m <= longest:
        return Joints(stock_m, scarf, (), (float(cut_m),), False)
    grid = np.arange(scarf, cut_m - scarf, STEP_M)
    places = grid - spare_m
    bent = _bent(places, along_m, strain, scarf)
    hard = bent + _in_the_way(places, scarf, frames_m, others_m)
    reach = 0.5 * scarf + CORD_M
    cords = [(middle - reach, middle + reach) for middle in lashed_m]
    cost = hard + sum(weight * _within(places, some) for weight, some in (
        (BESIDE, beside_m), (SAME_SIDE, same_side_m), (UNDER_CORD, cords)))
    fewest = ceil((cut_m - scarf) / (longest - scarf) - 1e-9)
    chosen = None
    for pieces in range(fewest, fewest + 1 + MORE_PIECES):
        rows = _cheapest(grid, cost, pieces, cut_m, scarf, longest)
        if rows is not None and (chosen is None or cost[rows].sum() < cost[chosen].sum()):
            chosen = rows
        if chosen is not None and (hard[chosen].sum() == 0.0 or (
                pieces > fewest and hard[chosen].sum() < IN_THE_WAY)):
            break
    middles, edges = places[chosen], np.concatenate(
        [[scarf / 2.0], grid[chosen], [cut_m - scarf / 2.0]])
    return Joints(stock_m, scarf, tuple(middles.tolist()),
                  tuple((np.diff(edges) + scarf).tolist()),
                  bool(bent[chosen].sum() > 0.0),
                  min((max(low - one, one - high) - scarf / 2.0
                       for one in middles for low, high in frames_m), default=None),
                  min((abs(one - other) for one in middles for other in others_m), default=None),
                  bool(_within(middles, beside_m).any()), bool(_within(middles, cords).any()))


def _within(middles, bays):
    """In how many of some (first, last) stretches each place lies."""
    low, high = np.reshape(bays, (-1, 2)).T
    return ((middles[:, None] > low) & (middles[:, None] < high)).sum(axis=1)


def _in_the_way(middles, scarf, frames, others):
    """Cost of a scarf with its middle at each place, for frames and the other side's scarfs.

    Nothing where it keeps off them, else the more the nearer.
    """
    low, high = np.reshape(frames, (-1, 2)).T
    clear = np.maximum(low - middles[:, None], middles[:, None] - high) - scarf / 2.0
    apart = np.abs(middles[:, None] - np.reshape(others, -1))
    cost = np.zeros(len(middles))
    for found, limit in ((clear, FRAME_CLEAR_M), (apart, STAGGER_M)):
        short = 1.0 - found.min(axis=1, initial=np.inf) / limit
        cost += np.where(short > ROUNDING_M, IN_THE_WAY * (1.0 + short), 0.0)
    return cost


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


@dataclass(frozen=True)
class Piece:
    """One piece of a stick."""

    stick: str  # its name and, of a pair, its side
    number: int  # from the forward end
    of: int  # pieces of that stick
    length_m: float


@dataclass(frozen=True)
class Length:
    """One length of stock and what is cut from it."""

    stock_m: float
    pieces: tuple[Piece, ...]


@dataclass(frozen=True)
class CuttingPlan:
    """All lengths of one section in one wood."""

    width_m: float
    depth_m: float
    wood: str
    lengths: tuple[Length, ...]

    @property
    def to_buy(self):
        """{length of stock: (how many are cut, how many more to buy)}, the longest first."""
        cut = Counter(length.stock_m for length in self.lengths)
        spare = {max(cut): ceil(SPARE_SHARE * len(self.lengths))}
        return {stock: (cut[stock], spare.get(stock, 0)) for stock in sorted(cut, reverse=True)}

    @property
    def used_share(self):
        """Of the lengths that are cut, the share that goes into the boat."""
        used = sum(piece.length_m for length in self.lengths for piece in length.pieces)
        return used / sum(length.stock_m for length in self.lengths)


def cutting_plans(sticks, stock_lengths_m=SHOP.stock_lengths_m):
    """The CuttingPlan of every section and wood, in the order the sticks first need them."""
    kinds = dict.fromkeys(_kind(stick) for stick in sticks)
    return tuple(_plan([stick for stick in sticks if _kind(stick) == kind], stock_lengths_m)
                 for kind in kinds)


def _kind(stick):
    one = stick.stringer
    return one.width_m, one.depth_m, one.wood


def _plan(sticks, stock_lengths_m):
    """Pieces into the longest stock, the longest first; then each length as short as will do."""
    one, longest = sticks[0].stringer, max(stock_lengths_m)
    pieces = sorted((piece for stick in sticks for piece in _pieces(stick)),
                    key=lambda piece: (-piece.length_m, piece.stick, piece.number))
    lengths, left = [], []
    for piece in pieces:
        at = next((row for row, rest in enumerate(left) if piece.length_m <= rest + 1e-9), None)
        if at is None:
            lengths.append([])
            left.append(longest - TRIM_M)
            at = -1
        lengths[at].append(piece)
        left[at] -= piece.length_m + KERF_M
    return CuttingPlan(one.width_m, one.depth_m, one.wood, tuple(
        Length(min(stock for stock in stock_lengths_m
                   if rest + KERF_M + stock - longest >= -1e-9), tuple(length))
        for length, rest in zip(lengths, left, strict=True)))


def _pieces(stick):
    for side, joints in stick.sides.items():
        name = f"{stick.name}, {side}" if side else stick.name
        for number, length in enumerate(joints.pieces_m, start=1):
            yield Piece(name, number, len(joints.pieces_m), length)
