"""The seated paddler from the side and from above, built from the body's own measures.

Posture as for the seated mass centre: torso leant back 7.5 degrees, knees bent 25 degrees, hands at
chest height, soles on the footbrace; the hands hold a paddle whose port blade is about to dip.
Girths are those of `flesh.py`; thigh, knee and calf are the legs that the checks take past the
frames, the rest of legs and shod feet is our drawing.
"""

from dataclasses import dataclass
from functools import cache, lru_cache
from math import cos, radians, sin

import numpy as np
from shapely import Point, Polygon, unary_union
from shapely import box as box_of

from sizer.design.records import SIT_AHEAD_M
from sizer.drawing.marks import smooth
from sizer.paddler.body import predict
from sizer.paddler.legs import ANKLE_HALF_WIDTH_M, FEET_APART_M, heel_behind_m, legs_of
from sizer.paddler.measures import Measured
from sizer.paddler.room import FOOT_SLOPE_DEG, SHOE_WIDTH_RATIO, THIGH_SLOPE_DEG, room_needed
from sizer.scenes.flesh import (
    arm,
    blended,
    girths_of,
    hand,
    limb,
    outline,
    rounded,
    smooth_shape,
    without,
)
from sizer.scenes.holding import NEAR, holding
from sizer.scenes.trunk import chin_m, head_side, leant, trunk_side

LEAN_DEG = 7.5  # as `sizer.paddler.seated`
LAP_M, NAPE_M, CORNER_M = 0.045, 0.020, 0.018  # hollows and corners that flesh rounds

_VEST = (0.215, 0.600)  # along the trunk over sitting height: where a PFD begins and ends
VEST_M = 0.035  # its thickness


@dataclass(frozen=True, eq=False)
class SideFigure:
    """Outlines in profile; ahead of the back of the buttocks and above the seat, m."""

    body_m: np.ndarray  # (n, 2) closed: legs, trunk and head, the arms left out
    beside_m: tuple[np.ndarray, ...]  # closed: what of arms and PFD lies beside it
    lines_m: tuple[np.ndarray, ...]  # open: what is seen of body, arms, PFD and cap
    paddle_m: tuple[np.ndarray, ...]  # open: what is seen of it
    foot_rest_m: np.ndarray  # (2, 2) the brace behind the soles, bottom to top


@dataclass(frozen=True, eq=False)
class PlanFigure:
    """Outlines from above; ahead of the back of the buttocks and to starboard, m."""

    legs_m: np.ndarray  # (n, 2) closed, with the hips
    trunk_m: np.ndarray  # (n, 2) closed: the shoulders with arms and hands
    head_m: np.ndarray  # (n, 2) closed
    paddle_m: tuple[np.ndarray, ...]  # open: the shaft and the blades beside the body


@cache
def middle_body():
    """The Body that stands where nobody in particular is drawn; our choice."""
    return predict(Measured(75.0, 1.72, 0.38))


@lru_cache(64)  # drawn four times on one page, and again while only the boat changes
def side_figure(body, entry, floor_m):
    """The SideFigure of a Body whose heels rest at `floor_m` above the seat (negative: below)."""
    girths, sitting = girths_of(body), body.sitting_height.value_m
    trunk, head, neck = trunk_side(sitting, girths, LEAN_DEG), *head_side(
        sitting, girths, LEAN_DEG)
    leg, brace = leg_side(body, entry, floor_m)
    seated = rounded(blended([trunk, leg], LAP_M), CORNER_M)
    whole = blended([seated, blended([trunk, neck], NAPE_M), head], 0.002)
    low, high = np.multiply(_VEST, sitting)
    across = Polygon(leant([(low, -1.0), (low, 1.0), (high, 1.0), (high, -1.0)], LEAN_DEG))
    vest = rounded(trunk.buffer(VEST_M).intersection(across), 0.03)
    held = holding(body, girths, LEAN_DEG)
    near, far = (_arm_side(held, side, girths) for side in (NEAR, -NEAR))
    shoulder = Point(held.shoulders_m[0, ::2]).buffer(1.45 * girths.upper_arm_m)
    shaft = held.shaft_m[:, ::2]
    middle = shaft.mean(axis=0)
    blades = [blade[:, ::2] for blade in held.blades_m]
    cap = _cap(chin_m(sitting, girths, LEAN_DEG), girths)
    front = whole, vest, near  # what hides the far side
    lines = [*_beside(outline(whole), near, vest), *_beside(outline(near), shoulder),
             *_beside(outline(vest), near), *_beside(outline(far), *front), *without(cap, near)]
    paddle = [*without([shaft[0], middle], near), *without([middle, shaft[1]], *front, far),
              *_beside(blades[0], near), *_beside(blades[1], *front, far)]
    beside = unary_union([near, far, vest]).difference(whole)
    return SideFigure(
        outline(whole), tuple(map(outline, getattr(beside, "geoms", [beside]))), tuple(lines),
        tuple(paddle), brace)


