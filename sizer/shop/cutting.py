"""The cutting plan: pieces of sticks into lengths of stock, longest first, where it first fits."""

from dataclasses import dataclass
from math import ceil

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
class CuttingPlan:
    """All lengths of one section in one wood."""

    width_m: float
    depth_m: float
    wood: str
    stock_m: float
    lengths: tuple[tuple[Piece, ...], ...]  # pieces of each length of stock
    spare: int  # more lengths to buy

    @property
    def to_buy(self):
        """Lengths of stock with the spare ones."""
        return len(self.lengths) + self.spare

    @property
    def used_share(self):
        """Of the lengths that are cut, the share that goes into the boat."""
        used = sum(piece.length_m for length in self.lengths for piece in length)
        return used / (self.stock_m * len(self.lengths))


def cutting_plans(sticks):
    """The CuttingPlan of every section and wood, in the order the sticks first need them."""
    kinds = dict.fromkeys(_kind(stick) for stick in sticks)
    return tuple(_plan([stick for stick in sticks if _kind(stick) == kind]) for kind in kinds)


def _kind(stick):
    one = stick.stringer
    return one.width_m, one.depth_m, one.wood


def _plan(sticks):
    one, stock = sticks[0].stringer, sticks[0].joints.stock_m
    pieces = sorted((piece for stick in sticks for piece in _pieces(stick)),
                    key=lambda piece: (-piece.length_m, piece.stick, piece.number))
    lengths, left = [], []
    for piece in pieces:
        at = next((row for row, rest in enumerate(left) if piece.length_m <= rest + 1e-9), None)
        if at is None:
            lengths.append([])
            left.append(stock)
            at = -1
        lengths[at].append(piece)
        left[at] -= piece.length_m + KERF_M
    return CuttingPlan(one.width_m, one.depth_m, one.wood, stock,
                       tuple(tuple(length) for length in lengths),
                       ceil(SPARE_SHARE * len(lengths)))


def _pieces(stick):
    lengths = stick.joints.pieces_m
    sides = ("",) if stick.stringer.count == 1 else (", port", ", starboard")
    for side in sides:
        for number, length in enumerate(lengths, start=1):
            yield Piece(stick.name + side, number, len(lengths), length)
