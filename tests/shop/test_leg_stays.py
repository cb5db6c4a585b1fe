"""The laths that stay a hung frame's legs are clear of all that comes there, down to the beam."""

from dataclasses import replace

import numpy as np
import pytest
from shapely import Point

from sizer.shop import leg_stays
from sizer.shop.bench import bench_of
from sizer.shop.leg_stays import between_words
from sizer.shop.settings import SHOP
from tests.conftest import BASE_NAMES
from tests.shop.solids import Sticks

LATH_HALF_M, LEG_M, BEAM_HALF_M, BEAM_HIGH_M = 0.015, 0.060, 0.050, 0.090


@pytest.fixture(scope="module", params=BASE_NAMES)
def job(request, middle_job):
    return middle_job(request.param)


def _spots(stay, count=81):
    return stay.ends_m[0] + np.linspace(0.0, 1.0, count)[:, None] * np.diff(stay.ends_m, axis=0)


def test_every_hung_frame_of_a_base_has_a_lath_and_none_other(bench):
    assert [one.frame for one in bench.leg_stays] == [
        one.frame for one in bench.marks.risers if one.kind == "hung"]
    assert all(one.clear for one in bench.leg_stays)
    assert between_words(bench.leg_stays) == ""


def test_a_lath_meets_no_stick_in_its_place(job, bench):
    """By the bodies of the sticks themselves, which lie within the hull that is searched with."""
    up, sticks = job.setting_up, Sticks(job.fitted.assessed.boat, bench.frames)
    for stay in bench.leg_stays:
        for tape, half, high in _spots(stay, 41):
            spot = Point(half, high - up.baseline_height_m)
            for name, body in sticks.all_at(round(tape + up.strongback_start_x_m, 4)).items():
                assert body.distance(spot) > LATH_HALF_M + 0.005, (stay.frame, name)


def test_a_lath_is_clear_of_posts_stems_laths_and_every_other_riser(bench):
    for stay in bench.leg_stays:
        spots = _spots(stay)
        solids = [(post.tape_m, (0.0, 0.0225 + 0.021), (0.0, post.long_m))
                  for post in bench.marks.posts]
        solids += [(post.foot_tape_m, (0.0, 0.060), (0.0, 0.045)) for post in bench.marks.posts]
        solids += [one for riser in bench.marks.risers if riser.frame != stay.frame
                   for one in riser.solids_m]
        for span in map(np.asarray, solids):
            away = np.maximum(np.maximum(span[:, 0] - spots, spots - span[:, 1]), 0.0)
            assert np.linalg.norm(away, axis=1).min() > LATH_HALF_M, stay.frame
        for other in bench.stays:
            off = spots[:, None] - _spots(other)[None]
            assert np.linalg.norm(off, axis=2).min() > 2.0 * LATH_HALF_M, (stay.frame, other.stem)


def test_its_ends_lie_on_the_leg_under_the_bar_and_on_the_beams_side(bench):
    """Half as far along the boat as up, or it holds little."""
    for stay in bench.leg_stays:
        riser = next(one for one in bench.marks.risers if one.frame == stay.frame)
        (top, half, high), (low, beam, under) = stay.ends_m
        assert riser.boards_tape_m[0] < top < riser.boards_tape_m[1]
        assert half == pytest.approx(riser.leg_m - 0.005)
        assert 0.010 < riser.height_m - 0.045 - high - LATH_HALF_M + 0.010 < 0.050
        assert beam == pytest.approx(BEAM_HALF_M + 0.005)
        assert -BEAM_HIGH_M + LATH_HALF_M < under < -LATH_HALF_M
        assert 0.0 < low < bench.marks.strongback_m
        assert abs(low - top) > 0.3 * high
        length = np.linalg.norm(stay.ends_m[1] - stay.ends_m[0])
        assert stay.long_m == pytest.approx(length + 2.0 * LATH_HALF_M)


def test_sheet_and_list_tell_them(bench):
    items = {one.what: one for one in bench.materials.items}
    lath = items.get("lath to stay a leg: width, thickness, length")
    assert (lath is not None) == bool(bench.leg_stays)
    if lath:
        assert lath.quantity == 2 * len(bench.leg_stays)
        assert all(one.long_m <= lath.size_m[2] + 0.0005 for one in bench.leg_stays)


def test_where_the_hull_is_in_the_way_legs_are_held_to_their_neighbours(middle_job, monkeypatch):
    """Amidships a hung frame's lath would go through the bottom; of all hung, some still find it.
    """
    job = middle_job("surf-runner")
    hung = replace(SHOP, risers="hung")
    stays = bench_of(job, hung).leg_stays
    assert any(one.clear for one in stays)
    shut = [one.frame for one in stays if not one.clear]
    assert shut
    assert "from leg to leg" in between_words(stays)
    assert all(name in between_words(stays) for name in shut)
    monkeypatch.setattr(leg_stays, "_free", lambda *_: False)
    assert "NO PLACE FOUND" in between_words(bench_of(job, hung).leg_stays)
