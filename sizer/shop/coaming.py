"""The coaming: the opening in its own sloped plane, and the strips that are bent round it.

The coaming is a wall of thin strips, bent cold round a form and glued one over the other, with a
lip of more strips round its outside at the top for the spray deck. It stands on the arms of the
open frames and on the ends of the ridges: notches in its lower edge straddle them, and between
them it reaches under the deck line, where it is lashed.

An arm leans down from the rim: cord laid round it would be drawn off over its end as soon as the
rim is pulled up. So it goes through a hole, outside of the wall and lower than the wall's own:
what pulls the rim up pulls against the plywood over the hole.
"""

from dataclasses import dataclass

import numpy as np
from shapely.geometry import LineString, Point

from sizer.design.woods import CAREFUL_BEND_RATIO
from sizer.drawing.told import size, told
from sizer.shop.lashing import EDGE_M, HOLE_M, HOLE_SIZE, HOLES_APART_M
from sizer.shop.pattern_checks import PatternCheck, length_check
from sizer.shop.shapes import along_m, line_pieces
from sizer.shop.stations import through_m
from sizer.shop.stick_ends import coaming_slope_deg
from sizer.shop.stringers import bend_verdict
from sizer.shop.trade_sizes import bit_text

COAMING_WOOD = "white ash"
WALL_M = 0.009  # thickness; our drawing
LIP_M = 0.018  # that the lip stands out from the wall; our drawing
STRIPS_M = (0.003, 0.0015, 0.001)  # thickness of one strip: the first that bends cold; our drawing
NOTCH_SPARE_M = 0.001  # of a notch on each side of what it straddles; our judgement
LIP_HEIGHT_M = 0.014  # of the lip; our drawing
ROOM_M = 0.012  # under the lip, for a spray deck's cord and hem; our judgement
RIM_HOLE_UNDER_M = 0.008  # of the wall's lashing holes, from the deck line; our drawing
RIM_HOLE_BESIDE_M = 0.010  # of them, from a notch's end; our drawing
RIM_HOLES_APART_M = 0.020  # least between those of two lashings, round the wall; our judgement
RIM_HOLES = told("lashing holes of {}, {} under the deck line and {} beside both ends of every "
                 "notch", HOLE_SIZE, size(RIM_HOLE_UNDER_M), size(RIM_HOLE_BESIDE_M))
RIM_LASHED = ("at a frame through both and the arm's hole, never round it alone; at a ridge "
              "through both and under it")
SEWING_HOLE_M = 0.0025  # takes a curved needle and the thread doubled; our judgement
SEWING_STEP_M = 0.025  # from one to the next round the wall; our drawing
SEWN = "midway between lip and deck line"  # the holes through the wall: whatever room it leaves
SEWING_HOLES = told("holes of {}, {} apart, {}", bit_text(SEWING_HOLE_M), size(SEWING_STEP_M), SEWN)
CLAMP_HOLE_M = 0.040  # of the holes in the form that the clamps' jaws go into; our drawing
CLAMP_WOOD_M = 0.020  # of the form between such a hole and its edge; our judgement
BELOW_DECK_M = 0.020  # of the wall under the deck line, to fasten it; our drawing
OVERLAP_SHARE = 8.0  # of a strip's ends over its thickness, feathered; common practice, no source
SPARE_M = 0.050  # more of every strip, to trim; our judgement
OUTLINE_COUNT = 241  # points round the opening
FINE_COUNT = 4001
ARM_HOLES = "coaming"  # what these holes are named by
ARM_OUT_M = 0.008  # from the wall's outside to a hole's middle: room for cord and skin; our drawing
FAR_M = 2.0  # well above any frame


@dataclass(frozen=True)
class Strip:
    """Strips of one size for the coaming."""

    name: str
    count: int
    length_m: float  # to cut, each
    width_m: float
    thickness_m: float


@dataclass(frozen=True)
class WallNotch:
    """A notch in the wall's lower edge over what it stands on."""

    over: str  # a frame, whose notch is on both sides, or a ridge
    round_m: float  # of its middle round the inside of the wall, from the front's centre line
    wide_m: float
    deep_m: float  # up from the lower edge, to the deck line


    @property
    def holes_m(self):
        """Where its lashing's two holes are, as `round_m`."""
        beside = 0.5 * self.wide_m + RIM_HOLE_BESIDE_M
        return self.round_m - beside, self.round_m + beside


