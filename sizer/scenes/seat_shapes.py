"""The seat, its backband and their places in the pictures: the boards that the shop cuts."""

import numpy as np

from sizer.drawing.record import Path
from sizer.hull.inside import FLOOR_M
from sizer.hull.seat import SIT_APART_M
from sizer.shop.boards import ends_m
from sizer.shop.outfit import BAND_M, backband
from sizer.shop.seat_parts import boards

BOTH_SIDES = ((1.0, 1.0), (1.0, -1.0))


def seat_side(boat):
    """Seat and backband from the side, as strokes."""
    band, tie = backband_m(boat)
    return [Path("block", seat_side_m(boat), closed=True), Path("block", band, closed=True),
            Path("wood", tie)]


def seat_side_m(boat):
    """The seat from the side under the sitting bones, closed: (n, 2) x and height.

    Slats and straps reach to the floors of the frames that they stand on.
    """
    seat, (front, back) = boat.seat, ends_m(boat)
    under = _each(seat, seat.under_m)
    inside = (seat.x_m > front) & (seat.x_m < back)
    line = np.stack([seat.x_m, under], axis=1)
    if boat.design.seat.kind != "panel":
        floors = np.interp((front, back), seat.x_m, _each(seat, seat.skin_m)) + FLOOR_M
        line = np.concatenate([[(front, floors[0])], line[inside], [(back, floors[1])]])
    over = np.add(line[::-1], (0.0, boat.design.seat.thickness_m))
    return np.concatenate([line, over])


def seat_across_m(boat):
    """Its boards across where one sits, both sides, closed: (n, 2) half-breadth and height each."""
    return [board.section_m * (side, 1.0) for board in boards(boat) for side in (1.0, -1.0)]


def seat_plan_m(boat):
    """Its boards from above, both sides, closed: (4, 2) x and half-breadth each."""
    return [board.plan_m * side for board in boards(boat) for side in BOTH_SIDES]


def backband_m(boat):
    """The backband from the side, closed, and its tie to the gunwale: (n, 2) of x and height."""
    band, (thick, high) = backband(boat), BAND_M
    low, top = band.z_m - 0.5 * high, band.z_m + 0.5 * high
    strip = np.array([(band.x_m, low), (band.x_m, top), (band.x_m + thick, top),
                      (band.x_m + thick, low)])
    return strip, np.array([(band.x_m, band.z_m), (band.loop_x_m, band.tie_z_m)])


def _each(seat, heights):
    """Heights under the sitting bones along the seat."""
    return np.array([np.interp(SIT_APART_M, half, row)
                     for half, row in zip(seat.half_m, heights, strict=True)])
