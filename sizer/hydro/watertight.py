"""What water cannot enter: chambers, and solids that displace no more than themselves.

A chamber is a share of every cross-section between two places: a watertight end, a float bag, or
what a full hold leaves free (one less its permeability). Solids are sticks, skin, a body.
"""

from dataclasses import dataclass, fields
from functools import cached_property, lru_cache

import numpy as np

from sizer.compiled import compiled
from sizer.hull.sections import half_section_at
from sizer.hydro.immersion import Outline, immersed
from sizer.rows import along


@dataclass(frozen=True, eq=False)
class Chamber:
    """A share of every cross-section, from front to back, that water cannot enter.

    In many boats, front and back are arrays (n,).
    """

    front_x_m: float
    back_x_m: float
    share: float = 1.0


@dataclass(frozen=True, eq=False)
class Solids:
    """Things that displace their own volume, each even between two heights; arrays are (n,).

    In many boats, (n_boats, n).
    """

    x_m: np.ndarray
    low_m: np.ndarray
    high_m: np.ndarray
    volume_m3: np.ndarray
    breadth_m: np.ndarray  # of its waterplane on the centre line; 0 leaves that out of GM

    @cached_property
    def columns(self):
        """Each field in turn, as of many boats."""
        return [np.ascontiguousarray(np.atleast_2d(getattr(self, name))) for name in _COLUMNS]


_COLUMNS = tuple(one.name for one in fields(Solids))


def no_solids():
    """An empty Solids."""
    return Solids(*(np.zeros(0) for _ in _COLUMNS))


def joined(*parts):
    """One Solids of several."""
    columns = [[getattr(part, name) for part in parts] for name in _COLUMNS]
    if any(one.ndim > 1 for column in columns for one in column):
        many = np.broadcast_shapes(*(one.shape[:-1] for column in columns for one in column))
        columns = [[np.broadcast_to(one, (*many, one.shape[-1])) for one in column]
                   for column in columns]
    return Solids(*(np.concatenate(column, axis=-1) for column in columns))


def chamber_outline(sections, chamber):
    """The half-sections of a hull from a chamber's front to its back."""
    x = sections.x_m
    front, back = along(chamber.front_x_m, x), along(chamber.back_x_m, x)
    before = max(int(np.count_nonzero(x <= front, axis=-1).min()) - 1, 0)
    behind = int(np.count_nonzero(x < back, axis=-1).max()) + 1
    places = np.clip(x[..., before:behind], front, back)
    return Outline(places, *half_section_at(sections, places), 2.0)


@lru_cache(maxsize=8)  # the same bags, their boat with and without its paddler
def outlines_of(sections, chambers):
    """The share and Outline of each of a tuple of Chambers."""
    return tuple((one.share, chamber_outline(sections, one)) for one in chambers)


def under_of(outlines, solids, up, level_m):
    """What of chambers, as `outlines_of`, and solids lies under each plane: an Under."""
    under = solids_under(solids, up, level_m)
    for share, outline in outlines:
        under = under.with_share(share, immersed(outline, up, level_m))
    return under


def solids_under(solids, up, level_m):
    """What of the solids lies under each plane: an Under. Of many boats, one plane each."""
    sums = np.empty((len(level_m), 8))
    compiled(_add_solids)(*solids.columns, np.ascontiguousarray(up),
                          np.ascontiguousarray(level_m), sums)
    return Under(sums[:, 0], sums[:, 1:4], *sums[:, 4:].T)


def _add_solids(x_m, low_m, high_m, volume_m3, breadth_m, ups, level_m, sums):
    """Fills `sums` (n_planes, 8) with what lies under each plane, in the order of Under."""
    boats, count = x_m.shape
    for plane in range(level_m.size):
        boat = plane if boats > 1 else 0
        slope, level = ups[plane, 0] / ups[plane, 2], level_m[plane] / ups[plane, 2]
        total = by_x = by_z = plane_area = plane_x = plane_x2 = plane_a2 = 0.0
        for one in range(count):
            x, low, high = x_m[boat, one], low_m[boat, one], high_m[boat, one]
            volume, height = volume_m3[boat, one], level - slope * x
            if height <= low:
                continue
            if height >= high:
                height = high
            else:
                area = volume / (high - low)
                volume = area * (height - low)
                plane_area += area
                plane_x += area * x
                plane_x2 += area * x * x
                plane_a2 += area * breadth_m[boat, one] ** 2 / 12.0
            total += volume
            by_x += volume * x
            by_z += volume * 0.5 * (low + height)
        sums[plane] = (total, by_x, 0.0, by_z, plane_area, plane_x, plane_x2, plane_a2)


@dataclass(frozen=True, eq=False)
class Under:
    """What water cannot enter, under each of n planes; fields as of `immersion.Immersed`."""

    volume_m3: np.ndarray
    moment_m4: np.ndarray  # (n, 3)
    plane_area_m2: np.ndarray
    plane_x_m3: np.ndarray
    plane_x2_m4: np.ndarray
    plane_a2_m4: np.ndarray

    def with_share(self, share, wet):
        """This, and a share of something Immersed."""
        return Under(*(value + share * getattr(wet, name) for name, value in vars(self).items()))
