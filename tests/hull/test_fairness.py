"""Hollows and bumps: the shipped bases are fair, and what is put in is found where it was put."""

from dataclasses import replace

import numpy as np
import pytest

from sizer.hull.boat import scaled_boat
from sizer.hull.fairness import FELT_M, fairness, worst_status
from sizer.hull.lines import fair_lines
from sizer.hull.scale import Scaling


def with_offset(lines, frame_name, stringer, axis, offset_m):
    """The base as drawn, one frame point moved out or up."""
    frames = []
    for frame in lines.design.frames:
        if frame.name == frame_name:
            point = list(frame.points_m[stringer])
            point[axis] += offset_m
            frame = replace(frame, points_m={**frame.points_m, stringer: tuple(point)})
        frames.append(frame)
    return scaled_boat(fair_lines(replace(lines.design, frames=tuple(frames))), Scaling())


def test_shipped_bases_are_fair_but_for_inflections_that_are_meant(boat):
    found = fairness(boat)
    assert worst_status(found) == "pass"
    blending = {line.stringer.name for line in boat.lines.lines
                if "into" in (line.stringer.start.kind, line.stringer.end.kind)}
    assert {one.stringer for one in found} <= blending
    assert all(one.what == "inflection" and "host" in one.meaning for one in found)


def test_a_blending_stick_that_turns_once_says_so_and_passes(base_lines):
    """The tourer's fore bilge, lowered 6 mm at F2, turns once on its way to the chine."""
    lines = base_lines["long-tourer"]
    assert all(one.status == "pass" for one in fairness(scaled_boat(lines, Scaling())))
    found, = (one for one in fairness(with_offset(lines, "F2", "fore bilge", 1, -0.006))
              if one.stringer == "fore bilge")
    assert (found.axis, found.what) == ("profile", "inflection")
    assert found.status == "pass"
    assert "host" in found.meaning


@pytest.mark.parametrize("scaling", [
    Scaling(length=1.07, beam=1.05, depth=0.95, legs=0.96, cockpit_length_m=0.70),
    Scaling(length=1.08, beam=0.95, depth=1.1, legs=1.0),
    Scaling(length=0.95, beam=1.1, depth=1.15, crown=0.8)])
def test_scaled_bases_stay_fair(lines, scaling):
    assert worst_status(fairness(scaled_boat(lines, scaling))) == "pass"


@pytest.mark.parametrize("base", ["day-boat", "long-tourer", "steady-boat"])
@pytest.mark.parametrize("stringer", ["keel", "gunwale"])
@pytest.mark.parametrize("offset_m", [0.012, -0.012])
def test_a_point_out_of_line_is_found_at_its_frame_with_its_size(
        base_lines, base, stringer, offset_m):
    lines = base_lines[base]
    axis = 1 if stringer == "keel" else 0
    for frame in lines.design.frames[2:-2]:
        boat = with_offset(lines, frame.name, stringer, axis, offset_m)
        bumps = [one for one in fairness(boat) if one.what == "bump"]
        first = max(bumps, key=lambda one: abs(one.offset_m))
        assert (first.stringer, first.place) == (stringer, f"at {frame.name}")
        assert first.offset_m == pytest.approx(-offset_m, abs=0.0015)
        assert first.status != "pass"
        assert first.point_m[0] == pytest.approx(frame.x_m, abs=1e-5)
        assert first.point_m[1 + axis] == pytest.approx(
            frame.points_m[stringer][axis] + offset_m, abs=1e-5)


def test_a_pencil_line_out_of_place_is_no_bump(base_lines):
    boat = with_offset(base_lines["day-boat"], "F5", "gunwale", 0, 0.9 * FELT_M)
    assert not fairness(boat)


def test_a_bump_in_a_stick_through_few_points_is_found(base_lines):
    boat = with_offset(base_lines["teaching-boat"], "F2", "gunwale", 0, 0.025)
    worst = max(fairness(boat), key=lambda one: abs(one.offset_m))
    assert (worst.stringer, worst.axis, worst.place) == ("gunwale", "plan", "at F2")
    assert worst.offset_m < -0.010


def test_a_hollow_is_told_with_its_depth(base_lines):
    """The gunwale pressed in amidships: hollow there, as deep as the curve is off its chord."""
    boat = with_offset(base_lines["day-boat"], "F5", "gunwale", 0, -0.030)
    hollow = next(one for one in fairness(boat)
                  if one.what == "hollow" and one.stringer == "gunwale")
    assert hollow.axis == "plan"
    assert hollow.from_x_m < boat.design.frames[4].x_m < hollow.to_x_m
    curve = boat.lines.line("gunwale").curve
    x = np.linspace(hollow.from_x_m, hollow.to_x_m, 2001)
    y = curve(x)[:, 0]
    chord = np.interp(x, x[[0, -1]], y[[0, -1]])
    assert hollow.offset_m == pytest.approx(np.abs(y - chord).max(), abs=1e-5)
    assert hollow.offset_m > 0.004
    assert hollow.status == "fail"


def test_beam_scales_a_bump_and_its_verdict_follows(base_lines):
    plain = with_offset(base_lines["steady-boat"], "F6", "gunwale", 0, 0.012)
    wide = scaled_boat(plain.lines, Scaling(beam=1.1))
    sizes = [max(abs(one.offset_m) for one in fairness(boat) if one.what == "bump")
             for boat in (plain, wide)]
    assert sizes[1] == pytest.approx(1.1 * sizes[0], rel=1e-6)


def test_moving_the_point_as_told_makes_the_stick_fair(base_lines):
    lines = base_lines["day-boat"]
    bump = next(one for one in fairness(with_offset(lines, "F6", "keel", 1, 0.010))
                if one.what == "bump")
    assert not fairness(with_offset(lines, "F6", "keel", 1, 0.010 + bump.offset_m))
