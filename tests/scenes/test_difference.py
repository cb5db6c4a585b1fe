"""The picture of a dry fit, read back: its numbers can be told apart and lead to their rings."""

import itertools

import numpy as np
import pytest

from sizer.built.asked import asked_of, measured_of
from sizer.built.dry_fit import dry_fit
from sizer.built.points import points_of
from sizer.drawing.record import Circle, Path, Text
from sizer.fit.request import read_request
from sizer.job import run
from sizer.scenes.difference import LARGER, difference_view, unfair_points

TAPE_M, OFF_M = 0.002, 0.014


@pytest.fixture(scope="module")
def found(base_lines):
    """Every height and breadth measured, all of F4 and F6 wildly off, stick by stick."""
    job = run(read_request({"base": "day-boat", "use": "sheltered-day", "paddler": {
        "weight_kg": 82, "stature_mm": 1780, "hip_width_mm": 385}}), base_lines["day-boat"])
    asked = asked_of(points_of(job.fitted.assessed.boat), job.setting_up)
    turns = itertools.cycle((1.0, -1.0, 0.6))
    values = {one.key: one.designed_m + (OFF_M * next(turns) if one.frame in ("F4", "F6") else 0.0)
              for one in asked if one.what in ("height", "half_breadth")}
    return dry_fit(job, measured_of(asked, values, job.setting_up.baseline_height_m), TAPE_M, "mm")


def _box(text):
    """Left, low, right, high of a number, each digit three quarters as wide as it is high."""
    half = 0.5 * text.height_m * np.array([0.75 * len(text.text), 1.0])
    return np.concatenate([text.at_m - half, text.at_m + half])


def _meet(one, other):
    return (one[:2] < other[2:]).all() and (other[:2] < one[2:]).all()


@pytest.mark.parametrize("times", [LARGER, 1.0])
@pytest.mark.parametrize("narrow", [False, True])
def test_numbers_of_rings_never_lie_on_one_another_or_on_a_ring(found, narrow, times):
    count = len(unfair_points(found))
    assert count >= 8
    drawn = difference_view(found, times, narrow)
    numbers = [one for one in drawn.strokes if isinstance(one, Text) and one.text.isdigit()]
    rings = [one for one in drawn.strokes if isinstance(one, Circle) and one.pen == "short"]
    assert len(numbers) == len(rings) >= count
    assert {int(one.text) for one in numbers} == set(range(1, count + 1))
    left, low, right, top = drawn.frame_m
    boxes = [_box(one) for one in numbers]
    for one in boxes:
        assert left <= one[0] <= one[2] <= right
        assert low <= one[1] <= one[3] <= top
        assert not any(_meet(one, np.array([ring.centre_m - np.full(2, ring.radius_m),
                                            ring.centre_m + np.full(2, ring.radius_m)]).ravel())
                       for ring in rings)
    assert not any(_meet(*pair) for pair in itertools.combinations(boxes, 2))


@pytest.mark.parametrize("narrow", [False, True])
def test_a_line_leads_from_every_number_to_the_rim_of_its_ring(found, narrow):
    drawn = difference_view(found, LARGER, narrow)
    rings = [one for one in drawn.strokes if isinstance(one, Circle) and one.pen == "short"]
    lines = [one for one in drawn.strokes if isinstance(one, Path) and one.pen == "extension"]
    assert len(lines) == len(rings) > 0
    for ring, lead in zip(rings, lines, strict=True):
        assert np.hypot(*(lead.points_m[0] - ring.centre_m)) == pytest.approx(ring.radius_m)
