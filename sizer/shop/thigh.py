"""The thigh braces: a board a side under the deck, from the gunwale to the coaming's wall, with a
post of hard wood between board and wall and a pad under it that stops short of the thigh.

A thigh pushes upward: the post stands under the wall's lower edge, wood on wood, on the board's
after inner corner, which is sawn along the wall; the cord round both only keeps them together. The
pad is no longer than lies between what holds the board down, post and gunwale's lashings: farther
forward a push would tip the board.

They stand outside the coaming's opening as seen from above, so that nothing of them lies in the
legs' way up and out, and behind the knees, between two frames. Our drawing and our judgement: prove
them by getting out of the dry frame before anything is glued, and leave them out where in doubt.
"""

from dataclasses import dataclass

import numpy as np
from shapely.geometry import MultiPoint, Point

from sizer.drawing.told import size, told
from sizer.hull.boat import sections_at
from sizer.shop.coaming import (
    BELOW_DECK_M,
    RIM_HOLE_UNDER_M,
    RIM_HOLES_APART_M,
    WALL_M,
    coaming,
    round_at_m,
)
from sizer.shop.lashing import HOLE_SIZE
from sizer.shop.leg_room import legs_in
from sizer.shop.outfit import TIE_ROOM_M, backband, gunwale_inside_m
from sizer.shop.said import both
from sizer.shop.stations import setting_up

LONG_M = 0.100  # of a board, fore and aft; our drawing
THICK_M = 0.012  # plywood, from the frames' sheets; our drawing
AT_GUNWALE, AT_WALL = 2, 1  # lashings of a board: on three it cannot rock; our judgement
LASHINGS = AT_GUNWALE + AT_WALL
FROM_END_M = 0.015  # of the boards' holes from their ends; our drawing
FROM_EDGE_M = 0.015  # and of the gunwale's from the edge there; our drawing
POST_LONG_M = 0.040  # of a post and the edge sawn for it, along the boat; our drawing
POST_WIDE_M = 0.012  # of a post, square to the wall; our drawing
LEAST_POST_M = 0.012  # least height of a post, that its screws end in it; our drawing
MOST_SLOT_M = 0.025  # most left open ahead of a post: no hand goes in; our judgement
STOP_WIDE_M = 0.020  # of the foam that stops it, across the boat; our drawing
LEAST_BORNE_M = 0.005  # least of the wall's thickness that stands on a post; our judgement
BESIDE_POST_M = 0.005  # from a post to the holes of the wall's lashing; our drawing
WALL_HOLES_APART_M = 0.020  # of the two that the wall's lashing goes through; our drawing
NICK_M = 0.005  # into the inner edge at each of them, for the cord; our drawing
OVER_THIGH_M = 0.015  # from the thigh to the pad: nothing presses; our judgement
OVERLAP_M = 0.020  # least that a board reaches in over the thigh, to be of use; our judgement
MOST_OVERLAP_M = 0.045  # most, so that it holds nobody; our judgement
UNDER_DECK_M = 0.006  # from the deck's line to the board, so that no skin touches; our judgement
FRAME_CLEAR_M = 0.005  # from a board to a frame's plywood; our judgement
FROM_HIP_SHARE = 0.42  # of the thigh, from the buttocks: no brace nearer the hips; our judgement
PAD_LONG_M = 0.055  # of a pad, forward from the board's after end; our drawing
PUSH_IN_M = 0.005  # of a push's line inside what holds the board down; our judgement
PAD_M = (0.005, 0.100)  # thickness of a pad: thinner is left out, thicker is no pad; our judgement
STEP_M = 0.005  # of the places tried
PAD_WORDS = f"the after {both(PAD_LONG_M)} of the inner half"  # where a pad is glued


