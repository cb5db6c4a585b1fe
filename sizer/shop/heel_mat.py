"""A mat of foam under the heels: seated, both rest there for a whole trip, and grit under a shoe
wears skin through.

It lies loose on skin and keel behind the soles, from the chine on one side to the same on the
other, tied to both at its corners: nothing is glued to skin. The cords are tied round the sticks
before the skin lies on these. Its few grams are left out of the boat's weight. Our drawing and our
judgement.
"""

from dataclasses import dataclass

import numpy as np

from sizer.paddler.legs import FEET_APART_M
from sizer.shop.boards import hull_at
from sizer.shop.said import at_least, both, both_sides, marked

THICK_M, LONG_M = 0.005, 0.250
BEHIND_SOLES_M = 0.015  # clear of the pedals
OFF_FRAME_M = 0.010
HEEL_HALF_M = 0.040  # of a shoe's heel, across
FOAM_KGPM3 = 100.0  # of closed-cell foam, at the most
CORNERS = 4  # a tie at each
HOLE_IN_M = 0.015  # of a tie, from both edges of its corner
ENDS_M = 0.150  # that its cord's ends are left long; our judgement


@dataclass(frozen=True)
class HeelMat:
    """The mat, both sides of the boat; places from the boat's foremost point."""

    fore_x_m: float
    aft_x_m: float
    half_m: float  # of its width
    stick: str  # that it is tied to, port and starboard

    @property
    def size_m(self):
        """Thickness, length and width."""
        return THICK_M, round(self.aft_x_m - self.fore_x_m, 3), round(2.0 * self.half_m, 3)

    @property
    def mass_kg(self):
        """At the most."""
        return FOAM_KGPM3 * float(np.prod(self.size_m))


def heel_mat(boat, brace, stations):
    """The HeelMat of a boat with its Footbrace for this paddler, between its frames' Stations."""
    fore = boat.seat_x_m - brace.set_m + BEHIND_SOLES_M
    frame = next(one for one in stations if one.name == brace.aft_frame)
    aft = min(fore + LONG_M, frame.faces_x_m[0] - OFF_FRAME_M)
    corners = hull_at(boat, [0.5 * (fore + aft)])[0, :, 0]
    sticks = [one for one in boat.design.stringers if one.role in ("keel", "chine", "gunwale")]
    beside = next((row for row, half in enumerate(corners)
                   if half >= FEET_APART_M + HEEL_HALF_M), len(corners) - 1)
    half = corners[beside] - 0.5 * sticks[beside].width_m
    return HeelMat(float(fore), float(aft), float(half), sticks[beside].name)


def cords_words(mat, start_x_m):
    """What is tied for a HeelMat before the skin; `start_x_m` of the strongback, for the tape."""
    fore, aft = (marked(one - start_x_m) for one in (mat.fore_x_m + HOLE_IN_M,
                                                   mat.aft_x_m - HOLE_IN_M))
    return (f"For the heel mat a waxed cord tied tight round the {mat.stick}, knot inboard, a side "
            f"at tape {fore} and {aft}, ends {both(ENDS_M)}, taped up. ")


def mat_words(mat, start_x_m):
    """Where a HeelMat lies and how it is tied; `start_x_m` of the strongback, for the tape."""
    fore, aft = (marked(one - start_x_m) for one in (mat.fore_x_m, mat.aft_x_m))
    return (f"Heel mat (closed-cell foam {both_sides(*mat.size_m)}, {mat.mass_kg * 1000.0:.0f} g "
            "at most, left out of the boat's weight) on keel and skin behind the plates, tape "
            f"{fore} to {aft}, tied flat at its corners, {both(HOLE_IN_M)} in, by its cords on "
            f"the {mat.stick}. Where pedals are ever set farther aft, cut its forward edge back "
            f"first, to {at_least(BEHIND_SOLES_M)} behind these: none of it under one. "
            "[j]")
