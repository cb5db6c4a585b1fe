"""Lashing holes beside the notches, and the mortises of a cockpit frame."""

from itertools import product
from math import dist

import numpy as np
from shapely import prepare
from shapely.affinity import rotate, scale, translate
from shapely.geometry import Point, box
from shapely.ops import unary_union

from sizer.hull.inside import panel_widths_m, side_middle_m
from sizer.shop.notches import frame_section, shared
from sizer.shop.said import both
from sizer.shop.trade_sizes import bit_text

HOLE_M = 0.0032  # 1/8 in; common practice, no source
COUNTERSINK_M = 0.006  # across the countersink's rim: light; common practice, figure our judgement
HOLE_SIZE = bit_text(HOLE_M)
HOLE_WORDS = (f"Lashing holes {HOLE_SIZE}, lightly countersunk on both faces "
              f"to {both(COUNTERSINK_M)}")
TURNS = 3  # of a lashing; common practice, no source
STRANDS = TURNS + 1  # in each of its holes: the ends hang out of one and are tied behind the other
HANGS_M, ENDS_M = 0.150, 0.010  # of cord out of the first hole, past the knot; our judgement
CORD_MM = (1.0, 1.2)  # thickness, from and to: STRANDS of it go through HOLE_M; our judgement
EDGE_M = 0.005  # least plywood between a hole's rim and any edge; our judgement
# The same where there is room for it, so that EDGE_M is left when a router's relief has bitten into
# a corner and a countersink into the hole's rim; our judgement
AMPLE_EDGE_M = 0.008
HOLES_APART_M = 0.010  # least between the middles of two holes; our judgement
BESIDE_M = (0.009, 0.011, 0.013, 0.016)  # middle of a hole beside the notch's wall, tried in order
DEEP_SHARE = (0.65, 0.85, 0.5, 1.1, 1.35)  # of the notch's depth, tried in order
UNDER_M = (0.008, 0.010)  # middle of a hole behind the floor, where none fits beside it
# Of the spacer's tenon, up the frame's side: the first that leaves wood to the sticks; our drawing
MORTISE_LENGTHS_M = (0.030, 0.026, 0.022, 0.018, 0.013)
MORTISE_SHIFTS_M = (0.0, 0.003, -0.003, 0.006, -0.006, 0.009)  # up the side from midway, in order
MORTISE_WEB_M = 0.0125  # of plywood from a mortise to a stick; our judgement
MORTISE_SPARE_M = 0.0003  # over the plywood's thickness; our judgement


def mortises(section, kind, thickness_m):
    """Slots for the tenons of the spacers between cockpit frames, one a side, as polygons.

    Each lies along the skin of the frame's side, midway between the highest chine and the gunwale
    and midway through the plywood there, which is wider than that of the floor.
    """
    if kind != "cockpit":
        return []
    gunwale = section.notches[section.sheer]
    below = section.notches[section.sheer - 1]
    upper = np.asarray(gunwale.at(gunwale.low_m, 0.0))
    lower = np.asarray(below.at(below.high_m, 0.0))
    skin, deep = np.asarray(gunwale.corner_m), np.asarray(gunwale.inward)
    along = np.asarray(gunwale.along)
    middle = skin + along * ((0.5 * (upper + lower) - skin) @ along)
    width = panel_widths_m(kind, section.skin_m, section.sheer)[section.sheer - 1]
    middle = middle + deep * side_middle_m(width)
    sticks = unary_union([notch.room() for notch in section.notches])

    def tried():
        return (_mortise(middle + shift * along, along, thickness_m, long)
                for long, shift in product(MORTISE_LENGTHS_M, MORTISE_SHIFTS_M))

    slot = next((one for one in tried() if one.distance(sticks) >= MORTISE_WEB_M),
                None) or max(tried(), key=lambda one: one.distance(sticks))
    return [slot, scale(slot, xfact=-1.0, origin=(0.0, 0.0))]