@dataclass(frozen=True)
class ThighBraces:
    """Where the boards stand, port and starboard alike; heights over the baseline."""

    fore_x_m: float  # of the board's two ends, from the boat's foremost point
    aft_x_m: float
    inner_m: float  # half-breadth of the inner edge, from the fore end to the post
    after_m: float  # and at the after end: sawn straight between, along the wall's inside
    outer_m: float  # at the gunwale's inner face
    inner_z_m: float  # of its underside at the inner edge and at the gunwale
    outer_z_m: float
    post_m: tuple[float, float]  # height of the post's inner face, at its fore and after end
    borne_m: float  # least of the wall's thickness that stands on the post
    slot_m: float  # most that is left open over the board ahead of the post
    pad_m: float  # thickness of the pad, square to the board
    overlap_m: float  # that the board reaches in over the thigh's outer edge

    @property
    def slope(self):
        """Length along the board over half-breadth."""
        return float(np.hypot(1.0, (self.inner_z_m - self.outer_z_m) / (self.outer_m
                                                                        - self.inner_m)))

    @property
    def wide_m(self):
        """Of the board, across the boat along its slope."""
        return (self.outer_m - self.inner_m) * self.slope

    @property
    def flat_m(self):
        """Corners of the board as sawn, (5, 2): aft of its fore end and out from its inner edge,
        along that edge first, then along the one that the post stands on."""
        corner = (self.after_m - self.inner_m) * self.slope
        return np.array([(0.0, 0.0), (LONG_M - POST_LONG_M, 0.0), (LONG_M, corner),
                         (LONG_M, self.wide_m), (0.0, self.wide_m)])

    @property
    def post_flat_m(self):
        """Corners of the post's foot on the same board, (4, 2)."""
        fore, aft = self.flat_m[1:3]
        return np.array([fore, aft, aft + POST_WIDE_M * self._off, fore + POST_WIDE_M * self._off])

    @property
    def screws_m(self):
        """Of the post's screw on that board, up into it: between the nicks, clear of its ends."""
        return self.post_flat_m.mean(axis=0, keepdims=True)

    @property
    def post_long_m(self):
        """Of a post, along the board's edge."""
        return float(np.hypot(*np.subtract(*self.flat_m[1:3])))

    @property
    def post_size_m(self):
        """Length, width and height of a post, before its ends are bevelled."""
        return round(self.post_long_m, 3), POST_WIDE_M, round(max(self.post_m), 3)

    @property
    def foam_m(self):
        """Thickness, length and width of the rectangle round a pad."""
        return round(self.pad_m, 3), PAD_LONG_M, round(0.5 * self.wide_m, 3)

    @property
    def stop_m(self):
        """Thickness, length and width of the foam ahead of a post, to be cut to what is open."""
        return round(self.slot_m, 3), LONG_M - POST_LONG_M, STOP_WIDE_M

    @property
    def pad_flat_m(self):
        """Corners of the pad under the same board's inner half, (5, 2)."""
        fore, aft = self.flat_m[1:3]
        start, half = LONG_M - PAD_LONG_M, 0.5 * self.wide_m
        return np.array([(start, 0.0), fore, aft, (LONG_M, half), (start, half)])

    @property
    def pushes_m(self):
        """Where a thigh's push comes up, (2, 2): midway of what lies over the thigh of the pad, and
        of the whole pad, which a turned knee bears on."""
        along = LONG_M - 0.5 * PAD_LONG_M
        return np.array([(along, 0.5 * self.overlap_m * self.slope), (along, 0.25 * self.wide_m)])

    @property
    def inside_m(self):
        """How far the nearest of the pushes lies inside what holds the board down, the post's foot
        and the gunwale's lashings; negative outside, where the board tips."""
        holds = MultiPoint([*self.post_flat_m.tolist(), *self.holes_m[2:]]).convex_hull
        return min(holds.exterior.distance(one) * (1.0 if holds.contains(one) else -1.0)
                   for one in map(Point, self.pushes_m.tolist()))

    @property
    def _off(self):
        """One unit square from the post's edge into the board."""
        along, out = np.subtract(self.flat_m[2], self.flat_m[1]) / self.post_long_m
        return np.array([-out, along])

    @property
    def nicks_m(self):
        """Where the wall's lashing goes round the edge that the post stands on, (2, 2)."""
        middle, half = self.flat_m[1:3].mean(axis=0), 0.5 * WALL_HOLES_APART_M
        along = np.array([self._off[1], -self._off[0]])
        return np.array([middle - half * along, middle + half * along])

    @property
    def holes_m(self):
        """Of the board's holes, as `flat_m`: those of the wall's lashing, each square in from its
        nick beside the post, then one for each of the gunwale's."""
        beside = self.nicks_m + (POST_WIDE_M + BESIDE_POST_M) * self._off
        out = self.wide_m - FROM_EDGE_M
        return (*(tuple(one) for one in beside.tolist()), (LONG_M - FROM_END_M, out),
                (FROM_END_M, out))

    @property
    def lashed_x_m(self):
        """Where along the boat each of the gunwale's lashings is."""
        return tuple(self.fore_x_m + along for along, _ in self.holes_m[-AT_GUNWALE:])

    @property
    def wall_middle_m(self):
        """x midway between the wall's two holes."""
        return self.aft_x_m - 0.5 * POST_LONG_M

    def edge_m(self, x_m):
        """Half-breadth of the inner edge there, and height of the underside."""
        half = float(np.interp(x_m, (self.aft_x_m - POST_LONG_M, self.aft_x_m),
                               (self.inner_m, self.after_m)))
        return half, float(np.interp(half, (self.inner_m, self.outer_m),
                                     (self.inner_z_m, self.outer_z_m)))


