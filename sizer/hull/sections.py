"""Sections: the one shape record that everything about water and weight is computed from."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from sizer.compiled import compiled


@dataclass(frozen=True, eq=False)
class Sections:
    """Half-sections from the bottom centre, up the starboard side, to the top centre.

    Of one boat, or of many in one: every array then has a leading axis (n_boats, ...). Skin is
    straight between neighbouring points of a section and between neighbouring sections.
    """

    x_m: np.ndarray  # (n_sections,) rising
    y_m: np.ndarray  # (n_sections, n_points) half-breadth, first and last column 0
    z_m: np.ndarray  # (n_sections, n_points)
    sheer: int  # column of the gunwale
    rim_x_m: np.ndarray | None = None  # (2,) the opening's front and back
    rim_z_m: np.ndarray | None = None  # (2,) top of the coaming there

    @property
    def length_m(self):
        """Foremost to aftmost section."""
        return (self.x_m[..., -1] - self.x_m[..., 0])[()]

    @property
    def mid_x_m(self):
        """Half the hull's length, where sinkage is stated."""
        return (0.5 * (self.x_m[..., 0] + self.x_m[..., -1]))[()]


def closed_rings(sections):
    """Closed outlines, counter-clockwise seen from astern with y to the right: (n_sections, 2
    n_points - 1, 2) of y, z in m; the last point repeats the first."""
    starboard = np.stack([sections.y_m, sections.z_m], axis=-1)
    port = starboard[:, -2::-1] * (-1.0, 1.0)
    return np.concatenate([starboard, port], axis=1)


def half_areas_m2(sections):
    """Area of each half-section by the shoelace rule. Returns (n_sections,) m2."""
    return _half_areas_m2(sections).copy()


@lru_cache(maxsize=8)
def _half_areas_m2(sections):
    y, z = sections.y_m, sections.z_m
    return 0.5 * np.sum((y[..., 1:] + y[..., :-1]) * (z[..., 1:] - z[..., :-1]), axis=-1)


def strip_areas_m2(sections):
    """True area of each skin strip between neighbouring points and neighbouring sections.

    Half the length of the cross product of a quadrilateral's diagonals, exact for flat strips.
    Returns (n_sections - 1, n_points - 1) m2, one side of the boat.
    """
    return _strip_areas_m2(sections).copy()


@lru_cache(maxsize=8)
def _strip_areas_m2(sections):
    y, z = sections.y_m, sections.z_m
    long = np.diff(sections.x_m)[..., None]
    ahead, behind = (..., slice(None, -1), slice(None)), (..., slice(1, None), slice(None))
    (y0, y1), (z0, z1) = ((one[ahead], one[behind]) for one in (y, z))
    y1, y2 = y1[..., 1:] - y0[..., :-1], y1[..., :-1] - y0[..., 1:]
    z1, z2 = z1[..., 1:] - z0[..., :-1], z1[..., :-1] - z0[..., 1:]
    across, up, along = y1 * z2 - z1 * y2, long * (z1 - z2), long * (y2 - y1)
    return 0.5 * np.sqrt(across * across + up * up + along * along)


def half_section_at(sections, x_m):
    """Half-section at any x inside the hull, straight between the two sections beside it.

    Returns (y, z), each (n_points,) or (n_x, n_points); of many boats, x (n_boats, n_x), each
    (n_boats, n_x, n_points).
    """
    x = np.asarray(x_m, float)
    one = sections.x_m.ndim == 1
    places, y, z = (np.ascontiguousarray(each[None] if one else each)
                    for each in (sections.x_m, sections.y_m, sections.z_m))
    rows = np.ascontiguousarray(x.reshape(len(places), -1))
    found = np.empty((2, *rows.shape, y.shape[-1]))
    compiled(_half_sections)(places, y, z, rows, found)
    return tuple(found.reshape(2, *x.shape, y.shape[-1]))


def _half_sections(places, y_m, z_m, x_m, found):
    """Fills `found` (2, n_boats, n_x, n_points) with breadths and heights between sections."""
    last = places.shape[1] - 1
    for boat in range(x_m.shape[0]):
        for index in range(x_m.shape[1]):
            x, low, high = x_m[boat, index], 0, last + 1
            while low < high:  # sections ahead of x
                middle = (low + high) // 2
                if places[boat, middle] < x:
                    low = middle + 1
                else:
                    high = middle
            after = min(max(low, 1), last)
            before = after - 1
            share = (x - places[boat, before]) / (places[boat, after] - places[boat, before])
            for point in range(y_m.shape[2]):
                found[0, boat, index, point] = (
                    (1.0 - share) * y_m[boat, before, point] + share * y_m[boat, after, point])
                found[1, boat, index, point] = (
                    (1.0 - share) * z_m[boat, before, point] + share * z_m[boat, after, point])
