"""A body's girths from its measures, and the rounded shapes that limbs and trunk are drawn with.

What no tape was put to follows from the weight: a limb is a cylinder of its share of it. All of it
is our drawing and is read nowhere else.
"""

from dataclasses import dataclass
from itertools import pairwise
from math import pi, sqrt

import numpy as np
from shapely import LineString, Point, Polygon, unary_union

from sizer.drawing.marks import smooth
from sizer.shop.shapes import largest

DENSITY_KGPM3 = 1000.0  # a body is about as dense as water
# Shares of the body's weight, de Leva, J. Biomechanics 29(9), 1996, Table 4: mean of both sexes.
TRUNK, UPPER_ARM, FOREARM, THIGH, SHANK = 0.43, 0.026, 0.015, 0.145, 0.046
TRUNK_OF_SITTING = 0.60  # height of the trunk over sitting height
TRUNK_FILL = 0.66  # of the box around its outline, from the side and from in front
SPARE = 0.205  # trunk depth over sitting height where belly and chest are as deep
HEAD_OF_STATURE = 0.130  # chin to top
UPPER_ARM_OF_SPAN, FOREARM_OF_SPAN = 0.172, 0.148  # shoulder to elbow to wrist
STEPS = 9  # circles from one joint to the next
FAIR_M = 0.0008  # an outline may be so much off what was drawn round
HAND_OF_STATURE = 0.108
# A closed hand from the wrist on: (along, half-width) over the length of an open one.
_FIST = ((-0.06, 0.115), (0.10, 0.165), (0.22, 0.225), (0.40, 0.235), (0.50, 0.19), (0.545, 0.08))


@dataclass(frozen=True)
class Girths:
    """How thick a body is; radii and half-widths, m."""

    belly_m: float  # depth of the trunk
    chest_m: float  # depth, at the breast
    waist_half_m: float
    chest_half_m: float  # without the arms
    upper_arm_m: float
    forearm_m: float
    neck_m: float
    thigh_m: float
    calf_m: float
    head_m: float  # chin to top
    hand_m: float  # wrist to finger tips


def girths_of(body):
    stature, sitting = body.stature.value_m, body.sitting_height.value_m
    wide, span = body.shoulder_width.value_m, body.arm_span.value_m
    deep = TRUNK * body.weight_kg / DENSITY_KGPM3 / (
        TRUNK_OF_SITTING * sitting * TRUNK_FILL * 0.84 * wide)
    spare = deep / (SPARE * sitting) - 1.0
    upper = _radius_m(body, UPPER_ARM, UPPER_ARM_OF_SPAN * span)
    return Girths(
        belly_m=deep * (0.97 + 0.75 * spare), chest_m=deep * (1.02 - 0.18 * spare),
        waist_half_m=0.5 * body.hip_sitting.value_m * min(0.80 + 0.55 * spare, 1.06),
        chest_half_m=0.5 * wide - 1.95 * upper,
        upper_arm_m=upper, forearm_m=_radius_m(body, FOREARM, FOREARM_OF_SPAN * span),
        neck_m=0.92 * (0.0167 * stature + 0.6 * upper), thigh_m=_radius_m(
            body, THIGH, 0.245 * stature),
        calf_m=_radius_m(body, SHANK, 0.246 * stature), head_m=HEAD_OF_STATURE * stature,
        hand_m=HAND_OF_STATURE * stature)


def _radius_m(body, share, long):
    return sqrt(share * body.weight_kg / DENSITY_KGPM3 / (pi * long))


def limb(joints, radii):
    """A limb as a Polygon: round at its ends, its radii changing evenly from joint to joint."""
    joints, radii = np.asarray(joints, float), np.asarray(radii, float)
    at = np.linspace(0.0, len(joints) - 1.0, STEPS * (len(joints) - 1) + 1)
    every = np.arange(len(joints))
    rounds = [Point(x, y).buffer(max(radius, 1e-4), 16) for x, y, radius in zip(
        np.interp(at, every, joints[:, 0]), np.interp(at, every, joints[:, 1]),
        np.interp(at, every, radii), strict=True)]
    return unary_union([unary_union(pair).convex_hull for pair in pairwise(rounds)])


def blended(parts, hollow_m):
    """Polygons as one, hollows between them filled to a radius, as flesh fills them."""
    return largest(unary_union(parts).buffer(hollow_m).buffer(-hollow_m))


def rounded(shape, corner_m):
    return largest(shape.buffer(-corner_m).buffer(corner_m))


def outline(shape):
    """The outline of a Polygon: (n, 2), open at the end, as paths of ours are."""
    ring = np.array(largest(shape).exterior.simplify(FAIR_M).coords)
    return ring[:-1]


def smooth_shape(points):
    """A Polygon through points, smoothly."""
    return Polygon(smooth(points)).buffer(0.0)


def without(line, *shapes):
    """What is left of a line beside shapes that hide it: a list of (n, 2)."""
    left = LineString(line).difference(unary_union(shapes))
    return [np.array(part.coords) for part in getattr(left, "geoms", [left])
            if part.length > 0.0]


def hand(wrist, towards, girths):
    """A closed hand at a wrist, its knuckles towards a direction."""
    along = np.asarray(towards, float)
    along = along / np.hypot(*along)
    across = np.array([-along[1], along[0]])
    on, half = np.array(_FIST)[..., None].transpose(1, 0, 2) * girths.hand_m
    side, other = (wrist + on * along + sign * half * across for sign in (1.0, -1.0))
    return smooth_shape([*side, *other[::-1]])


def arm(shoulder, elbow, wrist, girths):
    """An arm without its hand, as a Polygon."""
    upper, lower = girths.upper_arm_m, girths.forearm_m
    joints = [np.asarray(place, float) for place in (shoulder, elbow, wrist)]
    belly = joints[1] + 0.28 * (joints[2] - joints[1])
    return limb([joints[0], 0.5 * (joints[0] + joints[1]), joints[1], belly, joints[2]],
                [1.12 * upper, 1.0 * upper, 0.82 * upper, 1.04 * lower, 0.70 * lower])
