"""The footbrace's rails as they are made: one a side with a row of holes, for `sizer.shop.pedals`.

The rails lie flat on the inner edges of the two frames' openings and lean as these do; at each
frame two lashings, one inside the other, hold a rail through holes in the plywood, and a stop on
its outer face stands against the after frame's after face, so that no push of the feet moves it
forward. The lashings lie in grooves across the rails' inner faces, so that a pedal goes past them.

Frames and base leave a row of places; a foot may be held only where the pedals, sawn for this
paddler's, leave no gap that takes it. Only those places are bored and told.
"""

from dataclasses import dataclass, replace
from itertools import product
from math import dist

import numpy as np
import shapely
from shapely.geometry import LineString
from shapely.ops import unary_union

from sizer.hull.seat_bears import SURE_TO_BEAR
from sizer.paddler.room import FOOT_REST_ADJUSTMENT_M
from sizer.shop.lashing import EDGE_M, HOLE_M, HOLES_APART_M
from sizer.shop.leg_room import heels_z_m
from sizer.shop.outfit import GROOVE_M, PINS_AFT_M, RAIL_OVER_M, RAIL_PAST_M, footbrace
from sizer.shop.pattern_checks import PatternCheck
from sizer.shop.pedals import CHEEK_M, OFF_STICK_M, PIN_PAST_M, PLAY_M
from sizer.shop.rail_bears import pins_ahead_m, rail_bears_ratio, stout_enough_m
from sizer.shop.said import listed
from sizer.shop.screws import staggered_m
from sizer.shop.seat_parts import HARD_WOOD, RAIL_HIGH_M, RAIL_THICKS_M

RAIL = "footbrace rail"  # what its holes in the frames are for
STOP_M = (0.012, 0.040, RAIL_HIGH_M)  # of a rail's stop: thickness, length, height; our drawing
STOP_SCREWS_M = staggered_m(*STOP_M[1:], 3)  # along it, up; three: our drawing
LASHINGS_AT = 2  # of a rail at a frame, each through a hole over it and one under it
RAIL_LASHINGS = 4 * LASHINGS_AT
TIES_UP_M = (0.021, 0.024, 0.027, 0.031, 0.035, 0.040)  # of their holes over and under the rail's
TIES_OUT_M = (0.010, 0.008, 0.012)  # middle and behind the opening's edge, in order; our drawing
LEVEL_STEP_M = 0.002  # of heights tried for the rail, from the balls of the feet up
HIGHEST_M = 0.040  # over them; our judgement
MOST_WIND_DEG = 5.0  # of a rail from frame to frame: ash gives that much; our judgement
BEHIND_M = 0.060  # of the boat outside a rail, more than up to the skin; our judgement
TIP_M = 0.008  # of a plate between its notch and what a stick needs, at least; our judgement
BALL_SHARE = 0.55  # of the standing foot's height, where its ball is; our judgement
FAR_M = 2.0  # beyond any side


@dataclass(frozen=True)
class FootRails:
    """One rail, the other its mirror image; heights over the baseline."""

    fore: str  # the frames that it is lashed to
    aft: str
    long_m: float
    z_m: float  # of its middle
    ball_z_m: float  # of the balls of the feet
    fore_half_m: float  # half-breadth of its outer face's middle at the two frames
    aft_half_m: float
    fore_lean_deg: float  # of it there: its upper edge outward
    aft_lean_deg: float
    holes_m: tuple[float, ...]  # middles, from its forward end
    soles_m: tuple[float, ...]  # where the pedal's after face can stand, from there too
    set_m: float  # where it stands for this paddler, one of them
    grooves_m: tuple[tuple[float, float], ...]  # across its inner face, from there too
    thick_m: float  # as stout as this paddler's push wants, or the stoutest
    bears: float  # its strength over the stress in it as this paddler pushes with all the weight

    @property
    def size_m(self):
        """Thickness and height of a rail."""
        return self.thick_m, RAIL_HIGH_M

    @property
    def pin_long_m(self):
        """Of a pedal's pins, under their heads."""
        return self.thick_m + CHEEK_M[0] + PIN_PAST_M

    def lean_deg(self, sole_m):
        """Of it where a pedal stands."""
        return self._there(sole_m, self.fore_lean_deg, self.aft_lean_deg)

    def half_m(self, sole_m):
        """Half-breadth of its outer face's middle there."""
        return self._there(sole_m, self.fore_half_m, self.aft_half_m)

    @property
    def bevel_deg(self):
        """How far from square a cheek stands to a plate across the boat, where a pedal is for this
        paddler: a rail leans and goes outward on its way aft."""
        (fore, aft), lean = self._faces_m, np.radians(self.lean_deg(self.set_m))
        out = (self.aft_half_m - self.fore_half_m) / (aft - fore)
        square = np.array([out * np.cos(lean), -np.cos(lean), np.sin(lean)])
        return float(np.degrees(np.arcsin(square[0] / np.linalg.norm(square))))

    @property
    def _faces_m(self):
        """The frames' after faces, from its forward end."""
        return self.grooves_m[1][0], self.grooves_m[3][0]

    def _there(self, sole_m, fore, aft):
        return float(np.interp(sole_m, self._faces_m, (fore, aft)))


