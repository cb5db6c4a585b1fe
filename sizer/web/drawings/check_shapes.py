"""What the pictures of the checks are drawn from: a boat of no design, a body, a few marks."""

import numpy as np

from sizer.paddler.body import predict
from sizer.paddler.measures import Measured
from sizer.web.drawings.figure import side_figure
from sizer.web.drawings.marks import (
    BODY_FILL,
    BODY_LINE,
    INK_LINE,
    SIZE_LINE,
    WATER_LINE,
    WATER_TONE,
    WOOD_BLOCK,
    WOOD_EDGE,
    View,
    path,
    paths,
    smooth,
    words,
)
from sizer.web.drawings.scene import without_arms
from sizer.web.drawings.sections import TRUNK

WIDTH, HEIGHT = 220.0, 120.0
MIRROR = np.array([-1.0, 1.0])
MIDDLE_BODY = Measured(75.0, 1.72, 0.38)  # whose outline stands in the drawings
# A boat of no design, in m: its half-section, and for the long views shares of length and depth.
HALF = np.array([(0.0, 0.0), (0.19, 0.04), (0.265, 0.13), (0.29, 0.24), (0.20, 0.27),
                 (0.20, 0.32)])
GUNWALE, RIM, SEAT_M, AFLOAT_M = 3, 5, 0.03, 0.12
BOTTOM = smooth([(0.0, 1.0), (0.05, 0.45), (0.14, 0.06), (0.32, 0.0), (0.7, 0.0), (0.87, 0.08),
                 (0.95, 0.45), (1.0, 0.9)], closed=False)
DECK = np.array([(0.0, 1.0), (0.2, 0.93), (0.40, 0.96), (0.40, 1.10), (0.58, 0.92), (0.58, 0.80),
                 (0.8, 0.83), (1.0, 0.9)])
PLAN = smooth([(0.0, 0.0), (0.2, 0.62), (0.5, 1.0), (0.8, 0.62), (1.0, 0.0)], closed=False)
TURN = np.linspace(0.0, 2.0 * np.pi, 61)
SIDE = View(0.0, 0.0, 12.0, 88.0, 1.0)  # of the long views, already in picture units
LONG, DEEP, WIDE_HALF = 196.0, 44.0, 36.0


def across(scale=240.0, low=112.0):
    """The view of a section: its lowest point at `low`."""
    return View(0.0, 0.0, WIDTH / 2.0, low, scale)


def water(top):
    """Water from a height of the picture down."""
    corners = np.array([(0.0, top), (WIDTH, top), (WIDTH, HEIGHT), (0.0, HEIGHT)])
    return [path(corners, WATER_TONE, closed=True), path(corners[:2], WATER_LINE)]


def section(view, heel_deg=0.0):
    """The boat across, heeled about the middle of its waterline."""
    return both_sides(view, heeled(HALF, heel_deg), heeled(HALF * MIRROR, heel_deg))


def both_sides(view, *halves, pen=INK_LINE):
    """Lines across the boat; a single one is mirrored."""
    if len(halves) == 1:
        halves = (*halves, halves[0] * MIRROR)
    return paths([view.at(*half.T) for half in halves], pen)


def heeled(points, heel_deg):
    """Points across the boat, heeled to the right."""
    middle = np.array([0.0, AFLOAT_M])
    c, s = np.cos(np.radians(heel_deg)), np.sin(np.radians(heel_deg))
    return (np.asarray(points) - middle) @ np.array([[c, -s], [s, c]]) + middle


def hips(view):
    """The trunk from the hips up, open at the top."""
    side = np.array(TRUNK) * (0.19, 1.0) + (0.0, SEAT_M)
    outline = smooth(np.concatenate([side[::-1] * MIRROR, side]), closed=False)
    return view.at(*outline.T)


def on_long(points):
    """Picture points of shares of length and depth, in the long side view."""
    x, up = np.asarray(points, float).T
    return SIDE.at(x * LONG, up * DEEP)


def long_view():
    """The boat from the side."""
    return paths([on_long(BOTTOM), on_long(DECK)], INK_LINE)


def top_view(half=WIDE_HALF, pen=INK_LINE):
    """The boat from above on the middle of the picture."""
    return paths([SIDE.at(PLAN[:, 0] * LONG, 28.0 + side * half * PLAN[:, 1])
                  for side in (1.0, -1.0)], pen)


def opening():
    """The cockpit opening in the view from above."""
    ring = np.stack([112.0 + 30.0 * np.cos(TURN), 60.0 + 20.0 * np.sin(TURN)], axis=1)
    return path(ring, INK_LINE, closed=True)


def seated():
    """The seated body under its deck, large: (view, parts)."""
    body = predict(MIDDLE_BODY)
    figure = side_figure(body, "slide", 0.0)
    view = View(0.0, 0.0, 182.0, 102.0, 128.0)
    outline = view.at(*(without_arms(figure, body, 0.60) * MIRROR).T)
    deck = np.array([(-1.36, 0.26), (-0.60, 0.275), (-0.60, 0.31), (0.16, 0.255), (0.16, 0.215),
                     (0.28, 0.215)])
    bottom = view.at(np.array([-1.36, 0.28]), -0.04)
    return view, [path(outline, BODY_FILL, closed=True), path(outline, BODY_LINE),
                  path(view.at(*(figure.foot_rest_m * MIRROR).T), WOOD_EDGE),
                  path(view.at(*deck.T), INK_LINE), path(bottom, INK_LINE)]


def arrow(start, end):
    """A line with an arrowhead at its end."""
    start, end = np.array(start, float), np.array(end, float)
    along = (start - end) / np.hypot(*(start - end))
    across = np.array([-along[1], along[0]])
    head = [end + 7.0 * along + 3.5 * side * across for side in (1.0, -1.0)]
    return paths([np.array([start, end]), np.array([head[0], end, head[1]])], SIZE_LINE)


def arc(middle, radius, start_deg, end_deg):
    """Points of an arc; degrees from the right, up positive."""
    turn = np.radians(np.linspace(start_deg, end_deg, 25))
    return np.stack([middle[0] + radius * np.cos(turn), middle[1] - radius * np.sin(turn)], axis=1)


def dot(place, text):
    """A small ring with a letter to its left."""
    x, y = place
    ring = np.stack([x + 3.0 * np.cos(TURN), y + 3.0 * np.sin(TURN)], axis=1)
    return path(ring, INK_LINE, closed=True) + words(
        (x - 9.0, y + 4.0), text, "end", rim=True)


def block(place):
    """A stick seen end on."""
    corners = np.array([(-4.0, -4.0), (4.0, -4.0), (4.0, 4.0), (-4.0, 4.0)]) + place
    return path(corners, WOOD_BLOCK, closed=True)
