"""The boards of a seat: plates from stick to stick, slats on the floors of two frames, or straps
that hang between them.

A panel's plate is bevelled to lie flat on both sticks, so that its underside is the straight line
that the seat's height is reckoned from. It ends no farther out than where the bevel leaves it half
as thick. On a stick that two plates lie on, each ends short of its middle.

Slats lie clear of the plywood that stands up behind the notches. Straps hang so little under the
floors that they pull the two frames together with far more than the paddler's weight.
"""

from itertools import pairwise

import numpy as np

from sizer.hull.inside import BEHIND_NOTCH_M, SAME_PLACE_M, panel_widths_m, squares
from sizer.hull.seat import OVER_KEEL_M, SEATED_SHARE, SIT_APART_M
from sizer.shop.boards import Board, ends_m, hull_at, sit_x_m, stands_m, strip_m, thick_m
from sizer.units import STANDARD_GRAVITY_MPS2

BEARING_M = 0.006  # of a plate on the outermost stick's face, past its middle, at most; our drawing
LEFT_SHARE = 0.5  # of a plate's thickness at its bevelled edge: a knife edge splits; our judgement
KEEL_BEARING_M = 0.010  # of a plate on the keel, at most; our drawing
GAP_M = 0.002  # between the tops of two plates at least, where they meet; our drawing
TIE_M = 0.010  # from a stick's edge to the hole that ties a plate to it; our drawing
FROM_END_M = 0.040  # of those holes, from the plate's front and back edge; our drawing
SLAT_M = 0.075  # a slat is no wider; our drawing
LEAST_SLAT_M = 0.025  # narrower places stay empty; our drawing
SLAT_GAP_M = 0.006  # between slats or straps; our drawing
FOOT_M = 0.005  # a slat keeps this far from the plywood behind a notch; our drawing
STRAP_M = 0.050  # width of webbing, a common size
TIE_SHARES = (0.25, 0.75)  # of a slat's width, where its lashings are; our drawing
TIE_IN_M = 0.010  # from a frame's inner face to the middle of a lashing's hole; our drawing
CUT_M = (0.004, 0.005)  # width and depth of the saw cut in a slat's end for each; our drawing


def plates(boat, x_m):
    """A plate in each bay between the sticks that the panel lies on."""
    seat, design = boat.design.seat, boat.design
    front, back = ends_m(boat)
    rests, along, past, _ = _laid(boat, x_m)
    for number, (inner, outer) in enumerate(pairwise(range(len(seat.stands_on)))):
        one, other = (design.stringer(seat.stands_on[row]) for row in (inner, outer))
        starts = rests[:, inner] - past[:, number, :1] * along[:, number]
        ends = rests[:, outer] + past[:, number, 1:] * along[:, number]
        wide = np.linalg.norm(ends - starts, axis=1)
        long = back - front
        tie_in = past[:, number, 0] + TIE_M + (0.0 if number == 0 else 0.5 * one.width_m)
        tie_out = wide - (past[:, number, 1] + 0.5 * other.width_m + TIE_M)
        holes = [(at, np.interp(at, (0.0, long), place[[0, 2]]))
                 for at in (FROM_END_M, long - FROM_END_M) for place in (tie_in, tie_out)]
        yield Board(
            "seat plate" if len(seat.stands_on) == 2 else f"seat plate {number + 1}",
            np.array([(front, starts[0, 0]), (back, starts[2, 0]),
                      (back, ends[2, 0]), (front, ends[0, 0])]),
            thick_m(np.stack([starts[1], ends[1]]), seat.thickness_m),
            np.array([(0.0, 0.0), (long, 0.0), (long, wide[2]), (0.0, wide[0])]),
            tuple((float(at), float(place)) for at, place in holes))


def _laid(boat, x_m):
    """At the panel's front, one place and its back: where it touches its sticks, its plates' unit
    ways outward, how far each goes on past its rests, `_past_m`, and the way outward along the
    outermost stick's face."""
    front, back = ends_m(boat)
    rests, face = _rests_m(boat, (front, x_m, back))
    along = np.diff(rests, axis=1)
    along /= np.linalg.norm(along, axis=2, keepdims=True)
    return rests, along, _past_m(boat, along, face), face


