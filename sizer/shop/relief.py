"""Relief of inner corners, so that a square stick or tenon seats where a round cutter went; whether
the shop's cutter so makes a part as it is drawn, and what the relief leaves.

A cutter leaves a rounding in every inner corner of the wood. Relief is a bite of the cutter's own
radius through the corner: to both sides alike ("dog-bone"), or along the longer of the two edges
("t-bone"), which leaves that edge whole. It works on any outline, whatever made it.
"""

from dataclasses import replace
from functools import lru_cache

import numpy as np
import shapely
from shapely.geometry import Polygon
from shapely.geometry.polygon import orient

from sizer.drawing.record import Circle, Path
from sizer.shop.pattern_checks import length_check
from sizer.shop.shapes import cut_paths, largest
from sizer.units import MM_PER_M

LEFT_M = 0.00005  # of rounding that may stay: far below a notch's clearance; our judgement
FINE = 32  # the same of a rolling cutter, to see what it leaves
EDGE_M = 0.0025  # a shorter edge that goes on by less than CURVE_DEG is of a curve: nothing seats
CURVE_DEG = 20.0
STRAIGHT_RAD = 1e-4  # a smaller turn is none
QUARTER = 16  # straight steps of a bite's quarter turn: off it by under 0.004 mm for 6 mm
MOST_LEFT_M = 0.0003  # of wood across, left in a corner: a stick still seats; our judgement
LEAST_BESIDE_M = 0.003  # of plywood between a lashing hole and a relieved edge; our judgement
SPECK_M2 = 1e-8  # smaller pieces are rounding


def outlines(drawing):
    """The saw lines of a drawing as polygons, each with its openings."""
    loops = [Polygon(stroke.points_m) for stroke in drawing.strokes
             if isinstance(stroke, Path) and stroke.pen == "cut" and stroke.closed]
    inside = [[other for other in loops if other is not one and one.contains(other)]
              for one in loops]
    held = [hole for holes in inside for hole in holes]
    return [Polygon(one.exterior, [hole.exterior for hole in holes])
            for one, holes in zip(loops, inside, strict=True)
            if not any(one is other for other in held)]


def routed(drawing, shop):
    """The Drawing as a round cutter makes it: its saw lines with the shop's relief."""
    if shop.relief == "none":
        return drawing
    cuts = [path for wood in outlines(drawing)
            for path in cut_paths(relieved(wood, shop.cutter_m, shop.relief))]
    return replace(drawing, strokes=(*cuts, *(one for one in drawing.strokes
                                              if one.pen != "cut")))


@lru_cache(maxsize=128)
def relieved(wood, cutter_m, kind):
    """A polygon of wood with its inner corners relieved: "dog-bone", "t-bone" or "none", for a
    cutter of this diameter: kept, as its sheet and its check each ask."""
    if kind == "none":
        return wood
    wood, radius = orient(wood), cutter_m / 2.0
    round_it = radius / np.cos(np.pi / 4.0 / QUARTER)  # its steps touch the circle from outside
    middles = np.concatenate([_middles(np.asarray(ring.coords)[:-1, :2], radius, kind)
                              for ring in (wood.exterior, *wood.interiors)])
    rounds = shapely.buffer(shapely.points(middles), round_it, quad_segs=QUARTER)
    return largest(wood.difference(shapely.union_all(rounds)))


def _middles(ring, radius, kind):
    """Middles of the bites on a ring that has its wood on the left, (n, 2)."""
    *_, turn = _ways(ring)
    ring = ring[np.abs(turn) > STRAIGHT_RAD]  # where a ring is closed, it may be in mid-edge
    back, ahead, lengths, turn = _ways(ring)
    rounded = radius * (1.0 / np.maximum(np.cos(turn / 2.0), 1e-9) - 1.0)
    gentle = np.abs(turn) < np.radians(CURVE_DEG)
    curved = ((lengths[0] < EDGE_M) & np.roll(gentle, 1)) | (
        (lengths[1] < EDGE_M) & np.roll(gentle, -1))
    inner = (turn < 0.0) & (rounded > LEFT_M) & ~curved
    corner, back, ahead = ring[inner], back[inner], ahead[inner]
    if kind == "dog-bone":
        between = back + ahead
        return corner + radius * between / np.hypot(*between.T)[:, None]
    along_ahead = (lengths[1] >= lengths[0])[inner, None]
    # the wood is on the left of the way round, so the cutter stands on its right
    square = np.where(along_ahead, np.stack([ahead[:, 1], -ahead[:, 0]], axis=1),
                      np.stack([-back[:, 1], back[:, 0]], axis=1))
    return corner + radius * square


def _ways(ring):
    """From each corner back and ahead: unit (n, 2) each, both lengths, and the turn, rad, left."""
    back, ahead = np.roll(ring, 1, axis=0) - ring, np.roll(ring, -1, axis=0) - ring
    lengths = np.hypot(*back.T), np.hypot(*ahead.T)
    back, ahead = (way / long[:, None] for way, long in zip((back, ahead), lengths, strict=True))
    turn = np.arctan2(-back[:, 0] * ahead[:, 1] + back[:, 1] * ahead[:, 0],
                      -(back * ahead).sum(axis=1))
    return back, ahead, lengths, turn


def not_reached(wood, cutter_m):
    """What a cutter of this diameter leaves standing beside a polygon of wood, as a shape."""
    radius = cutter_m / 2.0
    left, low, right, high = wood.bounds
    around = 3.0 * cutter_m
    free = shapely.box(left - around, low - around, right + around, high + around).difference(wood)
    return free.difference(free.buffer(-radius + 1e-9, FINE).buffer(radius, FINE))


def router_checks(drawings, shop):
    """The PatternChecks of each piece of plywood as the shop's cutter makes it."""
    for drawing in drawings:
        for wood in outlines(routed(drawing, shop)):
            yield from _holes(drawing, wood)
            left = _widest_m(not_reached(wood, shop.cutter_m).intersection(wood.convex_hull))
            yield length_check(
                drawing.name, "whole piece", "cutter reaches the corners", left, "at most",
                MOST_LEFT_M, f"widest wood that a {shop.cutter_m * MM_PER_M:g} mm cutter leaves in "
                "a corner or slot; cut it out by hand, or take relief or a thinner cutter", False)


def _widest_m(shape):
    """Across the largest circle that lies in a piece of a shape, specks left out."""
    pieces, across = shapely.get_parts(shape), 0.0
    areas = shapely.area(pieces)
    for row in np.argsort(-areas, kind="stable"):
        if areas[row] <= max(SPECK_M2, 0.25 * np.pi * across**2):  # no larger circle from here on
            break
        if not pieces[row].buffer(-0.5 * across).is_empty:
            across = max(across, 2.0 * shapely.maximum_inscribed_circle(pieces[row]).length)
    return across


def _holes(drawing, wood):
    bored = [one for one in drawing.strokes if isinstance(one, Circle) and one.pen == "drill"]
    if bored:
        from_edge = shapely.distance(wood.boundary, shapely.points([one.centre_m for one in bored]))
        beside = float((from_edge - [one.radius_m for one in bored]).min())
        yield length_check(
            drawing.name, "whole piece", "plywood beside the relief", beside, "at least",
            LEAST_BESIDE_M, "least between a lashing hole and an edge once inner corners are "
            "relieved; a thinner cutter, or the other kind of relief, leaves more", False)
