"""The boat's parts as solid bodies, cut by planes across it: shapely polygons in half-breadth and
height, from the curves, the stock's own square section and the plywood's thickness alone."""

from functools import lru_cache
from math import cos, pi, sin, sqrt

import numpy as np
from shapely.geometry import LineString, MultiPolygon, Polygon, box
from shapely.ops import unary_union

from sizer.hull.stick_curves import stick_curve
from sizer.shop.stem_lay import stem_lay

STEPS = 5  # planes across a thickness, both faces among them
CARRIED_M = 0.02  # a stick that ends on a frame is cut off behind its plywood


class Sticks:
    """The sticks of a boat: each a square-sawn bar that follows its moulded line.

    At a frame a stick's inner face lies on the notch's floor, which runs straight through the
    plywood; from frame to frame, and to the stem where one that is twisted stands upright, the
    stick winds evenly; one that is not lies there as it does at the last frame.
    """

    def __init__(self, boat, patterns):
        self.boat = boat
        self.curves = {one.name: stick_curve(boat, one.name) for one in boat.design.stringers}
        self.turns = {}
        for name in self.curves:
            faces = [(one.x_m, notch.along) for one in patterns
                     for notch in one.section.notches if notch.stringer == name]
            stick, places = self.curves[name].stringer, self.curves[name].points_m[:, 0]
            if stick.role in ("chine", "gunwale"):  # flat against a stem's side
                for end, stem, at, row in ((stick.start, "bow", places[0], 0),
                                           (stick.end, "stern", places[-1], None)):
                    if end.kind == "stem" and stem_lay(boat, stem, name).twisted:
                        faces.insert(len(faces) if row is None else row, (at, (0.0, 1.0)))
            angles = np.unwrap([np.arctan2(up, out) for _, (out, up) in faces])
            self.turns[name] = ([x for x, _ in faces], angles)
        self.corners = lru_cache(maxsize=None)(self._corners)
        self.section = lru_cache(maxsize=None)(self._section)
        self.all_at = lru_cache(maxsize=None)(self._all_at)

    def _section(self, name, x_m):
        """A stick to starboard as the plane at x cuts it; None where it is not."""
        corners = self.corners(name, x_m)
        return None if corners is None else Polygon(corners)

    def _corners(self, name, x_m):
        """Its four corners, (half-breadth, height)."""
        curve = self.curves[name]
        places = curve.points_m[:, 0]
        at = min(max(x_m, places[0]), places[-1])
        end = curve.stringer.start if x_m < at else curve.stringer.end
        if abs(x_m - at) > (CARRIED_M if end.kind == "free" else 0.0):
            return None
        run = (1.0, *(np.interp(at, places, column) for column in curve.slope.T))
        point = [np.interp(at, places, column) + (x_m - at) * rate
                 for column, rate in zip(curve.points_m.T, run, strict=True)]
        turn = np.interp(x_m, *self.turns[name])
        along = (0.0, cos(turn), sin(turn))
        stick = curve.stringer
        to_boat = (0.0, 0.0, -1.0) if stick.role == "ridge" else (0.0, -along[2], along[1])
        inward = _towards(_across(run, along), to_boat)
        side = _towards(_across(run, inward), along)
        low, high = ((-stick.width_m, 0.0) if stick.role == "gunwale"
                     else (-0.5 * stick.width_m, 0.5 * stick.width_m))
        corners = []
        for across, deep in ((low, 0.0), (high, 0.0), (high, stick.depth_m), (low, stick.depth_m)):
            x, y, z = (one + across * beside + deep * into
                       for one, beside, into in zip(point, side, inward, strict=True))
            # along its own edge to the plane
            corners.append((y + (x_m - x) * run[1], z + (x_m - x) * run[2]))
        return corners

    def both(self, name, x_m):
        """A stick on both sides of the boat."""
        section = self.section(name, x_m)
        if section is None or self.curves[name].stringer.role in ("keel", "ridge"):
            return section
        port = Polygon([(-y, z) for y, z in self.corners(name, x_m)])
        if section.bounds[0] > 0.0:
            return MultiPolygon([section, port])
        return section.union(port)

    def _all_at(self, x_m):
        """{name: polygon} of every stick that stands at a plane."""
        found = {name: self.both(name, x_m) for name in self.curves}
        return {name: one for name, one in found.items() if one is not None}


def _across(one, other):
    """The cross product."""
    (a, b, c), (d, e, f) = one, other
    return b * f - c * e, c * d - a * f, a * e - b * d


def _towards(way, to):
    """A way as a unit vector, turned about where it points away from `to`."""
    long = sqrt(sum(part * part for part in way))
    if sum(part * aim for part, aim in zip(way, to, strict=True)) < 0.0:
        long = -long
    return tuple(part / long for part in way)


def stem_x_m(boat, stem, inboard_m):
    """x of a distance inboard of a stem's end of the boat."""
    return inboard_m if stem.end == "bow" else boat.length_m - inboard_m


def stem_section(stem, inboard_m):
    """The stem's wood as a plane across the boat cuts it."""
    _, low, _, high = stem.wood.bounds
    upright = stem.wood.intersection(LineString([(inboard_m, low - 1.0), (inboard_m, high + 1.0)]))
    half = 0.5 * stem.thickness_m
    return unary_union([box(-half, piece.bounds[1], half, piece.bounds[3])
                        for piece in getattr(upright, "geoms", [upright]) if piece.length])


def planes_m(pattern):
    """Planes through a frame's plywood, the reference face first."""
    thick = pattern.thickness_m * (1.0 if pattern.reference_face == "forward" else -1.0)
    return pattern.x_m + np.linspace(0.0, thick, STEPS)


def crossing_m(one, other):
    """How thick the body is that two sections share: no more than this."""
    if not one.intersects(other):
        return 0.0
    shared = one.intersection(other)
    if shared.area == 0.0:
        return 0.0
    low, high = 0.0, min(0.1, 2.0 * sqrt(shared.area / pi) + 1e-5)  # of a round one so large
    while high - low > 1e-5:
        middle = 0.5 * (low + high)
        low, high = (low, middle) if shared.buffer(-0.5 * middle).is_empty else (middle, high)
    return high
