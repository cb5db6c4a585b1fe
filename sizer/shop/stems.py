"""Bow and stern stem pieces in side view, drawn with the boat's end on the left.

Coordinates: distance inboard from the hull's end, and height over the baseline, in metres. The
outer edge is the moulded profile. Inboard of the keel's landing a tail lies on the keel, and the
step between them is the bird's mouth that takes the keel's square-cut end: as deep as the keel's
stock, so that stem and keel are one line outside. The ridge lies on the stem's head, its end cut
to the rake.
"""

from dataclasses import dataclass

import numpy as np
from shapely.geometry import LineString, Point, Polygon, box
from shapely.ops import unary_union

from sizer.drawing.hull_lines import water_z_m
from sizer.hull.boat import sections_at
from sizer.hull.weight import STEM_WIDTH_M
from sizer.shop.lashing import EDGE_M, HOLE_M
from sizer.shop.pattern_checks import JUDGEMENT, LEAST_WEB_M, PatternCheck
from sizer.shop.shapes import largest
from sizer.units import MM_PER_M

TAIL_M = 0.110  # of the stem on the keel, inboard of its landing; our drawing
LEAST_TAIL_M = 0.050  # enough to lash twice; our judgement
CLEAR_OF_FRAME_M = 0.015  # between the tail and the nearest frame; our drawing
ROUND_M = 0.020  # of the tail's upper corner; our drawing
STEP_M = 0.001  # between points of the drawn curves: off them by under 0.01 mm
REACH_M = 0.080  # of a stringer's mark inboard of its landing; our drawing
HOLE_IN_M = 0.028  # of a lashing hole behind a landing or in from a seat's end; our drawing
HOLE_OFF_SEAT_M = 0.011  # of a lashing hole from the seat; our drawing


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
    profile_m: np.ndarray  # (n, 2) moulded profile, head to keel landing
    keel_m: np.ndarray  # (n, 2) the keel's moulded line over the tail
    keel_depth_m: float
    landings: tuple[Landing, ...]
    holes: tuple[tuple[str, tuple[float, float]], ...]
    water_m: np.ndarray | None  # (2, 2) waterline across the piece


def stem_patterns(boat, particulars=None):
    """The bow and stern StemPattern of a boat; `particulars` gives the waterline."""
    return tuple(_stem(boat, end, particulars) for end in ("bow", "stern"))


def _stem(boat, end, particulars):
    design = boat.design
    stem = design.bow if end == "bow" else design.stern
    keel = boat.lines.lines[0].stringer
    foot_x = float(boat.map(stem.lands_m[keel.name]))
    foot = _inboard(boat, end, foot_x)
    nearest = min(_inboard(boat, end, float(x)) for x in boat.frame_x_m)
    tail = min(TAIL_M, nearest - foot - CLEAR_OF_FRAME_M)
    profile = _bottom_m(boat, end, 0.0, foot)
    along_keel = _bottom_m(boat, end, foot, foot + tail)
    deck = _line_m(boat, end, -1, 0.0, foot + tail)
    ridge = next((one for one in design.stringers
                  if one.role == "ridge" and one.name in stem.lands_m), None)
    seat = deck - (0.0, ridge.depth_m if ridge else 0.0)
    wood = _wood(profile, along_keel, seat, keel.depth_m)
    landings = tuple(_landings(boat, end, stem))
    return StemPattern(
        name=f"{end} stem", end=end, thickness_m=stem.thickness_m, wood=wood, profile_m=profile,
        keel_m=along_keel, keel_depth_m=keel.depth_m, landings=landings,
        holes=tuple(_holes(wood, along_keel, keel, seat, ridge, landings)),
        water_m=_water_m(boat, end, foot + tail, particulars))


def _inboard(boat, end, x_m):
    """Distance from the hull's own end."""
    return x_m if end == "bow" else boat.length_m - x_m


def _places_m(boat, end, low_m, high_m):
    """Places from `low_m` to `high_m` inboard; and their x, rising, with the order to take."""
    inboard = np.linspace(low_m, high_m, max(2, int(np.ceil((high_m - low_m) / STEP_M)) + 1))
    if end == "bow":
        return inboard, inboard, slice(None)
    return inboard, (boat.length_m - inboard)[::-1], slice(None, None, -1)


