"""Hips between the spacers, by the polygons of their mortises, in the fit and in what is sawn."""

from dataclasses import replace

import numpy as np
import pytest

from sizer.fit.request import read_request
from sizer.hull.spacers import half_room_m
from sizer.job import run
from sizer.shop.hip_pads import hip_checks
from tests.conftest import BASE_NAMES

HIPS_UP_M = 0.10
SITTING_AHEAD_M = 0.10  # of the back of the buttocks
SHOULDER_M = 0.004  # of a face over and under its tenon
WIDE = {"weight_kg": 70.0, "stature_mm": 1600.0, "hip_width_mm": 445.0}


@pytest.fixture(scope="module", params=BASE_NAMES)
def job(request, middle_job):
    return middle_job(request.param)


def _face(patterns, x_m):
    """Lower and upper edge of a spacer's inner face at an x, (2, 2) m, from the corners of the two
    mortises that it runs between: laid out by hand."""
    fore = max((one for one in patterns if one.mortises and one.x_m < x_m), key=lambda p: p.x_m)
    aft = min((one for one in patterns if one.mortises and one.x_m > x_m), key=lambda p: p.x_m)
    share, found = (x_m - fore.x_m) / (aft.x_m - fore.x_m), []
    for one in (fore, aft):
        slot = max(one.mortises, key=lambda slot: slot.centroid.x)
        corners = np.asarray(slot.minimum_rotated_rectangle.exterior.coords[:4])
        inner = corners[np.argsort((corners - slot.centroid.coords[0]) @ _across(corners))[:2]]
        low, high = inner[np.argsort(inner[:, 1])]
        up = (high - low) / np.linalg.norm(high - low) * SHOULDER_M
        found.append(np.array([low - up, high + up]))
    return (1.0 - share) * found[0] + share * found[1]


def _across(corners):
    """Unit vector outward along a slot's short side."""
    sides = np.diff(corners, axis=0)
    short = min(sides, key=lambda side: np.hypot(*side))
    return short * np.sign(short[0]) / np.hypot(*short)


def _clear_m(face, height_m):
    """Width between a face and its twin at a height, or at the face's edge nearest to it."""
    return 2.0 * float(np.interp(height_m, face[:, 1], face[:, 0]))


def test_the_fit_finds_the_spacers_where_they_are_sawn(job):
    boat = job.fitted.assessed.boat
    for ahead in (SITTING_AHEAD_M - 0.05, SITTING_AHEAD_M, SITTING_AHEAD_M + 0.05):
        x = boat.seat_x_m - ahead
        face = _face(job.patterns.frames, x)
        assert 2.0 * half_room_m(boat, x, boat.seat_z_m + HIPS_UP_M) == pytest.approx(
            _clear_m(face, boat.seat_z_m + HIPS_UP_M), abs=0.0025)


@pytest.mark.parametrize("name", ["surf-runner", "long-tourer", "day-boat"])
def test_wide_hips_go_between_the_spacers_of_a_boat_that_passes(base_lines, name):
    """With 12 mm a side for clothing and to roll."""
    job = run(read_request({"base": name, "use": "rough-water", "paddler": WIDE}), base_lines[name])
    boat = job.fitted.assessed.boat
    face = _face(job.patterns.frames, boat.seat_x_m - SITTING_AHEAD_M)
    clear = _clear_m(face, boat.seat_z_m + HIPS_UP_M)
    assert clear >= 0.445 + 2 * 0.012 - 0.001 or job.status == "fail"


def test_spacers_too_near_for_the_hips_fail_what_is_sawn(job):
    assessed = job.fitted.assessed
    face = _face(job.patterns.frames, assessed.boat.seat_x_m - SITTING_AHEAD_M)
    clear = _clear_m(face, assessed.boat.seat_z_m + HIPS_UP_M)

    def status(hips_m):
        wide = replace(assessed, room=replace(assessed.room, hip_width_m=hips_m))
        return hip_checks(job.patterns.frames, wide)[0].status

    assert status(clear - 0.003) == "pass"
    assert status(clear + 0.003) == "fail"


def test_without_spacers_beside_them_there_is_no_check(job):
    bare = [replace(one, mortises=()) for one in job.patterns.frames]
    assert hip_checks(bare, job.fitted.assessed) == ()