def bevels_m(boat, x_m):
    """(stick, how far the bevel runs in from the plate's edge, thickness left there) of the edges
    that are planed, at one place: on the keel and on the outermost stick."""
    seat = boat.design.seat
    _, (_, along, _), (_, past, _), (_, face, _) = _laid(boat, x_m)
    lean = np.arctan2(along[0, 1], along[0, 0])
    yield seat.stands_on[0], past[0, 0], seat.thickness_m - past[0, 0] * np.tan(lean)
    turned = _turned(along[-1], face)
    yield seat.stands_on[-1], past[-1, 1], seat.thickness_m - past[-1, 1] * np.tan(turned)


def _turned(along, face):
    """Angle (...) from a plate's way outward up to that of a stick's face."""
    return np.arctan2(face[..., 1], face[..., 0]) - np.arctan2(along[..., 1], along[..., 0])


def _past_m(boat, along, face):
    """How far each plate's underside goes on past where it rests on its inner and on its outer
    stick, (n_x, n_plates, 2); negative where it ends short of it. On the outermost, whose inner
    face goes the unit way `face` outward, no farther than leaves LEFT_SHARE of its thickness.

    Two plates rise to meet each other, so that their tops come nearest: by its thickness times the
    tangent of half the angle between them each ends farther back, and by half the gap. To port and
    starboard of the keel it is the same about the middle of the boat.
    """
    seat, half_gap = boat.design.seat, 0.5 * GAP_M
    keel = boat.design.stringer(seat.stands_on[0]).width_m
    past = np.zeros((*along.shape[:2], 2))
    steep = np.tan(np.clip(_turned(along[:, -1], face), 1e-3, 1.5))
    past[:, -1, 1] = np.minimum(BEARING_M, (1.0 - LEFT_SHARE) * seat.thickness_m / steep)
    run, rise = np.moveaxis(along[:, 0], -1, 0)
    past[:, 0, 0] = np.minimum(min(KEEL_BEARING_M, 0.4 * keel),
                               (0.5 * keel - half_gap - seat.thickness_m * rise) / run)
    turned = np.diff(np.arctan2(along[..., 1], along[..., 0]), axis=1)
    back = half_gap + seat.thickness_m * np.tan(0.5 * np.maximum(turned, 0.0))
    past[:, :-1, 1] = past[:, 1:, 0] = -back
    return past


def plate_ties(boat):
    """(stick, how many lashings of plates go round it, how many holes each goes through): of the
    keel and between two plates one lashing takes a hole of both."""
    *between, outermost = boat.design.seat.stands_on
    for number, stick in enumerate(between):
        yield stick, 2 if number == 0 else 4, 2
    yield outermost, 4, 1


def _rests_m(boat, x_m):
    """Where a panel touches its sticks: the keel's edge, the middle of a chine's inner face.

    Returns (n_x, n_sticks, 2), and (n_x, 2) the unit way outward along the outermost's face.
    """
    columns, depths = zip(*(boat.lines.hull_sticks[name] for name in boat.design.seat.stands_on),
                          strict=True)
    corners = hull_at(boat, x_m)
    inward = squares(corners, max(columns) + 1)[:, columns]
    rests = corners[:, columns] + np.array(depths)[:, None] * inward
    rests[:, 0, 0] = 0.5 * boat.design.stringer(boat.design.seat.stands_on[0]).width_m
    return rests, np.stack([inward[:, -1, 1], -inward[:, -1, 0]], axis=-1)


def slats(boat, x_m):
    """Slats from frame to frame, side by side where both floors are free of notches."""
    front, back = ends_m(boat)
    floors = _floors_m(boat)
    thick = boat.design.seat.thickness_m
    ahead, behind = (one.thickness_m + TIE_IN_M for one in stands_m(boat))
    for low, high in _free_m(boat):
        count = int(np.ceil((high - low) / SLAT_M))
        wide = (high - low + SLAT_GAP_M) / count - SLAT_GAP_M
        for number in range(count):
            inner = low + number * (wide + SLAT_GAP_M)
            edges = np.array([inner, inner + wide])
            yield Board(
                "seat slat", strip_m(front, back, *edges),
                thick_m(np.column_stack([edges, _between(boat, x_m, floors(edges))]), thick),
                strip_m(0.0, back - front, 0.0, wide),
                tuple((float(at), share * float(wide)) for at in (ahead, back - front - behind)
                      for share in TIE_SHARES))


