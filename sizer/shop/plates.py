"""A panel seat: flat plates from stick to stick.

Each is bevelled to lie flat on both sticks, so that its underside is the straight line that the
seat's height is reckoned from. It ends no farther out than where the bevel leaves it half as thick.
On a stick that two plates lie on, each ends short of its middle.
"""

from itertools import pairwise

import numpy as np

from sizer.hull.inside import squares
from sizer.shop.boards import Board, ends_m, hull_at, thick_m

BEARING_M = 0.006  # of a plate on the outermost stick's face, past its middle, at most; our drawing
LEFT_SHARE = 0.5  # of a plate's thickness at its bevelled edge: a knife edge splits; our judgement
KEEL_BEARING_M = 0.010  # of a plate on the keel, at most; our drawing
GAP_M = 0.002  # between the tops of two plates at least, where they meet; our drawing
TIE_M = 0.010  # from a stick's edge to the hole that ties a plate to it; our drawing
FROM_END_M = 0.040  # of those holes, from the plate's front and back edge; our drawing


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
