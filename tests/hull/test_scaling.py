"""The length map and the factors."""

from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sizer.hull.boat import scaled_boat
from sizer.hull.lines import base_table
from sizer.hull.places import body_zone_m
from sizer.hull.scale import ZONE_OVER_ENDS, Scaling, crown_factor, length_map

bounded = settings(max_examples=40, deadline=None)
PENCIL_M = 0.00025  # half a pencil line of 0.5 mm; our judgement
BASE_M, ZONE_M = 4.8, (1.7, 2.7)
lengths = st.floats(0.85, 1.15)
legs = st.floats(0.80, 1.20)


@bounded
@given(length=lengths, legs=legs)
def test_map_keeps_bow_hits_total_length_and_only_rises(length, legs):
    mapped = length_map(BASE_M, ZONE_M, length, legs)
    x = mapped(np.linspace(0.0, BASE_M, 2001))
    assert x[0] == pytest.approx(0.0, abs=1e-12)
    assert x[-1] == pytest.approx(length * BASE_M, abs=1e-9)
    assert mapped.length_m == length * BASE_M
    assert np.diff(x).min() > 0.0


@bounded
@given(length=st.floats(0.97, 1.03), legs=st.floats(0.95, 1.05))
def test_body_zone_stretches_with_the_legs(length, legs):
    front, back = length_map(BASE_M, ZONE_M, length, legs)(np.array(ZONE_M))
    assert back - front == pytest.approx(legs * (ZONE_M[1] - ZONE_M[0]), abs=1e-9)


@bounded
@given(length=lengths, legs=legs)
def test_map_is_smooth_and_its_slopes_are_its_own(length, legs):
    mapped = length_map(BASE_M, ZONE_M, length, legs)
    x = np.linspace(0.0, BASE_M, 4801)
    step = x[1] - x[0]
    slope = (mapped(x[2:]) - mapped(x[:-2])) / (2.0 * step)
    assert mapped.stretch(x[1:-1]) == pytest.approx(slope, abs=1e-5)
    second = (mapped.stretch(x[2:]) - mapped.stretch(x[:-2])) / (2.0 * step)
    assert mapped.stretch_slope(x[1:-1]) == pytest.approx(second, abs=1e-4)
    assert np.abs(np.diff(mapped.stretch(x))).max() < 2e-3  # no jump in slope over a millimetre
    assert np.abs(np.diff(mapped.stretch_slope(x))).max() < 1e-2  # nor in curvature


@bounded
@given(length=lengths, legs=legs, share=st.floats(0.0, 1.0))
def test_inverse_map_returns_to_a_hundredth_of_a_millimetre(length, legs, share):
    mapped = length_map(BASE_M, ZONE_M, length, legs)
    x = share * mapped.length_m
    assert mapped(mapped.base_x_m(x)) == pytest.approx(x, abs=1e-5)


def test_zone_and_ends_keep_their_ratio_when_the_legs_ask_for_more():
    short, long = (length_map(BASE_M, ZONE_M, 1.15, legs) for legs in (0.6, 3.0))
    assert (short.legs / short.ends, long.legs / long.ends) == pytest.approx(ZONE_OVER_ENDS)
    assert short(BASE_M) == pytest.approx(1.15 * BASE_M)
    assert long(BASE_M) == pytest.approx(1.15 * BASE_M)


def test_equal_factors_stretch_evenly():
    x = np.linspace(0.0, BASE_M, 49)
    mapped = length_map(BASE_M, ZONE_M, 1.07, 1.07)
    assert mapped(x) == pytest.approx(1.07 * x, abs=1e-12)


def test_beam_and_depth_factors_are_exact(lines):
    plain, changed = (scaled_boat(lines, one)
                      for one in (Scaling(), Scaling(beam=1.07, depth=0.93)))
    hull = slice(None, plain.sections.sheer + 1)
    assert changed.sections.x_m == pytest.approx(plain.sections.x_m, abs=1e-12)
    assert changed.sections.y_m[:, hull] == pytest.approx(1.07 * plain.sections.y_m[:, hull])
    assert changed.sections.z_m[:, hull] == pytest.approx(0.93 * plain.sections.z_m[:, hull])
    assert changed.beam_m == pytest.approx(1.07 * plain.beam_m)
    assert changed.depth_m == pytest.approx(0.93 * plain.depth_m)


