"""One finished boat afloat, tabulated over mass and trim.

Upright, the water's plane is given by trim and level, and everything but the load's lever follows
from the plane alone. So the planes of a grid are worked out once, each trim's figures become
smooth curves over the mass carried, and any paddler is read off them.
"""

from dataclasses import dataclass

import numpy as np

from sizer.compiled import compiled
from sizer.hydro.flotation import Load, at_rest
from sizer.hydro.immersion import half_outline, immersed, planes_at
from sizer.hydro.particulars import upright_of

TRIMS_DEG = np.array([-6.0, -4.0, -2.5, -1.5, -1.0, -0.5, 0.0, 0.5, 1.0, 1.5, 2.5, 4.0, 6.0])
LEVELS, ROUGH_LEVELS = 15, 9  # of water at mid-length, for each trim
LEAST_SPAN_M = 0.020  # between the lowest and the highest of them
BEYOND = 0.05  # of the lightest and heaviest load's volume, tabulated past them
ORIGIN = Load(1.0, 0.0, 0.0)  # heights are taken from there
FIGURES = ("lever_m", "metacentre_m", "long_metacentre_m", "plane_area_m2", "freeboard_m",
           "rim_m", "draft_m")


@dataclass(frozen=True, eq=False)
class WaterTable:
    """Curves over displaced volume, for each of TRIMS_DEG, of FIGURES in their order.

    `lever_m`: x + z tan(trim) of buoyancy, which the load's must equal. `metacentre_m` and
    `long_metacentre_m`: heights square to the water, from the same origin as the load's.
    """

    knots_m3: np.ndarray  # (n_trims, n_levels)
    pieces: np.ndarray  # (n_trims, n_levels - 1, n_figures, 4): cubics in what is over each knot
    volumes_m3: tuple[float, float]  # that every curve covers


def water_table(boat, volumes_m3, water):
    """The WaterTable of a boat between two displaced volumes, or to the rim where that is less."""
    sections = boat.sections
    lowest, rim = float(sections.z_m[:, 0].min()) + 0.01, min(sections.rim_z_m)
    rough = np.tile(np.linspace(lowest, rim, ROUGH_LEVELS), (TRIMS_DEG.size, 1))
    trims, places = _planes(rough)
    held = immersed(half_outline(sections),
                    *planes_at(places, trims, sections.mid_x_m)).volume_m3
    wanted = np.array([1.0 - BEYOND, 1.0 + BEYOND]) * volumes_m3
    ends = np.array([np.interp(wanted, row, heights)
                     for row, heights in zip(held.reshape(rough.shape), rough, strict=True)])
    ends[:, 0] = np.minimum(ends[:, 0], rim - LEAST_SPAN_M)
    ends[:, 1] = np.maximum(ends[:, 1], ends[:, 0] + LEAST_SPAN_M)
    heights = np.linspace(ends[:, 0], ends[:, 1], LEVELS, axis=1)
    volume, figures = _figures(sections, *_planes(heights), water)
    volume = volume.reshape(heights.shape)
    figures = figures.reshape(*heights.shape, len(FIGURES))
    return WaterTable(volume, splines(volume, figures),
                      (float(volume[:, 0].max()), float(volume[:, -1].min())))


