"""Whether the paddler's legs pass the frames as they are sawn, from sitting bones to heels."""

import numpy as np
from shapely.geometry import Point, Polygon
from shapely.ops import unary_union

from sizer.fit.checks import LEG_CLEAR_M
from sizer.hull.inside import NO_WAY_THROUGH_M
from sizer.hull.sections import half_section_at
from sizer.paddler.legs import FEET_APART_M, legs_of
from sizer.shop.pattern_checks import length_check


def leg_checks(patterns, assessed):
    """A check of every frame that the legs pass, for a sizer.fit.assess.Assessed boat."""
    legs = legs_in(assessed)
    for pattern in patterns:
        ahead = assessed.boat.seat_x_m - np.array(pattern.faces_x_m)
        places = ahead[(ahead >= legs.ahead_m[0]) & (ahead <= legs.heel_m)]
        if places.size:
            yield length_check(
                pattern.name, "both legs", "legs clear of the frame",
                leg_clear_m(pattern, legs.outlines_m(places, assessed.boat.seat_z_m)),
                "at least", LEG_CLEAR_M,
                "least from thighs, knees and calves to this frame's inner edge; prove it sitting "
                "in the dry frame, getting out as well as in")


def legs_in(assessed):
    """The Legs of the paddler who sits in the boat, heels on the bottom."""
    boat, ahead = assessed.boat, assessed.room.foot_rest_ahead_m
    floor = heels_z_m(boat, np.clip(boat.seat_x_m - ahead, 0.0, boat.length_m))
    return legs_of(assessed.person.body, floor - boat.seat_z_m)


def heels_z_m(boat, x_m):
    """Height of the boat's bottom under the heels, where they stand at this x."""
    y, z = half_section_at(boat.sections, x_m)
    hull = slice(0, boat.sections.sheer + 1)
    return float(np.interp(FEET_APART_M, y[hull], z[hull]))


def leg_clear_m(pattern, outlines_m):
    """Least distance of both legs from a FramePattern's wood; negative: so far into it.
    `outlines_m` are ovals across the starboard leg, (n, n_points, 2)."""
    if pattern.opening is None:
        return NO_WAY_THROUGH_M
    legs = unary_union([Polygon(oval) for oval in outlines_m])
    if pattern.opening.covers(legs):
        return float(legs.distance(pattern.wood))
    return -max(Point(place).distance(pattern.opening) for place in outlines_m.reshape(-1, 2))
