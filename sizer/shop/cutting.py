"""The cutting plan: pieces of sticks into lengths of stock, longest first, where it first fits.

TRIM_M of every length stays unused, so that both ends can be sawn clean.
"""

from collections import Counter
from dataclasses import dataclass
from math import ceil

from sizer.shop.scarfs import TRIM_M
from sizer.shop.settings import SHOP

KERF_M = 0.004  # lost to a saw cut; our judgement
SPARE_SHARE = 0.10  # of the lengths, whole ones, for knots and short grain; our judgement


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
