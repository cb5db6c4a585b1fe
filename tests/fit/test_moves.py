"""A move's figures are the differences of two boats assessed apart, each fitted and held whole."""

import numpy as np
import pytest

from sizer.errors import BadInput
from sizer.export.move_words import move_line
from sizer.fit.moves import allowed, moves
from sizer.fit.request import read_request
from sizer.fit.what_if import drag_N
from sizer.job import run

pytestmark = pytest.mark.usefixtures("unsawn")
SPEED_MPS = 1.8
KEYS = {"beam": "beam_mm", "length": "length_mm", "depth": "depth_mm", "crown": "deck_crown",
        "seat": "seat_shift_mm", "cockpit-length": "cockpit_length_mm",
        "cockpit-width": "cockpit_width_mm"}
BY = {"beam": -0.0508, "length": 0.12, "depth": -0.012, "crown": 0.1, "seat": 0.02, "gear": 12.0,
      "cockpit-length": 0.03, "cockpit-width": -0.02}


def job_for(base_lines, gear_kg=None, **fixed):
    return run(read_request({"base": "day-boat", "use": "coastal-day", "fixed": fixed, "paddler": {
        "weight_kg": 82.0, "stature_mm": 1780.0, "hip_width_mm": 385.0},
        "gear_kg": gear_kg}), base_lines["day-boat"])


@pytest.fixture(scope="module")
def job(base_lines):
    return job_for(base_lines)


def sizes(job):
    boat = job.fitted.assessed.boat
    return {"length_mm": 1000.0 * boat.length_m, "beam_mm": 1000.0 * boat.beam_m,
            "depth_mm": 1000.0 * boat.depth_m, "deck_crown": boat.scaling.crown,
            "seat_shift_mm": 1000.0 * boat.scaling.seat_shift_m,
            "cockpit_length_mm": 1000.0 * boat.opening.length_m,
            "cockpit_width_mm": 1000.0 * boat.opening.width_m}


def figures(job):
    assessed = job.fitted.assessed
    return {"gm": assessed.particulars.gm_m, "freeboard": assessed.particulars.freeboard_m,
            "drag": drag_N(assessed, SPEED_MPS), "hips": assessed.space.hip_width_m,
            "knees": assessed.space.knee_height_m, "feet": assessed.space.foot_height_m,
            "weight": assessed.weight.mass_kg,
            "range": job.mishaps.mover_sums.vanishing_deg}


@pytest.mark.parametrize("dimension", BY)
def test_move_is_the_difference_of_two_jobs(base_lines, job, dimension):
    own = job.fitted.assessed
    move, = moves(own, False, dimension, [BY[dimension]], SPEED_MPS)
    held = sizes(job)
    if dimension != "seat":
        del held["seat_shift_mm"]  # it slides, as in a fit
    gear = None
    if dimension == "gear":
        gear = own.person.gear_kg + BY["gear"]
    else:
        scale = 1.0 if dimension == "crown" else 1000.0
        held[KEYS[dimension]] += scale * BY[dimension]
    other = job_for(base_lines, gear, **held)
    before, after = figures(job), figures(other)
    for change in move.changes:
        key = change.figure.key
        close = {"range": 0.6, "drag": 0.01, "weight": 0.002}.get(key, 2e-4)
        assert change.before == pytest.approx(before[key], abs=close), key
        assert change.after == pytest.approx(after[key], abs=close), key
        if change.figure.check:
            assert change.status == other.fitted.check(change.figure.check).status
    was = {check.key: check.status for check in job.fitted.checks}
    turned = {check.key for check in other.fitted.checks
              if check.status != was.get(check.key, "pass")}
    assert {check.key for check, _ in move.turned} == turned


def test_held_size_leaves_the_others_where_they_stand(base_lines, job):
    before = sizes(job)
    narrower = sizes(job_for(base_lines, beam_mm=before["beam_mm"] - 50.8))
    for key in ("length_mm", "depth_mm", "deck_crown", "cockpit_length_mm", "cockpit_width_mm"):
        assert narrower[key] == pytest.approx(before[key], abs=1e-6), key


def test_many_moves_are_each_as_if_alone(job):
    many = moves(job.fitted.assessed, False, "beam", [-0.05, 0.02], SPEED_MPS)
    alone, = moves(job.fitted.assessed, False, "beam", [0.02], SPEED_MPS)
    np.testing.assert_allclose([one.after for one in many[1].changes],
                               [one.after for one in alone.changes], rtol=1e-6)


def test_line_says_which_way_and_what(job):
    move, = moves(job.fitted.assessed, False, "beam", [-0.0508], SPEED_MPS)
    line = move_line(move, lambda value, _: f"{1000.0 * value:.0f} mm")
    gm = move.changes[0]
    assert line.startswith(f"51 mm narrower: GM {1000 * gm.before:.0f} to {1000 * gm.after:.0f} mm")
    assert "less room" in line
    assert gm.after < gm.before


def test_what_the_base_does_not_allow_is_refused(job):
    low, high = allowed(job.fitted.assessed, "beam")
    now = job.fitted.assessed.boat.beam_m
    moves(job.fitted.assessed, False, "beam", [low - now, high - now], SPEED_MPS)
    with pytest.raises(BadInput, match="amount"):
        moves(job.fitted.assessed, False, "beam", [high - now + 0.001], SPEED_MPS)
    with pytest.raises(BadInput, match="dimension"):
        moves(job.fitted.assessed, False, "colour", [0.1], SPEED_MPS)