def straps(boat, x_m):
    """Straps of webbing side by side; each follows the bottom as far off as the seat is drawn."""
    seat = boat.design.seat
    front, back = ends_m(boat)
    skin = hull_at(boat, [x_m])[0]
    keel = boat.design.stringers[0]
    level = max(np.interp(SIT_APART_M, *skin.T) + seat.clear_of_skin_m,
                skin[0, 1] + keel.depth_m + OVER_KEEL_M)
    for number in range(max(1, round(0.5 * seat.width_m / (STRAP_M + SLAT_GAP_M)))):
        inner = number * (STRAP_M + SLAT_GAP_M) + 0.5 * SLAT_GAP_M
        across = np.unique(np.clip([inner, SIT_APART_M, inner + STRAP_M], inner, inner + STRAP_M))
        under = np.maximum(np.interp(across, *skin.T) + seat.clear_of_skin_m, level)
        yield Board("seat strap", strip_m(front, back, inner, inner + STRAP_M),
                    thick_m(np.column_stack([across, under]), seat.thickness_m),
                    strip_m(0.0, back - front, 0.0, STRAP_M))


def sag_under_m(boat):
    """How far straps hang under the line from floor to floor of their frames, where one sits."""
    line = _between(boat, sit_x_m(boat), _floors_m(boat)(np.array([SIT_APART_M])))[0]
    return float(line - (boat.seat_z_m - boat.design.seat.thickness_m))


def pull_n(boat, body_kg):
    """Pull of all straps together on each of their frames, N: F a b / ((a + b) s), a line with one
    load F between two ends, a and b from it, that hangs s; endless where it does not hang.

    Source: any handbook of statics. Where webbing gives, it hangs lower and pulls less, and the
    paddler sits on the skin.
    """
    force = SEATED_SHARE * body_kg * STANDARD_GRAVITY_MPS2
    fore, aft = (abs(one.x_m - sit_x_m(boat)) for one in stands_m(boat))
    sag = sag_under_m(boat)
    return force * fore * aft / ((fore + aft) * sag) if sag > 0.0 else np.inf


def _floors_m(boat):
    """Heights of the two frames' floors at some half-breadths, as a function: (2, n)."""
    stands = stands_m(boat)
    skins = hull_at(boat, [one.x_m for one in stands])

    def heights(y_m):
        found = []
        for stand, skin in zip(stands, skins, strict=True):
            run, rise = np.diff(skin, axis=0).T
            row = np.clip(np.searchsorted(skin[:, 0], y_m) - 1, 0, len(run) - 1)
            deep = panel_widths_m(stand.kind, skin, len(run))[row]
            found.append(np.interp(y_m, *skin.T) + deep * np.hypot(
                1.0, rise[row] / np.maximum(run[row], SAME_PLACE_M)))
        return np.array(found)

    return heights


def _between(boat, x_m, heights):
    """Straight from the floor of the one frame to that of the other."""
    fore, aft = (one.x_m for one in stands_m(boat))
    share = (x_m - fore) / (aft - fore)
    return (1.0 - share) * heights[0] + share * heights[1]


def _free_m(boat):
    """Half-breadths between which neither frame has plywood standing up behind a notch."""
    half = 0.5 * boat.design.seat.width_m
    taken = []
    for skin in hull_at(boat, [one.x_m for one in stands_m(boat)]):
        stock = boat.lines.stock_m[:len(skin)]
        middle = skin + 0.5 * stock[:, 1:] * squares(skin, len(skin))
        reach = 0.5 * np.hypot(*stock.T) + BEHIND_NOTCH_M + FOOT_M
        taken += list(zip(middle[:, 0] - reach, middle[:, 0] + reach, strict=True))
    free, low = [], 0.0
    for start, end in sorted(taken):
        if min(start, half) - low >= LEAST_SLAT_M:
            free.append((low, min(start, half)))
        low = max(low, end)
    return [*free, (low, half)] if half - low >= LEAST_SLAT_M else free
