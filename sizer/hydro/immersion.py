"""What of a set of sections lies under a plane of water: areas, volumes, moments, waterplane.

Coordinates as in `sizer.design.records`. The water's plane is given by its upward unit normal u in
boat axes and a level s: a point p is under water where u.p < s. For heel f (positive to starboard)
and trim t (positive stern deeper): u = (-sin t, -cos t sin f, cos t cos f).

A wave that runs along the boat raises or lowers the plane section by section.

Within a section the plane is a straight line. Turned so that a runs along that line and b up from
it, the clipped outline gives, by Green's theorem, area = int a db, int a dA = int a^2/2 db,
int b dA = int a b db. On the waterline itself db = 0, so the closing edge adds nothing and open,
re-entrant or several-piece outlines need no special care.
"""

from dataclasses import dataclass, fields
from functools import cached_property, lru_cache

import numpy as np

MOST_AT_ONCE = 8192  # points times planes: as many as stay in a processor's own memory


@dataclass(frozen=True, eq=False)
class Outline:
    """Closed or half outlines of sections, counter-clockwise; half ones count twice.

    Half ones may be of many boats, every array with a leading axis: each has a plane of its own.
    """

    x_m: np.ndarray  # (n_sections,)
    y_m: np.ndarray  # (n_sections, n_points)
    z_m: np.ndarray  # (n_sections, n_points)
    sides: float  # 1 for a closed outline, 2 for a half
    rise_m: np.ndarray | float = 0.0  # (n_sections,) of a wave over the plane, square to it

    @cached_property
    def weights(self):
        """What integrates f, x f and x^2 f over all sides. Returns (3, ..., n_sections)."""
        return self.sides * _weights(self.x_m)

    @cached_property
    def run_per_rise(self):
        """dy/dz of each edge, 0 of a level one. Returns (..., n_sections, n_points - 1)."""
        rise = np.diff(self.z_m)
        return np.diff(self.y_m) / np.where(rise == 0.0, np.inf, rise)


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
    section_area_m2: np.ndarray  # (n_planes, n_sections)
    breadth_m: np.ndarray  # (n_planes, n_sections) along the waterline


@lru_cache(maxsize=8)
def full_outline(sections):
    """Both sides of the boat."""
    y = np.concatenate([sections.y_m, -sections.y_m[:, -2::-1]], axis=1)
    z = np.concatenate([sections.z_m, sections.z_m[:, -2::-1]], axis=1)
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


