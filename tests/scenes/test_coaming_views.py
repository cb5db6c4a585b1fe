"""The coaming's form for the bench: holes that leave wood, and which end its strips are cut for."""

from itertools import combinations
from math import ceil, dist

import pytest
from shapely.geometry import Point, Polygon

from sizer.drawing.record import Circle
from sizer.scenes.coaming_views import coaming_form, strips_words
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


def test_the_strips_are_planed_at_the_end_that_is_lower_than_they_are_wide(bench):
    """The strips as they are bought against the wall as it is told, 20 mm of it under the deck."""
    rim = bench.materials.coaming
    wide = 1000.0 * rim.strips[0].width_m
    heights = {"in front": 1000.0 * rim.wall_m[0] + 20.0, "behind": 1000.0 * rim.wall_m[1] + 20.0}
    assert wide == pytest.approx(max(heights.values()), abs=0.5)  # whole millimetres
    said = strips_words(rim)
    if round(heights["in front"] - 20.0) == round(heights["behind"] - 20.0):
        assert "nothing is planed" in said
        return
    full, planed = sorted(heights, key=heights.get, reverse=True)
    assert f"bent at the width {full}" in said
    assert said.endswith(f"as told {planed}.")
