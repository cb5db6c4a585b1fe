"""The seated legs and shod feet from the side and from above.

Thigh, knee and calf are the legs that the checks take past the frames; the rest is our drawing.
Places are ahead of the back of the buttocks and above the seat, or to the side, m.
"""

from math import cos, radians, sin

import numpy as np

from sizer.design.records import SIT_AHEAD_M
from sizer.drawing.marks import smooth
from sizer.paddler.legs import ANKLE_HALF_WIDTH_M, FEET_APART_M, HEEL_SHARE, legs_of
from sizer.paddler.room import FOOT_SLOPE_DEG, SHOE_WIDTH_RATIO, THIGH_SLOPE_DEG, room_needed
from sizer.scenes.flesh import smooth_shape


def leg_side(body, entry, floor_m):
    """Leg and shod foot in profile as a Polygon, and the brace behind the sole, bottom to top."""
    legs = legs_of(body, floor_m)
    ahead, upper, lower = legs.ahead_m, legs.top_m, legs.under_m
    tip, shoe = radians(FOOT_SLOPE_DEG), body.shoe_length.value_m
    reach = body.buttock_knee.value_m * cos(radians(THIGH_SLOPE_DEG))
    toe_up = np.array([cos(tip), sin(tip)])  # along the sole
    instep = np.array([-sin(tip), cos(tip)])  # off the sole, towards the leg
    sole = room_needed(body, entry).foot_rest_ahead_m
    heel = np.array([sole - HEEL_SHARE * shoe * cos(tip), floor_m])
    toe = heel + shoe * toe_up
    top = [(0.02, 0.55 * upper[0]), *np.stack([ahead, upper], axis=1)[:4],
           (reach + 0.015, upper[3] - 0.022), (ahead[4], upper[4])]
    foot = [heel + along * shoe * toe_up + off * shoe * instep for along, off in (
        (0.32, 0.37), (0.46, 0.30), (0.70, 0.215), (0.92, 0.17), (0.995, 0.10), (1.0, 0.02),
        (0.86, -0.005), (0.5, 0.0), (0.08, 0.0), (-0.01, 0.06), (-0.02, 0.16), (0.03, 0.27))]
    under = [*np.stack([ahead, lower], axis=1)[4:0:-1], (0.12, 0.0), (0.05, 0.004), (0.012, 0.03)]
    brace = np.add([heel, toe], (0.010, -0.006))
    return smooth_shape([*top, *foot, *under]), brace


def legs_above(body, entry):
    """Hips, legs and shoes from above, both sides, closed."""
    hip, shoe = 0.5 * body.hip_sitting.value_m, body.shoe_length.value_m
    room = room_needed(body, entry)
    heel = room.foot_rest_ahead_m - HEEL_SHARE * shoe * cos(radians(FOOT_SLOPE_DEG))
    toe = heel + shoe * cos(radians(FOOT_SLOPE_DEG))
    half_shoe = 0.5 * SHOE_WIDTH_RATIO * shoe
    checked = legs_of(body, 0.0)
    ahead, apart, thick = (values[1:5] for values in (
        checked.ahead_m, checked.apart_m, checked.half_width_m))  # thigh to calf
    half = np.array([
        (0.0, 0.30 * hip), (0.02, 0.74 * hip), (SIT_AHEAD_M, hip),
        *np.stack([ahead, apart + thick], axis=1),
        (heel - 0.04, FEET_APART_M + ANKLE_HALF_WIDTH_M),
        (heel + 0.04, FEET_APART_M + 0.8 * half_shoe),
        (toe - 0.06, FEET_APART_M + half_shoe), (toe, FEET_APART_M + 0.3 * half_shoe),
        (toe - 0.03, FEET_APART_M - 0.8 * half_shoe), (heel, FEET_APART_M - ANKLE_HALF_WIDTH_M),
        *np.stack([ahead, apart - thick], axis=1)[::-1]])
    return smooth(np.concatenate([half, half[::-1] * (1.0, -1.0)]))
