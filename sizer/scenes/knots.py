"""The reef knot, tied in two steps: what lies over and what under, as it looks."""

import numpy as np

from sizer.drawing.marks import smooth
from sizer.drawing.measured import label
from sizer.drawing.record import Drawing, Path, side_by_side
from sizer.shop.lashing import ENDS_M
from sizer.shop.said import both

GAP = 0.2  # of a cord where it goes under another, over the knot's own unit; our drawing
BIGHT = np.array([(-4.2, 0.55), (-2.6, 0.55), (-1.2, 0.65), (0.0, 1.0), (1.0, 1.3), (1.7, 1.0),
                  (2.0, 0.0), (1.7, -1.0), (1.0, -1.3), (0.0, -1.0), (-1.2, -0.65),
                  (-2.6, -0.55), (-4.2, -0.55)])  # one cord of the finished knot; our drawing


def knot_drawing(letters_m):
    """The first half and the finished knot, side by side, in metres of a letters' height."""
    unit = 2.6 * letters_m
    return side_by_side("reef knot", [_half(unit, letters_m), _whole(unit, letters_m)],
                        3.0 * letters_m)


def _half(unit, letters):
    x = np.linspace(-1.0, 1.0, 61)
    turn = 0.45 * np.sin(1.5 * np.pi * x)
    left = np.concatenate([[(-3.4, -0.45)], np.column_stack([1.4 * x, -turn]), [(2.4, 1.5)]])
    right = left * (-1.0, 1.0)
    outer, middle = [(-1.4 * 2.0 / 3.0, 0.0), (1.4 * 2.0 / 3.0, 0.0)], [(0.0, 0.0)]
    return Drawing("half", (
        *_cord("here", left, middle, unit), *_cord("ink", right, outer, unit),
        label((0.0, 2.8 * unit), "1: left over right,", letters, "middle"),
        label((0.0, 2.8 * unit - 1.6 * letters), "under and up", letters, "middle"),
        label((0.0, -1.6 * unit - letters), "from the holes", letters, "middle")))


def _whole(unit, letters):
    """Both parts of one cord lie over the other's bight, and its bight over both of its parts."""
    one = smooth(BIGHT, closed=False)
    other = one * (-1.0, 1.0)
    under = [(0.0, 1.0), (0.0, -1.0)]
    over = [(sign * 1.92, side * 0.58) for sign in (1.0, -1.0) for side in (1.0, -1.0)]
    return Drawing("whole", (
        *_cord("here", one, under, unit), *_cord("ink", other, over, unit),
        label((0.0, 2.8 * unit), "2: right over left,", letters, "middle"),
        label((0.0, 2.8 * unit - 1.6 * letters), f"under and up: ends {both(ENDS_M)}", letters,
              "middle"),
        label((-4.2 * unit, 0.55 * unit + 0.9 * letters), "end", letters),
        label((4.2 * unit, 0.55 * unit + 0.9 * letters), "end", letters, "end"),
        label((0.0, -1.6 * unit - letters), "each end beside its own part, or it slips", letters,
              "middle")))


def _cord(pen, points, under, unit):
    points = np.asarray(points)
    fine = np.column_stack([np.interp(np.linspace(0.0, len(points) - 1.0, 400),
                                      np.arange(len(points)), column) for column in points.T])
    seen = np.hypot(*(fine[:, None] - np.asarray(under)).T).min(axis=0) > GAP
    for piece in np.split(fine, np.flatnonzero(np.diff(seen)) + 1):
        near = np.hypot(*(piece[len(piece) // 2] - np.asarray(under)).T).min()
        if len(piece) > 1 and near > GAP:
            yield Path(pen, piece * unit)
