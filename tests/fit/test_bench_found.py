"""One status: what the bench finds on the finished boat is among the checks of its fit."""

from dataclasses import replace

import pytest

from sizer.crowd.batch import fitted_lot
from sizer.crowd.people import PersonRow
from sizer.fit.bench_found import sawn_checks, unfair_checks
from sizer.fit.check import STATUSES, overall
from sizer.fit.checks import FAIR
from sizer.fit.request import Trip, read_request
from sizer.hull.boat import scaled_boat
from sizer.hull.fairness import fairness, surely_fair, worst_status
from sizer.hull.lines import fair_lines
from sizer.hull.scale import Scaling
from sizer.hydro.water import water_at
from sizer.job import run
from sizer.shop.bench import bench_of
from sizer.shop.pattern_checks import PatternCheck

BODY = {"weight_kg": 82, "stature_mm": 1780, "hip_width_mm": 385}


def hollowed(lines, offset_m, point="foredeck ridge"):
    """Lines with the ridge's point ahead of the cockpit lowered, and the frame that it is at."""
    frames = [one for one in lines.design.frames if point in one.points_m]
    at = frames[len(frames) // 2]
    y, z = at.points_m[point]
    moved = replace(at, points_m={**at.points_m, point: (y, z - offset_m)})
    design = replace(lines.design, frames=tuple(
        moved if one is at else one for one in lines.design.frames))
    return fair_lines(design), at.name


@pytest.fixture(scope="module")
def hollow(base_lines):
    return hollowed(base_lines["day-boat"], 0.020)


def test_a_hollow_ridge_is_a_failed_check_of_the_fit_that_names_its_place(hollow):
    lines, frame = hollow
    job = run(read_request({"base": "day-boat", "use": "sheltered-day", "paddler": BODY}), lines)
    check = job.fitted.check("fair")
    assert check.status == "fail"
    assert "foredeck ridge" in check.meaning
    assert job.fitted.status == "fail"
    assert any("foredeck ridge" in one for one in job.cautions)
    worst = max(fairness(job.fitted.assessed.boat), key=lambda one: abs(one.offset_m) / one.fail_m)
    assert check.value == pytest.approx(1000.0 * abs(worst.offset_m))
    bench = bench_of(job)
    assert job.stamped(bench=bench).status == job.fitted.status
    assert bench.fairness_status == "fail"
    assert frame in " ".join(one.place for one in bench.unfair)


def test_a_row_of_a_batch_says_what_the_bench_would(hollow, monkeypatch):
    monkeypatch.setattr("sizer.crowd.batch.lines_of", lambda base: hollow[0])
    row = PersonRow(2, "", {"paddler": BODY}, ())
    (result,) = fitted_lot((row,), Trip("day-boat", "sheltered-day", water_at("fresh", 10.0)))
    assert result["status"] == "fail"
    assert FAIR.title in result["failing"]
    assert any("foredeck ridge" in one for one in result["reasons"])


@pytest.mark.parametrize("offset_m", [0.004, 0.008, 0.012, 0.020])
def test_the_check_has_the_worst_status_of_the_sticks(offset_m, base_lines):
    boat = scaled_boat(hollowed(base_lines["day-boat"], offset_m)[0], Scaling())
    checks = unfair_checks(boat)
    expected = worst_status(fairness(boat))
    assert (overall(checks) if checks else "pass") == expected
    assert unfair_checks(boat, quick=True) == checks or expected != "pass"


def test_what_is_surely_fair_is_fair(lines):
    """Off the nodes that `surely_fair` asks, and beside them."""
    own_m, sure = lines.design.cockpit.length_m, 0
    for place, legs in enumerate((0.85, 0.885, 0.96, 1.04, 1.1, 1.15)):
        for ratio in (0.93, 0.95, 1.01, 1.07, 1.13, 1.16)[place % 2::2]:
            boat = scaled_boat(lines, Scaling(
                length=legs * ratio, legs=legs, beam=1.1, depth=0.95, crown=0.8 + ratio / 3.0,
                cockpit_length_m=own_m * legs * (1.0 + 0.3 * (legs - 1.0))))
            if surely_fair(boat):
                sure += 1
                assert worst_status(fairness(boat)) == "pass", (legs, ratio)
    assert sure >= 4


def test_a_base_that_is_not_fair_is_never_sure(hollow):
    assert not surely_fair(scaled_boat(hollow[0], Scaling(length=1.0)))


@pytest.mark.parametrize("left_m", [0.020, 0.005])
@pytest.mark.parametrize("hard", [True, False])
def test_a_pattern_that_does_not_hold_is_told_once_with_its_place(left_m, hard):
    found = [PatternCheck("F3", "behind chine", "plywood round the opening", left_m, 0.012,
                          "at least", "m", hard, "thin")]
    checks = sawn_checks([*found, *found])
    assert [STATUSES.index(one.status) for one in checks] == (
        [] if left_m > 0.012 else [2 if hard else 1])
    assert all("F3, behind chine" in one.meaning and "and 1 more" in one.meaning
               for one in checks)


def test_a_pattern_that_does_not_hold_fails_the_job_and_its_bench(base_lines, monkeypatch):
    lines = base_lines["day-boat"]
    request = read_request({"base": "day-boat", "use": "sheltered-day", "paddler": BODY})
    assert run(request, lines).fitted.status == "pass"
    broken = PatternCheck("F3", "behind chine", "plywood round the opening", 5.0, 12.0, "at least",
                          "mm", True, "thin")
    monkeypatch.setattr("sizer.shop.patterns.pattern_checks", lambda frames: (broken,))
    job = run(request, lines)
    assert job.fitted.status == job.stamped(bench=bench_of(job)).status == "fail"
    assert [one.name for one in job.fitted.checks if one.status == "fail"] == [
        "plywood parts sound as sawn"]
    assert any("F3, behind chine" in one for one in job.cautions)
