"""What the wind sees and what the water holds, from abeam, with both centres marked."""

import numpy as np

from sizer.drawing.hull_lines import water_z_m
from sizer.drawing.marks import NARROW, WIDE, line, picture, water_over, words
from sizer.drawing.one_scale import BAR_WORDS, SHORT_WORDS, long_paper, scale_bar
from sizer.drawing.record import Path
from sizer.scenes.hull_views import side_hull

MARGIN = 10.0
CENTRE_REACH = 9.0  # half the length of the cross on a centre, mm of paper
TORSO_ASPECT = 0.4  # breadth over height of the torso's rectangle as drawn


def side_areas(boat, wind, particulars, length_text, narrow=False):
    """Silhouettes above and below water and the centre of each.

    Parameters
    ----------
    boat : Boat
    wind : WindBalance
    particulars : Particulars
    length_text : formats a length given in m
    narrow : for a phone
    """
    torso = _torso(wind.torso, particulars.sinkage_m)
    top, low = torso[:, 1].max(), float(boat.sections.z_m.min())
    paper = long_paper((0.0, low, boat.length_m, top), NARROW if narrow else WIDE, MARGIN, MARGIN,
                       34.0)
    unit = paper.unit_m
    ends = np.array([paper.frame_m[0], paper.frame_m[2]])
    surface = np.column_stack([ends, water_z_m(boat, particulars, ends)])
    gap = length_text(abs(wind.below.x_m - wind.above.x_m))
    side = "ahead of" if wind.lead >= 0.0 else "behind"
    return picture("Side areas", f"Side areas: the wind's centre lies {gap} {side} the water's.", [
        paper.on_paper([
            *water_over(surface, low - 6.0 * unit),
            *scale_bar(paper.at(MARGIN, 20.0), unit, SHORT_WORDS if narrow else BAR_WORDS),
            *side_hull(boat, unit).outline,
            Path("body-line", torso, closed=True),
            *_centre(wind.above, particulars, "wind's centre", 16.0, unit),
            *_centre(wind.below, particulars, "water's centre", -26.0, unit)])])


def _torso(torso, level_m):
    """The rectangle that stands for the torso in the wind."""
    tall = np.sqrt(max(torso.area_m2, 0.0) / TORSO_ASPECT)
    half = 0.5 * tall * np.array([TORSO_ASPECT, 1.0])
    corners = np.array([(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)])
    return corners * half + (torso.x_m, level_m + torso.height_m)


def _centre(side, particulars, text, off, unit):
    """A cross on a centre, named above or below it."""
    at = np.array([side.x_m, particulars.sinkage_m + side.height_m])
    for reach in ((CENTRE_REACH * unit, 0.0), (0.0, CENTRE_REACH * unit)):
        yield line("dimension", at - reach, at + reach)
    yield words((at[0], at[1] + off * unit), text, unit, rim=True)
