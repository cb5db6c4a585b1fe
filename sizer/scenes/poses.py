"""Outlines of a body being measured, drawn once for everybody: our drawing, stature as the unit."""

import numpy as np

from sizer.drawing.marks import smooth

BENCH = 0.25  # height of a bench
CROTCH = 0.465
SHOULDERS = 0.131  # half the breadth over the arms
SITTING = 0.525  # top of the head above the bench
HIPS = 0.108  # half the sitting hip width
MIRROR = np.array([-1.0, 1.0])

_HEAD_FRONT = ((0.0, 1.0), (0.030, 0.990), (0.047, 0.955), (0.045, 0.915), (0.030, 0.882),
               (0.027, 0.862), (0.034, 0.842), (0.072, 0.826), (0.112, 0.804))
_STANDING = (
    *_HEAD_FRONT, (SHOULDERS, 0.755), (0.133, 0.68), (0.146, 0.60), (0.154, 0.52), (0.158, 0.46),
    (0.165, 0.42), (0.158, 0.375), (0.143, 0.385), (0.142, 0.44), (0.135, 0.50), (0.122, 0.58),
    (0.108, 0.66), (0.097, 0.725), (0.088, 0.66), (0.083, 0.60), (0.096, 0.53), (0.101, 0.47),
    (0.098, 0.38), (0.088, 0.28), (0.090, 0.21), (0.070, 0.09), (0.068, 0.05), (0.092, 0.012),
    (0.088, 0.0), (0.045, 0.0), (0.040, 0.05), (0.036, 0.15), (0.038, 0.27), (0.026, 0.38),
    (0.006, CROTCH))
_SEATED_FRONT = (
    *((y, up - 1.0 + BENCH + SITTING) for y, up in _HEAD_FRONT), (SHOULDERS, 0.525),
    (0.140, 0.46), (0.142, 0.42), (0.128, 0.396), (0.106, 0.385), (0.099, 0.345),
    (0.106, 0.305), (HIPS, 0.275), (0.105, 0.235), (0.100, 0.175), (0.088, 0.10), (0.074, 0.035),
    (0.086, 0.006), (0.078, 0.0), (0.040, 0.0), (0.040, 0.04), (0.034, 0.11), (0.022, 0.19),
    (0.006, 0.235))
_SEATED_SIDE = (  # ahead of the back, above the bench
    (0.0, 0.055), (0.012, 0.13), (0.020, 0.20), (0.0, 0.29), (0.010, 0.35), (0.036, 0.392),
    (0.038, 0.415), (0.012, 0.432), (0.002, 0.470), (0.018, 0.508), (0.056, SITTING),
    (0.094, 0.510), (0.106, 0.480), (0.108, 0.462), (0.117, 0.446), (0.107, 0.434),
    (0.101, 0.412), (0.082, 0.402), (0.084, 0.382), (0.108, 0.350), (0.124, 0.300),
    (0.122, 0.23), (0.124, 0.15), (0.150, 0.098), (0.240, 0.094), (0.325, 0.086),
    (0.352, 0.055), (0.345, -0.04), (0.332, -0.16), (0.338, -0.205), (0.405, -0.232),
    (0.412, -0.25), (0.300, -0.25), (0.284, -0.235), (0.286, -0.15), (0.276, -0.06),
    (0.262, -0.006), (0.180, 0.0), (0.050, 0.0), (0.010, 0.015))
_ARM_SIDE = ((0.052, 0.345), (0.040, 0.27), (0.046, 0.19), (0.075, 0.155), (0.150, 0.128),
             (0.205, 0.122), (0.215, 0.106), (0.190, 0.098))
_ARM_INNER = ((0.150, 0.150), (0.100, 0.178), (0.083, 0.205), (0.086, 0.27), (0.076, 0.34),
              (0.062, 0.354), (0.052, 0.345))
_FOOT = ((0.07, 0.78), (0.065, 0.56), (0.020, 0.32), (0.0, 0.12), (0.025, 0.02), (0.13, 0.0),
         (0.42, 0.03), (0.68, 0.0), (0.93, 0.0), (1.0, 0.045), (0.975, 0.105), (0.86, 0.135),
         (0.62, 0.27), (0.45, 0.44), (0.40, 0.60), (0.40, 0.78))  # over the foot's length


def standing():
    """Seen from in front. Returns (n, 2) across and above the floor, closed."""
    return _mirrored(_STANDING)


def seated_front():
    """Seen from in front on a bench. Returns (n, 2) across and above the floor, closed."""
    return _mirrored(_SEATED_FRONT)


def seated_side():
    """Seen from the side on a bench: outline (closed) and arm (open), ahead and above the floor."""
    lift = np.array([0.0, BENCH])
    return smooth(_SEATED_SIDE) + lift, smooth(_ARM_SIDE + _ARM_INNER, closed=False) + lift


def foot():
    """A foot from the side, open at the leg; ahead of the heel and up, its length as unit."""
    return smooth(_FOOT, closed=False)


def _mirrored(half):
    half = np.array(half)
    other = half[::-1] * MIRROR
    if half[0, 0] == 0.0:
        other = other[:-1]
    return smooth(np.concatenate([half, other]))
