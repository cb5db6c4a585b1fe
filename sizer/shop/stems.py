"""Bow and stern stem pieces in side view, drawn with the boat's end on the left.

Coordinates: distance inboard from the hull's end, and height over the baseline, in metres. The
outer edge is the moulded profile. Inboard of the keel's landing a tail lies on the keel, and the
step between them is the bird's mouth that takes the keel's square-cut end: as deep as the keel's
stock, so that stem and keel are one line outside. The ridge is lapped over the stem's head, its end
cut to the rake.
"""

from dataclasses import dataclass

import numpy as np
from shapely.geometry import LineString, Polygon, box
from shapely.ops import unary_union

from sizer.drawing.hull_lines import water_z_m
from sizer.hull.weight import STEM_WIDTH_M
from sizer.shop import stem_sticks
from sizer.shop.pattern_checks import LEAST_WEB_M, PatternCheck, length_check
from sizer.shop.shapes import largest
from sizer.shop.stem_lashing import StemLashing, stem_lashings

LEAST_TAIL_M = 0.050  # enough to lash twice; our judgement
ROUND_M = 0.020  # of the tail's upper corner; our drawing
TOUCH_M = 0.0005  # of wood, to be seen as touching
HEAD_WAY = (0.10, 1.0)  # up and inboard: no piece reaches farther so than its head's corner
BEHIND_HEAD_M = 0.020  # of the piece's inner edge, to the turns of a bag's ring; our judgement
REACH_M = 0.080  # of a stringer's mark inboard of its landing; our drawing


@dataclass(frozen=True)
class Landing:
    """Where a stringer's moulded line meets the stem, and its first stretch inboard."""

    stringer: str
    line_m: np.ndarray  # (n, 2) from the stem inboard


@dataclass(frozen=True, eq=False)
class StemPattern:
    """One stem piece; shapes in distance inboard from the hull's end and height."""

    name: str  # "bow stem" or "stern stem"
    end: str  # "bow" or "stern"
    thickness_m: float
    wood: Polygon
    keel: str  # names of the sticks on its centre line; None where no ridge lands here
    ridge: str | None
    profile_m: np.ndarray  # (n, 2) moulded profile, head to keel landing
    keel_m: np.ndarray  # (n, 2) the keel's moulded line over the tail
    keel_depth_m: float
    keel_end: stem_sticks.KeelEnd
    ridge_lap: stem_sticks.RidgeLap | None  # None where no ridge lands here
    beside: tuple[stem_sticks.Beside, ...]  # chines and gunwale on its side, from the keel up
    landings: tuple[Landing, ...]
    lashings: tuple[StemLashing, ...]
    water_m: np.ndarray | None  # (2, 2) waterline across the piece

    @property
    def holes(self):
        """(first stick of the lashing, middle) of every lashing hole."""
        return tuple((one.sticks[0], hole) for one in self.lashings for hole in one.holes)

    @property
    def head_m(self):
        """(tip, inner corner) of the bare head: distance inboard, height."""
        ring = np.asarray(self.wood.exterior.coords)
        tip = min(ring.tolist(), key=lambda one: (one[0], -one[1]))
        return tuple(tip), tuple(ring[np.argmax(ring @ HEAD_WAY)].tolist())

    @property
    def ring_m(self):
        """(2, 2) ends, under the gunwales and over the ridge, of the turns that a bag's ring hangs
        in, close behind the head: distance inboard, height."""
        gunwale = self.beside[-1]
        low, _, _ = gunwale.at(gunwale.line_m[1:, 0])
        inboard = float(self.wood.intersection(LineString(low)).bounds[2]) + BEHIND_HEAD_M
        top = gunwale.line_m if self.ridge_lap is None else self.ridge_lap.line_m
        return np.array([(inboard, np.interp(inboard, *line.T)) for line in (low, top)])

    @property
    def sticks(self):
        """Names of all sticks that end on it."""
        return tuple(dict.fromkeys([self.keel, *(one.stringer for one in self.beside),
                                    *([self.ridge] if self.ridge else [])]))


def stem_patterns(boat, particulars=None):
    """The bow and stern StemPattern of a boat; `particulars` gives the waterline."""
    return tuple(_stem(boat, end, particulars) for end in ("bow", "stern"))