def immersed(outline, up, level_m):
    """Integrals of what lies under water.

    Parameters
    ----------
    outline : Outline
    up : (n_planes, 3) unit normals, from `up_vectors`
    level_m : (n_planes,) the plane is u.p = level

    Returns
    -------
    Immersed
    """
    many = outline.y_m.ndim == 3
    lot = max(1, MOST_AT_ONCE // (outline.y_m[0] if many else outline.y_m).size)
    parts = [_upright(outline, up[part], level_m[part], part if many else slice(None))
             if outline.sides == 2.0 else _immersed(outline, up[part], level_m[part])
             for part in (slice(first, first + lot) for first in range(0, len(level_m), lot))]
    if len(parts) == 1:
        return parts[0]
    return Immersed(*(np.concatenate([getattr(part, one.name) for part in parts])
                      for one in fields(Immersed)))


def _upright(outline, up, level_m, boats):
    """As `_immersed`, for half outlines and water level across: a = y and b = z."""
    y, z, x, run_per_rise = (one[boats] for one in (
        outline.y_m, outline.z_m, outline.x_m, outline.run_per_rise))
    slant = up[:, 2]
    base = (level_m[:, None] + outline.rise_m - up[:, :1] * x) / slant[:, None]  # waterline's z
    height = z - base[..., None]
    below = height < 0.0
    cut = y[..., :-1] - height[..., :-1] * run_per_rise  # where an edge goes under
    start, end = (np.where(wet, points, cut) for wet, points in (
        (below[..., :-1], y[..., :-1]), (below[..., 1:], y[..., 1:])))
    under = np.minimum(height, 0.0)
    low, high = under[..., :-1], under[..., 1:]
    rise = high - low
    both = start + end
    area = 0.5 * np.einsum("pse,pse->ps", both, rise)
    moment = np.einsum("pse,pse->ps", low * (both + start) + high * (both + end), rise) / 6.0
    crosses = below[..., :-1].astype(float) - below[..., 1:]
    breadth = np.einsum("pse,pse->ps", crosses, cut)
    second = np.einsum("pse,pse,pse,pse->ps", crosses, cut, cut, cut) / 3.0
    nothing = np.zeros(len(level_m))
    weights, weights_x, weights_x2 = outline.weights[:, boats]
    plane = breadth / slant[:, None]

    def whole(values, weighed=weights):
        return np.einsum("ps,...s->p" if weighed.ndim == 1 else "ps,ps->p", values, weighed)

    return Immersed(
        volume_m3=whole(area),
        moment_m4=np.array([whole(area, weights_x), nothing, whole(moment + base * area)]).T,
        plane_area_m2=whole(plane),
        plane_x_m3=whole(plane, weights_x),
        plane_x2_m4=whole(plane, weights_x2),
        plane_a_m3=nothing,
        plane_a2_m4=whole(second) / slant,
        section_area_m2=area * outline.sides,
        breadth_m=breadth * outline.sides,
    )


def _immersed(outline, up, level_m):
    x = outline.x_m
    across, height, slant, sin_heel, cos_heel = _turned(outline, up, level_m)
    planes, count, points = height.shape
    start, end = across[..., :-1].copy(), across[..., 1:].copy()  # of each edge's wet piece
    below = height < 0.0
    edge = np.flatnonzero(below[..., :-1] != below[..., 1:])  # edges that cross the waterline
    point = edge + edge // (points - 1)  # the first point of each
    first_low, heights = below.ravel()[point], height.ravel()
    one, other = start.ravel()[edge], end.ravel()[edge]
    cut = one + heights[point] / (heights[point] - heights[point + 1]) * (other - one)
    start.ravel()[edge] = np.where(first_low, one, cut)
    end.ravel()[edge] = np.where(first_low, cut, other)
    row, sign = edge // (points - 1), np.where(first_low, 1.0, -1.0)

    def by_section(values):
        return np.bincount(row, sign * values, planes * count).reshape(planes, count)

    under = np.minimum(height, 0.0)  # edges over the water have no rise, and add nothing
    low, high = under[..., :-1], under[..., 1:]
    rise = high - low
    both = start + end
    area = 0.5 * np.einsum("pse,pse->ps", both, rise)
    moment_b = np.einsum("pse,pse->ps", low * (both + start) + high * (both + end), rise) / 6.0
    breadth = by_section(cut)
    second = by_section(cut * cut * cut) / 3.0
    # back from (a, b) to (y, z): the waterline of each section stands at b0 along (sin, cos)
    base = (level_m[:, None] + outline.rise_m - up[:, :1] * x) / slant[:, None]
    moment_h = moment_b + base * area  # about the line through y = z = 0
    moment_a = np.einsum("pse,pse->ps", both * both - start * end, rise) / 6.0
    first = by_section(cut * cut) / 2.0
    section_y = cos_heel * moment_a - sin_heel * moment_h
    section_z = sin_heel * moment_a + cos_heel * moment_h
    weights, weights_x, weights_x2 = outline.weights
    volume = area @ weights
    plane = breadth / slant[:, None]  # along the water's own slope in x
    return Immersed(
        volume_m3=volume,
        moment_m4=np.array([area @ weights_x, section_y @ weights, section_z @ weights]).T,
        plane_area_m2=plane @ weights,
        plane_x_m3=plane @ weights_x,
        plane_x2_m4=plane @ weights_x2,
        plane_a_m3=(first @ weights) / slant,
        plane_a2_m4=(second @ weights) / slant,
        section_area_m2=area * outline.sides,
        breadth_m=breadth * outline.sides,
    )


def _turned(outline, up, level_m):
    """Outline points across and above their section's waterline: (planes, sections, points)."""
    slant = np.hypot(up[:, 1], up[:, 2])
    sin_heel = (-up[:, 1] / slant)[:, None]
    cos_heel = (up[:, 2] / slant)[:, None]
    y, z = outline.y_m[None], outline.z_m[None]
    base = (level_m[:, None] + outline.rise_m - up[:, :1] * outline.x_m) / slant[:, None]
    across = cos_heel[..., None] * y + sin_heel[..., None] * z
    height = cos_heel[..., None] * z - sin_heel[..., None] * y - base[..., None]
    return across, height, slant, sin_heel, cos_heel


def _weights(x):
    """Weights that integrate f, x f and x^2 f exactly where f runs straight between uneven x.

    Over a step h from x0 to x1: h/2 (f0 + f1), h/6 ((2 x0 + x1) f0 + (x0 + 2 x1) f1) and
    h/12 ((3 x0^2 + 2 x0 x1 + x1^2) f0 + (x0^2 + 2 x0 x1 + 3 x1^2) f1). Returns (3, ..., n).
    """
    x0, x1 = x[..., :-1], x[..., 1:]
    step = x1 - x0
    six = np.full(step.shape, 6.0)
    near = np.array([six, 4.0 * x0 + 2.0 * x1, 3.0 * x0**2 + 2.0 * x0 * x1 + x1**2])
    far = np.array([six, 2.0 * x0 + 4.0 * x1, x0**2 + 2.0 * x0 * x1 + 3.0 * x1**2])
    weights = np.zeros((3, *x.shape))
    weights[..., :-1] += near * step / 12.0
    weights[..., 1:] += far * step / 12.0
    return weights
