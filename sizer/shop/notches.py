"""Notches: where and how each stringer's stock lies in a frame.

Points are (half-breadth to starboard, height) in metres, at the frame's reference face. Which point
of the stock touches the moulded line, our drawing:

- keel, chines, deck stringers and ridge: the middle of the outer face. Keel and ridge lie flat, the
  others square to the bisector of the two neighbouring skin segments. What then stands outside the
  skin to either side is planed off in the dry fit, and the stick's outer corner is left on the
  moulded line.
- gunwale: the upper corner of the outer face, which lies along the skin of the side below it.

The clearance is in a notch's width only. Its floor is exactly the stock's depth inside the moulded
line: a stick is lashed down onto the floor, and any clearance there would take it off its line.
"""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from shapely.geometry import LineString, Point, Polygon
from shapely.ops import unary_union

from sizer.hull.boat import frame_points_m
from sizer.shop.shapes import both_sides

CLEARANCE_M = 0.0005  # of a notch over the stock's width; our judgement
LEAST_TOOTH_M = 0.006  # of plywood between two notches: thinner and it is cut away; our judgement
OUTSIDE_M = 0.040  # how far a notch is drawn out through the skin, to open it surely


@dataclass(frozen=True)
class Notch:
    """One stick's place in a frame; the other side of the boat has its mirror image."""

    stringer: str
    role: str
    corner_m: tuple[float, float]  # on the moulded line
    along: tuple[float, float]  # unit, along the outer face, from keel towards ridge
    inward: tuple[float, float]  # unit, square to the outer face, into the boat
    low_m: float  # the stock's lower and upper edge, along, from the corner
    high_m: float
    depth_m: float
    planed_m: tuple[float, float]  # stock outside the skin at the lower and upper edge

    @property
    def central(self):
        """Whether it lies on the centre line and has no mirror image."""
        return self.role in ("keel", "ridge")

    @property
    def width_m(self):
        """Width of the notch: stock and clearance."""
        return self.high_m - self.low_m + CLEARANCE_M

    def at(self, along_m, inward_m):
        """A place beside the stick, from the corner along its face and into the boat."""
        return tuple(np.asarray(self.corner_m) + along_m * np.asarray(self.along)
                     + inward_m * np.asarray(self.inward))

    def stock(self):
        """The stick's section."""
        return self._box(self.low_m, self.high_m, 0.0)

    def room(self):
        """What the stick takes of the wood, with clearance."""
        spare = CLEARANCE_M / 2.0
        return self._box(self._low_wall_m, self.high_m + spare, 0.0)

    def cut(self):
        """The notch, drawn out through the skin; a gunwale's is open above too."""
        high = self.high_m + (OUTSIDE_M if self.role == "gunwale" else CLEARANCE_M / 2.0)
        return self._box(self._low_wall_m, high, -OUTSIDE_M)

    def floor_corners_m(self):
        """Inside corners that a round cutter does not reach: ((y, z), (diagonal y, z)) each."""
        towards = [(self._low_wall_m, 1.0)]
        if self.role != "gunwale":
            towards.append((self.high_m + CLEARANCE_M / 2.0, -1.0))
        for along, sign in towards:
            diagonal = sign * np.asarray(self.along) - np.asarray(self.inward)
            yield self.at(along, self.depth_m), tuple(diagonal / np.sqrt(2.0))

    def walls(self):
        """Lower and upper wall, each a line from skin to floor."""
        high = self.high_m + CLEARANCE_M / 2.0
        return tuple(LineString([self.at(along, 0.0), self.at(along, self.depth_m)])
                     for along in (self._low_wall_m, high))

    @property
    def _low_wall_m(self):
        """A gunwale bears on its corner, so all its clearance is below it."""
        return self.low_m - CLEARANCE_M / (1.0 if self.role == "gunwale" else 2.0)

    def _box(self, low, high, outer):
        return Polygon([self.at(low, outer), self.at(high, outer),
                        self.at(high, self.depth_m), self.at(low, self.depth_m)])


