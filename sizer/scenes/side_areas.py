"""What the wind sees and what the water holds, from abeam, with both centres marked."""

from dataclasses import replace
from itertools import pairwise

import numpy as np

from sizer.drawing.hull_lines import water_z_m
from sizer.drawing.marks import NARROW, WIDE, line, picture, water_over, words
from sizer.drawing.one_scale import long_paper, scale_bar
from sizer.drawing.record import Path
from sizer.hydro.wind_under_way import LEAD_ERROR
from sizer.scenes.hull_views import side_hull

MARGIN = 10.0
OVER_SHORT = 16.0  # more over a boat that is drawn short: its scale's words and the wind's centre
CENTRE_REACH = 9.0  # half the length of the cross on a centre, mm of paper
TORSO = "body-line"  # the pen of the torso's outline
BESIDE, OVER, UNDER = 8.0, 12.0, 26.0  # of a centre's name: the torso, the boat, its centre; mm
WATER_BELOW = 6.0  # under the boat, where no words stand in it
BED = 10.0  # of paper under water that words stand in
SKEG_BELOW = 36.0  # of its words under it, clear of the centre's
TORSO_ASPECT = 0.4  # breadth over height of the torso's rectangle as drawn


def side_areas(boat, wind, particulars, length_text, narrow=False):
    """Silhouettes above and below water of a boat in its WindBalance, and the centre of each."""
    paper, hull = _afloat(boat, wind, particulars, length_text, 0.0, narrow)
    return _named("Side areas", wind.above, wind.below, length_text, [paper.on_paper([
        *hull, *_winds_centre(wind.above, particulars, hull, paper.unit_m),
        *_waters_centre(wind.below, particulars, paper.unit_m)])])


def side_under_way(boat, wind, particulars, way, length_text, narrow=False):
    """The same boat paddled across the wind: both centres, what the water's may be off against the
    wind's as the length of its level arm, and the likely skeg as a square to scale.

    `way` is its UnderWay in one wind at one speed, the rest as in `side_areas`.
    """
    paper, hull = _afloat(boat, wind, particulars, length_text, SKEG_BELOW, narrow)
    unit, x, side = paper.unit_m, way.skeg_x_m, np.sqrt(way.skeg_m2)
    above, below = replace(wind.above, x_m=way.wind_x_m), replace(wind.below, x_m=way.water_x_m)
    keel = np.interp(x, boat.sections.x_m, boat.sections.z_m.min(axis=1))
    corners = np.array([(-0.5, 0.0), (0.5, 0.0), (0.5, -1.0), (-0.5, -1.0)])
    return _named("Under way in wind", above, below, length_text, [paper.on_paper([
        *hull, Path("edge", corners * side + (x, keel), closed=True),
        words((boat.length_m, keel - side - SKEG_BELOW * unit),
              f"skeg, {length_text(x)} from the bow", unit, "end", rim=True),
        *_winds_centre(above, particulars, hull, unit),
        *_waters_centre(below, particulars, unit, LEAD_ERROR * wind.waterline_length_m)])])


def _named(what, above, below, length_text, views):
    """The picture, told in a sentence by how far its centres are apart."""
    gap = length_text(abs(below.x_m - above.x_m))
    side = "ahead of" if above.x_m <= below.x_m else "behind"
    return picture(what, f"{what}: the wind's centre lies {gap} {side} the water's.", views)


def _afloat(boat, wind, particulars, length_text, more_below, narrow):
    """The paper, and water, scale, hull and torso on it; `more_below` is room for words in mm."""
    torso = _torso(wind.torso, particulars.sinkage_m)
    top, low = torso[:, 1].max(), float(boat.sections.z_m.min())
    over = OVER_SHORT if narrow else 0.0
    paper = long_paper((0.0, low, boat.length_m, top), NARROW if narrow else WIDE, MARGIN,
                       MARGIN + over, 34.0 + more_below + BED * (more_below > 0.0))
    unit = paper.unit_m
    ends = np.array([paper.frame_m[0], paper.frame_m[2]])
    surface = np.column_stack([ends, water_z_m(boat, particulars, ends)])
    bottom = paper.frame_m[1] + BED * unit if more_below else low - WATER_BELOW * unit
    return paper, [*water_over(surface, bottom),
                   *scale_bar(paper.at(MARGIN, 20.0 - 0.5 * over), unit, length_text),
                   *side_hull(boat, unit).outline, Path(TORSO, torso, closed=True)]


def _torso(torso, level_m):
    """The rectangle that stands for the torso in the wind."""
    tall = np.sqrt(max(torso.area_m2, 0.0) / TORSO_ASPECT)
    half = 0.5 * tall * np.array([TORSO_ASPECT, 1.0])
    corners = np.array([(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)])
    return corners * half + (torso.x_m, level_m + torso.height_m)


def _winds_centre(side, particulars, drawn, unit):
    """The wind's centre, named beside the torso and over the boat, where no line is."""
    at = _at(side, particulars)
    yield from _cross(at, unit)
    torso = next(one for one in drawn if one.pen == TORSO)
    end = torso.points_m[:, 0].min() - BESIDE * unit
    said = words((end, 0.0), "wind's centre", unit, "end")
    top = _top(drawn, end - said.width_m, end) + OVER * unit
    yield words((end, top), said.text, unit, said.anchor)
    yield line("extension", (end, top - 2.0 * unit), at)


def _waters_centre(side, particulars, unit, may_be_off_m=0.0):
    """The water's centre, named below it, its level arm as long as what it may be off."""
    at = _at(side, particulars)
    yield from _cross(at, unit, may_be_off_m)
    yield words((at[0], at[1] - UNDER * unit), "water's centre", unit, rim=True)


def _at(side, particulars):
    return np.array([side.x_m, particulars.sinkage_m + side.height_m])


def _cross(at, unit, may_be_off_m=0.0):
    arm = CENTRE_REACH * unit
    for reach in ((max(arm, may_be_off_m), 0.0), (0.0, arm)):
        yield line("dimension", at - reach, at + reach)


def _top(drawn, start, end):
    """How high the boat's lines reach between two places along it."""
    share = np.linspace(0.0, 1.0, 25)[:, None]
    points = np.concatenate([(before + share * (after - before)) for one in drawn
                             if one.pen == "ink"
                             for before, after in pairwise(one.points_m)])
    return points[(points[:, 0] >= start) & (points[:, 0] <= end), 1].max()
