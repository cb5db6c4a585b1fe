"""The room a body needs in the boat, every measure taken as it is or as most likely.

How far a predicted measure may be off is told by odds, see `sizer.fit.odds`. The clearances and
postures are our judgement. They must be proved by the paddler, dressed as for paddling: wet exits
on dry land first, then in the water with a helper.
"""

import math
from dataclasses import dataclass

import numpy as np

from sizer.design.records import ENTRIES
from sizer.errors import BadInput, Fault
from sizer.paddler.body import SHOE_LONGER_M

# Clearances, m. Each is our judgement, for the reason beside it.
HIP_SIDE_M = 0.012  # each side: clothing, and no pinch when the hips roll
THIGH_TOP_M = 0.015  # clothing, and no pressure that would hold the thighs
KNEE_TOP_M = 0.015  # as for the thighs
FOOT_TOP_M = 0.010  # toes must not catch on the deck when the legs are drawn back
SOLE_M = 0.015  # shoe sole between the bare foot and the foot rest
SIT_IN_M = 0.060  # past the knees, so that they lift out while the paddler still sits
# A thigh that slopes 30 degrees through the rim cuts it over twice its thickness; this past that.
SLIDE_IN_M = 0.070
LEAST_SLIDE_OPENING_M = 0.430  # however thin the thighs: the trunk bends and hands reach the rim
OPENING_BESIDE_HIPS_M = 0.030  # over the whole width: nothing holds the hips on the way out

# Top of the bent knee above the seat over knee height, knees bent 25 degrees: 205/554 for the
# median man and 190/511 for the median woman of our model on ANSUR II bodies.
KNEE_TOP_RATIO = 0.371
THIGH_SLOPE_DEG = 10.0  # of the thigh in that posture; our judgement
FOOT_SLOPE_DEG = 50.0  # of the sole from the floor, feet pointed forward; our judgement
SHOE_WIDTH_RATIO = 0.40  # one shoe's width over foot length; our judgement
# Body size explains 59 % of where Olympic sprint paddlers set the foot bar, standard error 45 mm
# (Ong et al. 2005, 2006): allow at least this much each way.
FOOT_REST_ADJUSTMENT_M = 0.050

# ANSUR II means (Gordon et al. 2014): hand breadth 88 and 78, arm span 1814 and 1660 mm.
HAND_OF_SPAN = (88 / 1814 + 78 / 1660) / 2
FIST_OF_HAND = (1.0, 1.15)  # fist width over hand breadth; our judgement


@dataclass(frozen=True)
class Room:
    """Clear space the body needs; heights above the seat top, ahead of the back of the buttocks.

    `foot_height_m` stands on the floor under the heels; `foot_rest_ahead_m` is the nominal
    place, to be adjustable by FOOT_REST_ADJUSTMENT_M each way.
    """

    hip_width_m: float
    thigh_height_m: float
    knee_top_m: float
    knee_ahead_m: float
    foot_height_m: float
    foot_width_m: float
    foot_rest_ahead_m: float
    opening_length_m: float
    opening_width_m: float


@dataclass(frozen=True)
class FolkMeasures:
    """Traditional sizes, only to show beside the result."""

    length_m: float
    beam_low_m: float
    beam_high_m: float


def room_needed(body, entry):
    """The Room a Body needs, entering by `entry`: "slide" (legs straight in) or "sit" (seat first).

    The Body may be of many: numbers (n,).
    Our judgement throughout but for the foot rest, which in mm and barefoot is -45.1 + 0.2849
    stature + 0.9563 buttock-knee (our pooled model on ANSUR II). Prove it by wet exits on dry
    land and in the water. Raises BadInput at "cockpit.entry".
    """
    foot_m = np.maximum(body.foot_length.value_m, body.shoe_length.value_m - SHOE_LONGER_M)[()]
    standing_m = math.sin(math.radians(FOOT_SLOPE_DEG)) * body.shoe_length.value_m
    return Room(
        hip_width_m=hips_dressed_m(body),
        thigh_height_m=body.thigh_clearance.value_m + THIGH_TOP_M,
        knee_top_m=KNEE_TOP_RATIO * body.knee_height.value_m + KNEE_TOP_M,
        knee_ahead_m=body.buttock_knee.value_m * math.cos(math.radians(THIGH_SLOPE_DEG)),
        foot_height_m=standing_m + FOOT_TOP_M,
        foot_width_m=2 * SHOE_WIDTH_RATIO * foot_m,
        foot_rest_ahead_m=foot_rest_ahead_m(body),
        opening_length_m=_opening_length_m(body, entry),
        opening_width_m=body.hip_sitting.value_m + OPENING_BESIDE_HIPS_M,
    )


def hips_dressed_m(body):
    """Width of a Body's hips with clothing, and what they need to roll."""
    return body.hip_sitting.value_m + 2 * HIP_SIDE_M


def folk_measures(body):
    """Traditional sizes of a Body: three arm spans long, as wide as the hips and two fists.

    Rules of thumb handed down, no one source; not limits. Surveyed Greenland kayaks average
    453 mm beam, so on modern sitting hips the fists read about 100 mm too much.
    """
    hand_m = HAND_OF_SPAN * body.arm_span.value_m
    low_m, high_m = (body.hip_sitting.value_m + 2 * fist * hand_m for fist in FIST_OF_HAND)
    return FolkMeasures(3 * body.arm_span.value_m, low_m, high_m)


def foot_rest_ahead_m(body):
    """Of the soles, ahead of the back of the buttocks; nominal, since a foot rest is adjustable.

    In mm and barefoot -45.1 + 0.2849 stature + 0.9563 buttock-knee, and the shoe's sole.
    """
    return SOLE_M - 0.0451 + 0.2849 * body.stature.value_m + 0.9563 * body.buttock_knee.value_m


def _opening_length_m(body, entry):
    if entry == "sit":
        return body.buttock_knee.value_m + SIT_IN_M
    if entry == "slide":
        return np.maximum(LEAST_SLIDE_OPENING_M,
                          2 * body.thigh_clearance.value_m + SLIDE_IN_M)[()]
    raise BadInput([Fault("cockpit.entry", f"{entry!r:.40}", f"write {' or '.join(ENTRIES)}")])
