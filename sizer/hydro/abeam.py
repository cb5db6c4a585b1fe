"""A hull from abeam: its outline over the water at any heel and trim, and side areas of it."""

from dataclasses import dataclass

import numpy as np

from sizer.rows import along


@dataclass(frozen=True)
class Side:
    """A silhouette seen from abeam; of many, arrays (...)."""

    area_m2: float
    x_m: float  # of its centre, aft of the foremost point
    height_m: float  # of its centre, over the water


@dataclass(frozen=True, eq=False)
class Outline:
    """Lowest and highest of the hull from abeam, over the water and square to it; straight between
    its places, two of which stand together where nothing crosses the water."""

    x_m: np.ndarray  # (..., n_places)
    low_m: np.ndarray  # (..., n_places)
    high_m: np.ndarray  # (..., n_places)


def outline_abeam(sections, up, level_m):
    """The Outline: each section's lowest and highest, and the places between two where either
    meets the water.

    Parameters
    ----------
    sections : Sections of one boat, or of as many as there are planes of water
    up, level_m : (..., 3) and (...), the plane of water as in `sizer.hydro.immersion`
    """
    across, tall, along_x = (along(up[..., axis], sections.x_m) for axis in (1, 2, 0))
    side = np.abs(across)[..., None] * sections.y_m
    raised = tall[..., None] * sections.z_m
    x = np.broadcast_to(sections.x_m, np.broadcast_shapes(along_x.shape, sections.x_m.shape))
    over = along_x * x - along(level_m, x)
    lines = x, over + (raised - side).min(axis=-1), over + (raised + side).max(axis=-1)
    shares = [np.zeros(lines[0][..., 1:].shape), np.ones(lines[0][..., 1:].shape)]
    for line in lines[1:]:
        fore, aft = line[..., :-1], line[..., 1:]
        crosses = fore * aft < 0.0
        shares.append(np.where(crosses, fore / np.where(crosses, fore - aft, 1.0), 0.0))
    share = np.sort(np.stack(shares, axis=-1), axis=-1)
    return Outline(*((line[..., :-1, None] * (1.0 - share) + line[..., 1:, None] * share).reshape(
        *line.shape[:-1], -1) for line in lines))


def side_between(x, low, high, slant):
    """Area between two lines that run straight between the places; Simpson's rule is exact.

    `slant` is what a metre of the boat's own height gives square to the water.
    """
    step = np.diff(x)

    def whole(value):
        middle = value(*(0.5 * (one[..., 1:] + one[..., :-1]) for one in (x, low, high)))
        ends = value(x, low, high)
        return np.sum(step * (ends[..., 1:] + 4.0 * middle + ends[..., :-1]), axis=-1) / 6.0

    area = whole(lambda _, a, b: b - a)
    some = np.where(area > 0.0, area, 1.0)
    centre_x = np.where(area > 0.0, whole(lambda at, a, b: at * (b - a)) / some, x.mean(axis=-1))
    height = whole(lambda _, a, b: 0.5 * (b * b - a * a)) / some
    return Side((area / slant)[()], centre_x[()], height)


def together(one, other):
    """Two silhouettes as one; they do not overlap."""
    area = one.area_m2 + other.area_m2
    share = np.where(area > 0.0, other.area_m2 / np.where(area > 0.0, area, 1.0), 0.0)[()]
    return Side(area, one.x_m + share * (other.x_m - one.x_m),
                one.height_m + share * (other.height_m - one.height_m))