def foot_rails(assessed, patterns):
    """The FootRails of an Assessed boat among its FramePatterns."""
    boat, brace = assessed.boat, footbrace(assessed)
    frames = {one.name: one for one in patterns}
    floor = heels_z_m(boat, boat.seat_x_m - brace.set_m)
    ball = floor + BALL_SHARE * assessed.room.foot_height_m
    ends = [frames[name] for name in (brace.fore_frame, brace.aft_frame)]
    high = _level_m(ends, ball)
    halves = [float(_half_m(one, high)) for one in ends]
    fore, after = (one.thickness_m for one in ends)
    shut = ((RAIL_OVER_M, RAIL_OVER_M + fore),  # by the frames' plywood
            (brace.rail_m - RAIL_PAST_M - after, brace.rail_m - RAIL_PAST_M))
    def bears(thick_m):
        near = [sole for sole in brace.soles_m
                if abs(sole - brace.sole_m) <= FOOT_REST_ADJUSTMENT_M]
        return rail_bears_ratio(
            HARD_WOOD, (thick_m, RAIL_HIGH_M), (CHEEK_M[0], STOP_M[0]), high - ball,
            pins_ahead_m(near, shut[0][1]), shut[1][0] - shut[0][1],
            assessed.person.body.weight_kg)

    thick = stout_enough_m(RAIL_THICKS_M, bears)
    return FootRails(
        brace.fore_frame, brace.aft_frame, brace.rail_m, high, ball, *halves,
        *(float(_lean_deg(one, high)) for one in ends), brace.holes_m, brace.soles_m, brace.sole_m,
        tuple(groove for face, back in shut
              for groove in ((face - GROOVE_M[0], face), (back, back + GROOVE_M[0]))),
        thick, bears(thick))


def bored(patterns, rails):
    """FramePatterns with the holes for the lashings of FootRails, port and starboard."""
    return tuple(replace(one, holes=(*one.holes, *(
        (RAIL, (sign * y, z)) for y, z in rail_ties(one, rails.z_m) for sign in (1.0, -1.0))))
        if one.name in (rails.fore, rails.aft) else one for one in patterns)


def rail_checks(patterns, rails):
    """Whether the rails' two frames leave room for the holes of both lashings, and whether a rail
    bears its paddler's feet."""
    for one in patterns:
        if one.name in (rails.fore, rails.aft):
            found = sum(name == RAIL and y > 0.0 for name, (y, _) in one.holes)
            yield PatternCheck(one.name, RAIL, "holes for the footbrace rail", found,
                               2 * LASHINGS_AT, "at least", "a side", True,
                               "over and under the rail, two each")
    yield PatternCheck("footbrace rails", "between their frames", "strength over the feet's push",
                       rails.bears, SURE_TO_BEAR, "at least", "times", False,
                       "wet wood, this paddler's whole weight pushed on one rail")


def rail_ties(pattern, z_m):
    """Middles of the holes to starboard, two over the rail and two under it where the plywood
    leaves EDGE_M round them and HOLES_APART_M from every other hole."""
    lean = np.radians(_lean_deg(pattern, z_m))
    up, out = np.array([np.sin(lean), np.cos(lean)]), np.array([np.cos(lean), -np.sin(lean)])
    middle, found = np.array([_half_m(pattern, z_m), z_m]), []
    taken, ways = [at for _, at in pattern.holes], np.array([*product(TIES_UP_M, TIES_OUT_M)])
    for sign in (1.0, -1.0):
        spots = middle + sign * ways[:, :1] * up + ways[:, 1:] * out
        at = shapely.points(spots)
        free = shapely.contains(pattern.wood, at) & (shapely.distance(
            pattern.wood.boundary, at) >= EDGE_M + 0.5 * HOLE_M - 1e-9)
        count = 0
        for spot in map(tuple, spots[free].tolist()):
            if count < LASHINGS_AT and all(dist(spot, one) >= HOLES_APART_M for one in taken):
                count += 1
                found.append(spot)
                taken.append(spot)
    return tuple(found)


