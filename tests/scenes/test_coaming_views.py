"""The coaming's form for the bench: holes that leave wood, and which end its strips are cut for."""

import re
from itertools import combinations
from math import ceil, dist

import pytest
from shapely.geometry import LineString, Point, Polygon

from sizer.drawing.record import Circle
from sizer.scenes.coaming_views import coaming_form
from sizer.shop.thigh import wall_holes_words
from sizer.shop.work_parts import planed_words
from tests.conftest import BASE_NAMES


@pytest.fixture(scope="module", params=BASE_NAMES)
def job(request, middle_job):
    return middle_job(request.param)


def test_every_clamp_finds_a_hole_with_20_mm_of_wood_to_bear_on(job, bench):
    rim = bench.materials.coaming
    holes = [one for one in coaming_form(rim, job.fitted.assessed.boat, 0.0132).strokes
             if isinstance(one, Circle) and one.pen == "extension"]
    form = Polygon(rim.outline_m)
    assert len(holes) == ceil(form.exterior.length / 0.080)
    for one in holes:
        hole = Point(one.centre_m).buffer(one.radius_m)
        assert one.radius_m == 0.020
        assert form.contains(hole)
        assert form.exterior.distance(hole) == pytest.approx(0.020, abs=0.001)
    assert min(dist(one.centre_m, other.centre_m) for one, other in combinations(holes, 2)) > 0.045
    marks = [one.points_m for one in bench.coaming.strokes if getattr(one, "pen", "") == "mark"
             and len(getattr(one, "points_m", ())) == 2
             and abs(dist(*one.points_m) - 0.005) < 1e-9]
    for one in holes:
        crossed = [mark for mark in marks if dist(mark.mean(axis=0), one.centre_m) < 1e-6]
        assert len(crossed) == 2, "a cross on the true-size pattern"


def test_the_thigh_braces_holes_are_drawn_where_the_sheet_tells_them(bench, job):
    """By a tape round the wall's inside on the pattern, from the front's centre line."""
    if bench.thigh is None:
        pytest.skip("no braces in this boat")
    rim = bench.materials.coaming
    said = wall_holes_words(bench.thigh, rim, job.fitted.assessed.boat.opening)
    middle = float(re.search(r"midway between them (\d+) mm", said)[1]) / 1000.0
    half = LineString(rim.outline_m[:len(rim.outline_m) // 2 + 1])
    ticks = [one.points_m for one in bench.coaming.strokes if getattr(one, "pen", "") == "guide"
             and len(getattr(one, "points_m", ())) == 2
             and abs(LineString(one.points_m).length - 0.027) < 1e-6]
    around = sorted(half.project(Point(one[0] + (one[1] - one[0]) / 3.0)) for one in ticks
                    if one[0][1] > 0.0)
    assert around == pytest.approx([middle - 0.010, middle + 0.010], abs=0.001)
    assert len(ticks) == 4


def test_the_strips_are_planed_at_the_end_that_is_lower_than_they_are_wide(bench):
    """The strips as they are bought against the wall as it is told, 20 mm of it under the deck."""
    rim = bench.materials.coaming
    wide = 1000.0 * rim.strips[0].width_m
    heights = {"in front": 1000.0 * rim.wall_m[0] + 20.0, "behind": 1000.0 * rim.wall_m[1] + 20.0}
    assert wide == pytest.approx(max(heights.values()), abs=0.5)  # whole millimetres
    said = planed_words(rim)
    if round(heights["in front"] - 20.0) == round(heights["behind"] - 20.0):
        assert "nothing is planed" in said
        return
    full, planed = sorted(heights, key=heights.get, reverse=True)
    assert f"bent at the width {full}" in said
    off = re.search(rf"(\d+) mm \([^)]*\) {planed}: notches come only then", said)[1]
    assert float(off) == pytest.approx(heights[full] - heights[planed], abs=1.01)