def _line_m(boat, end, column, low_m, high_m):
    """One column of the boat's exact sections as (inboard, height) points."""
    inboard, x, order = _places_m(boat, end, low_m, high_m)
    return np.column_stack([inboard, sections_at(boat, x).z_m[order, column]])


def _bottom_m(boat, end, low_m, high_m):
    return _line_m(boat, end, 0, low_m, high_m)


def _wood(profile, keel, seat, keel_depth_m):
    """The strip inside the profile and over the keel, less the keel's and the ridge's stock."""
    start = profile[0] + (profile[0] - profile[1]) / np.hypot(*(profile[0] - profile[1])) * 0.1
    line = np.concatenate([start[None], profile, keel[1:]])
    strip = LineString(line).buffer(STEM_WIDTH_M, cap_style="flat")
    strip = strip.buffer(-ROUND_M).buffer(ROUND_M)
    left, right = float(line[0, 0]), float(line[-1, 0])
    low = float(line[:, 1].min()) - 0.1
    top = np.concatenate([[(left, seat[0, 1])], seat, [(right, seat[-1, 1])]])
    under_deck = Polygon([*top, (right, low), (left, low)]).buffer(0)
    over_line = Polygon([*line, (right, float(line[:, 1].max()) + 1.0),
                         (left, float(line[:, 1].max()) + 1.0)]).buffer(0)
    piece = strip.intersection(over_line).intersection(under_deck)
    return largest(piece.difference(LineString(keel).buffer(keel_depth_m, cap_style="flat")))


def _landings(boat, end, stem):
    """Stringers that land between keel and ridge, with their lines inboard.

    A gunwale's moulded line is the stem's head itself: its lower edge is what can be marked.
    """
    for column, line in enumerate(boat.lines.between, start=1):
        stick = line.stringer
        if stick.name in stem.lands_m:
            low = _inboard(boat, end, float(boat.map(stem.lands_m[stick.name])))
            points = _line_m(boat, end, column, low, low + REACH_M)
            if stick.role == "gunwale":
                yield Landing(f"{stick.name}, lower edge", points - (0.0, stick.width_m))
            else:
                yield Landing(stick.name, points)


def _holes(wood, along_keel, keel, seat, ridge, landings):
    """Lashing holes over the keel, under the ridge and behind each landing, where wood allows."""
    wanted = []
    for share in (0.3, 0.75):
        at = int(share * (len(along_keel) - 1))
        wanted.append((keel.name, along_keel[at] + (0.0, keel.depth_m + HOLE_OFF_SEAT_M)))
    if ridge:
        on_wood = seat[[wood.distance(Point(point)) < STEP_M for point in seat]]
        middle = on_wood[len(on_wood) // 2] if len(on_wood) else seat[0]
        wanted.append((ridge.name, middle - (0.0, HOLE_OFF_SEAT_M)))
    for landing in landings:
        inboard = landing.line_m[:, 0] - landing.line_m[0, 0]
        wanted.append((landing.stringer, landing.line_m[int(np.argmax(inboard >= HOLE_IN_M))]))
    for name, (right, up) in wanted:
        spot = Point(right, up)
        if wood.contains(spot) and wood.boundary.distance(spot) >= EDGE_M + HOLE_M / 2.0:
            yield name, (float(right), float(up))


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
        yield PatternCheck(pattern.name, "tail", "tail on the keel", tail * MM_PER_M,
                           LEAST_TAIL_M * MM_PER_M, "at least", "mm", True,
                           "length that the keel is lashed to", JUDGEMENT)
        yield PatternCheck(pattern.name, "bird's mouth", "stem over the keel",
                           _over_mouth_m(pattern) * MM_PER_M, LEAST_WEB_M * MM_PER_M, "at least",
                           "mm", True, "wood left where the bird's mouth is cut in", JUDGEMENT)
        pieces = unary_union([pattern.wood])
        parts = len(getattr(pieces, "geoms", [pieces]))
        yield PatternCheck(pattern.name, "whole stem", "stem in one piece", parts, 1, "at most",
                           "pieces", True, "what sawing leaves", JUDGEMENT)


def _over_mouth_m(pattern):
    """Wood straight up from the bird's mouth's inside corner."""
    right = float(pattern.keel_m[0, 0])
    column = pattern.wood.intersection(box(right + 0.002, -1.0, right + 0.003, 2.0))
    return 0.0 if column.is_empty else float(column.bounds[3] - column.bounds[1])
