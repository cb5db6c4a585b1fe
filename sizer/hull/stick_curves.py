"""Each stick of a boat as one fine curve in space: what its length, bends and bevels are read from.

Along a stick x rises, y is half-breadth, z height, all scaled as `sizer.hull.boat` scales them. The
place on it is told by arc length from its forward end.
"""

from dataclasses import dataclass

import numpy as np
from scipy.interpolate import CubicSpline

from sizer.design.records import Stringer
from sizer.hull.places import PIN_TOLERANCE_M
from sizer.hull.scale import crown_factor

COUNT = 2001  # points along a stick: chords fall short of a 1 m radius by 1e-6 of the length
SAME_PLACE_M = 1e-4  # nearer places on a stick are one


@dataclass(frozen=True, eq=False)
class StickCurve:
    """The moulded line of one stick between its ends, as scaled."""

    stringer: Stringer
    base_x_m: np.ndarray  # (n,) on the base, rising
    points_m: np.ndarray  # (n, 3) x, y, z on the boat
    along_m: np.ndarray  # (n,) arc length from the forward end
    slope: np.ndarray  # (n, 2) dy/dx and dz/dx
    bend_per_m: np.ndarray  # (n, 2) signed curvature in plan and in profile

    @property
    def name(self):
        return self.stringer.name

    @property
    def length_m(self):
        return float(self.along_m[-1])

    def point_m(self, along_m):
        """x, y, z at each arc length. Returns (3,) or (n, 3)."""
        return np.stack([np.interp(along_m, self.along_m, column)
                         for column in self.points_m.T], axis=-1)


def stick_curves(boat):
    """The StickCurve of every stringer of a boat, in the design's order."""
    return tuple(stick_curve(boat, line.stringer.name) for line in boat.lines.lines)


def stick_curve(boat, name):
    """The StickCurve of one stringer of a boat.

    Curvature of y over x: (x' y'' - y' x'') / (x'^2 + y'^2)^(3/2), primes by the base's x; the same
    for z.
    """
    line = boat.lines.line(name)
    start, end = stick_ends_base_x_m(boat, line)
    knots = line.curve.x
    knots = knots[(knots > start + SAME_PLACE_M) & (knots < end - SAME_PLACE_M)]
    even = np.linspace(start, end, COUNT)
    apart = np.all(np.abs(even[:, None] - knots) > SAME_PLACE_M, axis=1)
    base_x = np.sort(np.concatenate([even[apart], knots]))
    points = stick_points_m(boat, line, base_x)
    along = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(points, axis=0), axis=1))])
    curve = CubicSpline(base_x, points)
    (x1, *flat1), (x2, *flat2) = curve(base_x, 1).T, curve(base_x, 2).T
    slope = np.stack([one / x1 for one in flat1], axis=-1)
    bend = np.stack([(x1 * two - one * x2) / np.hypot(x1, one) ** 3
                     for one, two in zip(flat1, flat2, strict=True)], axis=-1)
    return StickCurve(line.stringer, base_x, points, along, slope, bend)


def stick_ends_base_x_m(boat, line):
    """Base x of a stick's two ends: with the opening where it ends at the coaming.

    A free end on a frame goes with that frame, where the opening moved it.
    """
    opening = boat.opening
    ends = []
    for end, drawn, coaming in ((line.stringer.start, line.start_x_m, opening.back_x_m),
                                (line.stringer.end, line.end_x_m, opening.front_x_m)):
        if end.kind == "coaming":
            drawn = float(boat.map.base_x_m(coaming))
        elif end.kind == "free":
            drawn = moved_base_x_m(boat, drawn)
        ends.append(drawn)
    return tuple(ends)


def moved_base_x_m(boat, base_x_m):
    """Base x of the frame that stood here on the base; the same x where no frame stood."""
    for frame, moved in zip(boat.design.frames, boat.frame_base_x_m, strict=True):
        if abs(frame.x_m - base_x_m) < PIN_TOLERANCE_M:
            return float(moved)
    return base_x_m


def stick_points_m(boat, line, base_x_m):
    """x, y, z on the boat of a line's points at each base x, also beyond its ends. (n, 3)."""
    base_x = np.asarray(base_x_m, float)
    y, z = line.curve(base_x).T
    scaling, cockpit = boat.scaling, boat.design.cockpit
    if line.stringer.role in ("deck", "ridge"):
        sheer_z = boat.lines.gunwale.curve(base_x)[:, 1]
        crown = crown_factor(scaling.crown, base_x, cockpit.front_x_m, cockpit.back_x_m)
        z = sheer_z + crown * (z - sheer_z)
    return np.column_stack([boat.map(base_x), scaling.beam * y, scaling.depth * z])
