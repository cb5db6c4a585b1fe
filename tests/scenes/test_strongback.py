"""The strongback's plan: what stands where, and words that can be read."""

from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest
from shapely.affinity import rotate, translate
from shapely.geometry import box

from sizer.drawing.marks import unit_of
from sizer.drawing.record import Circle, Path, Text
from sizer.hull.fairness import Unfairness
from sizer.scenes.hull_views import RING
from sizer.scenes.long_views import owners_drawing
from sizer.scenes.risers import risers_drawing
from sizer.scenes.strongback import strongback_drawing
from sizer.shop.risers import risers
from tests.conftest import BASE_NAMES

LETTERS_M = 0.052  # 2.6 mm on paper at 1 : 20


@pytest.fixture(scope="module", params=BASE_NAMES)
def job(request, middle_job):
    return middle_job(request.param)


@pytest.fixture(scope="module")
def plan(job, bench):
    return strongback_drawing(job, bench, LETTERS_M)


def test_no_pattern_of_a_base_fails_and_the_status_is_the_worst(job, bench):
    """Here, where every base's bench is made."""
    assert [check for check in bench.checks if check.status == "fail"] == []
    failing = replace(bench, checks=(replace(bench.checks[0], value=-9e9, sense="at least",
                                             hard=True),))
    assert job.stamped(bench=failing).status == "fail"


def upright_lines(plan):
    """x of the solid upright lines: reference faces, from above and from the side."""
    return sorted(float(stroke.points_m[0, 0]) for stroke in plan.strokes
                  if isinstance(stroke, Path) and stroke.pen == "cut" and len(
                      stroke.points_m) == 2)


def boxes(plan, left, right):
    """Closed marks of four corners with these two sides."""
    return [stroke for stroke in plan.strokes
            if isinstance(stroke, Path) and stroke.closed and len(stroke.points_m) == 4
            and stroke.points_m[:, 0].min() == pytest.approx(left, abs=1e-9)
            and stroke.points_m[:, 0].max() == pytest.approx(right, abs=1e-9)]


def word_box(text):
    flat = box(-0.5 * 0.65 * text.height_m * len(text.text), -0.5 * text.height_m,
               0.5 * 0.65 * text.height_m * len(text.text), 0.5 * text.height_m)
    return translate(rotate(flat, text.angle_deg, origin=(0.0, 0.0)), *text.at_m)


def test_every_reference_face_stands_at_its_mark_in_both_views(job, plan):
    marks = [station.strongback_m for station in job.setting_up.stations]
    assert upright_lines(plan) == pytest.approx(sorted(marks * 2))


def test_plywood_lies_on_its_side_and_the_riser_on_the_other(job, bench, plan):
    """A riser's boards, or hangers and legs, on the mark, and behind them its foot, and its bar."""
    for station, riser in zip(job.setting_up.stations, bench.marks.risers, strict=True):
        mark, thick = station.strongback_m, station.thickness_m
        aft = station.plywood_lies == "aft"
        wood = (mark, mark + thick) if aft else (mark - thick, mark)
        boards = (mark - 0.021, mark) if aft else (mark, mark + 0.021)
        foot = (mark - 0.066, mark - 0.021) if aft else (mark + 0.021, mark + 0.066)
        hung = riser.kind == "hung"
        assert len(boxes(plan, *wood)) == 2
        assert len(boxes(plan, *boards)) == (6 if hung else 3), "pairs from above, and the side"
        found = boxes(plan, *foot)
        assert len(found) == (3 if hung else 2)
        assert [np.ptp(one.points_m[:, 1]) for one in found] == pytest.approx(
            [riser.foot_m, *[0.045] * (len(found) - 1)])


def test_each_stem_posts_foot_is_drawn_on_its_outer_face(bench, plan):
    """On the inner one where the beam ends before that."""
    for post, way in zip(bench.marks.posts, (-1.0, 1.0), strict=True):
        inner, outer = post.strongback_m, post.strongback_m + way * 0.045
        assert len(boxes(plan, *sorted((inner, outer)))) == 2
        room = 0.0 <= outer + way * 0.045 <= bench.marks.strongback_m
        foot = (outer, outer + way * 0.045) if room else (inner, inner - way * 0.045)
        above, beside = boxes(plan, *sorted(foot))
        assert np.ptp(above.points_m[:, 1]) == pytest.approx(0.120)
        assert np.ptp(beside.points_m[:, 1]) == pytest.approx(0.045)


@pytest.mark.parametrize("letters_m", [LETTERS_M, 1.8 * LETTERS_M])
def test_no_two_words_lie_on_each_other(job, bench, letters_m):
    plan = strongback_drawing(job, bench, letters_m)
    words = [stroke for stroke in plan.strokes if isinstance(stroke, Text)]
    for one, other in combinations(words, 2):
        assert not word_box(one).intersects(word_box(other)), (one.text, other.text)


