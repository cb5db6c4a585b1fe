"""The holes in the side-deck arms that the coaming's lashings go through.

An arm leans down from the rim: cord laid round it would be drawn off over its end as soon as the
rim is pulled up. So it goes through a hole, outside of the wall and lower than the wall's own:
what pulls the rim up pulls against the plywood over the hole.
"""

from shapely.geometry import LineString, Point

from sizer.shop.coaming import WALL_M
from sizer.shop.lashing import EDGE_M, HOLE_M, HOLES_APART_M
from sizer.shop.pattern_checks import PatternCheck
from sizer.shop.shapes import line_pieces

COAMING = "coaming"  # what these holes are named by
OUT_M = 0.008  # from the wall's outside to a hole's middle: room for cord and skin; our drawing
FAR_M = 2.0  # well above any frame


def arm_holes(wood, section, holes):
    """(COAMING, middle) of one hole an arm, midway through its wood up and down, where `wood`
    leaves EDGE_M round it and HOLES_APART_M to the other `holes`; none without an arm."""
    if not section.open_top:
        return ()
    half = float(section.skin_m[-1, 0]) + WALL_M + OUT_M
    upright = LineString([(half, 0.0), (half, FAR_M)])
    arm = max(line_pieces(wood.intersection(upright)), key=lambda one: one[:, 1].max(),
              default=None)
    if arm is None:  # the opening is held as wide as the frame
        return ()
    spot = Point(half, float(arm[:, 1].mean()))
    fits = wood.boundary.distance(spot) >= EDGE_M + 0.5 * HOLE_M and all(
        spot.distance(Point(other)) >= HOLES_APART_M for _, other in holes)
    return tuple((COAMING, (sign * spot.x, spot.y)) for sign in (1.0, -1.0)) if fits else ()


def arm_checks(patterns):
    """Whether every arm that the coaming stands on has room for its hole."""
    for one in patterns:
        if one.section.open_top:
            found = sum(name == COAMING and y > 0.0 for name, (y, _) in one.holes)
            yield PatternCheck(one.name, COAMING, "hole for the coaming's lashing", found, 1,
                               "at least", "a side", True, "through the arm that it stands on")
