"""The cockpit rim over the water, where an open boat fills, and the side deck."""

from functools import lru_cache

import numpy as np


def rim_points_m(sections):
    """The coaming's top edge, both sides. Returns (n, 3), n = 0 without a cockpit.

    A section at an end of the opening carries the deck beside the coaming, so the ends are the
    coaming's own.
    """
    return _rim_points_m(sections).copy()


@lru_cache(maxsize=8)
def _rim_points_m(sections):
    if sections.rim_x_m is None:
        return np.zeros((0, 3))
    front, back = sections.rim_x_m
    here = (sections.x_m > front) & (sections.x_m < back)
    starboard = np.stack([sections.x_m[here], sections.y_m[here, -2], sections.z_m[here, -2]], -1)
    ends = np.array([[x, 0.0, z] for x, z in
                     zip(sections.rim_x_m, sections.rim_z_m, strict=True)])
    return np.concatenate([starboard, starboard * (1.0, -1.0, 1.0), ends])


def sheer_clearance_m(sections, up, level_m):
    """Lowest point of the sheer over each plane of level water, square to it. Returns (n,)."""
    heights = up[:, :1] * sections.x_m + up[:, 2:] * sections.z_m[..., sections.sheer]
    return (heights - level_m[:, None]).min(axis=-1)


def rim_clearance_m(sections, up, level_m):
    """Lowest point of the rim over each plane of water, square to it; negative under it.

    `up` (n, 3) and `level_m` (n,) as in `sizer.hydro.immersion`; of many boats, one plane each.
    Returns (n,), or None without a cockpit.
    """
    if sections.rim_x_m is None:
        return None
    if sections.x_m.ndim == 1:
        return (_rim_points_m(sections) @ up.T).min(axis=0) - level_m
    x, y, z = sections.x_m, sections.y_m[..., -2], sections.z_m[..., -2]
    along, across, upwards = (up[:, [axis]] for axis in range(3))
    ends = along * sections.rim_x_m + upwards * sections.rim_z_m
    inside = (x > sections.rim_x_m[:, :1]) & (x < sections.rim_x_m[:, 1:])
    rim = np.where(inside, along * x - np.abs(across) * y + upwards * z, np.inf)
    return np.minimum(rim.min(axis=-1), ends.min(axis=-1)) - level_m
