"""The picture of the steadiness trial: every size beside its line, no words over others."""

from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest

from sizer.built.trial_weights import trial_place
from sizer.drawing.marks import TEXT
from sizer.drawing.record import Path, Text, text_corners_m
from sizer.scenes.trial_view import trial_view
from sizer.shop.stations import setting_up
from sizer.shop.work_room import helper_at
from sizer.units import MM_PER_M, both_text, length_text

READERS = {"mm": lambda value_m: length_text(value_m * MM_PER_M, "mm"),
           "in": lambda value_m: length_text(value_m * MM_PER_M, "in"),
           "both, on paper": lambda value_m: both_text(value_m * MM_PER_M)}


def box(text):
    corners = text_corners_m(text)
    return *corners.min(axis=0), *corners.max(axis=0)


@pytest.mark.parametrize("narrow", [True, False])
@pytest.mark.parametrize("reader", READERS)
@pytest.mark.parametrize("behind", [True, False])
def test_the_weights_distance_stands_at_its_line_and_over_no_other_words(
        boat, behind, reader, narrow):
    at = trial_place(boat)
    x = boat.opening.back_x_m + 0.2 if behind else boat.opening.front_x_m - 0.2
    hold = helper_at(boat, setting_up(boat).stations)
    drawn = trial_view(boat, hold, replace(at, x_m=x), READERS[reader], narrow)
    told = [one for one in drawn.strokes if isinstance(one, Text)]
    line = next(one for one in drawn.strokes if isinstance(one, Path) and one.pen == "dimension")
    (across, low), (_, high) = line.points_m[2:4]
    sizes = [one for one in told if one.pen == "size"]
    assert " ".join(one.text for one in sizes) == READERS[reader](at.off_centre_m)
    letter = TEXT / MM_PER_M  # of the picture's paper
    for left, bottom, right, top in map(box, sizes):
        assert max(left - across, across - right) < letter
        assert not left < across < right
        assert low - letter < bottom < top < high + letter
    left, _, right, _ = drawn.frame_m
    for one, other in combinations(told, 2):
        (a, b, c, d), (e, f, g, h) = box(one), box(other)
        assert {one.pen, other.pen} == {"size"} or c < e or g < a or d < f or h < b, (
            one.text, other.text)
    assert all(left < box(one)[0] and box(one)[2] < right for one in sizes)
    assert np.isfinite(line.points_m).all()
