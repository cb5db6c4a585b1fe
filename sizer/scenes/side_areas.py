"""What the wind sees and what the water holds, from abeam, with both centres marked."""

from dataclasses import replace

import numpy as np

from sizer.drawing.hull_lines import water_z_m
from sizer.drawing.marks import NARROW, WIDE, line, picture, water_over, words
from sizer.drawing.one_scale import BAR_WORDS, SHORT_WORDS, long_paper, scale_bar
from sizer.drawing.record import Path
from sizer.hydro.wind_under_way import LEAD_ERROR
from sizer.scenes.hull_views import side_hull

MARGIN = 10.0
CENTRE_REACH = 9.0  # half the length of the cross on a centre, mm of paper
SKEG_BELOW = 28.0  # of its words under it, clear of the centre's
TORSO_ASPECT = 0.4  # breadth over height of the torso's rectangle as drawn


def side_areas(boat, wind, particulars, length_text, narrow=False):
    """Silhouettes above and below water of a boat adrift in its WindBalance, and the centre of
    each; the rest as in `side_view`."""
    paper, hull = _afloat(boat, wind, particulars, 0.0, narrow)
    return _named("Side areas", wind.above, wind.below, length_text, [paper.on_paper([
        *hull, *_centre(wind.above, particulars, "wind's centre", 16.0, paper.unit_m),
        *_centre(wind.below, particulars, "water's centre", -26.0, paper.unit_m)])])


def side_under_way(boat, wind, particulars, way, length_text, narrow=False):
    """The same boat paddled across the wind: both centres, what the water's may be off against the
    wind's as the length of its level arm, and the likely skeg as a square to scale.

    `way` is its UnderWay in one wind at one speed, the rest as in `side_areas`.
    """
    paper, hull = _afloat(boat, wind, particulars, SKEG_BELOW, narrow)
    unit, x, side = paper.unit_m, way.skeg_x_m, np.sqrt(way.skeg_m2)
    above, below = replace(wind.above, x_m=way.wind_x_m), replace(wind.below, x_m=way.water_x_m)
    keel = np.interp(x, boat.sections.x_m, boat.sections.z_m.min(axis=1))
    corners = np.array([(-0.5, 0.0), (0.5, 0.0), (0.5, -1.0), (-0.5, -1.0)])
    return _named("Under way in wind", above, below, length_text, [paper.on_paper([
        *hull, Path("edge", corners * side + (x, keel), closed=True),
        words((boat.length_m, keel - side - SKEG_BELOW * unit),
              f"skeg, {length_text(x)} from the bow", unit, "end", rim=True),
        *_centre(above, particulars, "wind's centre", 16.0, unit),
        *_centre(below, particulars, "water's centre", -26.0, unit,
                 LEAD_ERROR * wind.waterline_length_m)])])


def _named(what, above, below, length_text, views):
    """The picture, told in a sentence by how far its centres are apart."""
    gap = length_text(abs(below.x_m - above.x_m))
    side = "ahead of" if above.x_m <= below.x_m else "behind"
    return picture(what, f"{what}: the wind's centre lies {gap} {side} the water's.", views)


def _afloat(boat, wind, particulars, more_below, narrow):
    """The paper, and water, scale, hull and torso on it; `more_below` is room for words in mm."""
    torso = _torso(wind.torso, particulars.sinkage_m)
    top, low = torso[:, 1].max(), float(boat.sections.z_m.min())
    paper = long_paper((0.0, low, boat.length_m, top), NARROW if narrow else WIDE, MARGIN, MARGIN,
                       34.0 + more_below)
    unit = paper.unit_m
    ends = np.array([paper.frame_m[0], paper.frame_m[2]])
    surface = np.column_stack([ends, water_z_m(boat, particulars, ends)])
    return paper, [*water_over(surface, low - (6.0 + more_below) * unit),
                   *scale_bar(paper.at(MARGIN, 20.0), unit, SHORT_WORDS if narrow else BAR_WORDS),
                   *side_hull(boat, unit).outline, Path("body-line", torso, closed=True)]


def _torso(torso, level_m):
    """The rectangle that stands for the torso in the wind."""
    tall = np.sqrt(max(torso.area_m2, 0.0) / TORSO_ASPECT)
    half = 0.5 * tall * np.array([TORSO_ASPECT, 1.0])
    corners = np.array([(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)])
    return corners * half + (torso.x_m, level_m + torso.height_m)


def _centre(side, particulars, text, off, unit, may_be_off_m=0.0):
    """A cross on a centre, its level arm as long as what it may be off, named above or below it."""
    at = np.array([side.x_m, particulars.sinkage_m + side.height_m])
    arm = CENTRE_REACH * unit
    for reach in ((max(arm, may_be_off_m), 0.0), (0.0, arm)):
        yield line("dimension", at - reach, at + reach)
    yield words((at[0], at[1] + off * unit), text, unit, rim=True)