def thigh_braces(assessed):
    """The ThighBraces of an Assessed boat; None where they find no place."""
    boat, legs = assessed.boat, legs_in(assessed)
    nearest = FROM_HIP_SHARE * float(legs.ahead_m[3])
    aft = boat.seat_x_m - np.arange(nearest, float(legs.ahead_m[3]), STEP_M)
    stations = setting_up(boat).stations
    shut, rim = _shut_m(boat, stations), coaming(boat)
    found = (_at(boat, legs, float(x)) for x in aft if _free(boat, rim, shut, float(x)))
    return next((one for one in found if one), None)


def _shut_m(boat, stations):
    """From where to where along the boat no board may lie: frames, and the backband's ties."""
    tied = backband(boat).frame
    return [(one.faces_x_m[0] - (TIE_ROOM_M if one.name == tied else FRAME_CLEAR_M),
             one.faces_x_m[1] + FRAME_CLEAR_M) for one in stations]


def _free(boat, rim, shut, aft):
    """Whether boards that end at x = `aft` lie in the opening's length clear of what is `shut`, and
    the wall's holes for them clear of those beside the notches of its Coaming."""
    fore = aft - LONG_M
    if fore < boat.opening.front_x_m or any(low < aft and fore < high for low, high in shut):
        return False
    middle = round_at_m(rim, aft - 0.5 * POST_LONG_M - boat.opening.front_x_m)
    near = 0.5 * WALL_HOLES_APART_M + RIM_HOLES_APART_M
    return all(abs(hole - middle) >= near for notch in rim.notches for hole in notch.holes_m)