def splines(knots, values):
    """The pieces of cubic splines through each row's own knots: of (n, k) and (n, k, n_figures),
    (n, k - 1, n_figures, 4), the highest power of what is over each knot first.

    Not-a-knot at both ends, as scipy's `CubicSpline`, to which they are held; that takes one row at
    a time, and for a table's 13 some sixteen times as long.
    """
    step = np.diff(knots)[..., None]
    rise = np.diff(values, axis=1) / step
    count, before, after = knots.shape[1], step[:, :-1], step[:, 1:]
    inner = np.arange(1, count - 1)
    rows, wanted = np.zeros((len(knots), count, count)), np.empty(values.shape)
    rows[:, inner, inner - 1] = after[..., 0]
    rows[:, inner, inner] = 2.0 * (before + after)[..., 0]
    rows[:, inner, inner + 1] = before[..., 0]
    wanted[:, 1:-1] = 3.0 * (after * rise[:, :-1] + before * rise[:, 1:])
    for end, next_, near, far, first, second in (
            (0, 1, step[:, 0], step[:, 1], rise[:, 0], rise[:, 1]),
            (-1, -2, step[:, -1], step[:, -2], rise[:, -1], rise[:, -2])):
        both = near + far
        rows[:, end, end], rows[:, end, next_] = far[:, 0], both[:, 0]
        wanted[:, end] = ((near + 2.0 * both) * far * first + near**2 * second) / both
    slope = np.linalg.solve(rows, wanted)
    bend = (slope[:, :-1] + slope[:, 1:] - 2.0 * rise) / step
    return np.stack([bend / step, (rise - slope[:, :-1]) / step - bend, slope[:, :-1],
                     values[:, :-1]], axis=-1)


def _planes(heights_m):
    """Trims (n,) and heights (n,) at mid-length, a row of heights for each of TRIMS_DEG."""
    return np.repeat(TRIMS_DEG, heights_m.shape[1]), heights_m.ravel()


def _figures(sections, trim_deg, heights_m, water):
    """Volume (n,) and FIGURES (n, 7) of each plane, heights from the origin: as of no load."""
    up, level = planes_at(heights_m, trim_deg, sections.mid_x_m)
    afloat, wet = at_rest(sections, ORIGIN, trim_deg, level)
    found = upright_of(sections, ORIGIN, water, afloat, wet)
    centre = afloat.centre_m
    return found.volume_m3, np.stack([
        centre[:, 0] - centre[:, 2] * up[:, 0] / up[:, 2], found.gm_m, found.gm_long_m,
        wet.plane_area_m2, found.freeboard_m, found.rim_freeboard_m, found.draft_m], axis=-1)


def read_off(table, volume_m3, x_m, z_m):
    """Trim (n,) at which buoyancy's lever meets the load's, and FIGURES (n, 7) there.

    Parameters
    ----------
    table : WaterTable
    volume_m3 : (n,) displaced; taken as the nearest that the table covers
    x_m, z_m : (n,) of the mass centres
    """
    within = np.clip(volume_m3, *table.volumes_m3)
    trim, found = np.empty(within.size), np.empty((within.size, len(FIGURES)))
    compiled(_read_off)(table.knots_m3, table.pieces, TRIMS_DEG, np.tan(np.radians(TRIMS_DEG)),
                        within, x_m, z_m, trim, found)
    return trim, found


def _read_off(knots, pieces, trims, slants, volume, x, z, trim, found):
    """Fills `trim` (n,) and `found` (n, n_figures); the lever is the first of the figures."""
    count, last = trims.size, knots.shape[1] - 2
    off, at, over = np.empty(count), np.empty(count, np.int64), np.empty(count)
    for one in range(volume.size):
        after = 0
        for index in range(count):
            piece = 0
            while piece < last and knots[index, piece + 1] <= volume[one]:
                piece += 1
            at[index], over[index] = piece, volume[one] - knots[index, piece]
            cubic = pieces[index, piece, 0]
            lever = ((cubic[0] * over[index] + cubic[1]) * over[index] + cubic[2]) * over[index]
            off[index] = lever + cubic[3] - x[one] - z[one] * slants[index]
            after += off[index] < 0.0
        after = min(max(after, 1), count - 1)
        low, high = off[after - 1], off[after]
        share = min(max(-low / (high - low), 0.0), 1.0)
        trim[one] = trims[after - 1] + share * (trims[after] - trims[after - 1])
        for figure in range(found.shape[1]):
            found[one, figure] = 0.0
            for index, weight in ((after - 1, 1.0 - share), (after, share)):
                cubic = pieces[index, at[index], figure]
                value = ((cubic[0] * over[index] + cubic[1]) * over[index]
                         + cubic[2]) * over[index] + cubic[3]
                found[one, figure] += weight * value
