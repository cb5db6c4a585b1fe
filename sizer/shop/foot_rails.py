"""The footbrace as it is made: a rail a side with a row of holes, a pedal pinned to each.

The rails lie against the inner edges of the two frames' openings, lashed to both through holes in
the plywood. A pedal is a plate of plywood across the boat for the sole, screwed and glued to the
after end of a cheek and to a block in the corner between them; the cheek lies on the rail's inner
face, and two pins through cheek and rail hold it: with one it would turn.
"""

from dataclasses import dataclass

import numpy as np
from shapely.geometry import LineString, Point

from sizer.hull.sections import half_section_at
from sizer.paddler.legs import FEET_APART_M
from sizer.shop.lashing import EDGE_M, HOLE_M, HOLES_APART_M
from sizer.shop.outfit import footbrace
from sizer.shop.stations import setting_up

HOLE_STEP_M = 0.025  # of the holes along a rail; our drawing
PIN_M = 0.008  # stainless pin through cheek and rail; our drawing
PINS_AHEAD_M = (0.020, 0.045)  # of a pedal's pins ahead of its sole, a step apart; our drawing
CHEEK_M = (0.012, 0.060, 0.060)  # thickness, length ahead of the plate, height; our drawing
BLOCK_M = 0.020  # side of the block in the corner of cheek and plate; our drawing
HOLE_EDGE_M = 0.015  # of the rail beyond its last hole; our judgement
RAIL_LASHINGS = 8  # two at each end of each rail
TIES_UP_M = (0.021, 0.031)  # of their holes over and under the rail's middle; our drawing
TIES_OUT_M = 0.010  # out from the opening's edge; our drawing
PEDAL_M = (0.012, 0.070, 0.120)  # its plate's thickness, width, height; our drawing
BALL_SHARE = 0.55  # of the standing foot's height, where its ball is; our judgement


@dataclass(frozen=True)
class FootRails:
    """One rail, the other its mirror image; heights over the baseline."""

    fore: str  # the frames that its ends lie on
    aft: str
    long_m: float
    z_m: float  # of its middle, level with the balls of the feet
    fore_half_m: float  # half-breadth of its outer face at the two frames
    aft_half_m: float
    holes_m: tuple[float, ...]  # middles, from its forward end
    soles_m: tuple[float, ...]  # where the pedal's after face can stand, from there too
    set_m: float  # where it stands for this paddler, one of them
    ties_m: tuple[tuple[str, tuple[tuple[float, float], ...]], ...]  # (frame, its lashing holes):
    # half-breadth and height


def foot_rails(assessed, patterns):
    """The FootRails of an Assessed boat among its FramePatterns."""
    boat, brace = assessed.boat, footbrace(assessed)
    frames = {one.name: one for one in patterns}
    stations = {one.name: one for one in setting_up(boat).stations}
    start = stations[brace.fore_frame].faces_x_m[0]
    sole = boat.seat_x_m - brace.set_m
    y, z = half_section_at(boat.sections, np.array([sole]))
    hull = slice(0, boat.sections.sheer + 1)
    floor = float(np.interp(FEET_APART_M, y[0, hull], z[0, hull]))
    high = floor + BALL_SHARE * assessed.room.foot_height_m
    set_m = float(sole - start)
    back, ahead = (float(boat.seat_x_m - reach - start)
                   for reach in (brace.nearest_m, brace.farthest_m))
    steps = np.arange(-np.floor((set_m - ahead) / HOLE_STEP_M),
                      np.floor((back - set_m) / HOLE_STEP_M) + 1.0)
    soles = [at for at in (set_m + HOLE_STEP_M * steps).tolist()
             if (at - max(PINS_AHEAD_M) >= HOLE_EDGE_M
             and at - min(PINS_AHEAD_M) <= brace.rail_m - HOLE_EDGE_M) or at == set_m]
    holes = sorted({round(at - ahead, 6) for at in soles for ahead in PINS_AHEAD_M})
    ends = [frames[name] for name in (brace.fore_frame, brace.aft_frame)]
    return FootRails(brace.fore_frame, brace.aft_frame, brace.rail_m, high,
                     *(_half_m(frame, high) for frame in ends), tuple(holes), tuple(soles), set_m,
                     tuple((frame.name, tuple(_ties(frame, high))) for frame in ends))


def _ties(pattern, high):
    """Holes beside the opening, over and under the rail, that leave EDGE_M of plywood round them
    and HOLES_APART_M from the frame's own."""
    for up in (*TIES_UP_M, *(-one for one in TIES_UP_M)):
        spot = _half_m(pattern, high + up) + TIES_OUT_M, high + up
        clear = pattern.wood.contains(Point(spot)) and pattern.wood.boundary.distance(
            Point(spot)) >= EDGE_M + 0.5 * HOLE_M - 1e-9
        if clear and all(np.hypot(*np.subtract(spot, at)) >= HOLES_APART_M
                         for _, at in pattern.holes):
            yield spot


def _half_m(pattern, z):
    """Half-breadth of a frame's opening at a height; of the skin where it has none."""
    level = LineString([(0.0, z), (2.0, z)])
    inside = pattern.opening if pattern.opening is not None else pattern.section.outline()
    found = level.intersection(inside)
    return float(found.bounds[2]) if not found.is_empty else 0.0
