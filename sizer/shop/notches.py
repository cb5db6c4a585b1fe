"""Notches: where and how each stringer's stock lies in a frame.

Points are (half-breadth to starboard, height) in metres, at the frame's reference face. Which point
of the stock touches the moulded line, our drawing:

- keel, chines, deck stringers and ridge: the middle of the outer face. Keel and ridge lie flat, the
  others square to the bisector of the two neighbouring skin segments. What then stands outside the
  skin to either side is planed off after the dry fit; the edge between the two slopes is left on
  the moulded line.
- gunwale: the upper corner of the outer face, which lies along the skin of the side below it. What
  stands outside the deck's skin is the inner corner of its upper face.

The clearance is in a notch's width only. Its floor is exactly the stock's depth inside the moulded
line: a stick is lashed down onto the floor, and any clearance there would take it off its line.

A stick runs through the plywood at an angle. The frame's plane so cuts it a little larger than its
stock, its sides lean, and on the way to the plywood's other face it drifts along and into the
notch. The notch is cut square through, eased by that drift: the stick touches one wall at one face
and has CLEARANCE_M to the other wall at the other face, as a peg in a slot.
"""

from dataclasses import dataclass, replace
from functools import cached_property, lru_cache
from itertools import pairwise

import numpy as np
from shapely.affinity import translate
from shapely.geometry import LineString, Polygon
from shapely.ops import unary_union

from sizer.hull.boat import frame_points_m, moulded_points_m
from sizer.shop.shapes import both_sides
from sizer.shop.stations import through_m
from sizer.shop.tapers import planed_at_m

CLEARANCE_M = 0.0005  # of a notch over the stick that runs through it; our judgement
LEAST_TOOTH_M = 0.006  # of plywood between two notches: thinner and it is cut away; our judgement
OUTSIDE_M = 0.040  # how far a notch is drawn out through the skin, to open it surely


@dataclass(frozen=True)
class Notch:
    """One stick's place in a frame; the other side of the boat has its mirror image."""

    stringer: str
    role: str
    size_m: tuple[float, float]  # width and depth of the stick itself
    corner_m: tuple[float, float]  # on the moulded line
    along: tuple[float, float]  # unit, along the outer face, from keel towards ridge
    inward: tuple[float, float]  # unit, square to the outer face, into the boat
    low_m: float  # the stick's lower and upper edge as the frame cuts it, tapered where it is
    high_m: float  # along, from the corner
    depth_m: float  # of the stick as the frame cuts it
    lean: float  # of its sides: along for each metre inward
    drift_m: tuple[float, float]  # from the reference face to the other: across its sides, inward
    # stock outside the skin, square down the stick's lower and upper side from the outer face; of a
    # gunwale down its outer and its inner side from the upper face
    planed_m: tuple[float, float]

    @property
    def central(self):
        """Whether it lies on the centre line and has no mirror image."""
        return self.role in ("keel", "ridge")

    @property
    def width_m(self):
        """Width of the notch: the stick as it runs through, and clearance."""
        return self.high_wall_m - self.low_wall_m

    @property
    def low_wall_m(self):
        """The lower wall, along; a gunwale bears on its corner, so all its clearance is there."""
        clear = CLEARANCE_M / (1.0 if self.role == "gunwale" else 2.0)
        return self.low_m - clear + min(self.drift_m[0], 0.0)

    @property
    def high_wall_m(self):
        """The upper wall, along."""
        return self.high_m + CLEARANCE_M / 2.0 + max(self.drift_m[0], 0.0)

    @property
    def floor_m(self):
        """The floor, inward: the stick lies on it at the face where it lies deepest."""
        return self.depth_m + max(self.drift_m[1], 0.0)

    def at(self, along_m, inward_m):
        """A place beside the stick, from the corner along its face and into the boat."""
        return tuple(corner + along_m * along + inward_m * inward for corner, along, inward in zip(
            self.corner_m, self.along, self.inward, strict=True))

    def stock(self):
        """The stick's section at the reference face."""
        return self._box(self.low_m, self.high_m, 0.0, self.depth_m)

    def stock_through(self, share):
        """The stick's section where it has run through this share of the plywood: 1 is the other
        face, below 0 is ahead of the reference face."""
        across, deep = self.drift_m
        moved = ((across + self.lean * deep) * np.asarray(self.along)
                 + deep * np.asarray(self.inward))
        return translate(self.stock(), *(share * moved))

    def room(self):
        """What the stick takes of the wood, with clearance."""
        return self._room

    @cached_property
    def _room(self):
        return self._box(self.low_wall_m, self.high_wall_m, 0.0, self.floor_m)

    def cut(self):
        """The notch, drawn out through the skin; a gunwale's is open above too."""
        high = self.high_m + OUTSIDE_M if self.role == "gunwale" else self.high_wall_m
        return self._box(self.low_wall_m, high, -OUTSIDE_M, self.floor_m)

    def walls(self):
        """Lower and upper wall, each a line from skin to floor."""
        return tuple(LineString([self._leaning(across, 0.0), self._leaning(across, self.floor_m)])
                     for across in (self.low_wall_m, self.high_wall_m))

    def sides(self):
        """Lower and upper side of the stick, each a line from the outer face inward; of a gunwale
        its outer and its inner side, from the upper face down."""
        low, high = ([self._leaning(across, inward) for inward in (0.0, self.depth_m)]
                     for across in (self.low_m, self.high_m))
        faces = zip(high, low, strict=True) if self.role == "gunwale" else (low, high)
        return tuple(LineString(list(face)) for face in faces)

    def floor(self):
        """The line that the stick lies on, without clearance."""
        return LineString([self._leaning(across, self.floor_m)
                           for across in (self.low_m, self.high_m)])

    def _leaning(self, across_m, inward_m):
        """A place on a line that leans as the stick's sides do."""
        return self.at(across_m + self.lean * inward_m, inward_m)

    def _box(self, low, high, outer, inner):
        return Polygon([self._leaning(low, outer), self._leaning(high, outer),
                        self._leaning(high, inner), self._leaning(low, inner)])


