"""The laths that stay a stem's head are clear of all that comes there, and end on a cross foot."""

import numpy as np
import pytest
from shapely import Point, box

from sizer.export.plan_work import told_figures
from sizer.shop import stem_stays
from sizer.shop.bench import bench_of
from sizer.shop.stem_stays import stay_words
from sizer.shop.work import filled
from tests.conftest import BASE_NAMES
from tests.shop.solids import Sticks

LATH_HALF_M, BLOCK_HALF_M, BLOCK_THICK_M = 0.015, 0.020, 0.021
BEAM_HIGH_M, FOOT_WIDE_M, FOOT_HIGH_M = 0.090, 0.090, 0.045


@pytest.fixture(scope="module", params=BASE_NAMES)
def job(request, middle_job):
    return middle_job(request.param)


@pytest.fixture(scope="module")
def near(job, bench):
    """(stay, stem, from the tape to x, bodies of sticks to starboard by x over the strongback)."""
    boat, up = job.fitted.assessed.boat, job.setting_up
    sticks = Sticks(boat, bench.frames)

    def bodies(x, half):
        for name, body in sticks.all_at(x).items():
            beside = body.intersection(box(half, -1.0, 2.0, 2.0))
            if not beside.is_empty:
                yield name, beside

    return [(stay, stem, up.strongback_start_x_m, up.baseline_height_m, bodies)
            for stay, stem in zip(bench.stays, bench.stems, strict=True)]


def test_lath_and_block_meet_no_stick_in_its_place(near):
    for stay, stem, start, base, bodies in near:
        half = 0.5 * stem.thickness_m
        for share in np.linspace(0.0, 1.0, 41):
            tape, out, up = stay.ends_m[0] + share * (stay.ends_m[1] - stay.ends_m[0])
            for name, body in bodies(round(tape + start, 4), half):
                assert body.distance(Point(out, up - base)) > LATH_HALF_M, (stay.stem, name)
        block = box(half, stay.high_m - base - BLOCK_HALF_M, half + BLOCK_THICK_M,
                    stay.high_m - base + BLOCK_HALF_M)
        for tape in stay.tape_m + np.linspace(-BLOCK_HALF_M, BLOCK_HALF_M, 9):
            for name, body in bodies(round(tape + start, 4), half):
                assert not block.intersects(body), (stay.stem, name)


def test_the_block_lies_on_the_stems_wood_clear_of_its_holes(near):
    for stay, stem, _, base, _ in near:
        place = stay.inboard_m, stay.high_m - base
        square = box(*(one - BLOCK_HALF_M for one in place), *(one + BLOCK_HALF_M for one in place))
        assert stem.wood.covers(square)
        assert all(square.distance(Point(hole)) > 0.0016 for _, hole in stem.holes)


def test_lath_and_block_are_clear_of_the_post_its_arms_and_every_riser(near, bench):
    for (stay, *_), post in zip(near, bench.marks.posts, strict=True):
        solids = [(post.tape_m, (0.0, 0.0225 + 0.021), (0.0, post.long_m)),
                  *(one for riser in bench.marks.risers for one in riser.solids_m)]
        spots = stay.ends_m[0] + np.linspace(0.0, 1.0, 81)[:, None] * np.diff(stay.ends_m, axis=0)
        for span in map(np.asarray, solids):
            away = np.maximum(np.maximum(span[:, 0] - spots, spots - span[:, 1]), 0.0)
            assert np.linalg.norm(away, axis=1).min() > LATH_HALF_M, stay.stem


def test_both_ends_of_a_lath_have_wood_for_their_screws_and_it_stands_well_out(near, bench):
    """A lath to the beam itself would come 50 mm out: a quarter of what a cross foot gives."""
    feet = bench.cross_feet
    for stay, stem, *_ in near:
        (top, near_m, _), (low, out, under) = stay.ends_m
        assert near_m == pytest.approx(0.5 * stem.thickness_m + 0.5 * BLOCK_THICK_M)
        assert abs(top - stay.tape_m) == pytest.approx(BLOCK_HALF_M + 0.005)
        foot = min(feet.tapes_m, key=lambda tape: abs(tape - stay.foot_tape_m))
        assert abs(foot - stay.foot_tape_m) == pytest.approx(0.5 * FOOT_WIDE_M)
        assert abs(low - foot) == pytest.approx(0.5 * FOOT_WIDE_M + 0.005)
        assert 0.0 < foot - 0.5 * FOOT_WIDE_M < foot + 0.5 * FOOT_WIDE_M < bench.marks.strongback_m
        assert 0.200 < out < 0.5 * feet.long_m - 0.020
        assert -BEAM_HIGH_M - FOOT_HIGH_M + 0.01 < under < -BEAM_HIGH_M - 0.01
        length = np.linalg.norm(stay.ends_m[1] - stay.ends_m[0])
        assert stay.long_m == pytest.approx(length + 2.0 * LATH_HALF_M)
        assert abs(low - top) < 0.35 * length, "screwed flat at both ends"


def test_sheets_list_and_steps_tell_them(job, bench):
    said = {one.key: one for one in filled(told_figures(job, bench))}
    assert "stayed by its two laths" in said["frames"].do
    assert "inside the stems' laths" in said["chines"].do
    assert "the stems' laths as before" in said["reassemble"].do
    items = {one.what: one for one in bench.materials.items}
    lath = items["lath to stay a stem: width, thickness, length"]
    assert lath.quantity == 4
    assert all(one.long_m <= lath.size_m[2] + 0.0005 for one in bench.stays)
    for stay in bench.stays:
        assert f"{stay.tape_m * 1000.0:.1f} mm" in stay_words(stay)
        assert f"{stay.high_m * 1000.0:.1f} mm" in stay_words(stay)
    screws = items["screw 4 x 35 (#8 x 1 1/4 in)"]
    assert "stems' laths and their blocks: 16" in screws.allowance


def test_where_no_place_is_free_that_is_said(bench, monkeypatch, job):
    """As in an own design whose sticks leave none."""
    assert not any("NO PLACE FOUND" in stay_words(stay) for stay in bench.stays)
    monkeypatch.setattr(stem_stays, "_free", lambda *_: False)
    assert all("NO PLACE FOUND" in stay_words(stay) and "before a stick is bent" in stay_words(stay)
               for stay in bench_of(job).stays)
