"""Whether the shop's round cutter makes a part as it is drawn, and what its relief leaves."""

from shapely import maximum_inscribed_circle
from shapely.geometry import Point

from sizer.drawing.record import Circle
from sizer.shop.pattern_checks import length_check
from sizer.shop.relief import not_reached, outlines, routed
from sizer.units import MM_PER_M

MOST_LEFT_M = 0.0003  # of wood across, left in a corner: a stick still seats; our judgement
LEAST_BESIDE_M = 0.003  # of plywood between a lashing hole and a relieved edge; our judgement
SPECK_M2 = 1e-8  # smaller pieces are rounding


def router_checks(drawings, shop):
    """The PatternChecks of each piece of plywood as the shop's cutter makes it."""
    for drawing in drawings:
        for wood in outlines(routed(drawing, shop)):
            yield from _holes(drawing, wood)
            left = not_reached(wood, shop.cutter_m).intersection(wood.convex_hull)
            across = max((2.0 * maximum_inscribed_circle(piece).length
                          for piece in getattr(left, "geoms", [left]) if piece.area > SPECK_M2),
                         default=0.0)
            yield length_check(
                drawing.name, "whole piece", "cutter reaches the corners", across, "at most",
                MOST_LEFT_M, f"widest wood that a {shop.cutter_m * MM_PER_M:g} mm cutter leaves in "
                "a corner or slot; cut it out by hand, or take relief or a thinner cutter", False)


def _holes(drawing, wood):
    beside = [wood.boundary.distance(Point(one.centre_m)) - one.radius_m
              for one in drawing.strokes if isinstance(one, Circle) and one.pen == "drill"]
    if beside:
        yield length_check(
            drawing.name, "whole piece", "plywood beside the relief", min(beside), "at least",
            LEAST_BESIDE_M, "least between a lashing hole and an edge once inner corners are "
            "relieved; a thinner cutter, or the other kind of relief, leaves more", False)
