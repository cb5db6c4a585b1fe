"""What one climbs on into the dry frame, and what the feet touch there, before footbrace and skin.

A frame's floor bears no foot. So a board lies astride the keel between the two frames ahead of the
seat, clear of their plywood and of what of their risers stands so near the keel, and over floors
and risers, so that a shoe longer than the board bears on neither; a block on the strongback under
it bears the keel, which hangs in zip ties. A lath across the boat is where the
balls of the feet are to be: it is touched, not pushed. Our drawing and our judgement throughout.
"""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from shapely.geometry import LineString

from sizer.paddler.legs import heel_behind_m
from sizer.shop.blocks import block_item, block_words
from sizer.shop.boards import ends_m, hull_at
from sizer.shop.items import Item
from sizer.shop.said import both, listed, marked
from sizer.shop.screws import along_m
from sizer.shop.stations import setting_up
from sizer.shop.sundries import OUTFIT_SCREW

WIDE_M = 0.120  # of the board: a shoe's sole
OFF_FRAMES_M = 0.005  # of its ends, and of its cleats over what stands lower
OVER_FLOORS_M = 0.010  # of its top, when it is trodden on
BESIDE_KEEL_M = 0.001  # of a cleat
CLEAT_WIDE_M = 0.030
CLEAT_SHARE = 0.5  # of the keel's depth that a cleat reaches down: it stays off the skin
LONG_STEP_M = 0.005  # in which its length is told, never more than there is room for
THICK_STEP_M = 0.001  # in which its thickness is told, never less than is needed
CLEAT_SCREWS = 3  # of a cleat
FAR_M = 2.0  # well above and below any frame


@dataclass(frozen=True)
class ClimbingBoard:
    """The board and the block under it; places on the strongback's tape."""

    fore: str  # the frames that it lies between
    aft: str
    tape_m: float  # of its middle
    long_m: float
    thick_m: float
    keel_m: float  # between its cleats
    cleat_m: float  # that they reach down
    high_m: float  # of the keel's outer face over the strongback, below its middle

    @property
    def size_m(self):
        """Thickness, length and width."""
        return self.thick_m, self.long_m, WIDE_M

    @property
    def cleat_size_m(self):
        """Thickness, length and width of a cleat."""
        return self.cleat_m, self.long_m, CLEAT_WIDE_M


def climbing_board(boat, frames, risers):
    """The ClimbingBoard of a boat with its FramePatterns and their Risers, where most of the
    opening ahead of the seat is free of frames."""
    up = setting_up(boat)
    start, base = up.strongback_start_x_m, up.baseline_height_m
    keel = next(one for one in boat.design.stringers if one.role == "keel")
    fore, aft = _bay(boat, frames)
    bay = max(fore.faces_x_m), min(aft.faces_x_m)
    low = float(hull_at(boat, [0.5 * sum(bay)])[0][0, 1]) + base
    cleat = _stepped(CLEAT_SHARE * keel.depth_m, THICK_STEP_M, np.floor)
    apart = keel.width_m + 2.0 * BESIDE_KEEL_M
    floors = max(floor_at(one, half).bounds[3] + base for one in (fore, aft)
                 for half in (0.0, 0.5 * WIDE_M))
    half = max(0.5 * WIDE_M, 0.5 * apart + CLEAT_WIDE_M)
    near = [list(_near(next(riser for riser in risers if riser.frame == one.name), half,
                       (low + keel.depth_m - cleat - OFF_FRAMES_M, floors + OVER_FLOORS_M)))
            for one in (fore, aft)]
    ends = (max([bay[0] - start, *(tape[1] for tape, _ in near[0])]),
            min([bay[1] - start, *(tape[0] for tape, _ in near[1])]))
    top = max([floors, *(high for some in near for _, high in some)]) + OVER_FLOORS_M
    middle = 0.5 * sum(ends)
    high = float(hull_at(boat, [middle + start])[0][0, 1]) + base
    return ClimbingBoard(
        fore.name, aft.name, middle,
        _stepped(ends[1] - ends[0] - 2.0 * OFF_FRAMES_M, LONG_STEP_M, np.floor),
        _stepped(top - high - keel.depth_m, THICK_STEP_M, np.ceil), apart, cleat, high)


def _bay(boat, frames):
    """The two FramePatterns that it lies between."""
    front, seat = boat.opening.front_x_m, ends_m(boat)[0]
    bays = [(fore, aft) for fore, aft in pairwise(frames)
            if min(aft.faces_x_m) < seat + OFF_FRAMES_M]
    return max(bays, key=lambda bay: min(bay[1].faces_x_m) - max(*bay[0].faces_x_m, front))


def _near(riser, half_m, high_m):
    """(tape, top) of each part of a Riser nearer to the keel than half_m and within two heights."""
    for tape, across, (low, top) in riser.solids_m:
        if across[0] < half_m and low < high_m[1] and top > high_m[0]:
            yield tape, top


def _stepped(length_m, step_m, way):
    return round(float(way(length_m / step_m)) * step_m, 4)


def floor_at(pattern, half_m):
    """The wood of a FramePattern's floor at a half-breadth: an upright line through it."""
    cut = pattern.wood.intersection(LineString([(half_m, -FAR_M), (half_m, FAR_M)]))
    return min(getattr(cut, "geoms", [cut]), key=lambda one: one.bounds[1])


def climbing_items(board):
    """Items of a ClimbingBoard, used again in no boat but one alike."""
    yield Item("strongback", "board to climb on in the dry frame: thickness, length, width", 1,
               "pieces", board.size_m, "softwood or plywood, in layers where none is so thick; at "
               "least so thick")
    yield Item("strongback", "cleat under that board: thickness, length, width", 2, "pieces",
               board.cleat_size_m, "screwed on from below, through it, along its middle, "
               f"{listed([both(one) for one in along_m(board.long_m, CLEAT_SCREWS)])} from one "
               "end, astride the keel")
    screws = 2 * CLEAT_SCREWS
    yield Item("outfit", f"stainless screw {OUTFIT_SCREW}", screws, "pieces", (),
               f"climbing board's cleats: {screws}")
    yield block_item("below that board", board.high_m)


def climbing_words(board):
    return (f"To climb on, a board {' x '.join(map(both, board.size_m))} (thick, long, wide) "
            f"lengthwise on the keel between {board.fore} and {board.aft}, its middle at tape "
            f"{marked(board.tape_m)}, with two cleats under it, {both(board.keel_m)} apart, "
            f"{both(board.cleat_m)} deep, astride the keel: its ends are clear of plywood and "
            "riser, its top over the floors and cheeks at both frames, so that a longer shoe bears "
            f"on neither. Under the keel below that board's middle, {block_words(board.high_m)}: "
            "the keel hangs in zip ties.")


def feet_lath_words(boat, rails, brace, body):
    """What a Body's feet touch in the dry frame of a boat with its FootRails and Footbrace."""
    x = boat.seat_x_m - brace.set_m
    sticks = [one for one in boat.design.stringers if one.role in ("chine", "gunwale")]
    high = hull_at(boat, [x])[0][1:, 1]
    stick = sticks[int(np.argmin(np.abs(high - rails.ball_z_m)))].name
    tape = marked(x - setting_up(boat).strongback_start_x_m)
    return (f"For the feet a lath across the boat, flat, its after face at the footbrace's mark, "
            f"tape {tape}, a clamp a side to the {stick}: the balls of the feet touch it, heels "
            f"about {both(heel_behind_m(body))} behind it, and do not push: no clamp holds a push.")
