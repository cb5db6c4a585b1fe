"""What water cannot enter: chambers, and solids that displace no more than themselves.

A chamber is a share of every cross-section between two places: a watertight end, a float bag, or
what a full hold leaves free (one less its permeability). Solids are sticks, skin, a body.
"""

from dataclasses import dataclass, fields

import numpy as np

from sizer.hull.sections import half_section_at
from sizer.hydro.immersion import MOST_AT_ONCE, Outline


@dataclass(frozen=True)
class Chamber:
    """A share of every cross-section, from front to back, that water cannot enter."""

    front_x_m: float
    back_x_m: float
    share: float = 1.0


@dataclass(frozen=True, eq=False)
class Solids:
    """Things that displace their own volume, each even between two heights; arrays are (n,)."""

    x_m: np.ndarray
    low_m: np.ndarray
    high_m: np.ndarray
    volume_m3: np.ndarray
    breadth_m: np.ndarray  # of its waterplane on the centre line; 0 leaves that out of GM


def no_solids():
    """An empty Solids."""
    return Solids(*(np.zeros(0) for _ in fields(Solids)))


def joined(*parts):
    """One Solids of several."""
    return Solids(*(np.concatenate([getattr(part, one.name) for part in parts])
                    for one in fields(Solids)))


def chamber_outline(sections, chamber):
    """The half-sections of a hull from a chamber's front to its back."""
    x = sections.x_m
    inner = x[(x > chamber.front_x_m) & (x < chamber.back_x_m)]
    places = np.concatenate([[chamber.front_x_m], inner, [chamber.back_x_m]])
    return Outline(places, *half_section_at(sections, places), 2.0)


def solids_under(solids, up, level_m):
    """Volume, moment about the origin and second moment of waterplane under each plane.

    Returns (n_planes,), (n_planes, 3), (n_planes,).
    """
    lot = max(1, MOST_AT_ONCE // max(solids.x_m.size, 1))
    if len(level_m) <= lot:
        return _solids_under(solids, up, level_m)
    parts = [_solids_under(solids, up[first:first + lot], level_m[first:first + lot])
             for first in range(0, len(level_m), lot)]
    return tuple(np.concatenate(part) for part in zip(*parts, strict=True))


def _solids_under(solids, up, level_m):
    height = (level_m[:, None] - up[:, :1] * solids.x_m) / up[:, 2:]
    reach = solids.high_m - solids.low_m
    share = np.minimum(np.maximum((height - solids.low_m) / reach, 0.0), 1.0)
    volume = share * solids.volume_m3
    z = solids.low_m + 0.5 * share * reach
    cut = (share > 0.0) & (share < 1.0)
    second = cut @ (solids.volume_m3 / reach * solids.breadth_m**2 / 12.0)
    moment = np.stack([volume @ solids.x_m, np.zeros(len(up)), np.sum(volume * z, axis=1)], -1)
    return volume.sum(axis=1), moment, second
