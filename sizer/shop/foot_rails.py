"""The footbrace as it is made: a rail a side with a row of holes, a pedal pinned to each.

The rails lie against the inner edges of the two frames' openings, tied or screwed to both; a pedal
of the frames' plywood slides along its rail and is held by a pin through both.
"""

from dataclasses import dataclass

import numpy as np
from shapely.geometry import LineString

from sizer.hull.sections import half_section_at
from sizer.paddler.legs import FEET_APART_M
from sizer.shop.outfit import footbrace
from sizer.shop.stations import setting_up

HOLE_STEP_M = 0.025  # of the holes along a rail; our drawing
PIN_M = 0.008  # stainless pin through pedal and rail; our drawing
PEDAL_M = (0.012, 0.070, 0.120)  # thickness, width, height; our drawing
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
    set_m: float  # of the hole for this paddler


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
    return FootRails(brace.fore_frame, brace.aft_frame, brace.rail_m, high,
                     *(_half_m(frames[name], high) for name in (
                         brace.fore_frame, brace.aft_frame)),
                     tuple((set_m + HOLE_STEP_M * steps).tolist()), set_m)


def _half_m(pattern, z):
    """Half-breadth of a frame's opening at a height; of the skin where it has none."""
    level = LineString([(0.0, z), (2.0, z)])
    inside = pattern.opening if pattern.opening is not None else pattern.section.outline()
    found = level.intersection(inside)
    return float(found.bounds[2]) if not found.is_empty else 0.0
