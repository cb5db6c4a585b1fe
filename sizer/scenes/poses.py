"""A body being measured, standing and on a bench: the middle body, with its stature as the unit.

Built from the same girths as the paddler in the boat; the poses are our drawing.
"""

import numpy as np
from shapely import Point, Polygon

from sizer.drawing.marks import OVER, smooth
from sizer.scenes.figure import middle_body
from sizer.scenes.flesh import arm, blended, girths_of, limb, outline, smooth_shape, without
from sizer.scenes.trunk import head_front, head_side, trunk_below, trunk_side

_BODY, _GIRTHS = middle_body(), girths_of(middle_body())
_TALL, _WIDE = _BODY.stature.value_m, _BODY.shoulder_width.value_m
_SEATED = _BODY.sitting_height.value_m
_THIGH = _BODY.thigh_clearance.value_m
BENCH = (_BODY.knee_height.value_m - _THIGH) / _TALL  # height of a bench
CROTCH = _BODY.inseam.value_m / _TALL
SHOULDERS = 0.5 * _WIDE / _TALL  # half the breadth over the arms
SITTING = _SEATED / _TALL  # top of the head above the bench
HIPS = 0.5 * _BODY.hip_sitting.value_m / _TALL  # half the sitting hip width
STANDING_HIPS = 0.91  # of the sitting ones
SIDES = (-1.0, 1.0)

_FOOT = ((0.07, 0.78), (0.065, 0.56), (0.020, 0.32), (0.0, 0.12), (0.025, 0.02), (0.13, 0.0),
         (0.42, 0.03), (0.68, 0.0), (0.93, 0.0), (1.0, 0.045), (0.975, 0.105), (0.86, 0.135),
         (0.62, 0.27), (0.45, 0.44), (0.40, 0.60), (0.40, 0.78))  # over the foot's length


def standing():
    """Seen from in front: outline (closed) and arms' lines, across and above the floor."""
    hips, up = STANDING_HIPS * HIPS * _TALL, np.array([1.0, _TALL])
    trunk = [(0.0, CROTCH - 0.004), (0.055, CROTCH), (hips, 0.500), (_GIRTHS.waist_half_m, 0.615),
             (_GIRTHS.chest_half_m, 0.725), (0.36 * _WIDE, 0.808)]
    parts = [_mirrored(np.array(trunk) * up), _head_and_shoulders(0.0, _TALL)]
    thigh, calf, knee = _GIRTHS.thigh_m, _GIRTHS.calf_m, 0.62 * _GIRTHS.thigh_m
    for side in SIDES:
        joints = np.array([(hips - thigh, 0.485), (0.056 * _TALL, 0.285), (0.057 * _TALL, 0.205),
                           (0.053 * _TALL, 0.045)]) * up
        leg = limb(joints * (side, 1.0), [thigh, knee, 1.12 * calf, 0.62 * calf])
        foot = limb(np.array([(0.053, 0.026), (0.066, 0.018)]) * _TALL * (side, 1.0),
                    [0.024 * _TALL, 0.018 * _TALL])
        parts += [leg, foot]
    return _with_arms(parts, [_hanging_arm(side) for side in SIDES])


def seated_front():
    """Seen from in front on a bench, as `standing`."""
    bench, hips = BENCH * _TALL, HIPS * _TALL
    half = [(0.0, 0.0), *trunk_below(_BODY, 2.0 * hips, 0.57 * _SEATED),
            (0.36 * _WIDE, 0.630 * _SEATED)]
    parts = [_mirrored(np.add(half, (0.0, bench))), _head_and_shoulders(bench, _SEATED)]
    calf = _GIRTHS.calf_m
    for side in SIDES:
        knee = np.array([side * 0.064 * _TALL, bench + 0.5 * _THIGH])
        parts += [
            limb([(side * (hips - 0.5 * _THIGH), bench + 0.5 * _THIGH), knee],
                 [0.5 * _THIGH, 0.46 * _THIGH]),
            limb([knee, knee * (1.0, 0.66), (side * 0.064 * _TALL, 0.05 * _TALL)],
                 [0.45 * _THIGH, 1.1 * calf, 0.65 * calf]),
            limb(np.array([(0.064, 0.026), (0.080, 0.018)]) * _TALL * (side, 1.0),
                 [0.024 * _TALL, 0.018 * _TALL])]
    return _with_arms(parts, [_resting_arm(side, bench) for side in SIDES])