@dataclass(frozen=True, eq=False)
class Section:
    """One frame's place in the boat: its half of the skin, and the sticks in it."""

    skin_m: np.ndarray  # (n, 2) half-breadth, height from the keel up
    sheer: int  # row of the gunwale
    open_top: bool  # the last point is the coaming's edge, not the centre line
    notches: tuple[Notch, ...]

    def outline(self):
        """The skin all round, closed straight across the cockpit."""
        return Polygon(np.concatenate([self.skin_m, self.skin_m[::-1] * (-1.0, 1.0)])).buffer(0)


def frame_section(boat, index):
    """The Section of one frame of a boat."""
    points = frame_points_m(boat, index)
    sticks = [one for one in boat.design.stringers if one.name in points]
    skin = [points[one.name] for one in sticks]
    sheer = next(row for row, one in enumerate(sticks) if one.role == "gunwale")
    x = float(boat.frame_x_m[index])
    half = float(boat.opening.half_width_m(x))
    open_top = sticks[-1].role != "ridge"
    if open_top:
        ends = (boat.opening.front_x_m, boat.opening.back_x_m)
        skin.append((half, float(np.interp(x, ends, boat.opening.deck_z_m))))
    skin = np.array(skin)
    outline = Polygon(np.concatenate([skin, skin[::-1] * (-1.0, 1.0)])).buffer(0)
    notches = tuple(_notch(stick, row, skin, sticks, outline) for row, stick in enumerate(sticks))
    return Section(skin, sheer, open_top and half > 0.0, notches)


def _notch(stick, row, skin, sticks, outline):
    corner = skin[row]
    if stick.role in ("keel", "ridge"):
        along = np.array([1.0, 0.0])
        inward = np.array([0.0, 1.0 if stick.role == "keel" else -1.0])
    else:
        before = _unit(corner - _neighbour(row, -1, skin, sticks))
        after = _unit(_neighbour(row, 1, skin, sticks) - corner)
        along = before if stick.role == "gunwale" else _unit(before + after)
        inward = np.array([-along[1], along[0]])
    half = stick.width_m / 2.0
    low, high = (-stick.width_m, 0.0) if stick.role == "gunwale" else (-half, half)
    planed = [_outside_m(outline, corner + edge * along) for edge in (low, high)]
    if stick.role == "gunwale":  # its top inner edge against the deck's slope
        planed[1] = _outside_m(outline, corner + stick.depth_m * inward)
    return Notch(stick.name, stick.role, tuple(corner.tolist()), tuple(along.tolist()),
                 tuple(inward.tolist()), low, high, stick.depth_m, tuple(planed))


def _neighbour(row, step, skin, sticks):
    """The next skin point; past a stick so near that the two are planed into each other.

    Near a blend both sticks so take the same turn, as if they were one.
    """
    other = row + step
    last = 0 if step < 0 else len(skin) - 1
    while other != last and other < len(sticks) and np.hypot(*(skin[other] - skin[row])) < (
            sticks[row].width_m + sticks[other].width_m) / 2.0:
        other += step
    return skin[other]


def _outside_m(outline, point):
    """How far a point lies outside the skin, zero inside."""
    place = Point(point)
    return 0.0 if outline.covers(place) else float(outline.distance(place))


def _unit(vector):
    return vector / np.hypot(*vector)


def shared(notches):
    """Neighbouring notches with too little plywood between them: pairs cut as one pocket."""
    return [(one, other) for one, other in pairwise(notches)
            if one.room().distance(other.room()) < LEAST_TOOTH_M]


def cutouts(notches, cutter_m=None):
    """Everything the sticks take out of a frame, both sides.

    Between notches of one pocket the tooth of plywood goes too. With a cutter's diameter, every
    inside corner is relieved by a circle through the corner, so that a square stick seats.
    """
    shapes = [notch.cut() for notch in notches]
    for one, other in shared(notches):
        walls = [*one.walls(), *other.walls()]
        facing = min(((a, b) for a in walls[:2] for b in walls[2:]),
                     key=lambda pair: pair[0].distance(pair[1]))
        shapes.append(unary_union(facing).convex_hull)
    if cutter_m:
        radius = cutter_m / 2.0
        shapes += [Point(np.asarray(corner) + radius * np.asarray(diagonal)).buffer(radius, 24)
                   for notch in notches for corner, diagonal in notch.floor_corners_m()]
    return both_sides(unary_union(shapes))
