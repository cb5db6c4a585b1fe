"""What the wind sees and what the water holds, from abeam, with both centres marked."""

import numpy as np

from sizer.web.drawings.hull_lines import side_lines
from sizer.web.drawings.marks import (
    BODY_LINE,
    INK_LINE,
    NARROW,
    SIZE_LINE,
    WATER_LINE,
    WATER_TONE,
    WIDE,
    View,
    drawing,
    path,
    words,
)

MARGIN = 10.0
HEADROOM_M = 0.75  # shown over the deck, for the torso
CENTRE_REACH = 9.0  # half the length of the cross on a centre, in picture units
TORSO_ASPECT = 0.4  # breadth over height of the torso's rectangle as drawn


def side_areas_svg(boat, wind, particulars, length_text, narrow=False):
    """Silhouettes above and below water and the centre of each.

    Parameters
    ----------
    boat : Boat
    wind : WindBalance
    particulars : Particulars
    length_text : formats a length given in m
    narrow : for a phone
    """
    width = NARROW if narrow else WIDE
    scale = (width - 2.0 * MARGIN) / boat.length_m
    top_m = particulars.sinkage_m + HEADROOM_M
    view = View(0.0, top_m, MARGIN, MARGIN, scale)
    lines = side_lines(boat)
    low = float(view.at(0.0, float(boat.sections.z_m.min()))[1])
    slope = np.tan(np.radians(particulars.trim_deg))
    ends = np.array([0.0, boat.length_m])
    water = view.at(ends, particulars.sinkage_m + slope * (ends - boat.sections.mid_x_m))
    tone = np.concatenate([water, [[water[1, 0], low + 6.0], [water[0, 0], low + 6.0]]])
    torso = wind.torso
    tall = np.sqrt(max(torso.area_m2, 0.0) / TORSO_ASPECT)
    half = 0.5 * TORSO_ASPECT * tall
    middle = particulars.sinkage_m + torso.height_m
    outline = view.at([torso.x_m - half, torso.x_m + half, torso.x_m + half, torso.x_m - half],
                      [middle - tall / 2, middle - tall / 2, middle + tall / 2, middle + tall / 2])
    parts = [path(tone, WATER_TONE, closed=True),
             path(view.at(*lines.bottom.T), INK_LINE), path(view.at(*lines.sheer.T), INK_LINE),
             path(view.at(*lines.deck.T), INK_LINE), path(outline, BODY_LINE, closed=True),
             path(water, WATER_LINE)]
    parts += _centre(view, wind.above, particulars, "wind's centre", -16.0)
    parts += _centre(view, wind.below, particulars, "water's centre", 26.0)
    gap = length_text(abs(wind.below.x_m - wind.above.x_m))
    side = "ahead of" if wind.lead >= 0.0 else "behind"
    return drawing(width, low + 34.0, "Side areas",
                   f"Side areas: the wind's centre lies {gap} {side} the water's.", parts)


def _centre(view, side, particulars, text, off):
    """A cross on a centre, named above or below it."""
    x, y = view.at(side.x_m, particulars.sinkage_m + side.height_m)
    cross = [np.array([(x - CENTRE_REACH, y), (x + CENTRE_REACH, y)]),
             np.array([(x, y - CENTRE_REACH), (x, y + CENTRE_REACH)])]
    return [*(path(line, SIZE_LINE) for line in cross), words((x, y + off), text, rim=True)]