def _level_m(ends, ball_m):
    """The least height from the balls of the feet up at which the rail winds little from frame to
    frame and both leave room for every hole, clear of sticks behind it where one is so; where none
    does, that where it winds least."""
    levels = np.arange(ball_m, ball_m + HIGHEST_M, LEVEL_STEP_M).tolist()
    winds = np.abs(np.diff([_lean_deg(one, levels) for one in ends], axis=0))[0].tolist()
    least = None
    for level, wind in zip(levels, winds, strict=True):
        if wind <= MOST_WIND_DEG and all(
                len(rail_ties(one, level)) == 2 * LASHINGS_AT for one in ends):
            if all(_behind_is_clear(one, level) for one in ends):
                return level
            least = level if least is None else least
    return levels[int(np.argmin(winds))] if least is None else least


def _behind_is_clear(pattern, z_m):
    """Whether no stick behind a rail cuts a pedal's plate back beside its notch: open there wider
    than the notch, it would let a foot in."""
    lean, at = np.radians(_lean_deg(pattern, z_m)), np.array([_half_m(pattern, z_m), z_m])
    notch = LineString([at, at + BEHIND_M * np.array([np.cos(lean), -np.sin(lean)])])
    return notch.distance(unary_union([one.stock() for one in pattern.section.notches])) >= (
        0.5 * RAIL_HIGH_M + PLAY_M + OFF_STICK_M + TIP_M)


def _lean_deg(pattern, z):
    """How far a rail lies back that touches the opening with both edges of its outer face, its
    middle at a height or at some, (n,)."""
    half = 0.5 * RAIL_HIGH_M
    low, high = (_half_m(pattern, np.add(z, up)) for up in (-half, half))
    return np.degrees(np.arctan2(high - low, RAIL_HIGH_M))


def _half_m(pattern, z):
    """Half-breadth of a frame's opening at a height or some, (n,); of the skin without one."""
    ends = np.stack(np.broadcast_arrays((0.0, FAR_M), np.expand_dims(z, -1)), axis=-1)
    inside = pattern.opening if pattern.opening is not None else pattern.section.outline()
    return np.nan_to_num(shapely.bounds(shapely.intersection(shapely.linestrings(ends), inside))
                         [..., 2])


def offered(seat, rails, made):
    """(SeatBuilt, FootRails, Pedals) with the places next to this paddler's that are safe, this
    paddler's alone where it is not: its check fails then."""
    first, last = made.safe_m or (made.set_m, made.set_m)
    soles = tuple(one for one in rails.soles_m if first <= one <= last)
    brace, outs = seat.footbrace, [rails.half_m(one) - rails.half_m(rails.set_m) for one in soles]
    brace = replace(brace, soles_m=soles, nearest_m=brace.set_m + rails.set_m - soles[-1],
                    farthest_m=brace.set_m + rails.set_m - soles[0])
    return (replace(seat, footbrace=brace),
            replace(rails, soles_m=soles, holes_m=brace.holes_m),
            replace(made, outs_m=(min(outs), max(outs)), openings=tuple(
                one for one in made.openings if first <= one.sole_m <= last)))


def pinned(rails, sole_m):
    """Numbers of the holes that a pedal's pins go into at a place, counted from the bow."""
    return tuple(1 + min(range(len(rails.holes_m)),
                         key=lambda row: abs(rails.holes_m[row] - sole_m - aft))
                 for aft in PINS_AFT_M)


def places_words(rails):
    """Which holes of FootRails are whose, for who builds and who owns the boat."""
    at, *others = (listed([str(one) for one in pinned(rails, sole)]) for sole in (
        rails.set_m, *(one for one in rails.soles_m if one != rails.set_m)))
    allowed = f"; {' or '.join(others)} are allowed too" if others else ""
    return (f"Each rail has {len(rails.holes_m)} holes, counted from the bow: this paddler's pins "
            f"are in {at}{allowed}, both pedals alike. No other hole is bored: elsewhere a gap "
            "beside these pedals may hold a foot. Another leg, another paddler: have the boat "
            "fitted again")
