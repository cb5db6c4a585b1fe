"""The strongback on the floor does not turn over under its paddler."""

from types import SimpleNamespace

import pytest

from sizer.export.plan_work import told_figures
from sizer.fit.request import read_request
from sizer.job import run
from sizer.shop.bench import bench_of
from sizer.shop.cross_feet import cross_feet
from sizer.shop.work import filled
from tests.conftest import BASE_NAMES

PEOPLE = ({"weight_kg": 51.3, "stature_mm": 1525, "hip_width_mm": 348},
          {"weight_kg": 104, "stature_mm": 1860, "hip_width_mm": 430})
G_MPS2, SCREW_N, BEAM_M, EDGE_M = 9.80665, 4.0 * 5.0 * 35.0, 0.089, 0.015


@pytest.fixture(scope="module", params=BASE_NAMES)
def built(request, base_lines):
    """(person, Job, Bench) of a base, for one of the people by turns."""
    person = PEOPLE[BASE_NAMES.index(request.param) % len(PEOPLE)]
    job = run(read_request({"base": request.param, "use": "sheltered-day", "paddler": person}),
              base_lines[request.param])
    return person, job, bench_of(job)


def test_all_the_weight_on_one_gunwale_stays_within_the_feet_and_on_their_screws(built):
    """Moments about a foot's end and about the beam's lower edge, a 4 x 4 being the narrowest; a
    screw 5 x 80 through 45 mm of foot holds 4 N for each square mm of 5 x 35."""
    person, job, bench = built
    feet = next(one for one in bench.materials.items if one.what.startswith("cross foot"))
    wide, high, long = feet.size_m
    half = 0.5 * job.fitted.assessed.boat.beam_m
    assert 0.5 * long >= half + 0.0199
    assert long <= 2.0 * half + 0.0901  # no longer than told in steps of 50 mm
    turning = person["weight_kg"] * G_MPS2 * (half - 0.5 * BEAM_M)
    assert feet.quantity * 2 * SCREW_N * (BEAM_M - 2.0 * EDGE_M) >= turning
    # a foot by itself, as a beam of softwood from the beam's edge out: far from 35 N a mm2
    assert person["weight_kg"] * G_MPS2 * 0.5 * long < 0.5 * 35e6 * wide * high**2 / 6.0


def test_steps_screw_them_on_before_anything_stands_there_and_use_them(built):
    _, job, bench = built
    said = {one.key: one for one in filled(told_figures(job, bench))}
    count = bench.cross_feet.count
    assert f"screw {count} cross feet under it" in said["strongback"].do
    assert "(under the seat)" in said["strongback"].do
    for tape in bench.cross_feet.tapes_m:
        assert f"{tape * 1000.0:.1f} mm" in said["strongback"].do
    assert f"on its {count} cross feet" in said["sit"].do
    assert "never without the cross feet" in said["sit"].danger
    screws = next(one for one in bench.materials.items if one.what.startswith("screw 5 x 80"))
    assert f"cross feet up into the beam: {4 * count}" in screws.allowance


def test_a_heavier_paddler_takes_more_screws_and_a_wider_boat_longer_feet():
    narrow, wide = (SimpleNamespace(beam_m=beam) for beam in (0.55, 0.80))
    ends = SimpleNamespace(foot_tape_m=0.02), SimpleNamespace(foot_tape_m=3.98)
    light, heavy = (cross_feet(wide, kg, 0.089, 2.0, ends) for kg in (60.0, 160.0))
    assert light.tapes_m == pytest.approx((0.065, 1.0325, 2.0, 3.935))
    assert heavy.count > light.count == 4
    assert cross_feet(narrow, 60.0, 0.089, 2.0, ends).long_m == pytest.approx(0.60)
    assert light.long_m == pytest.approx(0.85)