def test_every_mark_is_named_with_its_tape(bench, plan):
    told = [stroke.text for stroke in plan.strokes if isinstance(stroke, Text)]
    for mark in bench.marks.marks:
        assert any(text.endswith(f" {mark.strongback_m * 1000:.0f}") for text in told), mark.name


def test_a_hollow_is_ringed_where_it_is_and_one_that_passes_is_not(job, bench):
    seen = Unfairness("chine", "profile", "hollow", "near F3", (1.5, 0.2, 0.07), 1.3, 1.7, 0.003,
                      "caution", "made up")
    fine = replace(seen, status="pass", point_m=(2.0, 0.2, 0.07))
    rings = [stroke for stroke in strongback_drawing(
        job, replace(bench, unfair=(fine, seen)), LETTERS_M).strokes
        if isinstance(stroke, Circle) and stroke.radius_m == pytest.approx(
            RING * unit_of(LETTERS_M))]
    start = job.setting_up.strongback_start_x_m
    assert [ring.centre_m[0] for ring in rings] == pytest.approx([1.5 - start])


def test_the_owners_drawing_is_as_long_and_wide_as_the_boat(job):
    boat = job.fitted.assessed.boat
    drawn = owners_drawing(boat, job.fitted.assessed.particulars).on("ink")
    assert drawn.width_m == pytest.approx(boat.length_m, abs=1e-6)
    plan = [stroke.points_m for stroke in drawn.strokes][-2:]
    assert np.ptp(np.concatenate(plan)[:, 1]) == pytest.approx(boat.beam_m, rel=0.02)


def test_the_owners_drawing_names_its_frames_between_both_views(job):
    boat, particulars = job.fitted.assessed.boat, job.fitted.assessed.particulars
    named = owners_drawing(boat, particulars, 0.066).on("text").strokes
    assert [one.text for one in named] == [one.name for one in boat.design.frames]
    assert [one.at_m[0] for one in named] == pytest.approx(boat.frame_x_m.tolist(), abs=0.1)
    inked = owners_drawing(boat, particulars, 0.066).on("ink").strokes
    for one in named:
        low, high = one.at_m[1] - one.height_m, one.at_m[1] + one.height_m
        assert not any(np.any((stroke.points_m[:, 1] > low) & (stroke.points_m[:, 1] < high))
                       for stroke in inked)
    assert not owners_drawing(boat, particulars).on("text").strokes


def test_every_riser_is_drawn_as_wide_and_high_as_it_is(job, bench):
    drawn = risers_drawing(bench, job.setting_up.baseline_height_m, "mm", 6, 0.02)
    sizes = [tuple(np.ptp(stroke.points_m, axis=0)) for stroke in drawn.strokes
             if isinstance(stroke, Path) and stroke.pen == "cut" and stroke.closed]
    for riser in bench.marks.risers:
        found = [size for size in sizes if size == pytest.approx(
            (riser.outer_m - riser.inner_m, riser.height_m - riser.low_m), abs=1e-9)]
        assert len(found) >= 2, riser.frame
        assert any(isinstance(stroke, Text) and stroke.text == f"{riser.frame}: {riser.kind}"
                   for stroke in drawn.strokes)


def test_a_hung_risers_bar_is_drawn_as_long_as_its_foot_up_to_the_legs_tops(job, bench):
    up = job.setting_up
    for riser, pattern in zip(risers(up.stations, bench.frames, up.baseline_height_m, "hung"),
                              bench.frames, strict=True):
        one = replace(bench, frames=(pattern,), marks=replace(bench.marks, risers=(riser,)))
        drawn = risers_drawing(one, up.baseline_height_m, "mm", 6, 0.02)
        ends = [stroke.points_m for stroke in drawn.on("mark").strokes if stroke.closed]
        assert [np.ptp(end[:, 0]) for end in ends] == pytest.approx([riser.foot_m] * 2)
        assert [np.ptp(end[:, 1]) for end in ends] == pytest.approx([0.045, 0.045])
        foot, bar = sorted(ends, key=lambda end: end[0, 1])
        assert bar[:, 1].max() - foot[:, 1].min() == pytest.approx(riser.height_m)
        legs = [leg for leg in drawn.on("cut").strokes if leg.closed and tuple(
            np.ptp(leg.points_m, axis=0)) == pytest.approx((0.060, riser.height_m))]
        assert len(legs) == 2
        told = [stroke.text for stroke in drawn.strokes if isinstance(stroke, Text)]
        assert f"bar {1000 * riser.foot_m:.0f} long" in told
