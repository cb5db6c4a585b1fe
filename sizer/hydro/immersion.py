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

import numpy as np


@dataclass(frozen=True, eq=False)
class Outline:
    """Closed or half outlines of sections, counter-clockwise; half ones count twice."""

    x_m: np.ndarray  # (n_sections,)
    y_m: np.ndarray  # (n_sections, n_points)
    z_m: np.ndarray  # (n_sections, n_points)
    sides: float  # 1 for a closed outline, 2 for a half


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


def full_outline(sections):
    """Both sides of the boat."""
    y = np.concatenate([sections.y_m, -sections.y_m[:, -2::-1]], axis=1)
    z = np.concatenate([sections.z_m, sections.z_m[:, -2::-1]], axis=1)
    return Outline(sections.x_m, y, z, 1.0)


def half_outline(sections):
    """The starboard side, for an upright boat: the centre line adds nothing to int a db."""
    return Outline(sections.x_m, sections.y_m, sections.z_m, 2.0)


def up_vectors(heel_deg, trim_deg):
    """Upward unit normal of the water in boat axes. Returns (n, 3)."""
    heel, trim = np.broadcast_arrays(np.radians(heel_deg), np.radians(trim_deg))
    return np.stack([-np.sin(trim), -np.cos(trim) * np.sin(heel),
                     np.cos(trim) * np.cos(heel)], axis=-1)


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
    x = outline.x_m
    across, height, slant, sin_heel, cos_heel = _turned(outline, up, level_m)
    low, high = height[..., :-1], height[..., 1:]
    start, end = across[..., :-1], across[..., 1:]
    crosses = (low < 0.0) != (high < 0.0)
    share = np.where(crosses, low, 0.0) / np.where(crosses, low - high, 1.0)
    cut = start + share * (end - start)
    a = np.where(low < 0.0, start, cut)
    b = np.where(high < 0.0, end, cut)
    low, high = np.minimum(low, 0.0), np.minimum(high, 0.0)
    rise = high - low
    area = 0.5 * np.einsum("pse,pse->ps", a + b, rise)
    moment_a = np.einsum("pse,pse->ps", a * a + a * b + b * b, rise) / 6.0
    moment_b = np.einsum("pse,pse->ps", low * (2.0 * a + b) + high * (a + 2.0 * b), rise) / 6.0
    sign = np.where(crosses, np.where(height[..., :-1] < 0.0, 1.0, -1.0), 0.0)
    breadth = np.einsum("pse,pse->ps", sign, cut)
    first = np.einsum("pse,pse,pse->ps", sign, cut, cut) / 2.0
    second = np.einsum("pse,pse,pse,pse->ps", sign, cut, cut, cut) / 3.0
    # back from (a, b) to (y, z): the waterline of each section stands at b0 along (sin, cos)
    base = (level_m[:, None] - up[:, :1] * x) / slant[:, None]
    moment_h = moment_b + base * area  # about the line through y = z = 0
    section_y = cos_heel * moment_a - sin_heel * moment_h
    section_z = sin_heel * moment_a + cos_heel * moment_h
    if outline.sides == 2.0:  # upright by symmetry
        section_y = np.zeros_like(section_y)
        first = np.zeros_like(first)
    weights, weights_x, weights_x2 = outline.sides * _weights(x)
    volume = area @ weights
    plane = breadth / slant[:, None]  # along the water's own slope in x
    return Immersed(
        volume_m3=volume,
        moment_m4=np.stack([area @ weights_x, section_y @ weights, section_z @ weights], -1),
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
    base = (level_m[:, None] - up[:, :1] * outline.x_m) / slant[:, None]
    across = cos_heel[..., None] * y + sin_heel[..., None] * z
    height = cos_heel[..., None] * z - sin_heel[..., None] * y - base[..., None]
    return across, height, slant, sin_heel, cos_heel


def _weights(x):
    """Weights that integrate f, x f and x^2 f exactly where f runs straight between uneven x.

    Over a step h from x0 to x1: h/2 (f0 + f1), h/6 ((2 x0 + x1) f0 + (x0 + 2 x1) f1) and
    h/12 ((3 x0^2 + 2 x0 x1 + x1^2) f0 + (x0^2 + 2 x0 x1 + 3 x1^2) f1). Returns (3, n).
    """
    x0, x1 = x[:-1], x[1:]
    step = x1 - x0
    near = np.stack([6.0 + 0.0 * x0, 4.0 * x0 + 2.0 * x1, 3.0 * x0**2 + 2.0 * x0 * x1 + x1**2])
    far = np.stack([6.0 + 0.0 * x0, 2.0 * x0 + 4.0 * x1, x0**2 + 2.0 * x0 * x1 + 3.0 * x1**2])
    weights = np.zeros((3, x.size))
    weights[:, :-1] += near * step / 12.0
    weights[:, 1:] += far * step / 12.0
    return weights
