"""Axes and signs of flotation, as stated beside the design records."""

import numpy as np
import pytest

from sizer.hull.sections import Sections, closed_rings, half_areas_m2
from sizer.hydro.flotation import Load, float_at
from sizer.hydro.immersion import full_outline, half_outline, immersed, up_vectors
from sizer.hydro.particulars import float_upright

MASS_KG = 1025.0 * 4.0 * 0.6 * 0.1  # sinks the box below to 0.1 m


@pytest.fixture(scope="module")
def punt(box):
    return box(4.0, 0.6, 0.4)


def test_weight_aft_of_the_middle_puts_the_stern_deeper(punt, ship_water):
    aft = float_upright(punt, Load(MASS_KG, 2.1, 0.15), ship_water)
    forward = float_upright(punt, Load(MASS_KG, 1.9, 0.15), ship_water)
    assert aft.trim_deg > 0.1
    assert aft.stern_freeboard_m < aft.bow_freeboard_m
    assert aft.lcb_m > 2.0
    assert forward.trim_deg == pytest.approx(-aft.trim_deg, abs=1e-6)
    assert forward.sinkage_m == pytest.approx(aft.sinkage_m, abs=1e-9)


def test_bow_and_stern_freeboards_differ_by_length_times_sine_of_trim(punt, ship_water):
    aft = float_upright(punt, Load(MASS_KG, 2.1, 0.15), ship_water)
    fall = 4.0 * np.sin(np.radians(aft.trim_deg))
    assert aft.bow_freeboard_m - aft.stern_freeboard_m == pytest.approx(fall, abs=1e-9)


def test_low_weight_rights_a_boat_heeled_to_starboard(punt, ship_water):
    low, high = (float_at(punt, Load(MASS_KG, 2.0, z), ship_water, [-10.0, 10.0]).righting_arm_m
                 for z in (0.10, 0.60))
    assert low[1] > 0.0 > high[1]
    assert low[0] == pytest.approx(-low[1], abs=1e-9)


def test_weight_to_starboard_heels_the_boat_to_starboard(punt, ship_water):
    load = Load(MASS_KG, 2.0, 0.15, tcg_m=0.01)
    at_rest = float_at(punt, load, ship_water, [0.0, 20.0]).righting_arm_m
    assert at_rest[0] == pytest.approx(-0.01, abs=1e-9)  # nothing rights it yet
    assert at_rest[1] > 0.0  # so it rests between: heeled to starboard


def test_heeled_to_starboard_the_starboard_side_is_under_water(punt):
    wet = immersed(full_outline(punt), up_vectors([30.0], [0.0]), np.array([0.1]))
    assert wet.moment_m4[0, 1] > 0.0


def test_stern_down_trim_moves_buoyancy_aft(punt):
    up = up_vectors([0.0], [2.0])
    wet = immersed(half_outline(punt), up, np.array([up[0, 0] * 2.0 + up[0, 2] * 0.1]))
    assert wet.moment_m4[0, 0] / wet.volume_m3[0] > 2.0


def test_shipped_boats_have_no_arm_upright_or_upside_down(boat, drawn_load, ship_water):
    arms = float_at(boat.sections, drawn_load, ship_water, [0.0, 180.0]).righting_arm_m
    assert arms == pytest.approx([0.0, 0.0], abs=1e-9)


def test_shipped_boats_right_alike_to_port_and_starboard(boat, drawn_load, ship_water):
    heel = np.array([5.0, 40.0, 90.0, 140.0])
    starboard = float_at(boat.sections, drawn_load, ship_water, heel)
    port = float_at(boat.sections, drawn_load, ship_water, -heel)
    assert port.righting_arm_m == pytest.approx(-starboard.righting_arm_m, abs=1e-9)
    assert port.trim_deg == pytest.approx(starboard.trim_deg, abs=1e-6)


def test_arm_near_upright_is_gm_times_sine_of_heel(boat, drawn_load, ship_water):
    particulars = float_upright(boat.sections, drawn_load, ship_water)
    heel_deg = 0.05  # a chine near the waterline bends the curve of arms sooner than larger ones
    arm = float_at(boat.sections, drawn_load, ship_water, heel_deg).righting_arm_m[0]
    assert arm / np.sin(np.radians(heel_deg)) == pytest.approx(particulars.gm_m, abs=1e-4)


def test_half_and_full_outline_agree_upright(boat):
    up = up_vectors([0.0], [0.7])
    level = np.array([0.09])
    half = immersed(half_outline(boat.sections), up, level)
    full = immersed(full_outline(boat.sections), up, level)
    assert full.volume_m3 == pytest.approx(half.volume_m3, rel=1e-12)
    assert full.moment_m4[0] == pytest.approx(half.moment_m4[0], abs=1e-12)
    assert full.plane_a2_m4 == pytest.approx(half.plane_a2_m4, rel=1e-12)
    assert full.plane_x2_m4 == pytest.approx(half.plane_x2_m4, rel=1e-12)


def test_a_deep_plane_takes_in_the_whole_hull(boat):
    """At any attitude the whole is the closed hull's own volume, by another rule."""
    up = up_vectors([0.0, 70.0, 180.0], [0.0, 5.0, -5.0])
    wet = immersed(full_outline(boat.sections), up, np.full(3, 50.0))
    whole = 2.0 * np.trapezoid(half_areas_m2(boat.sections), boat.sections.x_m)
    assert wet.volume_m3 == pytest.approx(whole, rel=1e-12)
    assert wet.plane_area_m2 == pytest.approx(0.0, abs=1e-12)


def test_rings_run_counter_clockwise_seen_from_astern():
    ring = closed_rings(Sections(np.array([0.0, 1.0]), np.array([[0.0, 1.0, 0.0]] * 2),
                                 np.array([[0.0, 1.0, 1.0]] * 2), sheer=1))[0]
    assert ring.tolist() == [[0, 0], [1, 1], [0, 1], [-1, 1], [0, 0]]