def test_length_factor_is_the_hulls_length_over_the_bases(lines):
    changed = scaled_boat(lines, Scaling(length=1.05, legs=0.97))
    assert changed.length_m == pytest.approx(1.05 * lines.design.length_m, rel=1e-12)
    assert changed.sections.length_m == pytest.approx(changed.length_m, rel=1e-12)


def test_no_scaling_leaves_the_frames_where_the_file_put_them(boat):
    assert boat.frame_x_m == pytest.approx([one.x_m for one in boat.design.frames], abs=1e-12)
    assert boat.seat_x_m == pytest.approx(boat.design.cockpit.seat_x_m, abs=1e-12)
    table = base_table(boat.lines, boat.sections.x_m)
    hull = slice(None, boat.sections.sheer + 1)
    assert boat.sections.y_m[:, hull] == pytest.approx(table.y_m[:, hull], abs=1e-9)
    assert boat.sections.z_m[:, hull] == pytest.approx(table.z_m[:, hull], abs=1e-9)


def test_sections_of_a_stretched_boat_are_the_bases_at_the_mapped_place(lines):
    changed = scaled_boat(lines, Scaling(length=0.94, beam=1.1, depth=1.05, legs=1.05))
    base_x = changed.map.base_x_m(changed.sections.x_m)
    table = base_table(lines, base_x)
    hull = slice(None, changed.sections.sheer + 1)
    assert changed.sections.y_m[:, hull] == pytest.approx(1.1 * table.y_m[:, hull], abs=1e-5)
    assert changed.sections.z_m[:, hull] == pytest.approx(1.05 * table.z_m[:, hull], abs=1e-5)


def test_crown_lifts_the_foredeck_over_the_gunwale_and_leaves_the_afterdeck(lines):
    plain, crowned = (scaled_boat(lines, Scaling(crown=crown)) for crown in (1.0, 1.5))
    gunwale = plain.sections.z_m[:, plain.sections.sheer]
    x, opening = plain.sections.x_m, plain.opening
    before, after = (boat.sections.z_m[:, -1] - gunwale for boat in (plain, crowned))
    ahead, behind = x <= opening.front_x_m, x >= opening.back_x_m
    assert after[ahead] == pytest.approx(1.5 * before[ahead], abs=1e-9)
    assert after[behind] == pytest.approx(before[behind], abs=1e-9)
    assert crowned.sections.z_m[:, : plain.sections.sheer + 1] == pytest.approx(
        plain.sections.z_m[:, : plain.sections.sheer + 1])


def test_crown_fades_without_a_jump():
    x = np.linspace(1.0, 4.0, 3001)
    factor = crown_factor(1.8, x, 2.0, 2.8)
    assert factor[0] == 1.8
    assert factor[-1] == pytest.approx(1.0)
    assert np.all(np.diff(factor) <= 0.0)
    assert np.abs(np.diff(factor)).max() < 0.003  # a millimetre apart


def turns(curve, x, mapped):
    """How often plan and profile turn from round to hollow or back, by divided differences.

    A stretch that bends out of straight by less than a pencil line shows no turn.
    """
    scaled_x = mapped(x)[:, None]
    slope = np.diff(curve(x), axis=0) / np.diff(scaled_x, axis=0)
    places = 0.5 * (scaled_x[1:, 0] + scaled_x[:-1, 0])
    return [_turns(places, one) for one in slope.T]


def _turns(places, slope):
    change = np.diff(slope)
    starts = np.flatnonzero(np.diff(np.sign(change), prepend=np.nan))
    seen = []
    for first, last in zip(starts, [*starts[1:], change.size], strict=True):
        sag = abs(slope[last] - slope[first]) * (places[last] - places[first]) / 8.0
        if sag > PENCIL_M:
            seen.append(np.sign(change[first]))
    return int(np.count_nonzero(np.diff(seen)))


def test_scaled_curves_are_as_fair_as_the_bases(lines):
    design = lines.design
    same = length_map(design.length_m, body_zone_m(design), 1.0, 1.0)
    for line in lines.lines:
        x = np.linspace(line.start_x_m, line.end_x_m, 2001)
        drawn = turns(line.curve, x, same)
        for length, leg in product((*design.limits.length, 1.0), (0.85, 0.95, 1.05, 1.15)):
            mapped = length_map(design.length_m, body_zone_m(design), length, leg)
            scaled = turns(line.curve, x, mapped)
            assert np.all(np.array(scaled) <= drawn), (line.stringer.name, length, leg)
