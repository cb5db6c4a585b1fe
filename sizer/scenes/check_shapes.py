"""What the pictures of the checks are drawn from: a boat of no design, a body, a few marks."""

import numpy as np

from sizer.drawing.marks import OVER, Window, box, heeled, line, smooth, words
from sizer.drawing.record import Circle, Path
from sizer.scenes.figure import middle_body, side_figure, up_to
from sizer.scenes.sections import TRUNK_SHOWN_M
from sizer.scenes.trunk import trunk_below

WIDTH, HEIGHT = 220.0, 120.0
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
FLAT = Window(0.0, HEIGHT, 1.0, WIDTH, HEIGHT)  # of the long views, in mm of the paper itself
SEATED = Window(-182.0 / 128.0, 102.0 / 128.0, 1.0 / 128.0, WIDTH, HEIGHT)  # body and deck, large
LONG, DEEP, WIDE_HALF = 196.0, 44.0, 36.0
MIDDLE = 60.0  # height of the boat's middle in a view from above


def across(scale=240.0, low=112.0):
    """The paper of a section, `scale` mm a metre: its lowest point `low` from the top."""
    return Window(-0.5 * WIDTH / scale, low / scale, 1.0 / scale, WIDTH, HEIGHT)


def section(heel_deg=0.0, half=HALF, pen="ink"):
    """The boat across, heeled about the middle of its waterline; from rim to rim."""
    return Path(pen, over(np.concatenate([half[::-1] * OVER, half[1:]]), heel_deg))


def over(points, heel_deg):
    """Points across the boat, heeled to the right."""
    return heeled(points, heel_deg, np.array([0.0, AFLOAT_M]))


def hips():
    """The trunk from the hips up, open at the top."""
    body = middle_body()
    side = np.add(trunk_below(body, body.hip_sitting.value_m, TRUNK_SHOWN_M), (0.0, SEAT_M))
    return Path("body", np.concatenate([side[::-1] * OVER, side]))


def on_long(points, inset=0.0):
    """Points of the flat paper from shares of length and depth, in the long side view."""
    return np.asarray(points, float) * (LONG - 2.0 * inset, DEEP) + (12.0 + inset, 32.0)


def level(share):
    """Height on the flat paper of a share of the depth, in the long side view."""
    return 32.0 + share * DEEP


def long_view(pen="ink", inset=0.0):
    return [Path(pen, on_long(BOTTOM, inset)), Path(pen, on_long(DECK, inset))]


def top_view(half=WIDE_HALF, pen="ink"):
    """The boat from above on the middle of the flat paper."""
    return [Path(pen, PLAN * (LONG, side * half) + (12.0, MIDDLE)) for side in (1.0, -1.0)]


def opening():
    """The cockpit opening in the view from above."""
    ring = np.stack([112.0 + 30.0 * np.cos(TURN), MIDDLE + 20.0 * np.sin(TURN)], axis=1)
    return Path("ink", ring, closed=True)


def seated():
    """The seated body under its deck, on the paper SEATED."""
    figure = side_figure(middle_body(), "slide", 0.0)
    outline = up_to(figure, 0.60) * OVER
    return [Path("body-fill", outline, closed=True), Path("body-line", outline),
            Path("edge", figure.foot_rest_m * OVER),
            line("ink", (-1.36, 0.26), (-0.60, 0.275), (-0.60, 0.31), (0.16, 0.255),
                 (0.16, 0.215), (0.28, 0.215)),
            line("ink", (-1.36, -0.04), (0.28, -0.04))]


def arrow(start, end, paper):
    start, end = np.array(start, float), np.array(end, float)
    along = (start - end) / np.hypot(*(start - end))
    across = np.array([-along[1], along[0]])
    head = [end + (7.0 * along + 3.5 * side * across) * paper.unit_m for side in (1.0, -1.0)]
    return line("dimension", start, end, head[0], end, head[1])


def arc(middle, radius, start_deg, end_deg):
    """Points of an arc; degrees from the right, up positive."""
    turn = np.radians(np.linspace(start_deg, end_deg, 25))
    return np.asarray(middle) + radius * np.stack([np.cos(turn), np.sin(turn)], axis=1)


def dot(place, text, unit):
    """A small ring with a letter to its left."""
    return [Circle("ink", tuple(map(float, place)), 3.0 * unit),
            words(np.subtract(place, (9.0 * unit, 4.0 * unit)), text, unit, "end", rim=True)]


def block(place, paper):
    (x, y), half = place, 4.0 * paper.unit_m
    return box("block", x - half, y - half, x + half, y + half)
