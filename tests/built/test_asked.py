"""What is asked at the bench: the station list's own figures, and back through the table."""

import pytest

from sizer.built.asked import asked_of, measured_of
from sizer.built.points import points_of
from sizer.built.table import measured_text, read_measured
from sizer.design.library import read_base, shipped_names
from sizer.errors import BadInput
from sizer.hull.boat import scaled_boat
from sizer.hull.lines import fair_lines
from sizer.hull.scale import Scaling
from sizer.scenes.bench_views import asked_view
from sizer.shop.stations import setting_up


@pytest.fixture(scope="module", params=shipped_names())
def bench(request):
    boat = scaled_boat(fair_lines(read_base(request.param)), Scaling())
    points, up = points_of(boat), setting_up(boat)
    return points, up, asked_of(points, up)


def test_designed_figures_are_those_of_the_station_list(bench):
    _, up, asked = bench
    stations = {one.name: one for one in up.stations}
    assert len({one.key for one in asked}) == len(asked)
    for one in asked:
        if one.what == "mark":
            assert one.designed_m == stations[one.frame].strongback_m
        elif one.stringer and one.to is None:
            y, z = stations[one.frame].points_m[one.stringer]
            wanted = {"half_breadth": y, "across": 2.0 * y, "height": z}[one.what]
            assert one.designed_m == pytest.approx(wanted, abs=1e-12)


def test_what_was_read_goes_through_the_table_and_back(bench):
    _, up, asked = bench
    given = measured_of(asked, {one.key: one.designed_m + 0.001 * at for at, one in
                                enumerate(asked[::7])}, up.baseline_height_m)
    back = read_measured(measured_text(given), heights_from="baseline")
    assert back.length_m == pytest.approx(given.length_m, abs=1e-12)
    assert dict(back.marks_m) == pytest.approx(dict(given.marks_m), abs=1e-12)
    for one, other in zip(given.reaches, back.reaches, strict=True):
        assert (one.what, one.side, one.frame, one.stringer, one.to) == (
            other.what, other.side, other.frame, other.stringer, other.to)
        assert other.value_m == pytest.approx(one.value_m, abs=1e-12)


def test_a_height_below_the_baseline_or_a_hair_off_it_goes_through_the_table_too(bench):
    """A keel on the baseline that stands low, and one that is there but for rounding."""
    _, up, asked = bench
    low, there = [one for one in asked if one.what == "height" and one.stringer == "keel"][:2]
    for hair_m in (0.0, 1e-14):
        values = {low.key: up.baseline_height_m - 0.0009,
                  there.key: up.baseline_height_m + hair_m}
        given = measured_of(asked, values, up.baseline_height_m)
        back = read_measured(measured_text(given), heights_from="baseline")
        assert [one.value_m for one in back.reaches] == pytest.approx([-0.0009, 0.0], abs=1e-12)
    with pytest.raises(BadInput, match="not below zero"):
        read_measured("side,frame,stringer,half_breadth_mm,height_mm\n"
                      f"both,{low.frame},keel,,-0.9\n")  # the strongback is in the way


def test_every_measure_has_its_picture_with_its_figure_on_paper(bench):
    points, up, asked = bench
    for one in asked[::11]:
        drawn = asked_view(points, up, one, lambda value_m: f"{1000.0 * value_m:.1f}", True)
        texts = [stroke for stroke in drawn.strokes if hasattr(stroke, "text")]
        (figure,) = [text for text in texts if text.text == f"{1000.0 * one.designed_m:.1f}"]
        left, low, right, high = drawn.frame_m
        assert left <= figure.at_m[0] <= right
        assert low <= figure.at_m[1] <= high
