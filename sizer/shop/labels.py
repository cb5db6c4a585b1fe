"""Words that must stand on the wood: the largest letters that fit, clear of holes and lines."""

import numpy as np
from shapely.affinity import rotate, translate
from shapely.geometry import box
from shapely.prepared import prep

from sizer.drawing.record import LINE_HEIGHT, Path, Text

HEIGHTS_M = (0.008, 0.0065, 0.005, 0.004, 0.003)  # of capitals, tried in order; our drawing
FROM_EDGE_M = 0.0015  # least between letters and an edge of the wood; our drawing
ARROW_M = 0.022  # length of the arrow that points up; our drawing
HEAD_M = 0.006  # of its head; our drawing


def written(wood, words, spots):
    """Texts on the wood, each at the first spot of the largest letters that fit.

    Parameters
    ----------
    wood : polygon in drawing coordinates, less all that letters must keep clear of
    words : texts to place, the most important first
    spots : list of ((right, up), angle in degrees) to try

    Returns
    -------
    (tuple of Text, what is left of the wood, tuple of words that found no place)
    """
    placed, lost = [], []
    for word in words:
        text = _first_fit(wood.buffer(-FROM_EDGE_M), word, spots)
        if text is None:
            lost.append(word)
        else:
            placed.append(text)
            wood = wood.difference(_box(text))
    return tuple(placed), wood, tuple(lost)


def up_arrow(wood, spots):
    """An arrow that points up with the word under it, and what is left of the wood.

    Returns no strokes where none fits.
    """
    fast = prep(wood)
    for (right, up), _ in spots:
        foot = up - ARROW_M / 2.0
        room = box(right - 0.007, foot - 0.008, right + 0.007, foot + ARROW_M + 0.001)
        if fast.contains(room):
            shaft = np.array([(right, foot), (right, foot + ARROW_M - 0.001)])
            head = shaft[1] + np.array([(-HEAD_M / 2, -HEAD_M), (0.0, 0.0), (HEAD_M / 2, -HEAD_M)])
            return (Path("mark", shaft), Path("mark", head),
                    Text("text", (right, foot - 0.004), 0.004, "UP")), wood.difference(room)
    return (), wood


def _first_fit(free, word, spots):
    fast = prep(free)
    for height in HEIGHTS_M:
        for at, angle in spots:
            text = Text("text", at, height, word, upright(angle))
            if fast.contains(_box(text)):
                return text
    return None


def upright(angle_deg):
    """The same direction so turned that letters do not stand on their heads."""
    turned = (angle_deg + 90.0) % 180.0 - 90.0
    return 90.0 if turned == -90.0 else turned


def _box(text):
    half_wide, half_high = text.width_m / 2.0, LINE_HEIGHT * text.height_m / 2.0
    flat = box(-half_wide, -half_high, half_wide, half_high)
    return translate(rotate(flat, text.angle_deg, origin=(0.0, 0.0)), *text.at_m)
