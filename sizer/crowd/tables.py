"""One finished boat afloat, tabulated over mass and trim.

Upright, the water's plane is given by trim and level, and everything but the load's lever follows
from the plane alone. So the planes of a grid are worked out once, each trim's figures become
smooth curves over the mass carried, and any paddler is read off them.
"""

from dataclasses import dataclass

import numpy as np
from scipy.interpolate import CubicSpline

from sizer.hydro.immersion import half_outline, immersed, up_vectors
from sizer.hydro.rim import rim_clearance_m

TRIMS_DEG = np.array([-6.0, -4.0, -2.5, -1.5, -1.0, -0.5, 0.0, 0.5, 1.0, 1.5, 2.5, 4.0, 6.0])
LEVELS, ROUGH_LEVELS = 15, 9  # of water at mid-length, for each trim
LEAST_SPAN_M = 0.020  # between the lowest and the highest of them
BEYOND = 0.05  # of the lightest and heaviest load's volume, tabulated past them
FIGURES = ("lever_m", "metacentre_m", "long_metacentre_m", "plane_area_m2", "freeboard_m",
           "rim_m", "draft_m")


@dataclass(frozen=True, eq=False)
class WaterTable:
    """Curves over displaced volume, one for each of TRIMS_DEG, of FIGURES in their order.

    `lever_m`: x + z tan(trim) of buoyancy, which the load's must equal. `metacentre_m` and
    `long_metacentre_m`: heights square to the water, from the same origin as the load's.
    """

    curves: tuple[CubicSpline, ...]
    volumes_m3: tuple[float, float]  # that every curve covers


def water_table(boat, volumes_m3):
    """The WaterTable of a boat between two displaced volumes, or to the rim where that is less."""
    sections = boat.sections
    lowest, rim = float(sections.z_m[:, 0].min()) + 0.01, min(sections.rim_z_m)
    rough = np.tile(np.linspace(lowest, rim, ROUGH_LEVELS), (TRIMS_DEG.size, 1))
    held = immersed(half_outline(sections), *_planes(sections, rough)).volume_m3
    wanted = np.array([1.0 - BEYOND, 1.0 + BEYOND]) * volumes_m3
    ends = np.array([np.interp(wanted, row, heights)
                     for row, heights in zip(held.reshape(rough.shape), rough, strict=True)])
    ends[:, 0] = np.minimum(ends[:, 0], rim - LEAST_SPAN_M)
    ends[:, 1] = np.maximum(ends[:, 1], ends[:, 0] + LEAST_SPAN_M)
    heights = np.linspace(ends[:, 0], ends[:, 1], LEVELS, axis=1)
    volume, figures = _figures(sections, *_planes(sections, heights))
    volume = volume.reshape(heights.shape)
    figures = figures.reshape(*heights.shape, len(FIGURES))
    curves = tuple(CubicSpline(*pair) for pair in zip(volume, figures, strict=True))
    return WaterTable(curves, (float(volume[:, 0].max()), float(volume[:, -1].min())))


def _planes(sections, heights_m):
    """Planes of water (n, 3) and (n,) of heights at mid-length, a row for each of TRIMS_DEG."""
    up = up_vectors(0.0, np.repeat(TRIMS_DEG, heights_m.shape[1]))
    return up, up[:, 2] * heights_m.ravel() + up[:, 0] * sections.mid_x_m


def _figures(sections, up, level):
    """Volume (n,) and FIGURES (n, 7) of each plane; formulas as `sizer.hydro.particulars`."""
    wet = immersed(half_outline(sections), up, level)
    volume = wet.volume_m3
    centre = wet.moment_m4 / volume[:, None]
    lcf = wet.plane_x_m3 / wet.plane_area_m2
    height = np.einsum("pi,pi->p", centre, up)
    bm_long = (wet.plane_x2_m4 - wet.plane_area_m2 * lcf**2) / up[:, 2] ** 2 / volume
    x = sections.x_m
    sheer, keel = (up[:, :1] * x + up[:, 2:] * sections.z_m[:, column] - level[:, None]
                   for column in (sections.sheer, 0))
    return volume, np.stack([
        centre[:, 0] - centre[:, 2] * up[:, 0] / up[:, 2],
        height + wet.plane_a2_m4 / volume, height + bm_long, wet.plane_area_m2,
        sheer.min(axis=1), rim_clearance_m(sections, up, level), -keel.min(axis=1)], axis=-1)