def _at(boat, legs, aft):
    """The braces whose boards end at x = `aft`, None where they cannot."""
    fore, opening = aft - LONG_M, boat.opening
    middle, ends = 0.5 * (fore + aft), (aft - POST_LONG_M, aft)
    inner, after, bulge = _beside_wall_m(opening, *ends)
    apart, half = (float(np.interp(boat.seat_x_m - middle, legs.ahead_m, values))
                   for values in (legs.apart_m, legs.half_width_m))
    over = apart + half - inner
    if not OVERLAP_M <= over <= MOST_OVERLAP_M or WALL_M - bulge < LEAST_BORNE_M:
        return None
    outer, sheer_z = gunwale_inside_m(boat, middle)
    low = [_wall_low_m(opening, x) for x in ends]
    out_z = sheer_z - UNDER_DECK_M
    top = min(*(_deck_z_m(boat, (fore, middle, ends[0]), [inner] * 3) - UNDER_DECK_M),
              low[0] - LEAST_POST_M)
    steep = (top - out_z) / (outer - inner)
    down = THICK_M * float(np.hypot(1.0, steep))
    highest = np.interp(boat.seat_x_m - np.linspace(fore, aft, 21), legs.ahead_m, legs.top_m).max()
    under = top - down - OVER_THIGH_M - (boat.seat_z_m + float(highest))
    pad = under / float(np.hypot(1.0, steep))
    posts = low[0] - top, low[1] - top + steep * (after - inner)
    if (not PAD_M[0] <= pad <= PAD_M[1] or min(posts) < LEAST_POST_M
            or not _under_cloth(boat, ends, (inner, after), low)
            or (slot := _slot_m(boat, (fore, ends[0]), inner, top)) > MOST_SLOT_M):
        return None
    found = ThighBraces(fore, aft, inner, after, outer, float(top - down), float(out_z - down),
                        posts, WALL_M - bulge, slot, float(pad), over)
    return found if found.inside_m >= PUSH_IN_M else None


def _beside_wall_m(opening, start, end):
    """Half-breadths at two places of the straight line along the wall's inside that nowhere stands
    into the opening between them, and how far the wall's inside is off it at most."""
    x = np.linspace(start, end, 21)
    inside = opening.half_width_m(x)
    bulge = float(np.max(inside - np.interp(x, (start, end), inside[[0, -1]])))
    return float(inside[0]) + bulge, float(inside[-1]) + bulge, bulge


def _under_cloth(boat, places, edges, low):
    """Whether the outer upper corners of a post on a straight edge stay clear of the deck."""
    across = POST_WIDE_M * float(np.hypot(1.0, (edges[1] - edges[0]) / POST_LONG_M))
    deck = _deck_z_m(boat, places, np.add(edges, across))
    return bool((deck - low >= UNDER_DECK_M).all())


def _slot_m(boat, places, inner, top):
    """The thickest that goes in over a board's inner edge between two places: under the wall's
    lower outer corner, then under the deck's cloth."""
    opening, x = boat.opening, np.linspace(*places, 13)
    beside = np.maximum(inner - (opening.half_width_m(x) + WALL_M), 0.0)
    under = np.hypot(beside, _wall_low_m(opening, x) - top)
    return float(np.minimum(under, _deck_z_m(boat, x, [inner] * len(x)) - top).max())


def _wall_low_m(opening, x_m):
    """Height of the wall's lower edge there."""
    return opening.deck_height_m(x_m) - BELOW_DECK_M


def _deck_z_m(boat, x_m, half_m):
    """Height of the deck's cloth at some rising places, (n,), and at a half-breadth at each:
    straight from the gunwale's upper corner to the coaming."""
    opening, skin = boat.opening, sections_at(boat, np.array(x_m))
    edges = zip(opening.half_width_m(np.array(x_m)), skin.y_m[:, skin.sheer], strict=True)
    heights = zip(opening.deck_height_m(np.array(x_m)), skin.z_m[:, skin.sheer], strict=True)
    return np.array([np.interp(*one) for one in zip(half_m, edges, heights, strict=True)])


def wall_holes_words(braces, rim, opening):
    """Where the Coaming's wall is bored for ThighBraces, on both sides."""
    middle = round_at_m(rim, braces.wall_middle_m - opening.front_x_m)
    return told("two holes of {} a side, {} under the deck line, {} apart, midway between them {} "
                "round the wall's inside from the front's centre line", HOLE_SIZE,
                size(RIM_HOLE_UNDER_M), size(WALL_HOLES_APART_M), both(middle))