@lru_cache(64)
def plan_figure(body, entry):
    """The PlanFigure of a Body: legs under the deck, shoulders, arms, head and paddle over it."""
    sitting, girths = body.sitting_height.value_m, girths_of(body)
    held = holding(body, girths, LEAN_DEG)
    middle = leant(((0.56 * sitting, 0.5 * girths.chest_m),), LEAN_DEG)[0, 0]
    chest = Polygon(_oval(middle, 0.54 * girths.chest_m, girths.chest_half_m, 2.6))
    across = limb(held.shoulders_m[:, :2], [1.12 * girths.upper_arm_m] * 2)
    trunk = blended([blended([chest, across], 0.06),
                     *(_arm_above(held, side, girths) for side in (NEAR, -NEAR))], 0.012)
    ahead = chin_m(sitting, girths, LEAN_DEG)[0]
    nose = smooth_shape(np.array([(0.28, 0.16), (0.52, 0.0), (0.28, -0.16)]) * girths.head_m
                        + (ahead, 0.0))
    head = unary_union([
        Polygon(_oval(ahead, 0.43 * girths.head_m, 0.345 * girths.head_m, 2.2)), nose])
    blades = [part for blade in held.blades_m for part in _beside(blade[:, :2], trunk)]
    return PlanFigure(
        legs_above(body, entry), outline(trunk), outline(head),
        (*without(held.shaft_m[:, :2], trunk), *blades))


def up_to(figure, height_m):
    """A SideFigure's body up to a height: (n, 2) from one end of the cut round to the other."""
    over = box_of(-9.0, height_m, 9.0, 9.0)
    left = Polygon(figure.body_m).buffer(0.0).difference(over)
    around = outline(max(getattr(left, "geoms", [left]), key=lambda part: part.area))
    cut = np.isclose(around[:, 1], height_m)
    start = int(np.flatnonzero(cut & ~np.roll(cut, -1))[0])
    return np.roll(around, -start, axis=0)


def _cap(chin, girths):
    """The rim and the peak of a cap, as one line from the nape round the peak."""
    shape = np.array(((-0.44, 0.55), (-0.30, 0.60), (0.0, 0.66), (0.25, 0.70), (0.42, 0.72),
                      (0.60, 0.66), (0.68, 0.62), (0.60, 0.71), (0.38, 0.80)))
    return smooth(shape, closed=False) * girths.head_m + chin


def _arm_side(held, side, girths):
    shoulder, elbow, wrist, grip = (held.joints_m(side)[:, [0, 2]])
    fist = hand(wrist, grip - wrist, girths)
    return blended([arm(shoulder, elbow, wrist, girths), fist], 0.008)


def _arm_above(held, side, girths):
    shoulder, elbow, wrist, grip = held.joints_m(side)[:, :2]
    return unary_union([arm(shoulder, elbow, wrist, girths), hand(wrist, grip - wrist, girths)])


def _beside(ring, *covers):
    """The visible parts of a closed outline."""
    return without(np.concatenate([ring, ring[:1]]), *covers)


def _oval(ahead, half_long, half_wide, power):
    """An ellipse, or a squarer one for a higher power, about a point on the centre line."""
    turn = np.linspace(0.0, 2.0 * np.pi, 60, endpoint=False)
    long, wide = np.cos(turn), np.sin(turn)
    return np.stack([ahead + half_long * np.sign(long) * np.abs(long) ** (2.0 / power),
                     half_wide * np.sign(wide) * np.abs(wide) ** (2.0 / power)], axis=1)


def leg_side(body, entry, floor_m):
    """Leg and shod foot in profile as a Polygon, and the brace behind the sole, bottom to top."""
    legs = legs_of(body, floor_m)
    ahead, upper, lower = legs.ahead_m, legs.top_m, legs.under_m
    tip, shoe = radians(FOOT_SLOPE_DEG), body.shoe_length.value_m
    reach = body.buttock_knee.value_m * cos(radians(THIGH_SLOPE_DEG))
    toe_up = np.array([cos(tip), sin(tip)])  # along the sole
    instep = np.array([-sin(tip), cos(tip)])  # off the sole, towards the leg
    sole = room_needed(body, entry).foot_rest_ahead_m
    heel = np.array([sole - heel_behind_m(body), floor_m])
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
    heel = room.foot_rest_ahead_m - heel_behind_m(body)
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