@dataclass(frozen=True, eq=False)
class Coaming:
    """The coaming for the bench; its plane is that of the rim's top."""

    slope_deg: float  # of the rim's top, positive where it rises forward
    deck_slope_deg: float  # of the line its wall stands on
    length_m: float  # of the opening, in its plane
    width_m: float
    widest_m: float  # from the front, in its plane
    outline_m: np.ndarray  # (n, 2) aft from the front, to starboard; last repeats first
    girth_m: float  # round the opening, inside of the wall
    lip_girth_m: float  # round the lip's outside
    wall_m: tuple[float, float]  # height of the wall over the deck line, front and back
    below_m: float  # of the wall under the deck line, between its notches
    notches: tuple[WallNotch, ...]  # from the front
    strips: tuple[Strip, ...]
    tightest_m: float  # radius of the opening's outline
    ratio: float  # of that over a strip's thickness
    verdict: str  # as in `sizer.shop.stringers`

    @property
    def lip_size_m(self):
        """Length and width over the lip's outside, in the rim's plane."""
        return tuple(one + 2.0 * (WALL_M + LIP_M) for one in (self.length_m, self.width_m))

    @property
    def wall_girth_m(self):
        """Round the wall's outside, where a spray deck's cord lies under the lip."""
        return self.girth_m + 2.0 * np.pi * WALL_M


def coaming(boat):
    opening = boat.opening
    front, back = opening.rim_z_m
    slope = float(np.arctan2(front - back, opening.length_m))
    fine = _half_outline_m(opening, slope)
    girth = 2.0 * float(np.linalg.norm(np.diff(fine, axis=0), axis=1).sum())
    tightest = _tightest_radius_m(fine)
    walls = _walls_m(opening)
    strip = next((one for one in STRIPS_M if tightest / one >= CAREFUL_BEND_RATIO), STRIPS_M[-1])
    return Coaming(
        float(np.degrees(slope)), coaming_slope_deg(boat), float(fine[-1, 0]), opening.width_m,
        float(fine[fine[:, 1].argmax(), 0]), _outline_m(fine), girth,
        girth + 2.0 * np.pi * (WALL_M + LIP_M), walls, BELOW_DECK_M,
        tuple(_notches(boat, fine, slope)), _strips(girth, max(walls), strip), tightest,
        tightest / strip, bend_verdict(tightest / strip))


