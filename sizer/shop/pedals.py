"""The footbrace's pedals as they are made, and what they leave open round them.

A pedal is a plate of plywood across the boat for the sole. It pushes against a block ahead of it in
the corner with a cheek, which runs on aft beside the shoe on the rail's inner face; two pins behind
the sole hold cheek and rail together: with one it would turn. A strap bolted across both plates
makes them one bar from rail to rail: alone, each would break out of its corner.

A plate is sawn to the boat: down to the bottom, out to the sides under the rail and over it, and so
much off skin and sticks as these need. Its notch is open to the side, so that it comes off the rail
inwards: as high as the cheek where that stands, behind it no higher than the rail needs. What is
left round a plate, in its notch behind the rail too, is too narrow for a heel, or for the toes of a
shoe: a foot that goes in there is held where nobody sees it. Where the keel would hold a plate that
comes off its rail the plate is sawn back, and the strap, which is sawn to the boat as well, closes
that corner. Our drawing and our judgement throughout.
"""

from dataclasses import dataclass

import numpy as np
import shapely
from shapely.affinity import translate
from shapely.geometry import Polygon, box

from sizer.hull.boat import sections_at
from sizer.paddler.legs import FEET_APART_M
from sizer.paddler.room import FOOT_REST_ADJUSTMENT_M
from sizer.shop.boards import corners_of, sticks_on
from sizer.shop.pattern_checks import PatternCheck, length_check
from sizer.shop.said import at_most
from sizer.shop.screws import END_M, corners_m
from sizer.shop.seat_parts import RAIL_HIGH_M
from sizer.shop.shapes import both_sides, largest, thickest_bar_m
from sizer.units import MM_PER_IN, MM_PER_M

CHEEK_M = (0.012, 0.100, 0.060)  # thickness, length, height; our drawing
BLOCK_M = (0.020, 0.040)  # in the corner ahead of plate and cheek: along the boat, across it
THICK_M = 0.012  # of plates and strap; our drawing
# Of screws through the plate into the block; and through the cheek, from its forward lower corner,
# two into the block, clear of those, two into the plate's edge; our drawing
PLATE_SCREWS_M = corners_m(BLOCK_M[1], CHEEK_M[2])
CHEEK_SCREWS_M = (*((0.5 * BLOCK_M[0], share * CHEEK_M[2]) for share in (1.0 / 3.0, 2.0 / 3.0)),
                  *((BLOCK_M[0] + 0.5 * THICK_M, up) for up in (END_M, CHEEK_M[2] - END_M)))
PEDAL_SCREWS = len(PLATE_SCREWS_M) + len(CHEEK_SCREWS_M)
AHEAD_M = THICK_M + BLOCK_M[0]  # of a pedal, of its sole; its cheek and block end there
INNER_M = 0.010  # a plate's inner edge off the centre line: no foot goes between; our drawing
OVER_BALL_M = 0.078  # its upper edge over the balls of the feet, or
OVER_CHEEK_M = 0.025  # over that of its cheek, whichever is higher, at most; our drawing
OFF_SKIN_M, OFF_STICK_M = 0.012, 0.008  # of it, as it is drawn: skin is pressed in; our judgement
COARSE_M = 0.003  # of its outline, which is sawn by hand; our drawing
PLAY_M = 0.002  # of its notch round cheek and rail; our drawing
STRAP_HALF_M = 0.130  # of the strap off the centre line, at most; our drawing
STRAP_CLEAR_M = 0.003  # from its ends to the blocks, at every place; our drawing
BOLT_MM = (6, 35)  # thickness and length of the strap's, through both boards; our drawing
# Through a plate, and a slot's width in the strap, for such a bolt and for one of 1/4 in alike: the
# square neck of either grips in the one, neither binds in the other in wet plywood; our judgement
BOLT_HOLE_M, SLOT_WIDE_M = 0.0065, 0.007
BOLT_M = 0.040  # of the lower one off the centre line; our drawing
BOLT_UP_M = (0.035, 0.040)  # over the plates' lower edges there, under their upper; our drawing
WAY_OUT_M = 0.002  # from a plate to sticks as it comes off its rail; our judgement
SLOT_PLAY_M = 0.002  # at both ends of a bolt's slot in the strap, past where it goes; our drawing
SLOT_LEFT_M = 0.015  # of the strap outside a slot; our judgement
PIN_PAST_M = 0.010  # of a pin, under its head, past cheek and rail for the ring; our drawing
MOST_OPEN_M = 0.025  # thinner than a heel or the toes of a shoe; our judgement
OFF_SAW_M = 0.002  # that a gap opens as it is sawn by hand, so that no such bar goes by; ours
MOST_DRAWN_M = MOST_OPEN_M - OFF_SAW_M
BAR = f"bar {at_most(MOST_OPEN_M)} thick"  # round, to try with what the pedals leave open
BAR_MADE = ("where none so thick is sold, a thicker one planed or turned down to it; never 1 in "
            f"({MM_PER_IN:g} mm), nor anything thicker: it passes gaps that hold a foot")
