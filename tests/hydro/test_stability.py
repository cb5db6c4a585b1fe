"""Righting curves against closed forms, and what is read off them."""

import math
from dataclasses import replace

import numpy as np
import pytest

from sizer.errors import BadInput, WillNotFloat
from sizer.hull.weight import own_weight
from sizer.hydro.flotation import Load, enclosed_volume_m3, float_at
from sizer.hydro.immersion import up_vectors
from sizer.hydro.mover import MOST_LEAN_DEG, upper_body_moment_kgm, upright_mover
from sizer.hydro.rim import rim_clearance_m
from sizer.hydro.stability import (
    HEELS_DEG,
    RightingCurve,
    righting_curve,
    stability_particulars,
)

MOMENT_KGM = 15.0  # 75 kg with the seated centre 0.20 m over the hip


def drawn_curve(heels_deg, gz_m, slope_m_per_rad, rim_deg=None, mass_kg=100.0):
    """A curve with given arms and no boat behind it."""
    heels = np.asarray(heels_deg, float)
    none = np.zeros_like(heels)
    return RightingCurve(mass_kg, slope_m_per_rad, slope_m_per_rad, heels,
                         np.asarray(gz_m, float), none, none, None, rim_deg)


@pytest.fixture(scope="module")
def ship(box):
    """Box 12 m beam, 8 m deep, of 60 m: draft 4, KG 4 (`reference` exact floating prisms)."""
    return box(60.0, 12.0, 8.0)


def test_box_curve_has_the_exact_prisms_arms(ship, ship_water):
    load = Load(60.0 * 12.0 * 4.0 * 1025.0, 30.0, 4.0)
    curve = righting_curve(ship, load, ship_water, (0.0, 5.0, 20.0, 30.0, 40.0, 60.0, 90.0))
    # Computed, Gilbert 1991 on floating prisms: five decimals
    assert curve.gz_m[1:6] == pytest.approx([0.08816, 0.40998, 0.75000, 1.13365, 0.98148], abs=6e-6)
    assert curve.gm_m == pytest.approx(2.0 + 3.0 - 4.0, abs=1e-9)  # KB + BM - KG


def test_slope_upright_is_gm(boat, drawn_load, ship_water):
    curve = righting_curve(boat.sections, drawn_load, ship_water)
    assert curve.slope_m_per_rad == pytest.approx(curve.gm_m, abs=1e-4)


def test_lying_cylinder_rights_as_the_pendulum_it_is(lying_cylinder, ship_water):
    """KM is the radius at any heel: GZ = (R - KG) sin heel, greatest at 90, gone at 180."""
    hull = lying_cylinder(4.0, 0.3)
    mass = 0.4 * enclosed_volume_m3(hull) * 1025.0
    curve = righting_curve(hull, Load(mass, 2.0, 0.2), ship_water)
    found = stability_particulars(curve)
    assert curve.gz_m == pytest.approx(0.1 * np.sin(np.radians(curve.heel_deg)), abs=2e-4)
    assert found.greatest_arm_m == pytest.approx(0.1, abs=2e-4)
    assert found.greatest_arm_deg == pytest.approx(90.0, abs=0.5)
    assert found.vanishing_deg == pytest.approx(180.0, abs=1e-6)
    weight = mass * 9.80665
    assert found.energy_to_greatest_arm_j == pytest.approx(0.1 * weight, rel=3e-3)
    assert found.energy_to_vanishing_j == pytest.approx(0.2 * weight, rel=3e-3)


def test_top_heavy_cylinder_has_no_stability_at_all(lying_cylinder, ship_water):
    hull = lying_cylinder(4.0, 0.3)
    mass = 0.4 * enclosed_volume_m3(hull) * 1025.0
    found = stability_particulars(righting_curve(hull, Load(mass, 2.0, 0.4), ship_water))
    assert found.gm_m == pytest.approx(-0.1, abs=2e-4)
    assert (found.vanishing_deg, found.greatest_arm_m, found.energy_to_vanishing_j) == (0, 0, 0)


def test_box_with_negative_gm_rests_at_the_angle_of_loll(box, ship_water):
    """Wall-sided: tan^2 loll = -2 GM / BM, exact until bilge or deck edge."""
    hull, draft = box(40.0, 6.0, 4.0), 2.0
    bm = 6.0**2 / (12.0 * draft)
    load = Load(40.0 * 6.0 * draft * 1025.0, 20.0, draft / 2.0 + bm + 0.05)
    found = stability_particulars(righting_curve(hull, load, ship_water))
    assert found.loll_deg == pytest.approx(
        math.degrees(math.atan(math.sqrt(2.0 * 0.05 / bm))), abs=0.05)
    assert found.greatest_arm_m > 0.0
    assert found.vanishing_deg > found.greatest_arm_deg > found.loll_deg