@dataclass(frozen=True, eq=False)
class Section:
    """One frame's place in the boat: its half of the skin, and the sticks in it."""

    skin_m: np.ndarray  # (n, 2) half-breadth, height from the keel up
    sheer: int  # row of the gunwale
    open_top: bool  # the last point is the coaming's edge, not the centre line
    notches: tuple[Notch, ...]
    # How far the plywood of the lowest panels is sawn back from the skin midway, where that is more
    # than `sizer.shop.ring` draws anyway
    stands_back_m: tuple[float, ...] = ()

    @cached_property
    def shared(self):
        """Neighbouring notches with too little plywood between them: pairs cut as one pocket."""
        return shared(self.notches)

    def outline(self):
        """The skin all round, closed straight across the cockpit."""
        return Polygon(all_round(self.skin_m)).buffer(0)


def all_round(skin_m):
    """The skin's half, (n, 2), and after it the other one, back to the keel."""
    return np.concatenate([skin_m, skin_m[::-1] * (-1.0, 1.0)])


@lru_cache(maxsize=32)  # of some boats: their patterns, lashings and lists each ask
def frame_section(boat, index):
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
    outline = Polygon(all_round(skin)).buffer(0)
    through = through_m(boat, index)
    beyond = moulded_points_m(boat, points, float(boat.map.base_x_m(x + through)))
    runs = [np.subtract(beyond[one.name], points[one.name]) for one in sticks]
    notches = tuple(_notch(stick, row, skin, sticks, outline, runs[row], abs(through),
                           planed_at_m(boat, stick, (x, x + through)))
                    for row, stick in enumerate(sticks))
    return Section(skin, sheer, open_top and half > 0.0, notches)


def _notch(stick, row, skin, sticks, outline, run, thick, taken):
    """The Notch of a stick whose moulded point moves by `run` through plywood so thick, and whose
    lower and upper edge a taper has `taken` so much off, at the face where it is wider.

    With slopes a along and n inward for each metre of plywood, the stick on the floor, its width w
    and depth d are cut as w sqrt(1 + a^2 / (1 + n^2)) and d sqrt(1 + n^2), and its sides lean by
    a n / (1 + n^2).
    """
    corner = skin[row]
    if stick.role in ("keel", "ridge"):
        along = np.array([1.0, 0.0])
        inward = np.array([0.0, 1.0 if stick.role == "keel" else -1.0])
    else:
        before = _unit(corner - _neighbour(row, -1, skin, sticks))
        after = _unit(_neighbour(row, 1, skin, sticks) - corner)
        along = before if stick.role == "gunwale" else _unit(before + after)
        inward = np.array([-along[1], along[0]])
    drift, deep = float(run @ along), float(run @ inward)
    square = 1.0 + (deep / thick) ** 2
    cut = float(np.sqrt(1.0 + (drift / thick) ** 2 / square))
    wide, lean = stick.width_m * cut, drift * deep / thick ** 2 / square
    low, high = (-wide, 0.0) if stick.role == "gunwale" else (-wide / 2.0, wide / 2.0)
    low, high = low + cut * taken[0], high - cut * taken[1]
    depth = stick.depth_m * float(np.sqrt(square))
    notch = Notch(stick.name, stick.role, (stick.width_m, stick.depth_m), tuple(corner.tolist()),
                  tuple(along.tolist()), tuple(inward.tolist()), low, high, depth, lean,
                  (drift - lean * deep, deep), (0.0, 0.0))
    return replace(notch, planed_m=_planed_m(notch, outline))


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


def _planed_m(notch, outline):
    """How deep a stick stands outside the skin, as it is gauged square down either side: the
    frame's plane cuts each side aslant, but in the same share."""
    wide, deep = notch.size_m
    shares = [float(side.difference(outline).length / side.length) for side in notch.sides()]
    if notch.role == "gunwale":  # its outer side lies in the skin
        return 0.0, wide * shares[1]
    return tuple(deep * share for share in shares)


def _unit(vector):
    return vector / np.hypot(*vector)


def shared(notches):
    """Neighbouring notches with too little plywood between them: pairs cut as one pocket."""
    return [(one, other) for one, other in pairwise(notches)
            if one.room().distance(other.room()) < LEAST_TOOTH_M]


def cutouts(notches):
    """Everything the sticks take out of a frame, both sides.

    Between notches of one pocket the tooth of plywood goes too.
    """
    shapes = [notch.cut() for notch in notches]
    for one, other in shared(notches):
        walls = [*one.walls(), *other.walls()]
        facing = min(((a, b) for a in walls[:2] for b in walls[2:]),
                     key=lambda pair: pair[0].distance(pair[1]))
        shapes.append(unary_union(facing).convex_hull)
    return both_sides(unary_union(shapes))