LEAST_OFF_M = 0.005  # from a plate to skin and sticks: they give; our judgement
FAR_M = 2.0
FINE_M = 0.0005
_ROUND_M = 0.5 * SLOT_WIDE_M + SLOT_PLAY_M  # of a slot round a bolt's middle, at its end


@dataclass(frozen=True)
class Opening:
    """What the pedals leave open at one of the rail's places."""

    sole_m: float  # from the rails' forward ends
    bar_m: float  # thickness of the thickest round bar that goes by a pedal, but over its top
    off_m: float  # least from plates and strap to skin and sticks
    over_m: float  # from the plates' upper edge to the deck's skin at the middle of a foot

    @property
    def safe(self):
        """Whether neither a foot nor the skin comes to harm there."""
        return self.bar_m <= MOST_DRAWN_M and self.off_m >= LEAST_OFF_M


@dataclass(frozen=True, eq=False)
class Pedals:
    """The starboard plate as it stands for this paddler, the other its mirror image, and the strap;
    half-breadths and heights over the baseline."""

    plate_m: np.ndarray  # (n, 2) all round
    strap_m: np.ndarray  # (n, 2) all round
    block_m: np.ndarray  # (4, 2) of the block ahead of the plate, all round
    screws_m: np.ndarray  # (n, 2) middles of those through the plate into that block
    bolts_m: tuple[tuple[float, float], ...]  # middles of a side's two bolts: lower and upper
    openings: tuple[Opening, ...]  # at each of the rail's places
    set_m: float  # of them, this paddler's
    outs_m: tuple[float, float]  # how far in and out a plate goes from here, as rails draw together

    @property
    def size_m(self):
        """Thickness, width and height of a plate."""
        return THICK_M, *(round(one, 3) for one in np.ptp(self.plate_m, axis=0).tolist())

    @property
    def strap_size_m(self):
        """Thickness, length and height of the strap."""
        return THICK_M, *(round(one, 3) for one in np.ptp(self.strap_m, axis=0).tolist())

    @property
    def slots_m(self):
        """The inner and the outer end of each bolt's slot in the strap, off the centre line: as
        far as it goes from the first of the rail's places to the last."""
        least, most = self.outs_m
        return tuple((out + least - _ROUND_M, out + most + _ROUND_M) for out, _ in self.bolts_m)

    @property
    def here(self):
        return next(one for one in self.openings if one.sole_m == self.set_m)

    @property
    def worst(self):
        """(thickness of the thickest bar, least off skin and sticks) at any place of `safe_m`."""
        first, last = self.safe_m or (self.set_m, self.set_m)
        told = [one for one in self.openings if first <= one.sole_m <= last]
        return max(one.bar_m for one in told), min(one.off_m for one in told)

    @property
    def safe_m(self):
        """The first and the last place of those next to each other, this paddler's among them,
        that are safe; None where this paddler's is not."""
        at = self.openings.index(self.here)
        if not self.here.safe:
            return None
        ahead = next((row for row in range(at, 0, -1) if not self.openings[row - 1].safe), 0)
        last = len(self.openings) - 1
        behind = next((row for row in range(at, last) if not self.openings[row + 1].safe), last)
        return self.openings[ahead].sole_m, self.openings[behind].sole_m


@dataclass(frozen=True, eq=False)
class _Stand:
    """The boat across at one place of the pedals, over the thickness of a plate."""

    sole_m: float
    skin: Polygon  # both sides
    sticks: object
    cheek: Polygon  # cheek and rail to starboard
    notch: Polygon  # what is sawn out of the plate round them, open to the side
    block_m: float  # half-breadth of the block's inner edge
    out_m: float  # of cheek and plate from where they are for this paddler
    deck_z_m: float  # of the deck's skin at the middle of a foot