def test_energy_below_the_axis_counts_against():
    """GZ = 0.1 sin(heel) (cos 20 - cos heel): negative to 20 degrees."""
    heel = np.radians(np.arange(0.0, 91.0, 5.0))
    arm = 0.1 * np.sin(heel) * (math.cos(math.radians(20.0)) - np.cos(heel))
    slope = 0.1 * (math.cos(math.radians(20.0)) - 1.0)
    found = stability_particulars(drawn_curve(np.degrees(heel), arm, slope))
    assert found.loll_deg == pytest.approx(20.0, abs=0.01)
    assert found.vanishing_deg is None  # still rights at the curve's end
    exact = 0.1 * (math.cos(math.radians(20.0)) - 0.5)  # int to 90 of sin (c - cos)
    assert found.energy_to_vanishing_j == pytest.approx(100.0 * 9.80665 * exact, rel=1e-4)


def test_a_range_that_begins_beyond_90_degrees_is_no_stability():
    heel = np.arange(0.0, 181.0, 5.0)
    arm = -0.1 * np.sin(np.radians(2.0 * heel)) - 0.02 * np.sin(np.radians(heel))
    found = stability_particulars(drawn_curve(heel, arm, -0.22))
    assert found.vanishing_deg == 0.0
    assert found.greatest_arm_m == 0.0


def test_five_degree_steps_are_fine_enough(boat, drawn_load, ship_water):
    """Halving the step three times: greatest arm, and the arm at vanishing, within 0.1 mm."""
    curves = [righting_curve(boat.sections, drawn_load, ship_water, np.arange(0.0, 180.01, step))
              for step in (5.0, 2.5, 1.25, 0.625)]
    steps, fine = [stability_particulars(one) for one in curves], curves[-1]
    finest = steps[-1]
    for one in steps[:-1]:
        assert one.greatest_arm_m == pytest.approx(finest.greatest_arm_m, abs=1e-4)
        left_m = np.interp(one.vanishing_deg, fine.heel_deg, fine.gz_m)
        assert left_m == pytest.approx(0.0, abs=1e-4)
        assert one.rim_deg == pytest.approx(finest.rim_deg, abs=0.1)
        assert one.energy_to_vanishing_j == pytest.approx(finest.energy_to_vanishing_j, rel=0.01)


def test_energy_gains_eightfold_or_more_by_halving_the_step():
    def error(step):
        heel = np.radians(np.arange(0.0, 180.01, step))
        arm = 0.1 * np.sin(2.0 * heel) + 0.03 * np.sin(heel)
        found = stability_particulars(drawn_curve(np.degrees(heel), arm, 0.23))
        cosine = -0.15  # where the arm vanishes
        exact = 0.1 * (1.0 - cosine**2) + 0.03 * (1.0 - cosine)
        return abs(found.energy_to_vanishing_j / (100.0 * 9.80665) - exact)
    assert error(20.0) > 8.0 * error(10.0) > 64.0 * error(5.0)


def test_rim_angle_is_where_the_rim_meets_the_water(boat, drawn_load, ship_water):
    curve = righting_curve(boat.sections, drawn_load, ship_water)
    for off, sign in ((-0.2, 1.0), (0.2, -1.0)):
        heels = np.append(np.linspace(0.0, 20.0, 5), curve.rim_deg + off)
        assert sign * righting_curve(boat.sections, drawn_load, ship_water, heels).rim_m[-1] > 0.0


def test_rim_is_as_clear_to_port_as_to_starboard(boat):
    starboard, port = (rim_clearance_m(boat.sections, up_vectors([heel], [1.0]), np.array([0.1]))
                       for heel in (35.0, -35.0))
    assert starboard[0] == pytest.approx(port[0], abs=1e-12)


def test_box_rim_goes_under_at_its_own_angle(box, ship_water):
    """Rim at the deck edge of a box at half draft: under at atan(depth / beam), by symmetry."""
    hull = replace(box(4.0, 0.6, 0.4), rim_x_m=(1.0, 3.0), rim_z_m=(0.4, 0.4))
    load = Load(4.0 * 0.6 * 0.2 * 1025.0, 2.0, 0.1)
    curve = righting_curve(hull, load, ship_water)
    assert curve.rim_deg == pytest.approx(math.degrees(math.atan(0.4 / 0.6)), abs=0.1)
    assert righting_curve(box(4.0, 0.6, 0.4), load, ship_water).rim_deg is None


def test_open_cockpit_ends_the_curve_at_the_rim():
    heel = np.arange(0.0, 181.0, 5.0)
    arm = 0.1 * np.sin(np.radians(heel))
    closed = stability_particulars(drawn_curve(heel, arm, 0.1))
    rim = stability_particulars(drawn_curve(heel, arm, 0.1, rim_deg=60.0))
    weight = 100.0 * 9.80665
    assert rim.energy_open_j == pytest.approx(0.05 * weight, rel=1e-5)
    assert closed.energy_open_j == closed.energy_to_vanishing_j
    assert rim.energy_to_vanishing_j == closed.energy_to_vanishing_j


