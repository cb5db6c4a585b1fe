"""Whether the plywood of a pattern holds: webs, notches, holes."""

from dataclasses import dataclass
from itertools import combinations, pairwise

import numpy as np
import shapely
from shapely.affinity import scale
from shapely.geometry import LineString, Polygon

from sizer.shop.lashing import EDGE_M, HOLE_M, HOLES_APART_M
from sizer.shop.notches import LEAST_TOOTH_M
from sizer.shop.ring import edges_m
from sizer.units import MM_PER_M

LEAST_WEB_M = 0.012  # of plywood in a ring, as wide as it is thick; our judgement
LEAST_TAPER_M = 0.003  # left of a stick that is planed into its host; our judgement
MOST_PLANED_M = 0.005  # off two sticks together where they touch at a frame; our judgement
LEAST_FLOOR_M = 0.004  # under a stick, to bear it; our judgement
LEAST_WALL_M = 0.003  # beside a stick, to hold it; our judgement
MOST_SCRAP_M2 = 1e-4  # a larger piece cut off is a frame that falls apart; our judgement
LEAST_HOLES = 1  # a side to every stick; our judgement
ROUNDING = 1e-6  # in a check's unit: what was placed exactly on a limit is on it


@dataclass(frozen=True)
class PatternCheck:
    """One check of one pattern, with its place."""

    frame: str
    place: str
    name: str
    value: float
    limit: float
    sense: str  # "at least" or "at most"
    unit: str
    hard: bool
    meaning: str
    source: str = "our judgement"

    @property
    def status(self):
        """pass, caution or fail."""
        inside = self.value - self.limit
        if (inside if self.sense == "at least" else -inside) >= -ROUNDING:
            return "pass"
        return "fail" if self.hard else "caution"


def pattern_checks(patterns):
    """Every check of some FramePatterns, frame by frame."""
    return tuple(check for pattern in patterns for check in (
        *_webs(pattern), *_notches(pattern), *_holes(pattern)))


def length_check(piece, place, name, value_m, sense, limit_m, meaning, hard=True):
    """A PatternCheck of a length of a piece by its name, given in metres and told in mm."""
    return PatternCheck(piece, place, name, value_m * MM_PER_M, limit_m * MM_PER_M, sense, "mm",
                        hard, meaning)


def _webs(pattern):
    yield PatternCheck(
        pattern.name, "whole frame", "frame in one piece", pattern.scrap_m2 * 1e4,
        MOST_SCRAP_M2 * 1e4, "at most", "cm²", True, "largest piece that sawing cuts off the frame")
    opening = [] if pattern.opening is None else _off(pattern, pattern.opening, "behind ", "")
    for name, places in (("plywood round the opening", list(opening)),
                         ("plywood round the mortise", list(_round_mortise(pattern)))):
        if places:
            value, place = min(places)
            yield length_check(pattern.name, place, name, value, "at least", LEAST_WEB_M,
                               "thinnest plywood there: thinner breaks in lashing up")


def _round_mortise(pattern):
    for mortise in pattern.mortises[:1]:  # starboard; port is its mirror image
        if pattern.opening is not None:
            yield mortise.distance(pattern.opening), "mortise to opening"
        yield from _off(pattern, mortise, "mortise to ", "mortise to skin ")


def _off(pattern, hole, to_stick, to_skin):
    """(how far a hole is off, where) of each notch and each panel of a pattern."""
    notches, edges = pattern.section.notches, edges_m(pattern.section)
    off = shapely.distance([*(one.room() for one in notches), *map(LineString, edges)], hole)
    names = [notch.stringer for notch in notches]
    ends = names + ["coaming"] * (len(pattern.section.skin_m) - len(names))
    return zip(off.tolist(), (*(to_stick + one for one in names), *(
        f"{to_skin}between {low} and {high}" for low, high in pairwise(ends))), strict=True)


