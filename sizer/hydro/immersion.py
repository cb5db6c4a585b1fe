"""What of a set of sections lies under a plane of water: areas, volumes, moments, waterplane.

Coordinates as in `sizer.design.records`. The water's plane is given by its upward unit normal u in
boat axes and a level s: a point p is under water where u.p < s. For heel f (positive to starboard)
and trim t (positive stern deeper): u = (-sin t, -cos t sin f, cos t cos f).

Within a section the plane is a straight line. Turned so that a runs along that line and b up from
it, the clipped outline gives, by Green's theorem, area = int a db, int a dA = int a^2/2 db,
int b dA = int a b db. On the waterline itself db = 0, so the closing edge adds nothing and open,
re-entrant or several-piece outlines need no special care.
"""

from dataclasses import dataclass
from functools import cached_property, lru_cache

import numpy as np

from sizer.compiled import compiled
from sizer.hydro.planes import add_up, clip, shares

AT_ONCE = 64  # planes: what their sections hold stays in a processor's own memory


@dataclass(frozen=True, eq=False)
class Outline:
    """Closed or half outlines of sections, counter-clockwise; half ones count twice.

    They may be of many boats: every array but `part` then has a leading axis.
    """

    x_m: np.ndarray  # (n_sections,)
    y_m: np.ndarray  # (n_sections, n_points)
    z_m: np.ndarray  # (n_sections, n_points)
    sides: float  # 1 for a closed outline, 2 for a half
    rise_m: np.ndarray | None = None  # (n_sections,) of a wave over the plane, square to it
    part: np.ndarray | None = None  # (n_sections - 1,) of what is between sections; None: all of it

    @cached_property
    def points(self):
        """x, y, z of the points and the wave at each section, as of many boats."""
        x, y, z = (np.ascontiguousarray(one if self.y_m.ndim == 3 else one[None])
                   for one in (self.x_m, self.y_m, self.z_m))
        return x, y, z, np.zeros(x.shape) + (0.0 if self.rise_m is None else self.rise_m)

    @cached_property
    def shares(self):
        """Of each section, as `planes.shares` has them."""
        x, *_ = self.points
        share = np.empty((*x.shape, 3))
        part = np.ones(max(x.shape[1] - 1, 0)) if self.part is None else self.part
        compiled(shares)(x, self.sides * part, share)
        return share


@dataclass(frozen=True, eq=False)
class Immersed:
    """Integrals under each of several water planes; every array is (n_planes,)."""

    volume_m3: np.ndarray
    moment_m4: np.ndarray  # (n_planes, 3): volume times centre
    plane_area_m2: np.ndarray  # of the waterplane, in its own plane
    plane_x_m3: np.ndarray  # first moment of the waterplane in x
    plane_x2_m4: np.ndarray  # second moment of the waterplane in x
    plane_a_m3: np.ndarray  # first moment across, from the line y = z = 0 as seen along the water
    plane_a2_m4: np.ndarray  # second moment across


@lru_cache(maxsize=8)
def full_outline(sections):
    """Both sides of the boat."""
    y = np.concatenate([sections.y_m, -sections.y_m[..., -2::-1]], axis=-1)
    z = np.concatenate([sections.z_m, sections.z_m[..., -2::-1]], axis=-1)
    return Outline(sections.x_m, y, z, 1.0)


@lru_cache(maxsize=8)
def half_outline(sections):
    """The starboard side, for an upright boat: the centre line adds nothing to int a db."""
    return Outline(sections.x_m, sections.y_m, sections.z_m, 2.0)


def up_vectors(heel_deg, trim_deg):
    """Upward unit normal of the water in boat axes. Returns (n, 3)."""
    heel, trim = np.radians(heel_deg), np.radians(trim_deg)
    level = np.cos(trim)
    z = level * np.cos(heel)
    up = np.empty((*z.shape, 3))
    up[..., 0], up[..., 1], up[..., 2] = -np.sin(trim), -level * np.sin(heel), z
    return up


def planes_at(sinkage_m, trim_deg, mid_x_m):
    """Planes of level water, (n, 3) and (n,), from its height at mid-length and the trim (n,)."""
    up = up_vectors(np.zeros(np.shape(trim_deg)), trim_deg)
    return up, up[:, 2] * sinkage_m + up[:, 0] * mid_x_m


def immersed(outline, up, level_m, of=None):
    """Integrals of what lies under water.

    Parameters
    ----------
    outline : Outline
    up : (n_planes, 3) unit normals, from `up_vectors`; of half outlines level across
    level_m : (n_planes,) the plane is u.p = level
    of : (n_planes,) which of many boats each lies in; else each in its own, or all in the one

    Returns
    -------
    Immersed
    """
    x, y, z, rise = outline.points
    of, water = _water(len(x), up, level_m, of)
    sums, share = np.empty((of.size, 9)), outline.shares
    cut = np.empty((min(of.size, AT_ONCE), x.shape[1], 6))
    for first in range(0, of.size, AT_ONCE):
        some = slice(first, first + AT_ONCE)
        compiled(clip)(x, y, z, rise, of[some], water[some], cut)
        compiled(add_up)(share, of[some], water[some], outline.sides, cut, sums[some])
    sums[:, 4:] /= np.hypot(up[:, 1], up[:, 2])[:, None]  # along the water's own slope in x
    return immersed_of(sums)


def immersed_of(sums):
    """The Immersed of sums (n_planes, 9) in its fields' order."""
    return Immersed(sums[:, 0], sums[:, 1:4], *sums[:, 4:].T)


def cut_sections(outline, up, level_m):
    """Area under water of each section and its breadth along the waterline: (n_planes, n_sections)
    m2 and m. Parameters as `immersed`."""
    x, y, z, rise = outline.points
    of, water = _water(len(x), up, level_m, None)
    cut = np.empty((of.size, x.shape[1], 6))
    compiled(clip)(x, y, z, rise, of, water, cut)
    return outline.sides * cut[..., 0], outline.sides * cut[..., 3]


def _water(boats, up, level_m, of):
    """Each plane's own outline, and the planes as `planes.clip` takes them."""
    if of is None:
        of = np.arange(len(level_m)) if boats > 1 else np.zeros(len(level_m), int)
    one = np.ones(len(level_m))
    water = np.stack([-up[:, 1], up[:, 2], up[:, 0], level_m, one], axis=-1)
    return of, water / np.hypot(up[:, 1], up[:, 2])[:, None]