def seated_side():
    """Seen from the side on a bench: outline (closed) and the arm's lines, ahead and above it."""
    knee = np.array([_BODY.buttock_knee.value_m - 0.5 * _THIGH, 0.5 * _THIGH])
    ankle = np.array([knee[0] + 0.005, 0.06 * _TALL - BENCH * _TALL])
    calf, low = _GIRTHS.calf_m, -BENCH * _TALL
    shoe = smooth_shape(np.array(_FOOT[2:12]) * _BODY.foot_length.value_m
                        + (ankle[0] - 0.060, low))
    trunk = trunk_side(_SEATED, _GIRTHS, 0.0)
    head, neck = head_side(_SEATED, _GIRTHS, 0.0)
    body = blended([
        blended([trunk, limb([(0.11, 0.52 * _THIGH), knee], [0.52 * _THIGH, 0.46 * _THIGH])],
                0.045),
        blended([trunk, neck], 0.020), head,
        limb([knee, 0.62 * knee + 0.38 * ankle, ankle], [0.46 * _THIGH, 1.15 * calf, 0.66 * calf]),
        shoe], 0.004)
    shoulder = np.array([0.46 * _GIRTHS.chest_m, 0.605 * _SEATED])
    elbow, wrist = np.add(shoulder, (0.005, -0.285)), np.add(shoulder, (0.225, -0.345))
    sleeve = blended([arm(shoulder, elbow, wrist, _GIRTHS),
                      limb([wrist, np.add(wrist, (0.075, 0.0))], [0.026, 0.022])], 0.006)
    lift = np.array([0.0, BENCH])
    return (outline(body) / _TALL + lift,
            [part / _TALL + lift for part in _open_at(shoulder, sleeve)])


def foot():
    """A foot from the side, open at the leg; ahead of the heel and up, its length as unit."""
    return smooth(_FOOT, closed=False)


def _shoulder():
    """A shoulder joint from the middle, so that the arms are as wide as the shoulders' breadth."""
    return 0.5 * _WIDE - 1.12 * _GIRTHS.upper_arm_m


def _head_and_shoulders(base, tall):
    """Head, neck and the slope over the shoulders, their top `tall` over a base."""
    head, neck, chin = _GIRTHS.head_m, _GIRTHS.neck_m, base + tall - _GIRTHS.head_m
    joint = chin - 0.565 * head  # a shoulder's height, as the arms have it
    caps = [Point(side * _shoulder(), joint).buffer(1.12 * _GIRTHS.upper_arm_m) for side in SIDES]
    high, collar = joint + _GIRTHS.upper_arm_m, chin - 0.18 * head
    slope = Polygon([(0.0, joint), (_shoulder(), high), (1.15 * neck, collar),
                     (-1.15 * neck, collar), (-_shoulder(), high)])
    throat = limb([(0.0, joint), (0.0, chin + 0.25 * head)], [neck, 0.92 * neck])
    return blended([blended([*caps, slope, throat], 0.05), head_front((0.0, chin), _GIRTHS)], 0.003)


def _with_arms(parts, arms):
    """A body with its arms, and their lines before it, over the stature."""
    whole = outline(blended([*parts, *arms], 0.007)) / _TALL
    lines = [line for one, side in zip(arms, SIDES, strict=True) for line in _open_at(
        (side * _shoulder(), one.bounds[3] - 1.12 * _GIRTHS.upper_arm_m), one)]
    return whole, [line / _TALL for line in lines]


def _open_at(shoulder, one):
    """The outline of an arm, open where it grows out of the trunk."""
    ring = outline(one)
    return without([*ring, ring[0]], Point(shoulder).buffer(1.45 * _GIRTHS.upper_arm_m))


def _resting_arm(side, bench):
    """An arm of a body on a bench, its hand on the thigh."""
    wrist = np.array([side * 0.105 * _TALL, bench + _THIGH + 0.03])
    whole = arm((side * _shoulder(), bench + 0.615 * _SEATED),
                (side * (0.5 * _WIDE + 0.025), bench + 0.30 * _SEATED), wrist, _GIRTHS)
    return blended([whole, limb([wrist, wrist * (0.78, 0.97)], [0.028, 0.024])], 0.004)


def _hanging_arm(side):
    """An arm hanging beside a standing body, its hand open."""
    half, upper = 0.5 * _WIDE, _GIRTHS.upper_arm_m
    shoulder, elbow, wrist = (np.array(place) * (side, _TALL) for place in (
        (_shoulder(), 0.795), (half - 0.30 * upper, 0.625), (half + 0.030, 0.485)))
    hand = limb(wrist + np.array([(0.0, 0.0), (0.0, -0.05), (-0.012 * side, -0.135)]),
                [0.70 * _GIRTHS.forearm_m, 0.030, 0.016])
    return blended([arm(shoulder, elbow, wrist, _GIRTHS), hand], 0.004)


def _mirrored(half):
    """The whole Polygon of its starboard half, from the middle round to the middle."""
    half = np.asarray(half, float)
    ring = np.concatenate([half, half[::-1] * OVER])
    return Polygon(smooth(ring)).buffer(0.0)
