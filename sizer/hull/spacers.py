"""The spacers between cockpit frames: which frames they stand between, and what room they leave.

A spacer is a board of the frames' plywood a side, tenoned into the middle of the plywood between
the highest chine and the gunwale (`sizer.shop.lashing`). Where one stands beside the hips it is
what they touch, well before the stringers.
"""

from itertools import pairwise

import numpy as np

from sizer.hull.inside import panel_widths_m, side_middle_m
from sizer.hull.sections import half_section_at

HIGH_M = 0.038  # of a board; as our patterns cut (tested)
NONE_THERE_M = 10.0  # half the room between spacers where none stands


def spaced(frames):
    """Places of the frames from which a spacer runs to the next, from the bow."""
    return [place for place, (one, next_one) in enumerate(pairwise(frames))
            if one.kind == next_one.kind == "cockpit"]


def half_room_m(boats, x_m, height_m):
    """Half-breadth of a spacer's inner face in one Boat, or many of one design, at a height or at
    its edge that is nearest to it; NONE_THERE_M where no spacer stands beside that x."""
    frames, frame_x, sheer = boats.design.frames, boats.frame_x_m, boats.sections.sheer
    found = np.full(np.shape(x_m), NONE_THERE_M)
    for place in spaced(frames):
        pair, ends = slice(place, place + 2), frame_x[..., place:place + 2]
        skin = np.stack(half_section_at(boats.sections, ends), axis=-1)
        thick = min(one.thickness_m for one in frames[pair])
        share = np.clip((x_m - ends[..., 0]) / np.diff(ends)[..., 0], 0.0, 1.0)
        weight = np.stack([1.0 - share, share], axis=-1)[..., None]
        middle, up = (np.sum(weight * one, axis=-2) for one in _standing(
            skin, sheer, boats.lines.stock_m))
        up /= np.linalg.norm(up, axis=-1, keepdims=True)
        reach = 0.5 * HIGH_M * up[..., 1]
        off = np.clip(height_m - middle[..., 1], -reach, reach)
        face = middle[..., 0] + off * up[..., 0] / up[..., 1] - 0.5 * thick / up[..., 1]
        beside = (ends[..., 0] < x_m) & (x_m < ends[..., 1])
        found = np.where(beside, face, found)
    return found


def _standing(skin_m, sheer, stock_m):
    """Middle of a spacer's tenon at frames' sections, and the unit vector up along it: (..., 2).

    It is midway between the sticks: the chine lies with its middle on the skin's corner, the
    gunwale under it.
    """
    low, high = skin_m[..., sheer - 1, :], skin_m[..., sheer, :]
    up = high - low
    up = up / np.linalg.norm(up, axis=-1, keepdims=True)
    deep = side_middle_m(panel_widths_m("cockpit", skin_m, sheer)[..., sheer - 1, None])
    (chine, _), (gunwale, _) = stock_m[sheer - 1:sheer + 1]
    middle = 0.5 * (low + high + up * (0.5 * chine - gunwale))
    return middle + deep * np.stack([-up[..., 1], up[..., 0]], axis=-1), up
