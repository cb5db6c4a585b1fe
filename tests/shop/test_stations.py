"""The station list against the boat's own curves."""

import numpy as np
import pytest

from sizer.fit.request import read_request
from sizer.hull.boat import scaled_boat
from sizer.hull.scale import Scaling
from sizer.hull.sections import half_section_at
from sizer.job import run
from sizer.shop.stations import BASELINE_OVER_STRONGBACK_M, setting_up

BASES = ("day-boat", "long-tourer", "steady-boat", "teaching-boat")


@pytest.mark.parametrize("base", BASES)
def test_unscaled_stations_are_the_design_file(base, base_lines):
    up = setting_up(scaled_boat(base_lines[base], Scaling()))
    for station, frame in zip(up.stations, base_lines[base].design.frames, strict=True):
        assert station.name == frame.name
        assert station.x_m == pytest.approx(frame.x_m, abs=1e-6)
        for name, (y, z) in frame.points_m.items():
            assert station.points_m[name][0] == pytest.approx(y, abs=1e-6)
            assert station.points_m[name][1] - BASELINE_OVER_STRONGBACK_M == pytest.approx(
                z, abs=1e-6)


@pytest.fixture(scope="module", params=BASES)
def job(request, base_lines):
    return run(read_request({"base": request.param, "use": "coastal-day", "paddler": {
        "weight_kg": 101, "stature_mm": 1840, "hip_width_mm": 425}}), base_lines[request.param])


def test_marks_are_one_tape_pull_and_spacings_add_up(job):
    up = job.setting_up
    marks = np.array([station.strongback_m for station in up.stations])
    spacings = np.array([station.spacing_m for station in up.stations])
    assert np.cumsum(spacings) == pytest.approx(marks)
    for station in up.stations:
        assert station.strongback_m + up.strongback_start_x_m == pytest.approx(station.x_m)
    assert marks[0] >= 0.1 - 1e-9
    assert up.strongback_length_m - marks[-1] >= 0.1 - 1e-9


def test_reference_face_is_the_one_nearer_the_boats_own_end(job):
    """Common practice, no source: a square-cut frame touches the stringer at that face."""
    boat = job.fitted.assessed.boat
    gunwale = boat.sections.y_m[:, boat.sections.sheer]
    widest = boat.sections.x_m[int(np.argmax(gunwale))]
    for station in job.setting_up.stations:
        ahead = station.x_m <= widest + 1e-9
        assert station.reference_face == ("forward" if ahead else "aft")
        assert station.plywood_lies == ("aft" if ahead else "forward")
        # the hull is no wider at the reference face than at the other face
        other = station.x_m + station.thickness_m * (1 if ahead else -1)
        here, there = np.interp([station.x_m, other], boat.sections.x_m, gunwale)
        assert here <= there + 2e-4


def test_points_lie_on_the_boats_sections(job):
    boat = job.fitted.assessed.boat
    fine = scaled_boat(boat.lines, boat.scaling, 1201)
    for station in job.setting_up.stations:
        y, z = half_section_at(fine.sections, station.x_m)
        for name in ("gunwale", "keel"):
            column = fine.sections.sheer if name == "gunwale" else 0
            assert station.points_m[name] == pytest.approx(
                (y[column], z[column] + BASELINE_OVER_STRONGBACK_M), abs=1e-4)
        assert station.gunwale_height_m == station.points_m["gunwale"][1]


def test_gunwale_is_level_along_the_cockpit(job):
    """Common practice, no source: the gunwale runs parallel to the waterline there."""
    heights = [station.gunwale_height_m for station in job.setting_up.stations
               if station.kind == "cockpit"]
    assert max(heights) - min(heights) < 0.006
