"""Dimensions and numbered balloons of drawings whose letters have a height of their own.

`letters_m` is the height of capitals in the metres of what is drawn: that on paper over the scale.
"""

from itertools import combinations

import numpy as np
from shapely.geometry import LineString

from sizer.drawing.marks import apart, line, size_line, unit_of
from sizer.drawing.record import LETTER_WIDTH, Circle, Text
from sizer.drawing.told import in_mm
from sizer.units import MM_PER_M, tape_text

NARROW = 1.0  # of a letter's usual width: figures are as wide
BALLOON = 1.25  # radius of a balloon over its figures' height; our drawing
ASIDE = 1.3  # of a balloon from over what it numbers, over its figures' height; our drawing
STEP = 3.0  # least between two balloons, over their figures' height


def both_text_short(value_m):
    """Whole millimetres, then inches as a figure beside it is told: 797 (31 3/8"), in feet and
    sixteenths where it is long: 4753 (15' 7 1/8")."""
    return f"{in_mm(value_m)} ({tape_text(float(value_m) * MM_PER_M)})"


def words_width_m(text, letters_m):
    """About what words take along their line."""
    return NARROW * LETTER_WIDTH * letters_m * len(text)


def label(at, text, letters_m, anchor="start", angle_deg=0.0, pen="text"):
    """A Text whose middle line is on a place."""
    return Text(pen, (float(at[0]), float(at[1])), letters_m, text, angle_deg, anchor)


def measured(start, end, letters_m, text=in_mm, beside=1.0):
    """A dimension with its length over its middle; `beside` moves that to its other side."""
    start, end = np.asarray(start, float), np.asarray(end, float)
    along = (end - start) / np.hypot(*(end - start))
    across = beside * np.array([-along[1], along[0]])
    upright = abs(along[1]) > abs(along[0])
    yield size_line(start, end, unit_of(letters_m))
    yield label(0.5 * (start + end) + letters_m * across, text(np.hypot(*(end - start))),
                letters_m, "middle", 90.0 if upright else 0.0, "size")


def balloons(numbered, row, letters_m, span):
    """A row of balloons, their middles so high, for each (number, (right, up)) within a `span`
    along the row; no two lines cross, and each leans, so that it lies on no frame's own line."""
    ordered = sorted(numbered, key=lambda one: one[1][0])
    if not ordered:
        return
    step = STEP * letters_m
    places = apart([at[0] + ASIDE * letters_m for _, at in ordered], step)
    rows = np.arange(len(ordered))
    places = np.clip(places, span[0] + rows * step, span[1] - rows[::-1] * step)
    for (number, at), place in zip(_uncrossed(ordered, places, row), places, strict=True):
        yield from balloon(number, (float(place), row), at, letters_m)


def balloon(number, centre, at, letters_m):
    """A number in a circle, and a line from it to the spot that it numbers."""
    way = np.subtract(at, centre)
    rim = centre + BALLOON * letters_m * way / np.hypot(*way)
    yield Circle("ink", tuple(map(float, centre)), BALLOON * letters_m)
    yield Circle("ink", (float(at[0]), float(at[1])), 0.15 * letters_m)
    yield line("extension", rim, at)
    yield label(centre, str(number), letters_m, "middle", pen="number")


def _uncrossed(ordered, places, row):
    """The numbered in such an order under the places that no two lines cross: two that do change
    places, which makes both together shorter, so that it ends."""
    ordered = list(ordered)
    swapped = True
    while swapped:
        swapped = False
        for one, other in combinations(range(len(ordered)), 2):
            lines = [LineString([(places[index], row), ordered[index][1]])
                     for index in (one, other)]
            if lines[0].crosses(lines[1]):
                ordered[one], ordered[other] = ordered[other], ordered[one]
                swapped = True
    return ordered
