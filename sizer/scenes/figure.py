"""The seated paddler as a simple outline, from measures alone.

Posture as for the seated mass centre: torso leant back 7.5 degrees, knees bent 25 degrees, hands at
chest height, soles on the footbrace. What no tape was put to - the trunk's depth, the limbs'
thickness - is our drawing and is read nowhere else.
"""

from dataclasses import dataclass
from math import cos, radians, sin

import numpy as np

from sizer.design.records import SIT_AHEAD_M
from sizer.drawing.marks import smooth
from sizer.paddler.legs import ANKLE_HALF_WIDTH_M, FEET_APART_M, HEEL_SHARE, legs_of
from sizer.paddler.room import FOOT_SLOPE_DEG, SHOE_WIDTH_RATIO, THIGH_SLOPE_DEG, room_needed

LEAN_DEG = 7.5  # as `sizer.paddler.seated`
WATER_KGPM3 = 1000.0  # a body is about as dense
TRUNK_SHARE = 0.44  # of the body's weight
TRUNK_OF_SITTING = 0.60  # height of the trunk over sitting height
TRUNK_FILL = 0.78  # of the box around its outline

# (along the trunk over sitting height, depth from the back over trunk depth)
_BACK = ((0.075, 0.0), (0.19, 0.05), (0.33, 0.10), (0.48, 0.0), (0.585, 0.06), (0.655, 0.22),
         (0.715, 0.29))
_HEAD = ((-0.098, -0.055), (-0.105, 0.02), (-0.075, 0.082), (-0.01, 0.114), (0.055, 0.094),
         (0.087, 0.038), (0.088, -0.005), (0.104, -0.035), (0.087, -0.060), (0.076, -0.105),
         (0.012, -0.110))  # ahead and up of the head's middle, over sitting height
_CHEST = ((0.705, 0.70), (0.640, 0.83), (0.555, 0.99))


@dataclass(frozen=True, eq=False)
class SideFigure:
    """Outlines in profile; ahead of the back of the buttocks and above the seat, m."""

    body_m: np.ndarray  # (n, 2) closed
    arm_m: np.ndarray  # (n, 2) open: the upper arm against the trunk
    foot_rest_m: np.ndarray  # (2, 2) the brace behind the soles, bottom to top


@dataclass(frozen=True, eq=False)
class PlanFigure:
    """Outlines from above; ahead of the back of the buttocks and to the side, m."""

    legs_m: np.ndarray  # (n, 2) closed, with the hips
    shoulders_m: np.ndarray  # (n, 2) closed
    head_m: np.ndarray  # (n, 2) closed


def trunk_depth_m(body):
    """Depth of the trunk that gives it its share of the weight."""
    height = TRUNK_OF_SITTING * body.sitting_height.value_m
    volume = TRUNK_SHARE * body.weight_kg / WATER_KGPM3
    return volume / (height * TRUNK_FILL * 0.84 * body.shoulder_width.value_m)


def side_figure(body, entry, floor_m):
    """The SideFigure of a Body whose heels rest at `floor_m` above the seat (negative: below)."""
    sitting = body.sitting_height.value_m
    depth = trunk_depth_m(body)
    back = _leant(_BACK, sitting, depth)
    middle = np.add(_leant(((0.880, 0.0),), sitting, depth), (0.52 * depth, 0.0))
    head = middle + np.array(_HEAD) * sitting
    chest = _leant(_CHEST, sitting, depth)
    arm, hollow = _arm(sitting, depth, chest[-1])
    belly = _leant(((0.20, 1.06),), sitting, depth)
    foot, leg_top, leg_under = _leg(body, entry, floor_m, belly[0, 0])
    outline = np.concatenate([back, head[:-1], chest, arm, belly, leg_top, foot, leg_under])
    brace = np.add([foot[-1], foot[2]], (0.010, -0.006))  # behind heel and toe
    return SideFigure(smooth(outline), smooth(hollow, closed=False), brace)


def _leant(shares, sitting, depth):
    along, across = np.array(shares, float).T
    along, across = along * sitting, across * depth
    lean = radians(LEAN_DEG)
    start = 0.075 * sitting * sin(lean)  # puts the buttocks' back at zero
    return np.stack([start - along * sin(lean) + across * cos(lean),
                     along * cos(lean) + across * sin(lean)], axis=1)