def _mortise(middle, along, thickness_m, long_m):
    wide = (thickness_m + MORTISE_SPARE_M) / 2.0
    slot = rotate(box(-wide, -long_m / 2.0, wide, long_m / 2.0),
                  np.degrees(np.arctan2(along[1], along[0])) - 90.0, origin=(0.0, 0.0))
    return translate(slot, *middle)


def lashed_together(notches):
    """The notches in tuples that one lashing takes: those of a pocket together, since no cord goes
    through between their sticks; any other by itself."""
    groups = []
    pairs = {(one.stringer, other.stringer) for one, other in shared(notches)}
    for notch in notches:
        if groups and (groups[-1][-1].stringer, notch.stringer) in pairs:
            groups[-1].append(notch)
        else:
            groups.append([notch])
    return tuple(map(tuple, groups))


def lashings_at(boat, index):
    """(names of the sticks, how many lashings take them) at one frame of a boat: one to port and
    one to starboard, one alone where a stick of them lies on the centre line."""
    return tuple((tuple(one.stringer for one in group), 1 if any(
        one.central for one in group) else 2)
        for group in lashed_together(frame_section(boat, index).notches))


def lashing_holes(wood, notches):
    """Middles of the lashing holes: one to each side of all that a lashing takes, where the wood
    allows, and no hole for two lashings.

    Where a side has no room, the hole goes behind the notch's floor. Returns a tuple of
    (stringer, (y, z)) by the stick it is beside, the same on both sides of the boat; a lashing may
    have fewer than two.
    """
    holes, edge = [], wood.boundary
    prepare(wood)
    for group in lashed_together(notches):
        for notch, upper in _sides(group):
            place = next((spot for spot in _spots(notch, upper)
                          if _fits(wood, edge, spot, holes)), None)
            if place is not None:
                holes.append((notch.stringer, place))
                if place[0] > 0.0:
                    holes.append((notch.stringer, (-place[0], place[1])))
    return tuple(holes)


def one_holed(patterns):
    """(FramePattern, Notch, hole's middle to starboard) of every lashing of FramePatterns whose
    sticks off the centre line found room for one hole alone."""
    for pattern in patterns:
        for group in lashed_together(pattern.section.notches):
            found = [at for name, at in pattern.holes
                     if at[0] > 0.0 and name in [one.stringer for one in group]]
            if len(found) == 1 and not any(one.central for one in group):
                yield pattern, group[0], found[0]


def _sides(group):
    """(notch, whether its upper side) of the sides that a lashing's holes are at, to starboard; one
    on the centre line has its other side to port."""
    first, last = group[0], group[-1]
    if len(group) == 1 and first.central:
        return ((first, True),)
    return (*(() if first.central else ((first, False),)),
            *(() if last.central else ((last, True),)))


def _fits(wood, edge, spot, holes):
    """On the starboard side; a hole off the centre line must also clear its own mirror image."""
    place = Point(spot)
    if 0.0 < spot[0] < HOLES_APART_M / 2.0 or not wood.contains(place):
        return False
    clear = edge.distance(place) >= EDGE_M + HOLE_M / 2.0
    return clear and all(dist(spot, other) >= HOLES_APART_M for _, other in holes)


def _spots(notch, upper):
    """Places to try beside the upper or lower wall, then behind the floor."""
    wall, outward = ((notch.high_wall_m, 1.0) if upper else (notch.low_wall_m, -1.0))
    middle = 0.5 * (notch.low_m + notch.high_m)
    places = []
    if not (upper and notch.role == "gunwale"):
        places += [(wall + outward * beside, share * notch.depth_m)
                   for beside, share in product(BESIDE_M, DEEP_SHARE)]
    places += [(middle + share * (wall - middle), notch.floor_m + under)
               for under, share in product(UNDER_M, (0.5, 0.75, 0.25, 0.0))]
    for along, deep in places:
        y, z = notch.at(along, deep)
        if y >= 0.0:
            yield float(y), float(z)