def _notches(pattern):
    notches = pattern.section.notches
    pockets = {(one.stringer, other.stringer) for one, other in pattern.section.shared}
    # beside a stick on the centre line, port and starboard lie in one pocket with it
    pockets |= {(side.stringer, side.stringer) for pair in pattern.section.shared
                for side, middle in (pair, pair[::-1]) if middle.central}
    both = [(notch.stringer, notch.room() if side > 0
             else scale(notch.room(), -1.0, origin=(0.0, 0.0)))
            for notch in notches for side in ((1,) if notch.central else (1, -1))]
    ones, others, places = zip(*(
        (one, other, f"{name} and {next_name}")
        for (name, one), (next_name, other) in combinations(both, 2)
        if (name, next_name) not in pockets), strict=True)
    value, place = _least(shapely.distance(ones, others), places)
    yield length_check(
        pattern.name, place, "plywood between notches", value, "at least", LEAST_TOOTH_M,
        "thinnest plywood between two notches; neighbours nearer than this share a pocket")
    for one, other in pattern.section.shared:
        yield _overlap(pattern, one, other)
    held = pattern.held_m()
    walls = sorted((wall, name) for name, (wall, _) in held.items())
    for value, place in [one for one in walls if one[0] < LEAST_WALL_M] or walls[:1]:
        yield length_check(
            pattern.name, place, "notch holds its stick", value, "at least", LEAST_WALL_M,
            "wall beside the stick; with less only the lashing holds it sideways: set it to its "
            "half-breadth and wedge it", hard=False)
    for name, (_, value) in held.items():
        if value < LEAST_FLOOR_M:
            yield length_check(
                pattern.name, name, "notch has a floor", value, "at least", LEAST_FLOOR_M,
                "floor under the stick; without it the stick bears on its neighbour: set it to "
                "its height and lash the two together", hard=False)


def _overlap(pattern, one, other):
    place = f"{one.stringer} and {other.stringer}"
    planed = _thickness_m(one.stock().intersection(other.stock()))
    for guest in (one, other):
        if guest.stringer in pattern.blending:
            left = guest.high_m - guest.low_m - planed
            return length_check(
                pattern.name, place, "blending stick left at the frame", left, "at least",
                LEAST_TAPER_M, f"width of {guest.stringer} left by its taper there")
    return length_check(pattern.name, place, "sticks planed to each other", planed, "at most",
                        MOST_PLANED_M, "how far the two sticks' stock would run into each other")


def _thickness_m(shape):
    """Shorter side of the smallest rectangle round a shape, zero where there is none."""
    if not isinstance(shape, Polygon) or shape.is_empty:
        return 0.0
    corners = np.asarray(shape.minimum_rotated_rectangle.exterior.coords)
    return float(np.hypot(*np.diff(corners, axis=0).T).min())


def _holes(pattern):
    """Lashing holes: how many, and how far from edges and from each other."""
    pockets = _pockets(pattern)
    count = dict.fromkeys(pockets.values(), 0)
    for stringer, (y, _) in pattern.holes:
        if stringer in pockets:  # the footbrace's rails are checked with them
            count[pockets[stringer]] += 1 if y >= 0.0 else 0
    fewest = min(count, key=count.get)
    yield PatternCheck(pattern.name, fewest, "lashing holes", count[fewest], LEAST_HOLES,
                       "at least", "a side", True, "holes to lash this stick through; sticks of "
                       "one pocket are lashed together")
    tied = [name for name, _ in pattern.holes]
    spots = shapely.points(np.reshape([spot for _, spot in pattern.holes], (-1, 2)))
    edges = shapely.distance(pattern.wood.boundary, spots) - HOLE_M / 2.0
    ones, others = np.triu_indices(len(spots), 1)
    apart = shapely.distance(spots[ones], spots[others])
    for name, found, places, limit, meaning in (
        ("plywood round lashing holes", edges, tied, EDGE_M,
         "least between a hole's rim and an edge"),
        ("lashing holes apart", apart, [tied[row] for row in ones], HOLES_APART_M,
         "least between the middles of two holes"),
    ):
        if places:
            value, place = _least(found, places)
            yield length_check(pattern.name, place, name, value, "at least", limit, meaning)


def _least(values, places):
    """The least of an array's values and its place; of equal ones the first by the alphabet."""
    return min(zip(values.tolist(), places, strict=True))


def _pockets(pattern):
    """The lowest stringer of the pocket that each stringer lies in."""
    pockets = {notch.stringer: notch.stringer for notch in pattern.section.notches}
    for one, other in pattern.shared_notches:
        pockets[other] = pockets[one]
    return pockets
