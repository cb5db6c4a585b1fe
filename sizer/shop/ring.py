"""The plywood of a frame: hollowed between the sticks, open inside by kind.

Skin touches only sticks, so the plywood stands back from it everywhere else. All sizes here are our
drawing; the widths of rings are those that the boat's weight is taken from.
"""

from itertools import pairwise

import numpy as np
from shapely.geometry import Point, Polygon, box
from shapely.ops import unary_union

from sizer.hull.inside import BEHIND_NOTCH_M, DECK_BEAM_M, RELIEF_M, ROUND_M, panel_widths_m
from sizer.shop.shapes import both_sides, largest

HOLLOW_SHARE = 0.03  # more of it midway, over the width of the skin panel; our drawing
MOST_HOLLOW_M = 0.006  # and no more than this; our drawing
HOLLOW_POINTS = 24  # of the hollow's curve: straight steps off it by under 0.02 mm
TIP_M = 0.006  # radius on the end of a side-deck arm; our drawing
LAND_M = 0.022  # flat on a side-deck arm under the coaming, seen from above; our drawing
LEAST_OPENING_M = 0.050  # smaller across and a frame stays whole: no hand goes through; our drawing
OPENED_M = 1e-4  # a hollow is drawn this far out through the skin, to open it surely
SMOOTH = 16  # straight steps in a quarter turn
FAR_M = 2.0  # well above any frame


def edges_m(section):
    """The plywood's edge behind each skin panel of one side, from keel to deck: (n, 2) arrays."""
    return [curve for _, _, curve in _panels(section)]


def hollows(section):
    """What is taken off behind the skin between the sticks, both sides."""
    strips = [Polygon(np.vstack([curve, end - just_inside, start - just_inside])).buffer(0)
              for start, end, curve in _panels(section)
              for just_inside in [OPENED_M * _inward(start, end)]]
    return both_sides(unary_union(strips))


def hollows_m(section):
    """How far the plywood stands back from the skin midway of each panel of one side, (n,)."""
    drawn = [RELIEF_M + min(HOLLOW_SHARE * np.hypot(*panel), MOST_HOLLOW_M)
             for panel in np.diff(section.skin_m, axis=0)]
    asked = section.stands_back_m
    return np.maximum(drawn, [*asked, *[0.0] * (len(drawn) - len(asked))])


def _panels(section):
    """(start, end, edge of the plywood) of each skin panel; under the coaming it has no hollow."""
    skin = section.skin_m
    share = np.linspace(0.0, 1.0, HOLLOW_POINTS + 1)
    for row, ((start, end), midway) in enumerate(
            zip(pairwise(skin), hollows_m(section), strict=True)):
        depth = RELIEF_M + 4.0 * share * (1.0 - share) * (midway - RELIEF_M)
        if section.open_top and row == len(skin) - 2:  # runs out onto the coaming's land
            level = abs(end[0] - start[0])  # however steep the deck: the coaming stands upright
            end = end + (start - end) * min(LAND_M / max(level, LAND_M), 0.5)
            depth = depth - RELIEF_M * share
        yield start, end, (start + share[:, None] * (end - start)
                           + depth[:, None] * _inward(start, end))


def _inward(start, end):
    along = (end - start) / np.hypot(*(end - start))
    return np.array([-along[1], along[0]])


def opening(section, kind, taken):
    """The opening inside a frame of a kind, None for one that stays whole; `taken` is what the
    sticks take out of the wood on both sides."""
    skin = section.skin_m
    widths = panel_widths_m(kind, skin, section.sheer)
    if widths is None:
        return None
    strips = [Polygon([start, end, end + inward, start + inward])
              for (start, end), width in zip(pairwise(skin), widths, strict=True)
              for inward in [width * _inward(start, end)]]
    strips += [Point(corner).buffer(min(before, after), SMOOTH)
               for corner, (before, after) in zip(skin[1:-1], pairwise(widths), strict=True)]
    kept = both_sides(unary_union(strips))
    kept = unary_union([kept, taken.buffer(BEHIND_NOTCH_M, SMOOTH)])
    inside = section.outline()
    if section.open_top:
        half = skin[-1, 0]
        inside = unary_union([inside, box(-half, skin[-1, 1] - DECK_BEAM_M, half, FAR_M)])
        kept = kept.difference(box(-half, skin[section.sheer, 1] - DECK_BEAM_M, half, FAR_M))
    rounded = largest(inside.difference(kept)).buffer(-ROUND_M, SMOOTH).buffer(ROUND_M, SMOOTH)
    rounded = largest(rounded)
    if section.open_top:
        rounded = rounded.buffer(TIP_M, SMOOTH).buffer(-TIP_M, SMOOTH)
    if rounded.is_empty or rounded.buffer(-LEAST_OPENING_M / 2.0).is_empty:
        return None
    return rounded
