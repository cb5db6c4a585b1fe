"""The seated legs from hips to heels: an oval across each leg at every place ahead of the seat.

Posture as for the seated mass centre: knees bent 25 degrees, heels on the floor. What no tape was
put to, the limbs' thickness and how far apart they lie, is our drawing.
"""

from dataclasses import dataclass
from math import cos, radians

import numpy as np

from sizer.design.records import SIT_AHEAD_M
from sizer.paddler.room import FOOT_SLOPE_DEG, KNEE_TOP_RATIO, THIGH_SLOPE_DEG, foot_rest_ahead_m
from sizer.rows import interp

THIGHS_APART_M = 0.10  # centre line to the middle of a thigh; our judgement
KNEES_APART_M = 0.14  # centre line to the middle of a knee; our judgement
FEET_APART_M = 0.07  # centre line to the middle of a foot; our judgement
HEEL_SHARE = 0.62  # of the shoe's length, along the sole, from its ball to the heel
KNEE_SHARE = 0.19  # a knee's thickness over knee height, for a thigh of MIDDLE_THIGH_M
MIDDLE_THIGH_M = 0.165
THIGH_WIDE_SHARE = 0.46  # half-width of a thigh over its thickness
KNEE_WIDE_SHARE = 0.52  # half-width of a knee over its thickness
ANKLE_M = (0.040, 0.130)  # under and upper side over the heel's floor
ANKLE_HALF_WIDTH_M = 0.042
AROUND = np.linspace(0.0, 2.0 * np.pi, 32, endpoint=False)


@dataclass(frozen=True, eq=False)
class Legs:
    """One leg by places, ahead of the back of the buttocks and above the seat's top; arrays (n,).

    The other is its mirror image. Of many bodies, arrays have a leading axis.
    """

    ahead_m: np.ndarray  # rising, from the sitting bones to the heel
    under_m: np.ndarray
    top_m: np.ndarray
    apart_m: np.ndarray  # middle of the leg from the centre line
    half_width_m: np.ndarray
    sole_m: float  # ahead of the back of the buttocks

    @property
    def heel_m(self):
        """Where the heel stands: a frame from here to the sole is in the feet's way."""
        return self.ahead_m[..., -1][()]

    def ovals_m(self, ahead_m, seat_m=0.0):
        """The oval across the leg at each place (...): (..., 4) of its middle's half-breadth, its
        half-width, its middle's height and its half-height.

        Heights are over the seat, or over what the seat's top stands `seat_m` above.
        """
        under, top, apart, half = (interp(ahead_m, self.ahead_m, values) for values in (
            self.under_m, self.top_m, self.apart_m, self.half_width_m))
        middle = np.asarray(seat_m)[..., None] + 0.5 * (top + under)
        return np.stack([apart, half, middle, 0.5 * (top - under)], axis=-1)

    def outlines_m(self, ahead_m, seat_m=0.0):
        """Those ovals as (..., 32, 2) of half-breadth and height."""
        apart, half, middle, tall = np.moveaxis(self.ovals_m(ahead_m, seat_m)[..., None], -2, 0)
        return np.stack([apart + half * np.cos(AROUND), middle + tall * np.sin(AROUND)], axis=-1)


def knee_thickness_m(body):
    """Of a Body's knee."""
    return (KNEE_SHARE * body.knee_height.value_m
            * (body.thigh_clearance.value_m / MIDDLE_THIGH_M) ** 0.5)


def heel_behind_m(body):
    """How far a heel stands on the floor behind the ball of its foot, which bears on the brace."""
    return HEEL_SHARE * body.shoe_length.value_m * cos(radians(FOOT_SLOPE_DEG))


def legs_of(body, floor_m):
    """The Legs of a Body whose heels rest at `floor_m` above the seat (negative: below it).

    Body and floor may be of many: numbers (n,).
    """
    thigh, knee = body.thigh_clearance.value_m, knee_thickness_m(body)
    reach = body.buttock_knee.value_m * cos(radians(THIGH_SLOPE_DEG))
    knee_top = KNEE_TOP_RATIO * body.knee_height.value_m
    hips = 0.25 * body.hip_sitting.value_m  # two thighs fill the hips' width
    heel = foot_rest_ahead_m(body) - heel_behind_m(body)
    ankle_under, ankle_top = (floor_m + height for height in ANKLE_M)
    knee_under = knee_top - knee - 0.005
    calf = 0.5 * (0.95 * reach + heel)
    rows = (  # ahead, under, top, apart, half-width
        (SIT_AHEAD_M, 0.0, thigh, hips, hips),
        (0.42 * reach, 0.0, 0.98 * thigh, np.maximum(THIGHS_APART_M, THIGH_WIDE_SHARE * thigh),
         THIGH_WIDE_SHARE * thigh),
        (0.62 * reach, 0.016, 0.5 * (thigh + knee_top), 0.5 * (THIGHS_APART_M + KNEES_APART_M),
         0.45 * thigh),
        (0.95 * reach, knee_under, knee_top, KNEES_APART_M, KNEE_WIDE_SHARE * knee),
        (calf, 0.5 * (knee_under + ankle_under) - 0.010, 0.5 * (knee_top + ankle_top),
         0.5 * (KNEES_APART_M + FEET_APART_M), 0.5 * knee),
        (np.maximum(heel, calf + 0.05), ankle_under, ankle_top, FEET_APART_M, ANKLE_HALF_WIDTH_M))
    return Legs(*(np.stack(np.broadcast_arrays(*each), axis=-1)
                  for each in zip(*rows, strict=True)), foot_rest_ahead_m(body))
