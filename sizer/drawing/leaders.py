"""Thin lines from names to what they name, so that a name that had to give way is not read as that
of its neighbour."""

import numpy as np
from shapely import Point, Polygon
from shapely.ops import nearest_points

from sizer.drawing.record import Path, Text, text_corners_m

LEADER = "extension"  # its pen
SAME_M = 1e-7  # a line that ends so near to what a word names is its own


def leader(text):
    """The line from a Text to what it names, as a Path; None where it names no place."""
    if text.of_m is None:
        return None
    near, _ = nearest_points(Polygon(text_corners_m(text)), Point(text.of_m))
    return Path(LEADER, np.array([(near.x, near.y), text.of_m]))


def with_leaders(strokes):
    """Each stroke, and after a Text its leader."""
    for one in strokes:
        yield one
        if isinstance(one, Text) and one.of_m is not None:
            yield leader(one)


def without_leaders(strokes):
    """The strokes but for the leaders of those Texts that name a place."""
    named = np.array([one.of_m for one in strokes
                      if isinstance(one, Text) and one.of_m is not None]).reshape(-1, 2)
    return tuple(one for one in strokes if not _leads(one, named))


def _leads(stroke, named):
    return (isinstance(stroke, Path) and stroke.pen == LEADER and len(stroke.points_m) == 2
            and len(named) and np.abs(named - stroke.points_m[-1]).max(axis=1).min() < SAME_M)