@pytest.mark.parametrize("heel", [10.0, 30.0, 60.0])
def test_mover_matches_the_load_moved_in_the_boat(boat, drawn_load, ship_water, heel):
    """float_at with the load's centre where the leaning body puts it: within 0.1 mm."""
    heels = (0.0, 5.0, 8.0, heel, 90.0)
    mover = upright_mover(righting_curve(boat.sections, drawn_load, ship_water, heels), MOMENT_KGM)
    lean = math.radians(min(heel, MOST_LEAN_DEG))
    reach = MOMENT_KGM / drawn_load.mass_kg
    moved = replace(drawn_load, tcg_m=-reach * math.sin(lean),
                    vcg_m=drawn_load.vcg_m - reach * (1.0 - math.cos(lean)))
    exact = float_at(boat.sections, moved, ship_water, heel).righting_arm_m[0]
    assert mover.gz_m[3] == pytest.approx(exact, abs=1e-4)


def test_mover_gains_the_moved_mass_times_sine_of_heel(boat, drawn_load, ship_water):
    curve = righting_curve(boat.sections, drawn_load, ship_water)
    mover = upright_mover(curve, MOMENT_KGM)
    upto = curve.heel_deg <= MOST_LEAN_DEG
    gain = MOMENT_KGM / drawn_load.mass_kg * np.sin(np.radians(curve.heel_deg[upto]))
    assert mover.gz_m[: upto.sum()] - curve.gz_m[upto] == pytest.approx(gain, abs=1e-12)
    assert mover.heel_deg[-1] == 90.0
    assert mover.gm_m - curve.gm_m == pytest.approx(MOMENT_KGM / drawn_load.mass_kg)


def test_upper_body_moment_is_near_the_segment_models():
    """De Leva 1996, Table 4, men: mass shares and centres on a trunk of 0.603 m (his Table 4),
    arms hung forward at chest height, 7.5 degrees back; 85.5 kg, our modelled centre 0.304 m."""
    shares = np.array([6.94, 43.46, 5.42, 3.24, 1.22]) / 100.0
    over_hip = np.array([0.603 + 0.12, 0.603 * (1.0 - 0.5138), 0.38, 0.27, 0.30])
    by_parts = 85.5 * float(shares @ over_hip) * math.cos(math.radians(7.5))
    # the heights of head and arms are rough: a tenth
    assert upper_body_moment_kgm(85.5, 0.304) == pytest.approx(by_parts, rel=0.1)
    assert upper_body_moment_kgm(85.5, 0.95 * 0.304) < by_parts


def test_cases_keep_their_order_of_steadiness(boat, drawn_load, ship_water):
    weight = own_weight(boat)
    high = replace(drawn_load, vcg_m=drawn_load.vcg_m + 0.012)
    rigid = righting_curve(boat.sections, drawn_load, ship_water)
    raised = righting_curve(boat.sections, high, ship_water, near=rigid)
    alone = righting_curve(boat.sections, Load(weight.mass_kg, weight.lcg_m, weight.vcg_m),
                           ship_water)
    nominal, cautious, mover, empty = (stability_particulars(one) for one in (
        rigid, raised, upright_mover(rigid, MOMENT_KGM), alone))
    assert cautious.vanishing_deg < nominal.vanishing_deg < mover.vanishing_deg
    assert empty.vanishing_deg > nominal.vanishing_deg
    assert nominal.gm_m - cautious.gm_m == pytest.approx(0.012, abs=1e-5)
    afresh = righting_curve(boat.sections, high, ship_water)
    assert raised.gz_m == pytest.approx(afresh.gz_m, abs=1e-7)  # however it was started


@pytest.mark.parametrize("mass_kg", [60.0, 110.0, 160.0])
def test_every_heel_settles_for_light_and_heavy(boat, drawn_load, ship_water, mass_kg):
    load = Load(mass_kg, drawn_load.lcg_m, 0.30)
    curve = righting_curve(boat.sections, load, ship_water, np.arange(0.0, 181.0, 2.0))
    assert np.isfinite(curve.gz_m).all()
    assert curve.gz_m[[0, -1]] == pytest.approx([0.0, 0.0], abs=1e-9)


@pytest.mark.parametrize("heels_deg", [
    (0.0, 400.0, 410.0, 420.0, 430.0), (5.0, 10.0, 15.0, 20.0, 25.0), (0.0, 10.0),
    (0.0, 20.0, 10.0, 30.0, 40.0), (0.0, 10.0, math.nan, 30.0, 40.0), (*HEELS_DEG, 181.0)])
def test_refuses_odd_heels(boat, drawn_load, ship_water, heels_deg):
    with pytest.raises(BadInput, match="rising from 0 to at most 180"):
        righting_curve(boat.sections, drawn_load, ship_water, heels_deg)


@pytest.mark.parametrize(("mass_kg", "height_m"),
                         [(0.0, 0.3), (math.nan, 0.3), (80.0, 0.05), (80.0, math.nan)])
def test_refuses_a_body_without_an_upper_half(mass_kg, height_m):
    with pytest.raises(BadInput, match="above the hip"):
        upper_body_moment_kgm(mass_kg, height_m)


def test_overload_will_not_float(boat, drawn_load, ship_water):
    with pytest.raises(WillNotFloat):
        righting_curve(boat.sections, replace(drawn_load, mass_kg=900.0), ship_water)
