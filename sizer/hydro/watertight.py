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
from sizer.hydro.planes import add_solids
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
    def rows(self):
        """(n_boats, n, 5): each solid's fields in turn, as of many boats."""
        each = np.stack([getattr(self, name) for name in _COLUMNS], axis=-1)
        return each if each.ndim == 3 else each[None]


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
def outline_of(sections, chambers):
    """One Outline of a tuple of Chambers, side by side: nothing counts between them, their share
    within."""
    points = sections.y_m.shape[-1]
    if not chambers:
        return Outline(np.zeros(0), np.zeros((0, points)), np.zeros((0, points)), 2.0)
    each = [chamber_outline(sections, one) for one in chambers]
    many = np.broadcast_shapes(*(one.x_m.shape[:-1] for one in each))

    def beside(name, axes):
        columns = (getattr(one, name) for one in each)
        return np.concatenate([np.broadcast_to(one, (*many, *one.shape[one.ndim - axes:]))
                               for one in columns], axis=-axes)

    part = np.concatenate([np.append(np.full(one.x_m.shape[-1] - 1, chamber.share), 0.0)
                           for one, chamber in zip(each, chambers, strict=True)])
    return Outline(beside("x_m", 1), beside("y_m", 2), beside("z_m", 2), 2.0, part=part[:-1])


def under_of(outline, solids, up, level_m):
    """What of chambers, as `outline_of`, and solids lies under each plane: an Under."""
    wet, dry = immersed(outline, up, level_m), solids_under(solids, up, level_m)
    return Under(*(value + getattr(wet, name) for name, value in vars(dry).items()))


def solids_under(solids, up, level_m):
    """What of the solids lies under each plane: an Under. Of many boats, one plane each."""
    sums, count = np.empty((len(level_m), 8)), len(level_m)
    of = np.arange(count) if len(solids.rows) > 1 else np.zeros(count, int)
    compiled(add_solids)(solids.rows, of, np.ascontiguousarray(up),
                         np.ascontiguousarray(level_m), sums)
    return under_of_sums(sums)


def under_of_sums(sums):
    """The Under of sums (n_planes, 8) in its fields' order."""
    return Under(sums[:, 0], sums[:, 1:4], *sums[:, 4:].T)


@dataclass(frozen=True, eq=False)
class Under:
    """What water cannot enter, under each of n planes; fields as of `immersion.Immersed`."""

    volume_m3: np.ndarray
    moment_m4: np.ndarray  # (n, 3)
    plane_area_m2: np.ndarray
    plane_x_m3: np.ndarray
    plane_x2_m4: np.ndarray
    plane_a2_m4: np.ndarray
