"""The picture of odds: as many full dots as are said, read like a page, to be counted by fives."""

import numpy as np
import pytest

from sizer.scenes.odds_dots import odds_dots


def dots(full):
    drawing = odds_dots(full, "said")
    return drawing, np.array([one.centre_m for one in drawing.strokes]), np.array(
        [one.pen == "odds-met" for one in drawing.strokes])


@pytest.mark.parametrize("full", [0, 1, 37, 84, 99, 100])
def test_as_many_of_a_hundred_are_full_as_are_said_in_reading_order(full):
    _, at, met = dots(full)
    assert (met.size, met.sum()) == (100, full)
    read = np.lexsort((at[:, 0], -at[:, 1]))  # line by line from the top left
    assert met[read].tolist() == [True] * full + [False] * (100 - full)


def test_dots_are_apart_inside_the_picture_and_in_fives():
    drawing, at, _ = dots(50)
    radius = drawing.strokes[0].radius_m
    off = np.linalg.norm(at[:, None] - at[None], axis=-1)
    assert off[off > 0.0].min() > 2.0 * radius
    left, low, right, high = drawing.frame_m
    assert (at - radius >= (left, low)).all()
    assert (at + radius <= (right, high)).all()
    row = np.diff(np.unique(at[:, 0].round(9)))
    assert np.unique(at[:, 1].round(9)).size == 5
    wide = np.flatnonzero(row > row.min() + 1e-6)
    assert wide.tolist() == [4, 9, 14]
    assert drawing.name == "said"
