"""A panel seat: flat plates from stick to stick.

Each is bevelled to lie flat on both sticks, so that its underside is the straight line that the
seat's height is reckoned from.
"""

from itertools import pairwise

import numpy as np

from sizer.hull.inside import squares
from sizer.shop.boards import Board, ends_m, hull_at, thick_m

BEARING_M = 0.006  # of a plate on a chine's inner face, past its middle; our drawing
KEEL_BEARING_M = 0.010  # of a plate on the keel, at most; our drawing
TIE_M = 0.010  # from a stick's edge to the hole that ties a plate to it; our drawing
FROM_END_M = 0.040  # of those holes, from the plate's front and back edge; our drawing


def plates(boat, x_m):
    """A plate in each bay between the sticks that the panel lies on."""
    seat, design = boat.design.seat, boat.design
    front, back = ends_m(boat)
    rests = _rests_m(boat, (front, x_m, back))
    for number, (inner, outer) in enumerate(pairwise(range(len(seat.stands_on)))):
        one, other = (design.stringer(seat.stands_on[row]) for row in (inner, outer))
        along = rests[:, outer] - rests[:, inner]
        along /= np.linalg.norm(along, axis=1, keepdims=True)
        bears = min(KEEL_BEARING_M, 0.4 * one.width_m) if number == 0 else BEARING_M
        starts, ends = rests[:, inner] - bears * along, rests[:, outer] + BEARING_M * along
        wide = np.linalg.norm(ends - starts, axis=1)
        tie_in = bears + TIE_M + (0.0 if number == 0 else 0.5 * one.width_m)
        tie_out = BEARING_M + 0.5 * other.width_m + TIE_M
        long = back - front
        holes = [(at, place) for at in (FROM_END_M, long - FROM_END_M)
                 for place in (tie_in, np.interp(at, (0.0, long), wide[[0, 2]]) - tie_out)]
        yield Board(
            "seat plate" if len(seat.stands_on) == 2 else f"seat plate {number + 1}",
            np.array([(front, starts[0, 0]), (back, starts[2, 0]),
                      (back, ends[2, 0]), (front, ends[0, 0])]),
            thick_m(np.stack([starts[1], ends[1]]), seat.thickness_m),
            np.array([(0.0, 0.0), (long, 0.0), (long, wide[2]), (0.0, wide[0])]),
            tuple((float(at), float(place)) for at, place in holes))


def plate_ties(boat):
    """(stick, how many lashings of plates go round it, how many holes each goes through): of the
    keel and between two plates one lashing takes a hole of both."""
    *between, outermost = boat.design.seat.stands_on
    for number, stick in enumerate(between):
        yield stick, 2 if number == 0 else 4, 2
    yield outermost, 4, 1


def _rests_m(boat, x_m):
    """Where a panel touches its sticks: the keel's edge, the middle of a chine's inner face.

    Returns (n_x, n_sticks, 2).
    """
    columns, depths = zip(*(boat.lines.hull_sticks[name] for name in boat.design.seat.stands_on),
                          strict=True)
    corners = hull_at(boat, x_m)
    inward = squares(corners, max(columns) + 1)[:, columns]
    rests = corners[:, columns] + np.array(depths)[:, None] * inward
    rests[:, 0, 0] = 0.5 * boat.design.stringer(boat.design.seat.stands_on[0]).width_m
    return rests