def _arm(sitting, depth, chest):
    """Forearm with hand as the outline passes round it, and the upper arm's inner lines."""
    elbow = _leant(((0.27, 0.62),), sitting, depth)[0]
    hand = np.array([max(chest[0], elbow[0]) + 0.235 * sitting, 0.50 * sitting])
    along = (hand - elbow) / np.linalg.norm(hand - elbow)
    side = np.array([-along[1], along[0]])
    thick = 0.042 * sitting
    grip = hand + 0.05 * sitting * along
    start = elbow + along * (chest[0] - elbow[0] + 0.03) / along[0]
    around = np.array([
        start + 0.85 * thick * side, hand - 0.02 * along + 0.60 * thick * side,
        hand + 0.015 * along + 0.85 * thick * side, grip + 0.70 * thick * side,
        grip + 0.45 * thick * along, grip - 0.70 * thick * side,
        hand + 0.015 * along - 0.85 * thick * side, hand - 0.02 * along - 0.60 * thick * side,
        start - 0.9 * thick * side])
    shoulder = _leant(((0.565, 0.52),), sitting, depth)[0]
    upper = _leant(((0.50, 0.70), (0.40, 0.80)), sitting, depth)
    inner = np.array([
        start + 0.85 * thick * side, upper[1], upper[0], np.add(shoulder, (0.0, 0.02)),
        _leant(((0.53, 0.30),), sitting, depth)[0], _leant(((0.38, 0.33),), sitting, depth)[0],
        elbow - 0.75 * thick * along - 0.4 * thick * side, elbow - thick * side,
        start - 0.9 * thick * side])
    return around, inner


def _leg(body, entry, floor_m, lap_m):
    """Foot, upper side of the leg and its under side, in the order of the outline.

    Thigh, knee and calf are the legs that the checks take past the frames.
    """
    legs = legs_of(body, floor_m)
    ahead, upper, lower = legs.ahead_m, legs.top_m, legs.under_m
    tip, shoe = radians(FOOT_SLOPE_DEG), body.shoe_length.value_m
    reach = body.buttock_knee.value_m * cos(radians(THIGH_SLOPE_DEG))
    toe_up = np.array([cos(tip), sin(tip)])  # along the sole
    instep = np.array([-sin(tip), cos(tip)])  # off the sole, towards the leg
    sole = room_needed(body, entry).foot_rest_ahead_m
    heel = np.array([sole - HEEL_SHARE * shoe * cos(tip), floor_m])
    toe = heel + shoe * toe_up
    ankle = heel + 0.30 * shoe * toe_up + 0.36 * shoe * instep
    behind = heel + 0.26 * shoe * instep - 0.02 * toe_up
    foot = np.array([
        heel + 0.58 * shoe * toe_up + 0.25 * shoe * instep, toe + 0.10 * shoe * instep, toe,
        heel + 0.5 * shoe * toe_up, heel])
    top = np.array([
        (max(ahead[1], lap_m + 0.03), upper[1]), (ahead[2], upper[2]), (ahead[3], upper[3]),
        (reach + 0.015, upper[3] - 0.022), (ahead[4], upper[4]), ankle])
    under = np.array([
        behind, *np.stack([ahead, lower], axis=1)[4:0:-1], (0.12, 0.0), (0.03, 0.018)])
    return foot, top, under


def plan_figure(body, entry):
    """The PlanFigure of a Body: legs under the deck, shoulders and head over it."""
    sitting, depth = body.sitting_height.value_m, trunk_depth_m(body)
    hip = 0.5 * body.hip_sitting.value_m
    room = room_needed(body, entry)
    shoe = body.shoe_length.value_m
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
    legs = smooth(np.concatenate([half, half[::-1] * (1.0, -1.0)]))
    middle = _leant(((0.56, 0.5), (0.87, 0.5)), sitting, depth)[:, 0]
    return PlanFigure(
        legs, _oval(middle[0], 0.48 * depth, 0.5 * body.shoulder_width.value_m, 2.6),
        _oval(middle[1] + 0.01, 0.105 * sitting, 0.083 * sitting, 2.0))


def _oval(ahead, half_long, half_wide, power):
    """An ellipse, or a squarer one for a higher power, about a point on the centre line."""
    turn = np.linspace(0.0, 2.0 * np.pi, 60, endpoint=False)
    long, wide = np.cos(turn), np.sin(turn)
    return np.stack([ahead + half_long * np.sign(long) * np.abs(long) ** (2.0 / power),
                     half_wide * np.sign(wide) * np.abs(wide) ** (2.0 / power)], axis=1)
