"""The cockpit rim over the water, where an open boat fills, and the side deck."""

from functools import lru_cache

import numpy as np
from scipy.interpolate import CubicSpline

from sizer.hydro.immersion import up_vectors
from sizer.rows import interp, one_of

RIM_STEP_DEG = 0.1  # the rim's angle is looked for on this step


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


def rim_clearance_m(sections, up, level_m, rise_m=0.0):
    """Lowest point of the rim over each plane of water, square to it; negative under it.

    `up` (..., 3) and `level_m` (...) as in `sizer.hydro.immersion`; of many boats (n, ...), the
    planes of each; a wave stands `rise_m`, of each section, over them. Returns (...), or None
    without a cockpit.
    """
    if sections.rim_x_m is None:
        return None
    x, ends_x = sections.x_m, sections.rim_x_m
    rise_m = np.broadcast_to(rise_m, x.shape)
    if x.ndim == 1:
        points = _rim_points_m(sections)
        wave = np.interp(points[:, 0], x, rise_m)
        return (up @ points.T - wave).min(axis=-1) - level_m
    x, y, z, rise, ends_x, ends_z, ends_rise = (one if up.ndim == 2 else one[:, None] for one in (
        x, sections.y_m[..., -2], sections.z_m[..., -2], rise_m, ends_x, sections.rim_z_m,
        interp(ends_x, x, rise_m)))
    along, across, upwards = (up[..., [axis]] for axis in range(3))
    ends = along * ends_x + upwards * ends_z - ends_rise
    inside = (x > ends_x[..., :1]) & (x < ends_x[..., 1:])
    rim = np.where(inside, along * x - np.abs(across) * y + upwards * z - rise, np.inf)
    return np.minimum(rim.min(axis=-1), ends.min(axis=-1)) - level_m


def rims_deg(boats, heels, level_m, trim_deg, rim_m):
    """First heel of each boat at which its rim meets the water, from level and trim drawn on.

    Parameters
    ----------
    boats : Sections of n boats, or of one in n states
    heels : (n_heels,) rising from 0
    level_m, trim_deg, rim_m : (n, n_heels) at rest, and the rim's clearance there

    Returns
    -------
    list of degrees, None where it never does
    """
    under = np.argmax(rim_m <= 0.0, axis=1)
    found = [0.0 if first else None for first in (rim_m[:, 0] <= 0.0).tolist()]
    which = np.flatnonzero(under > 0)
    if not which.size:
        return found
    low, high = heels[under[which] - 1], heels[under[which]]
    between = np.linspace(low, high, round((high - low).max() / RIM_STEP_DEG) + 1, axis=-1)
    drawn = CubicSpline(heels, np.stack([level_m[which], trim_deg[which]]), axis=-1).c
    pieces = drawn[:, under[which] - 1, :, np.arange(which.size)]  # (n, 4, 2)
    level, trim = (pieces.transpose(1, 2, 0)[..., None] * (between - low[:, None]) ** np.arange(
        3, -1, -1)[:, None, None, None]).sum(axis=0)
    some = boats if boats.x_m.ndim == 1 else one_of(boats, which)
    clear = rim_clearance_m(some, up_vectors(between, trim), level)
    rows, first = np.arange(which.size), np.maximum(np.argmax(clear <= 0.0, axis=1), 1)
    before, after = clear[rows, first - 1], clear[rows, first]
    share, start = before / (before - after), between[rows, first - 1]
    for index, angle in zip(which, start + share * (between[rows, first] - start), strict=True):
        found[index] = float(angle)
    return found