def pedals(boat, rails, start_x_m):
    """The Pedals on FootRails whose forward ends are at x = `start_x_m`."""
    faces = start_x_m + np.add.outer(rails.soles_m, (-THICK_M, 0.0))
    skins = sections_at(boat, faces.ravel())
    stands = [_stand(boat, rails, sole, corners, deck_z) for sole, corners, deck_z in zip(
        rails.soles_m, corners_of(skins).reshape(*faces.shape, -1, 2),
        _decks_z_m(skins)[1::2], strict=True)]
    near = [one for one in stands
            if abs(one.sole_m - rails.set_m) <= FOOT_REST_ADJUSTMENT_M + FINE_M]
    plate = _plate(rails, near)
    half = min(STRAP_HALF_M, min(one.block_m for one in stands) - STRAP_CLEAR_M)
    strap = _strap(near, half, plate.bounds[3])
    outs = tuple(pick(one.out_m for one in stands) for pick in (min, max))
    bolts = ((BOLT_M, _low_m(plate, half, rails) + BOLT_UP_M[0]),
             (half - SLOT_LEFT_M - outs[1] - _ROUND_M, strap.bounds[3] - BOLT_UP_M[1]))
    return Pedals(*(np.asarray(one.exterior.coords)[:-1] for one in (plate, strap)),
                  *_block_m(rails), bolts,
                  tuple(_opening(one, plate, strap, rails) for one in stands), rails.set_m, outs)


def pedal_checks(made):
    """Whether Pedals leave no room for a heel for this paddler, and keep off skin and sticks."""
    here = made.here
    yield PatternCheck("pedals", "under and beside them", "what a foot could get into",
                       here.bar_m * MM_PER_M, MOST_DRAWN_M * MM_PER_M, "at most", "mm", True,
                       "thickness of the thickest round bar that goes by the footbrace's pedals "
                       "there: a heel or a shoe's toes that go in are held")
    yield length_check("pedals", "under and beside them", "pedals clear of skin and sticks",
                       here.off_m, "at least", LEAST_OFF_M,
                       "nearer, they chafe through the skin", hard=False)


def _stand(boat, rails, sole, corners, deck_z):
    """The _Stand of a place, with the skin's corners at a plate's faces, forward and after."""
    skins = [Polygon([*hull, *(hull[::-1] * (-1.0, 1.0))]) for hull in corners]
    turn = np.radians(rails.lean_deg(sole))

    def leaning(near, far, high):
        corners = [(near, 0.0), (far, 0.0), (far, high), (near, high)]
        return Polygon(_leant_m(rails, sole, corners, high))

    rail, both = rails.thick_m, rails.thick_m + CHEEK_M[0]
    return _Stand(
        sole, skins[0].intersection(skins[1]),
        sticks_on(boat, corners),
        leaning(rail, both, CHEEK_M[2]).union(leaning(0.0, rail, RAIL_HIGH_M)),
        leaning(rail, both, CHEEK_M[2] + 2.0 * PLAY_M).union(
            leaning(-FAR_M, rail + PLAY_M, RAIL_HIGH_M + 2.0 * PLAY_M)),
        rails.half_m(sole) - (both + BLOCK_M[1]) * np.cos(turn) - 0.5 * CHEEK_M[2] * np.sin(turn),
        rails.half_m(sole) - rails.half_m(rails.set_m), deck_z)


def _leant_m(rails, sole, spots, high):
    """Half-breadths and heights of spots inward of a rail's outer face and up from the lower edge
    of what is so high there, midway on the rail and leaning as it does."""
    lean = np.radians(rails.lean_deg(sole))
    inward, up = np.array([[-np.cos(lean), np.sin(lean)], [np.sin(lean), np.cos(lean)]])
    spots = np.asarray(spots) - (0.0, 0.5 * high)
    return (rails.half_m(sole), rails.z_m) + spots[:, :1] * inward + spots[:, 1:] * up


