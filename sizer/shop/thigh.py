"""The thigh braces: a board a side under the deck, from the gunwale to the coaming's wall, which it
meets at its after end, with a pad under it that stops short of the thigh.

They stand outside the coaming's opening as seen from above, so that nothing of them lies in the
legs' way up and out, and behind the knees, between two frames. Our drawing and our judgement: prove
them by getting out of the dry frame before anything is glued, and leave them out where in doubt.
"""

from dataclasses import dataclass

import numpy as np

from sizer.hull.boat import sections_at
from sizer.shop.coaming import RIM_HOLE_UNDER_M, WALL_M, round_at_m
from sizer.shop.lashing import HOLE_SIZE
from sizer.shop.leg_room import legs_in
from sizer.shop.outfit import gunwale_inside_m
from sizer.shop.said import both
from sizer.shop.stations import setting_up
from sizer.units import MM_PER_M

LONG_M = 0.100  # of a board, fore and aft; our drawing
THICK_M = 0.012  # plywood, from the frames' offcuts; our drawing
AT_GUNWALE, AT_WALL = 2, 1  # lashings of a board: on three it cannot rock; our judgement
LASHINGS = AT_GUNWALE + AT_WALL
FROM_END_M = 0.015  # of the boards' holes from their ends; our drawing
FROM_EDGE_M = 0.015  # and from their long edges; our drawing
WALL_HOLES_APART_M = 0.020  # of the two that the wall's lashing goes through; our drawing
NICK_M = 0.005  # into the inner edge at each of them, for the cord; our drawing
OVER_THIGH_M = 0.015  # from the thigh to the pad: nothing presses; our judgement
OVERLAP_M = 0.020  # least that a board reaches in over the thigh, to be of use; our judgement
UNDER_DECK_M = 0.006  # from the deck's line to the board, so that no skin touches; our judgement
FRAME_CLEAR_M = 0.005  # from a board to a frame's plywood; our judgement
FROM_HIP_SHARE = 0.42  # of the thigh, from the buttocks: no brace nearer the hips; our judgement
PAD_M = (0.005, 0.100)  # thickness of a pad: thinner is left out, thicker is no pad; our judgement
STEP_M = 0.005  # of the places tried


@dataclass(frozen=True)
class ThighBraces:
    """Where the boards stand, port and starboard alike; heights over the baseline."""

    fore_x_m: float  # of the board's two ends, from the boat's foremost point
    aft_x_m: float
    inner_m: float  # half-breadth at the outside of the coaming's wall, at its after end
    outer_m: float  # at the gunwale's inner face
    inner_z_m: float  # of its underside there
    outer_z_m: float
    pad_m: float  # thickness of the pad under its inner edge
    overlap_m: float  # that the board reaches in over the thigh's outer edge

    @property
    def wall_holes_m(self):
        """Of the wall's two holes and the board's two beside them, from the board's after end."""
        return FROM_END_M, FROM_END_M + WALL_HOLES_APART_M

    @property
    def holes_m(self):
        """Of the board's holes, (from its after end, from its inner edge): those of the wall's
        lashing, then one for each of the gunwale's."""
        out = self.wide_m - FROM_EDGE_M
        return (*((at, FROM_EDGE_M) for at in self.wall_holes_m),
                (FROM_END_M, out), (LONG_M - FROM_END_M, out))

    @property
    def wall_middle_m(self):
        """x midway between the wall's two holes."""
        return self.aft_x_m - 0.5 * sum(self.wall_holes_m)

    @property
    def wide_m(self):
        """Of the board, across the boat along its slope."""
        return float(np.hypot(self.outer_m - self.inner_m, self.outer_z_m - self.inner_z_m))


def thigh_braces(assessed):
    """The ThighBraces of an Assessed boat; None where they find no place."""
    boat, legs = assessed.boat, legs_in(assessed)
    nearest = FROM_HIP_SHARE * float(legs.ahead_m[3])
    aft = boat.seat_x_m - np.arange(nearest, float(legs.ahead_m[3]), STEP_M)
    stations = setting_up(boat).stations
    found = (_at(boat, stations, legs, float(x)) for x in aft)
    return next((one for one in found if one), None)


def _at(boat, stations, legs, aft):
    """The braces whose boards end at x = `aft`, None where they cannot."""
    fore, opening = aft - LONG_M, boat.opening
    if fore < opening.front_x_m or any(
            station.faces_x_m[0] - FRAME_CLEAR_M < aft and fore < station.faces_x_m[1]
            + FRAME_CLEAR_M for station in stations):
        return None
    middle = 0.5 * (fore + aft)
    inner = float(opening.half_width_m(np.array([aft]))[0]) + WALL_M
    top, apart, half = (float(np.interp(boat.seat_x_m - middle, legs.ahead_m, values))
                        for values in (legs.top_m, legs.apart_m, legs.half_width_m))
    outer, sheer_z = gunwale_inside_m(boat, middle)
    deck_z = min(_deck_z_m(boat, x, inner) for x in (fore, middle, aft))
    down = UNDER_DECK_M + THICK_M
    thigh = boat.seat_z_m + top
    pad = deck_z - down - thigh - OVER_THIGH_M
    if apart + half - inner < OVERLAP_M or not PAD_M[0] <= pad <= PAD_M[1]:
        return None
    return ThighBraces(fore, aft, inner, outer, deck_z - down, sheer_z - down,
                       float(pad), apart + half - inner)


def _deck_z_m(boat, x_m, half_m):
    """Height of the deck's cloth there: straight from the gunwale's upper corner to the coaming."""
    opening, skin = boat.opening, sections_at(boat, np.array([x_m]))
    edge = float(opening.half_width_m(np.array([x_m]))[0])
    top = float(np.interp(x_m, (opening.front_x_m, opening.back_x_m), opening.deck_z_m))
    return float(np.interp(half_m, (edge, float(skin.y_m[0, skin.sheer])),
                           (top, float(skin.z_m[0, skin.sheer]))))


def wall_holes_words(braces, rim, opening):
    """Where the Coaming's wall is bored for ThighBraces, on both sides."""
    middle = round_at_m(rim, braces.wall_middle_m - opening.front_x_m)
    return (f"two holes of {HOLE_SIZE} a side, "
            f"{RIM_HOLE_UNDER_M * MM_PER_M:g} mm under the deck line, "
            f"{WALL_HOLES_APART_M * MM_PER_M:g} mm apart, midway between them {both(middle)} round "
            "the wall's inside from the front's centre line")
