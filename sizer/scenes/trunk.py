"""Trunk, neck and head from the side and from in front, by a body's girths.

From the side places are ahead of the back of the buttocks and above the seat, m. What no tape was
put to is our drawing and is read nowhere else.
"""

from math import cos, radians, sin

import numpy as np
from shapely import Point, Polygon, unary_union

from sizer.drawing.marks import smooth
from sizer.scenes.flesh import girths_of, limb, smooth_shape

BUTTOCKS_M = 0.008  # puts the back of the leant buttocks at zero

# (along the trunk over sitting height, behind its front or ahead of its back over its depth)
_BACK = ((0.010, 0.10), (0.05, 0.0), (0.10, 0.0), (0.17, 0.045), (0.25, 0.075), (0.33, 0.055),
         (0.42, 0.005), (0.51, -0.010), (0.58, 0.045), (0.635, 0.14), (0.675, 0.26))
_CHEST = ((0.655, 0.66), (0.615, 0.80), (0.555, 0.95), (0.49, 1.0), (0.42, 0.97))
_BELLY = ((0.33, 0.96), (0.25, 1.0), (0.17, 1.0), (0.09, 0.90))

# (ahead, up) over the head's height, chin at no height, the ear at the middle
_FACE = ((-0.30, 0.02), (-0.405, 0.20), (-0.455, 0.42), (-0.445, 0.66), (-0.345, 0.86),
         (-0.16, 0.975), (0.05, 1.0), (0.24, 0.95), (0.365, 0.835), (0.405, 0.70), (0.392, 0.60),
         (0.385, 0.545), (0.425, 0.47), (0.480, 0.385), (0.466, 0.345), (0.424, 0.318),
         (0.430, 0.265), (0.420, 0.235), (0.422, 0.195), (0.404, 0.145), (0.408, 0.085),
         (0.375, 0.015), (0.29, -0.015), (0.12, 0.03), (0.02, 0.02))

# Half the head from in front: (across, up) over its height.
_FRONT = ((0.0, 0.0), (0.14, 0.035), (0.27, 0.20), (0.335, 0.42), (0.35, 0.62), (0.315, 0.82),
          (0.20, 0.955), (0.0, 1.0))
EAR = (0.35, 0.44, 0.075)  # across, up, radius


def leant(points_m, lean_deg):
    """Places along and across the leant trunk as ahead and up."""
    along, across = np.array(points_m, float).T
    lean = radians(lean_deg)
    return np.stack([BUTTOCKS_M - along * sin(lean) + across * cos(lean),
                     along * cos(lean) + across * sin(lean)], axis=1)


def trunk_side(sitting, girths, lean_deg):
    """The trunk in profile, from the seat to the base of the neck."""
    rows = [(part, np.array((sitting, depth))) for part, depth in (
        (_BACK, girths.chest_m), (_CHEST, girths.chest_m), (_BELLY, girths.belly_m))]
    return smooth_shape(leant(np.concatenate([np.array(part) * size for part, size in rows]),
                              lean_deg))


def chin_m(sitting, girths, lean_deg):
    """Under the ear at chin height: the gaze is level, the head's top at the sitting height."""
    ahead = leant(((0.84 * sitting, 0.44 * girths.chest_m),), lean_deg)[0, 0] + 0.025
    return np.array([ahead, sitting * cos(radians(lean_deg)) - girths.head_m])


def head_side(sitting, girths, lean_deg):
    """Head and neck in profile."""
    chin = chin_m(sitting, girths, lean_deg)
    root = leant(((0.615 * sitting, 0.42 * girths.chest_m),), lean_deg)[0]
    skull = chin + np.array([-0.11, 0.18]) * girths.head_m
    return (smooth_shape(np.array(_FACE) * girths.head_m + chin),
            limb([root, skull], [1.25 * girths.neck_m, girths.neck_m]))


def head_front(chin_m, girths):
    """The head from in front, its chin on a place."""
    half = np.array(_FRONT)
    ring = np.concatenate([half, half[-2:0:-1] * (-1.0, 1.0)])
    across, up, radius = EAR
    ears = [Point(side * across, up).buffer(radius) for side in (-1.0, 1.0)]
    shape = unary_union([smooth_shape(ring), *ears])
    return Polygon(np.array(shape.exterior.coords) * girths.head_m + chin_m)


def trunk_below(body, hips_m, height_m):
    """Half-widths of a seated Body from in front, to a height over the seat: (n, 2) across and up.

    Hips as wide as told, and on to the chest, without the arms.
    """
    girths, hips = girths_of(body), 0.5 * hips_m
    waist, chest, sitting = girths.waist_half_m, girths.chest_half_m, body.sitting_height.value_m
    side = smooth([(0.60 * hips, 0.0), (0.90 * hips, 0.015), (0.985 * hips, 0.055), (hips, 0.10),
                   (0.985 * hips, 0.145), (0.5 * (hips + waist), 0.24 * sitting),
                   (waist, 0.31 * sitting), (chest, 0.50 * sitting), (chest, sitting)],
                  closed=False)
    top = np.interp(height_m, side[:, 1], side[:, 0])
    return np.concatenate([side[side[:, 1] < height_m], [(top, height_m)]])