def _stem(boat, end, particulars):
    design = boat.design
    stem = design.stem(end)
    keel = boat.lines.lines[0].stringer
    foot = stem_sticks.landing_m(boat, end, keel.name)
    tail = stem_sticks.tail_m(boat, end)
    profile, along_keel, deck = (line for line, _ in stem_sticks.lines_m(boat, end, (
        (0, 0.0, foot), (0, foot, foot + tail), (-1, 0.0, foot + tail))))
    ridge = next((one for one in design.stringers
                  if one.role == "ridge" and one.name in stem.lands_m), None)
    left = min(stem_sticks.LAP_M, ridge.depth_m) if ridge else 0.0
    wood = _wood(profile, along_keel, deck - (0.0, left), keel.depth_m)
    beside = tuple(stem_sticks.sticks_beside(boat, end, stem))
    return StemPattern(
        name=f"{end} stem", end=end, thickness_m=stem.thickness_m, wood=wood, keel=keel.name,
        ridge=ridge.name if ridge else None, profile_m=profile, keel_m=along_keel,
        keel_depth_m=keel.depth_m, keel_end=stem_sticks.keel_end(keel, stem.thickness_m, tail),
        ridge_lap=_lap(ridge, stem, wood, deck),
        beside=beside, landings=tuple(map(_landing, beside)),
        lashings=stem_lashings(wood, beside, keel, along_keel, ridge),
        water_m=_water_m(boat, end, foot + tail, particulars))


def _lap(ridge, stem, wood, deck):
    """The RidgeLap over the head, as far inboard as its wood stands where the whole ridge would."""
    if ridge is None:
        return None
    # A thin one lies on the head without a lap.
    deep = max(ridge.depth_m, stem_sticks.LAP_M + TOUCH_M)
    head, seat = (Polygon(np.concatenate([deck, deck[::-1] - (0.0, one)])).intersection(wood)
                  for one in (min(stem_sticks.LAP_M, ridge.depth_m) + TOUCH_M, deep))
    return stem_sticks.ridge_lap(ridge, stem.thickness_m, float(head.bounds[2]),
                                 float(seat.bounds[2]), deck)


def _wood(profile, keel, seat, keel_depth_m):
    """The strip inside the profile and over the keel, less the keel's and the ridge's stock."""
    start = profile[0] + (profile[0] - profile[1]) / np.hypot(*(profile[0] - profile[1])) * 0.1
    line = np.concatenate([start[None], profile, keel[1:]])
    strip = LineString(line).buffer(STEM_WIDTH_M, cap_style="flat")
    strip = strip.buffer(-ROUND_M).buffer(ROUND_M)
    left, right = float(line[0, 0]), float(line[-1, 0])
    low = float(line[:, 1].min()) - 0.1
    top = np.concatenate([[(left, seat[0, 1])], seat, [(right, seat[-1, 1])]])
    under_deck = Polygon(np.vstack([top, (right, low), (left, low)])).buffer(0)
    high = float(line[:, 1].max()) + 1.0
    over_line = Polygon(np.vstack([line, (right, high), (left, high)])).buffer(0)
    piece = strip.intersection(over_line).intersection(under_deck)
    return largest(piece.difference(LineString(keel).buffer(keel_depth_m, cap_style="flat")))


def _landing(beside):
    """A stick's moulded line inboard of its landing.

    A gunwale's moulded line is the stem's head itself: its lower edge is what can be marked.
    """
    rows = beside.line_m[:, 0] <= beside.line_m[0, 0] + REACH_M
    line = beside.line_m[rows]
    if beside.role == "gunwale":
        line = np.column_stack([line[:, 0], line[:, 1] + beside.low_m[rows]])
        return Landing(f"{beside.stringer}, lower edge", line)
    return Landing(beside.stringer, line)


def _water_m(boat, end, right_m, particulars):
    if particulars is None:
        return None
    ends = np.array([0.0, right_m])
    x = ends if end == "bow" else boat.length_m - ends
    return np.column_stack([ends, water_z_m(boat, particulars, x)])


def stem_checks(patterns):
    """Whether the stem pieces hold: the tail on the keel, and the thinnest wood across."""
    for pattern in patterns:
        tail = float(np.hypot(*(pattern.keel_m[-1] - pattern.keel_m[0])))
        yield length_check(pattern.name, "tail", "tail on the keel", tail, "at least",
                           LEAST_TAIL_M, "length that the keel is lashed to")
        yield length_check(pattern.name, "bird's mouth", "stem over the keel",
                           _over_mouth_m(pattern), "at least", LEAST_WEB_M,
                           "wood left where the bird's mouth is cut in")
        tied = {name for one in pattern.lashings for name in one.sticks}
        loose = [name for name in pattern.sticks if name not in tied]
        yield PatternCheck(pattern.name, ", ".join(loose) or "all sticks", "sticks not tied to it",
                           len(loose), 0, "at most", "sticks", True,
                           "sticks that end on the stem without a hole beside them to lash "
                           "through")
        pieces = unary_union([pattern.wood])
        parts = len(getattr(pieces, "geoms", [pieces]))
        yield PatternCheck(pattern.name, "whole stem", "stem in one piece", parts, 1, "at most",
                           "pieces", True, "what sawing leaves")


def _over_mouth_m(pattern):
    """Wood straight up from the bird's mouth's inside corner."""
    right = float(pattern.keel_m[0, 0])
    column = pattern.wood.intersection(box(right + 0.002, -1.0, right + 0.003, 2.0))
    return 0.0 if column.is_empty else float(column.bounds[3] - column.bounds[1])
