"""What water cannot enter: chambers, and solids that displace no more than themselves.

A chamber is a share of every cross-section between two places: a watertight end, a float bag, or
what a full hold leaves free (one less its permeability). Solids are sticks, skin, a body.
"""

from dataclasses import dataclass, fields

import numpy as np

from sizer.hull.sections import half_section_at
from sizer.hydro.immersion import Outline
from sizer.rows import along


@dataclass(frozen=True)
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


def no_solids():
    """An empty Solids."""
    return Solids(*(np.zeros(0) for _ in fields(Solids)))


def joined(*parts):
    """One Solids of several."""
    many = np.broadcast_shapes(*(getattr(part, one.name).shape[:-1]
                                 for part in parts for one in fields(Solids)))
    return Solids(*(np.concatenate(
        [np.broadcast_to(getattr(part, one.name), (*many, part.x_m.shape[-1])) for part in parts],
        axis=-1) for one in fields(Solids)))


def chamber_outline(sections, chamber):
    """The half-sections of a hull from a chamber's front to its back."""
    x = sections.x_m
    front, back = along(chamber.front_x_m, x), along(chamber.back_x_m, x)
    before = max(int(np.count_nonzero(x <= front, axis=-1).min()) - 1, 0)
    behind = int(np.count_nonzero(x < back, axis=-1).max()) + 1
    places = np.clip(x[..., before:behind], front, back)
    return Outline(places, *half_section_at(sections, places), 2.0)


def solids_under(solids, up, level_m):
    """What of the solids lies under each plane: an Under. Of many boats, one plane each."""
    x = solids.x_m
    height = (level_m[:, None] - up[:, :1] * x) / up[:, 2:]
    reach = solids.high_m - solids.low_m
    share = np.minimum(np.maximum((height - solids.low_m) / reach, 0.0), 1.0)
    volume = share * solids.volume_m3
    z = solids.low_m + 0.5 * share * reach
    plane = ((share > 0.0) & (share < 1.0)) * (solids.volume_m3 / reach)

    def whole(values, *more):
        return np.einsum(",".join(["...n"] * (1 + len(more))) + "->...", values, *more)

    return Under(
        volume_m3=volume.sum(axis=-1),
        moment_m4=np.stack([whole(volume, x), np.zeros(len(up)), whole(volume, z)], axis=-1),
        plane_area_m2=plane.sum(axis=-1), plane_x_m3=whole(plane, x),
        plane_x2_m4=whole(plane, x, x),
        plane_a2_m4=whole(plane, solids.breadth_m, solids.breadth_m) / 12.0)


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
        return Under(*(getattr(self, one.name) + share * getattr(wet, one.name)
                       for one in fields(self)))
