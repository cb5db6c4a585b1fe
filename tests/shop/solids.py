"""The boat's parts as solid bodies, cut by planes across it: shapely polygons in half-breadth and
height, from the curves, the stock's own square section and the plywood's thickness alone."""

from functools import lru_cache

import numpy as np
from shapely.affinity import scale
from shapely.geometry import LineString, Polygon, box
from shapely.ops import unary_union

from sizer.hull.stick_curves import stick_curve

STEPS = 5  # planes across a thickness, both faces among them
CARRIED_M = 0.02  # a stick that ends on a frame is cut off behind its plywood


class Sticks:
    """The sticks of a boat: each a square-sawn bar that follows its moulded line.

    At a frame a stick's inner face lies on the notch's floor, which runs straight through the
    plywood; from frame to frame, and to the stem where it stands upright, the stick winds evenly.
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
                for end, at, row in ((stick.start, places[0], 0), (stick.end, places[-1], None)):
                    if end.kind == "stem":
                        faces.insert(len(faces) if row is None else row, (at, (0.0, 1.0)))
            angles = np.unwrap([np.arctan2(up, out) for _, (out, up) in faces])
            self.turns[name] = ([x for x, _ in faces], angles)
        self.section = lru_cache(maxsize=None)(self._section)
        self.all_at = lru_cache(maxsize=None)(self._all_at)

    def _section(self, name, x_m):
        """A stick to starboard as the plane at x cuts it; None where it is not."""
        curve = self.curves[name]
        places = curve.points_m[:, 0]
        at = float(np.clip(x_m, places[0], places[-1]))
        end = curve.stringer.start if x_m < at else curve.stringer.end
        if abs(x_m - at) > (CARRIED_M if end.kind == "free" else 0.0):
            return None
        run = np.array([1.0, *(np.interp(at, places, column) for column in curve.slope.T)])
        point = (np.array([np.interp(at, places, column) for column in curve.points_m.T])
                 + (x_m - at) * run)
        run /= np.linalg.norm(run)
        turn = np.interp(x_m, *self.turns[name])
        along = np.array([0.0, np.cos(turn), np.sin(turn)])
        inward = np.cross(run, along)
        inward /= np.linalg.norm(inward)
        stick = curve.stringer
        to_boat = (0.0, -1.0) if stick.role == "ridge" else (-np.sin(turn), np.cos(turn))
        inward *= np.sign(inward[1:] @ to_boat)
        side = np.cross(run, inward)
        side *= np.sign(side @ along)
        low, high = ((-stick.width_m, 0.0) if stick.role == "gunwale"
                     else (-0.5 * stick.width_m, 0.5 * stick.width_m))
        corners = []
        for across, deep in ((low, 0.0), (high, 0.0), (high, stick.depth_m), (low, stick.depth_m)):
            corner = point + across * side + deep * inward
            corner = corner + (x_m - corner[0]) / run[0] * run  # along its own edge to the plane
            corners.append(corner[1:])
        return Polygon(corners)

    def both(self, name, x_m):
        """A stick on both sides of the boat."""
        section = self.section(name, x_m)
        if section is None or self.curves[name].stringer.role in ("keel", "ridge"):
            return section
        return unary_union([section, scale(section, -1.0, origin=(0.0, 0.0))])

    def _all_at(self, x_m):
        """{name: polygon} of every stick that stands at a plane."""
        found = {name: self.both(name, x_m) for name in self.curves}
        return {name: one for name, one in found.items() if one is not None}


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
    shared = one.intersection(other)
    if shared.area == 0.0:
        return 0.0
    low, high = 0.0, 0.1
    while high - low > 1e-5:
        middle = 0.5 * (low + high)
        low, high = (low, middle) if shared.buffer(-0.5 * middle).is_empty else (middle, high)
    return high