def round_at_m(rim, aft_m):
    """How far round the inside of a Coaming's wall, from the front's centre line, a place lies that
    is so far aft of the opening's front along the boat."""
    half = rim.outline_m[:OUTLINE_COUNT // 2 + 1]
    return float(np.interp(aft_m / np.cos(np.radians(rim.slope_deg)), half[:, 0], along_m(half)))


def under_lip_m(walls_m):
    """What is left between lip and deck line of a wall's heights over the deck line."""
    return tuple(high - LIP_HEIGHT_M for high in walls_m)


def _walls_m(opening):
    """Height of the wall over the deck line, front and back."""
    return tuple(float(rim - deck) for rim, deck in
                 zip(opening.rim_z_m, opening.deck_z_m, strict=True))


def rim_checks(boat):
    """Whether the rim stands high enough over the deck for a spray deck to hold under its lip."""
    room, place = min(zip(under_lip_m(_walls_m(boat.opening)), ("front", "back"), strict=True))
    yield length_check("coaming", place, "room under the coaming's lip", room, "at least", ROOM_M,
                       "for the spray deck's cord; with less a deck may come off, or not go on",
                       hard=False)


def _notches(boat, half, slope):
    """The WallNotches over the ridges' ends and over the arms of the frames beside the opening."""
    along = along_m(half)
    run = np.gradient(half, axis=0)
    outward = np.column_stack([-run[:, 1], run[:, 0]]) / np.hypot(*run.T)[:, None]
    inside = half[:, 0] * np.cos(slope)
    outside = (half + WALL_M * outward)[:, 0] * np.cos(slope)
    near, far = np.minimum(inside, outside), np.maximum(inside, outside)
    ridges = [one for one in boat.design.stringers if one.role == "ridge"]
    for one in ridges:
        if one.end.kind == "coaming":
            yield WallNotch(one.name, 0.0, one.width_m + 2.0 * NOTCH_SPARE_M, BELOW_DECK_M)
    for index, frame in enumerate(boat.design.frames):
        faces = np.sort([0.0, through_m(boat, index)]) + boat.frame_x_m[index]
        low, high = faces - boat.opening.front_x_m
        rows = np.flatnonzero((near <= high) & (far >= low))
        if rows.size and 0.0 < boat.frame_x_m[index] - boat.opening.front_x_m < (
                boat.opening.length_m):
            start, end = along[rows[[0, -1]]] + (-NOTCH_SPARE_M, NOTCH_SPARE_M)
            yield WallNotch(frame.name, 0.5 * float(start + end), float(end - start), BELOW_DECK_M)
    for one in ridges:
        if one.start.kind == "coaming":
            yield WallNotch(one.name, float(along[-1]), one.width_m + 2.0 * NOTCH_SPARE_M,
                            BELOW_DECK_M)


def _half_outline_m(opening, slope):
    """Starboard half in the sloped plane, front to back, points crowded to the ends. (n, 2)."""
    share = 0.5 * (1.0 - np.cos(np.linspace(0.0, np.pi, FINE_COUNT)))
    x = opening.front_x_m + opening.length_m * share
    half = opening.half_width_m(x)
    half[[0, -1]] = 0.0
    return np.column_stack([opening.length_m * share / np.cos(slope), half])


def _outline_m(half):
    """All round, evenly spaced: front, down the starboard side, back, up the port side."""
    along = along_m(half)
    places = np.linspace(0.0, along[-1], OUTLINE_COUNT // 2 + 1)
    side = np.column_stack([np.interp(places, along, column) for column in half.T])
    return np.concatenate([side, side[-2::-1] * (1.0, -1.0)])


def _tightest_radius_m(half):
    """Least radius of circles through three points of the outline, the two ends with it.

    Points are taken a strip's bending length apart, so that no single crowded point counts.
    """
    ring = np.concatenate([half[::-1] * (1.0, -1.0), half[1:], half[-2::-1] * (1.0, -1.0)])
    along = along_m(ring)
    places = np.arange(0.0, along[-1], 0.010)
    points = np.column_stack([np.interp(places, along, column) for column in ring.T])
    one, two, three = points[:-2], points[1:-1], points[2:]
    a, b, c = (np.linalg.norm(p - q, axis=1) for p, q in ((one, two), (two, three), (one, three)))
    (u, v), (s, t) = (two - one).T, (three - one).T
    doubled = np.abs(u * t - v * s)
    return float((a * b * c / np.maximum(2.0 * doubled, 1e-12)).min())


def _strips(girth, wall_height, strip_m):
    """Each strip lies one thickness farther out than the one inside it; all are cut alike, their
    width to a whole millimetre: the same on every paper."""
    over = OVERLAP_SHARE * strip_m + SPARE_M
    wall = girth + 2.0 * np.pi * WALL_M + over
    lip = girth + 2.0 * np.pi * (WALL_M + LIP_M) + over
    return (Strip("coaming wall", round(WALL_M / strip_m), float(wall),
                  round(wall_height + BELOW_DECK_M, 3), strip_m),
            Strip("coaming lip", round(LIP_M / strip_m), float(lip), LIP_HEIGHT_M, strip_m))


def arm_holes(wood, section, holes):
    """(ARM_HOLES, middle) of one hole an arm, midway through its wood up and down, where `wood`
    leaves EDGE_M round it and HOLES_APART_M to the other `holes`; none without an arm."""
    if not section.open_top:
        return ()
    half = float(section.skin_m[-1, 0]) + WALL_M + ARM_OUT_M
    upright = LineString([(half, 0.0), (half, FAR_M)])
    arm = max(line_pieces(wood.intersection(upright)), key=lambda one: one[:, 1].max(),
              default=None)
    if arm is None:  # the opening is held as wide as the frame
        return ()
    spot = Point(half, float(arm[:, 1].mean()))
    fits = wood.boundary.distance(spot) >= EDGE_M + 0.5 * HOLE_M and all(
        spot.distance(Point(other)) >= HOLES_APART_M for _, other in holes)
    return tuple((ARM_HOLES, (sign * spot.x, spot.y)) for sign in (1.0, -1.0)) if fits else ()


def arm_checks(patterns):
    """Whether every arm that the coaming stands on has room for its hole."""
    for one in patterns:
        if one.section.open_top:
            found = sum(name == ARM_HOLES and y > 0.0 for name, (y, _) in one.holes)
            yield PatternCheck(one.name, ARM_HOLES, "hole for the coaming's lashing", found, 1,
                               "at least", "a side", True, "through the arm that it stands on")
