"""Words and dimensions of the outfit's drawings: figures that are as long as their lines, and names
that stand apart."""

from itertools import combinations

import numpy as np
import pytest
from shapely.geometry import LineString, Polygon

from sizer.drawing.record import Path, Text, text_corners_m
from sizer.scenes.bag_views import bags_from_above
from sizer.scenes.footbrace_views import pedals_view, rail_view
from sizer.scenes.outfit_views import LARGER, hip_view, thigh_view


@pytest.fixture(scope="module", params=["long-tourer", "small-cruiser", "surf-runner"])
def job(request, middle_job):
    return middle_job(request.param)


def test_panels_are_named_apart_however_near_they_stand(job, bench):
    drawing = bags_from_above(job.fitted.assessed.boat, bench, 0.0, 0.0022 * 25)
    named = [one for one in drawing.strokes if isinstance(one, Text)
             and one.text.startswith("panel at")]
    assert len(named) == 2
    for one, other in combinations(named, 2):
        assert not Polygon(text_corners_m(one)).intersects(Polygon(text_corners_m(other)))
    for text, tie in zip(named, bench.bag_ties, strict=True):
        assert abs(text.at_m[0] - tie.panel_x_m) < text.width_m, "still over its panel"


def test_the_room_between_the_boards_is_named(middle_job, middle_bench):
    """The figure over both pictures is no other width that the sheet tells."""
    job, bench = middle_job("teaching-boat"), middle_bench("teaching-boat")
    for view, half in (
            (hip_view, bench.hip_pads.face_m(bench.hip_pads.hips_z_m)),
            (thigh_view, bench.thigh.edge_m(bench.thigh.wall_middle_m)[0])):
        words = [one.text for one in view(job.fitted.assessed, bench, 0.0, 0.03).strokes
                 if isinstance(one, Text)]
        assert any(one.startswith(f"between the boards {2000.0 * half:.0f} (") for one in words)


@pytest.mark.parametrize("base", ["teaching-boat", "load-carrier"])
def test_no_leader_of_a_ring_runs_through_a_panels_words(base, middle_job, middle_bench):
    job, bench = middle_job(base), middle_bench(base)
    drawing = bags_from_above(job.fitted.assessed.boat, bench, 0.0, 0.0022 * 40)
    leaders = [LineString(one.points_m) for one in drawing.strokes
               if isinstance(one, Path) and one.pen == "extension" and len(one.points_m) == 2
               and np.ptp(one.points_m[:, 0]) < 1e-9]
    ringed = [one for one in leaders if any(abs(one.coords[0][0] - tie.ring_x_m) < 1e-9
                                            for tie in bench.bag_ties)]
    assert len(ringed) == 2
    named = [Polygon(text_corners_m(one)) for one in drawing.strokes if isinstance(one, Text)
             and not one.text.startswith("ring")]
    assert not any(line.intersects(word) for line in ringed for word in named)


def test_the_paddlers_sole_is_dimensioned_from_the_rails_fore_end(bench):
    drawing = rail_view(bench, 0.0022 * 8)
    sole, = (one for one in drawing.strokes if isinstance(one, Text)
             and one.text.startswith("ball of the foot, this paddler "))
    told = float(sole.text.split()[6])
    lines = [one.points_m[2:4] for one in drawing.strokes if isinstance(one, Path)
             and one.pen == "dimension" and len(one.points_m) == 6]  # between its two ticks
    over = min(lines, key=lambda one: np.hypot(*(one.mean(axis=0) - sole.at_m)))
    assert 1000.0 * over[:, 0] == pytest.approx([0.0, told], abs=0.5)
    assert told == pytest.approx(1000.0 * bench.foot_rails.set_m, abs=0.5)


def test_the_plate_is_dimensioned_from_edge_to_edge(job, bench):
    drawing = pedals_view(job.fitted.assessed, bench, 0.1, 0.0022 * 8)
    plate, = (one for one in drawing.strokes if isinstance(one, Text)
              and one.text.startswith("here "))
    lines = [one.points_m[2:4] for one in drawing.strokes if isinstance(one, Path)
             and one.pen == "dimension" and len(one.points_m) == 6]  # between its two ticks
    upright = [one for one in lines if np.ptp(one[:, 0]) < 1e-9]
    beside = min(upright, key=lambda one: np.hypot(*(one.mean(axis=0) - plate.at_m)))
    told = float(plate.text.removeprefix("here "))
    assert 1000.0 * np.ptp(beside[:, 1]) == pytest.approx(told, abs=0.5)


def test_a_thigh_pad_is_drawn_as_the_slab_that_is_bought(middle_job, middle_bench):
    job, bench = middle_job("long-tourer"), middle_bench("long-tourer")
    across = _thigh(job, bench)
    slope = bench.thigh.wide_m / (bench.thigh.outer_m - bench.thigh.inner_m)
    pads = [one.points_m for one in across if one.pen == "block"
            and np.ptp(one.points_m[:2, 0]) > bench.thigh.wide_m / 4.0]
    assert len(pads) == 2
    for one in pads:
        thick = np.abs(one[[0, 1], 1] - one[[3, 2], 1]) / slope
        assert thick == pytest.approx(bench.thigh.pad_m, abs=1e-6), "as thick at both edges"


def test_the_thigh_boards_are_dimensioned_between_the_edges_that_are_drawn(middle_job,
                                                                          middle_bench):
    across = _thigh(middle_job("long-tourer"), middle_bench("long-tourer"))
    boards = [one.points_m for one in across if one.pen == "cut"]
    inner = min(float(np.abs(one[:, 0]).min()) for one in boards)
    size, = (one.points_m[2:4] for one in across if one.pen == "dimension")
    assert np.abs(size[:, 0]) == pytest.approx(inner, abs=1e-6)


def _thigh(job, bench):
    """Paths of the section alone: the board from above stands beside it, LARGER."""
    drawing = thigh_view(job.fitted.assessed, bench, 0.1, 0.0022 * 5)
    half = 0.5 * job.fitted.assessed.boat.beam_m
    assert LARGER > 1.0
    return [one for one in drawing.strokes if isinstance(one, Path)
            and np.abs(one.points_m[:, 0]).max() <= half]
