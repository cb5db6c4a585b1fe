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
from functools import lru_cache

import numpy as np

from sizer.compiled import compiled

AT_ONCE = 64  # planes: what their sections hold stays in a processor's own memory


@dataclass(frozen=True, eq=False)
class Outline:
    """Closed or half outlines of sections, counter-clockwise; half ones count twice.

    They may be of many boats: every array then has a leading axis.
    """

    x_m: np.ndarray  # (n_sections,)
    y_m: np.ndarray  # (n_sections, n_points)
    z_m: np.ndarray  # (n_sections, n_points)
    sides: float  # 1 for a closed outline, 2 for a half
    rise_m: np.ndarray | None = None  # (n_sections,) of a wave over the plane, square to it


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
    x, y, z, rise, of, water = _given(outline, up, level_m, of)
    sums = np.zeros((of.size, 9))
    cut = np.empty((min(of.size, AT_ONCE), x.shape[1], 6))
    for first in range(0, of.size, AT_ONCE):
        some = slice(first, first + AT_ONCE)
        compiled(_clip)(x, y, z, rise, of[some], water[some], cut)
        compiled(_add_up)(x, of[some], water[some], outline.sides, cut, sums[some])
    plane = sums[:, 4:] / np.hypot(up[:, 1], up[:, 2])[:, None]  # along the water's own slope in x
    return Immersed(sums[:, 0], sums[:, 1:4], *plane.T)


def cut_sections(outline, up, level_m):
    """Area under water of each section and its breadth along the waterline: (n_planes, n_sections)
    m2 and m. Parameters as `immersed`."""
    x, y, z, rise, of, water = _given(outline, up, level_m, None)
    cut = np.empty((of.size, x.shape[1], 6))
    compiled(_clip)(x, y, z, rise, of, water, cut)
    return outline.sides * cut[..., 0], outline.sides * cut[..., 3]


def _given(outline, up, level_m, of):
    """Points of the outlines, the wave at them, each plane's own outline, and the planes as `_clip`
    takes them."""
    x, y, z = (np.ascontiguousarray(one if outline.y_m.ndim == 3 else one[None])
               for one in (outline.x_m, outline.y_m, outline.z_m))
    if of is None:
        of = np.arange(len(level_m)) if len(x) > 1 else np.zeros(len(level_m), int)
    slant = np.hypot(up[:, 1], up[:, 2])
    one = np.ones(len(level_m))
    water = np.stack([-up[:, 1], up[:, 2], up[:, 0], level_m, one], axis=-1) / slant[:, None]
    rise = np.zeros(x.shape) if outline.rise_m is None else np.ascontiguousarray(
        np.broadcast_to(outline.rise_m, x.shape), float)
    return x, y, z, rise, of, water


def _clip(x_m, y_m, z_m, rise_m, of, water, cut):
    """Fills rows of `cut` (n_planes, n_sections, 6) with int dA, int a dA, int b dA, and over the
    waterline int da, int a da, int a^2 da; `water` (n_planes, 5) is sin and cos of heel, slope in
    x, height at x = 0, and by how much a section's water is higher for each metre of rise."""
    _, sections, points = y_m.shape
    for plane in range(of.size):
        sin_heel, cos_heel, slope, level, upwards = water[plane]
        boat = of[plane]
        for section in range(sections):
            base = level - slope * x_m[boat, section] + upwards * rise_m[boat, section]
            area = moment_a = moment_b = breadth = first = second = 0.0
            y, z = y_m[boat, section, 0], z_m[boat, section, 0]
            next_a, next_b = cos_heel * y + sin_heel * z, cos_heel * z - sin_heel * y - base
            for point in range(1, points):
                start, low = next_a, next_b
                y, z = y_m[boat, section, point], z_m[boat, section, point]
                next_a, next_b = cos_heel * y + sin_heel * z, cos_heel * z - sin_heel * y - base
                end, high = next_a, next_b
                if low >= 0.0:  # the edge comes down through the waterline, or stays out
                    if high >= 0.0:
                        continue
                    start += low / (low - high) * (end - start)
                    breadth -= start
                    first -= start * start
                    second -= start * start * start
                    low = 0.0
                elif high >= 0.0:  # goes up through it
                    end = start + low / (low - high) * (end - start)
                    breadth += end
                    first += end * end
                    second += end * end * end
                    high = 0.0
                rise, both = high - low, start + end
                area += both * rise
                moment_a += (both * both - start * end) * rise
                moment_b += (low * (both + start) + high * (both + end)) * rise
            area /= 2.0
            cut[plane, section] = (  # b from the line through y = z = 0
                area, moment_a / 6.0, moment_b / 6.0 + base * area, breadth, first / 2.0,
                second / 3.0)


def _add_up(x_m, of, water, sides, cut, sums):
    """Adds to `sums` (n_planes, 9) what the sections hold, exactly where it runs straight between
    them: volume, its moments about x, y and z, and the waterline's as in Immersed, across x."""
    sections = x_m.shape[1]
    for plane in range(of.size):
        sin_heel, cos_heel = water[plane, :2]
        boat = of[plane]
        for section in range(sections):
            area, moment_a, moment_b, breadth, first, second = cut[plane, section]
            x = x_m[boat, section]
            ahead = x_m[boat, max(section - 1, 0)]
            behind = x_m[boat, min(section + 1, sections - 1)]
            near, far = sides * (x - ahead), sides * (behind - x)
            one = (near + far) / 2.0
            by_x = (near * (ahead + 2.0 * x) + far * (2.0 * x + behind)) / 6.0
            by_x2 = (near * (ahead**2 + 2.0 * ahead * x + 3.0 * x**2)
                     + far * (3.0 * x**2 + 2.0 * x * behind + behind**2)) / 12.0
            if sides == 2.0:  # what one side adds the other takes away
                moment_a = first = 0.0
            for place, value in enumerate((
                    one * area, by_x * area,
                    one * (cos_heel * moment_a - sin_heel * moment_b),
                    one * (sin_heel * moment_a + cos_heel * moment_b),
                    one * breadth, by_x * breadth, by_x2 * breadth, one * first, one * second)):
                sums[plane, place] += value