def _block_m(rails):
    """The block's corners for this paddler, and the screws through the plate into it."""
    near, wide, high = rails.thick_m + CHEEK_M[0], BLOCK_M[1], CHEEK_M[2]
    corners = (0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high)
    for spots in (corners, PLATE_SCREWS_M):
        yield _leant_m(rails, rails.set_m, np.add(spots, (near, 0.0)), high)


def _decks_z_m(skins):
    """Of the deck of each of some Sections at the middle of a foot."""
    deck = slice(None, skins.sheer - 1, -1)  # from the ridge out
    return [float(np.interp(FEET_APART_M, y, z)) for y, z in zip(
        skins.y_m[:, deck], skins.z_m[:, deck], strict=True)]


def _plate(rails, near):
    """The starboard plate: as far as it may go at each of the places near this paddler's, but for
    what is in its way off the rail."""
    rooms, top = [translate(_room(one), -one.out_m) for one in near], _top_m(rails)
    notch = next(one.notch for one in near if one.out_m == 0.0)
    room = largest(shapely.intersection_all([*rooms, box(INNER_M, -FAR_M, FAR_M, top)]))
    plate = largest(room.difference(_in_the_way(rails, near, room)).simplify(COARSE_M)
                    .buffer(0.0).difference(notch))
    if not plate.is_empty:
        return plate
    return box(INNER_M, rails.z_m - 0.5 * RAIL_HIGH_M, 2.0 * INNER_M, top)  # its check fails


def _top_m(rails):
    """Height of a plate's upper edge where nothing is in its way."""
    return max(rails.ball_z_m + OVER_BALL_M, rails.z_m + 0.5 * CHEEK_M[2] + OVER_CHEEK_M)


def _room(stand):
    """Where a plate may be at one place."""
    return stand.skin.buffer(-OFF_SKIN_M, join_style="mitre").difference(
        stand.sticks.buffer(OFF_STICK_M, join_style="mitre"))


def _in_the_way(rails, near, room):
    """What sticks go through of a starboard plate that is drawn off its rail, inwards and up as its
    notch leans, until no part of it is behind the rail."""
    lean = np.radians(rails.lean_deg(rails.set_m))
    way = np.array([np.cos(lean), -np.sin(lean)])  # of the boat, seen from the plate
    behind = (np.asarray(room.exterior.coords) - (rails.half_m(rails.set_m), rails.z_m)) @ way
    far = (float(behind.max()) + rails.thick_m) * way
    sticks = [translate(piece, -one.out_m) for one in near
              for piece in getattr(one.sticks, "geoms", [one.sticks])]
    swept = [shapely.union_all([one, translate(one, *far)]).convex_hull for one in sticks]
    return shapely.union_all(swept).buffer(WAY_OUT_M, join_style="mitre")


def _strap(near, half_m, top_m):
    """The strap: as far down as it may go at each of those places."""
    rooms = [_room(one) for one in near]
    side = shapely.intersection_all([*rooms, box(0.0, -FAR_M, half_m, top_m)])
    strap = largest(both_sides(largest(side).simplify(COARSE_M).buffer(0.0)))
    return strap if strap.area > 0.0 else box(-half_m, top_m - BOLT_UP_M[1], half_m, top_m)


def _low_m(plate, half_m, rails):
    """Height over which a plate is whole ahead of the strap."""
    middle = plate.intersection(box(0.0, -FAR_M, half_m, rails.ball_z_m))
    heights = shapely.get_coordinates(middle)[:, 1]
    return float(max(heights[heights < rails.ball_z_m], default=rails.ball_z_m))


def _opening(stand, plate, strap, rails):
    """The Opening at one place, of a plate that has gone out or in with its rail."""
    wood = both_sides(translate(plate, stand.out_m)).union(strap)
    top = _top_m(rails)
    free = stand.skin.difference(stand.sticks).intersection(box(-FAR_M, -FAR_M, FAR_M, top))
    free = free.difference(wood).difference(both_sides(stand.cheek))
    thick = thickest_bar_m([one for one in getattr(free, "geoms", [free])
                            if one.area > FINE_M**2], FINE_M)
    inside = wood.difference(stand.skin).is_empty and not wood.intersects(stand.sticks)
    off = min(wood.distance(stand.skin.exterior), wood.distance(stand.sticks)) if inside else 0.0
    return Opening(stand.sole_m, thick, float(off), stand.deck_z_m - plate.bounds[3])
