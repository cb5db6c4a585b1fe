"""Hulls with printed or closed-form answers, floated by the engine.

B&D: Barrass & Derrett, Ship Stability for Masters and Mates, Elsevier.
"""

import math

import numpy as np
import pytest
from scipy.optimize import brentq

from sizer.hull.sections import Sections, strip_areas_m2
from sizer.hydro.flotation import Load, enclosed_volume_m3, float_at
from sizer.hydro.immersion import cut_sections, half_outline, immersed, up_vectors
from sizer.hydro.particulars import float_upright
from sizer.hydro.water import Water

KG_PER_T = 1000.0
TONNES_PER_M3 = 1.025
FRESH = Water("fresh", 4.0, 1000.0, 1.57e-6)


def afloat(sections, water, mass_kg, vcg_m, lcg_m=None):
    lcg_m = sections.mid_x_m if lcg_m is None else lcg_m
    return float_upright(sections, Load(mass_kg, lcg_m, vcg_m), water)


def righting_arms_m(sections, water, mass_kg, vcg_m, heel_deg):
    load = Load(mass_kg, sections.mid_x_m, vcg_m)
    return float_at(sections, load, water, heel_deg).righting_arm_m


def simpson_panels(ordinates, spacing, steps=200):
    """Fine points of the parabolas that Simpson's first rule lays through equal-spaced values."""
    places, values = [], []
    for first in range(0, len(ordinates) - 1, 2):
        t = np.linspace(0.0, 2.0, steps + 1)[first > 0 :]
        parabola = np.polyfit([0.0, 1.0, 2.0], ordinates[first : first + 3], 2)
        places.append(spacing * (first + t))
        values.append(np.polyval(parabola, t))
    return np.concatenate(places), np.maximum(np.concatenate(values), 0.0)


def test_waterplane_of_simpson_example_b_and_d_p74(walls, ship_water):
    # L 120 m: 1207 m2 (1206.67 before rounding), 12.37 t/cm. Centre from Simpson's own products.
    x, half = simpson_panels([0, 3.7, 5.9, 7.6, 7.5, 4.6, 0.1], 20.0)
    ship = walls(x, half, 10.0)
    lcf = 20.0 * 282.2 / 90.5
    ship_afloat = afloat(ship, ship_water, 5.0 * 1206.67 * 1025.0, 5.0, lcf)
    assert ship_afloat.waterplane_area_m2 == pytest.approx(1206.67, abs=0.02)
    assert ship_afloat.kg_per_cm / KG_PER_T == pytest.approx(12.37, abs=0.005)
    assert ship_afloat.lcf_m == pytest.approx(lcf, abs=0.005)


def test_midship_section_of_linton_1869():
    # Tonnage calculation, Univ. of Southampton: depth 20.4 ft, half area 301.75 square feet.
    z, y = simpson_panels([0.60, 10.65, 16.10, 17.30, 17.45, 17.40, 17.15], 3.4)
    y = np.concatenate([[0.0], y, [0.0]])
    z = np.concatenate([[0.0], z, [20.4]])
    ship = Sections(np.array([0.0, 1.0]), np.stack([y, y]), np.stack([z, z]), sheer=y.size - 2)
    areas, _ = cut_sections(half_outline(ship), up_vectors([0.0], [0.0]), np.array([20.4]))
    assert areas[0] / 2.0 == pytest.approx([301.75, 301.75], abs=0.005)


def test_wall_sided_righting_arm_b_and_d_p130_ex1(box, ship_water):
    # 6000 t, KB 3, KM 6, KG 5.5 m: a box of draft 6 m with beam^2 / (12 draft) = 3 m.
    beam = math.sqrt(216.0)
    ship = box(6000.0 / TONNES_PER_M3 / (6.0 * beam), beam, 12.0)
    particulars = afloat(ship, ship_water, 6000.0 * KG_PER_T, 5.5)
    assert particulars.kb_m == pytest.approx(3.0, abs=1e-6)
    assert particulars.kb_m + particulars.bm_m == pytest.approx(6.0, abs=1e-6)
    arm = righting_arms_m(ship, ship_water, 6000.0 * KG_PER_T, 5.5, 25.0)
    assert arm[0] == pytest.approx(0.349, abs=0.0005)


def test_box_particulars_b_and_d_p130_ex2(box, ship_water):
    ship = afloat(box(65.0, 12.0, 8.0), ship_water, 3198.0 * KG_PER_T, 4.0)
    assert ship.draft_m == pytest.approx(4.0, abs=1e-6)
    assert ship.bm_m == pytest.approx(3.0, abs=1e-6)
    assert ship.gm_m == pytest.approx(1.0, abs=1e-6)
    assert (ship.block_coefficient, ship.prismatic_coefficient, ship.waterplane_coefficient,
            ship.midship_coefficient) == pytest.approx((1.0, 1.0, 1.0, 1.0), abs=1e-6)
    assert ship.freeboard_m == pytest.approx(4.0, abs=1e-6)
    # bottom, sides and both flat ends
    assert ship.wetted_area_m2 == pytest.approx(65 * 12 + 2 * 65 * 4 + 2 * 12 * 4, abs=1e-3)
    assert ship.waterline_length_m == pytest.approx(65.0, abs=1e-6)


def test_box_righting_arms_match_exact_ones_and_leave_the_wall_sided_formula(box, ship_water):
    # Exact arms of the box 12 x 8 m, draft 4, KG 4, worked out from the clipped section's centroid.
    heel = np.array([5.0, 20.0, 30.0, 40.0, 60.0])
    exact = [0.08816, 0.40998, 0.75000, 1.13365, 0.98148]
    arms = righting_arms_m(box(65.0, 12.0, 8.0), ship_water, 3198.0 * KG_PER_T, 4.0, heel)
    assert arms == pytest.approx(exact, abs=5e-6)
    turn = np.radians(heel)
    wall_sided = np.sin(turn) * (1.0 + 1.5 * np.tan(turn) ** 2)
    to_deck_edge = heel < math.degrees(math.atan(4.0 / 6.0))
    assert arms[to_deck_edge] == pytest.approx(wall_sided[to_deck_edge], abs=1e-6)
    assert np.all(wall_sided[~to_deck_edge] - arms[~to_deck_edge] > 0.05)


def test_smallest_km_of_a_box_10_m_wide_b_and_d_p111(box, ship_water):
    drafts = np.arange(3.0, 5.5, 0.01)
    ship = box(50.0, 10.0, 8.0)
    keel_to_metacentre = []
    for draft in drafts:
        particulars = afloat(ship, ship_water, 500.0 * draft * 1025.0, 3.0)
        keel_to_metacentre.append(particulars.kb_m + particulars.bm_m)
    least = int(np.argmin(keel_to_metacentre))
    assert drafts[least] == pytest.approx(4.08, abs=0.0101)
    assert keel_to_metacentre[least] == pytest.approx(4.08, abs=0.005)


def test_triangular_prism_of_exam_solution(prism, ship_water):
    # Waterplane 40 x 12 m, KB 3.6 m: draft 5.4 m, 1328.4 t.
    ship = afloat(prism(40.0, 12.0 * 8.0 / 5.4, 8.0), ship_water, 1328.4 * KG_PER_T, 3.0)
    assert ship.draft_m == pytest.approx(5.4, abs=1e-6)
    assert ship.kb_m == pytest.approx(3.6, abs=1e-6)
    assert ship.waterline_beam_m == pytest.approx(12.0, abs=1e-6)
    assert ship.waterplane_area_m2 == pytest.approx(480.0, abs=1e-4)


def test_upright_cylinder_gm(upright_cylinder):
    # Diameter 3 m, height 2 m, relative density 0.7: the problem cuts 0.10179 to 0.1017 m.
    mass = 0.7 * 1000.0 * math.pi * 1.5**2 * 2.0
    gm = afloat(upright_cylinder(3.0, 2.0, 801), FRESH, mass, 1.0).gm_m
    assert gm == pytest.approx(0.1017, abs=1e-4)
    assert gm == pytest.approx(9.0 / 16.0 / 1.4 - 0.3, abs=1e-5)


def test_trim_of_a_box_when_64_t_move_40_m_aft(box, ship_water):
    # B&D, quoted from memory: box 90 x 10 m, draft 3, BM_L 225 m, trim 37 cm, 3.185 and 2.815 m.
    ship = box(90.0, 10.0, 6.0)
    tonnes = 90.0 * 10.0 * 3.0 * TONNES_PER_M3
    level = afloat(ship, ship_water, tonnes * KG_PER_T, 1.5)
    assert level.bm_long_m == pytest.approx(225.0, abs=1e-4)
    moved = afloat(ship, ship_water, tonnes * KG_PER_T, 1.5, 45.0 + 64.0 * 40.0 / tonnes)
    trim_m = 90.0 * math.tan(math.radians(moved.trim_deg))
    assert trim_m == pytest.approx(0.37, abs=0.005)
    assert moved.sinkage_m + trim_m / 2.0 == pytest.approx(3.185, abs=0.0005)
    assert moved.sinkage_m - trim_m / 2.0 == pytest.approx(2.815, abs=0.0005)
    # moment to trim one degree is what moved the weights, by the small-angle rule
    newton_m = 64.0 * KG_PER_T * 9.80665 * 40.0
    assert newton_m / level.moment_to_trim_Nm_per_deg == pytest.approx(moved.trim_deg, rel=1e-3)


@pytest.mark.parametrize(("density", "heel_deg"), [(0.25, 26.57), (0.5, 45.0), (0.75, 26.57)])
def test_square_log_floats_at_gilberts_angle(box, density, heel_deg):
    # E. N. Gilbert, "How Things Float", Am. Math. Monthly 98, 1991.
    log = box(10.0, 1.0, 1.0)

    def arm_m(heel):
        return righting_arms_m(log, FRESH, density * 1e4, 0.5, heel)[0]

    assert brentq(arm_m, heel_deg - 15.0, heel_deg + 14.0) == pytest.approx(heel_deg, abs=0.005)
    assert arm_m(heel_deg - 1.0) < 0.0 < arm_m(heel_deg + 1.0)  # it comes to rest there


@pytest.mark.parametrize(("density", "upright"),
                         [(0.21, True), (0.212, False), (0.788, False), (0.79, True)])
def test_square_log_stands_upright_only_when_very_light_or_heavy(box, density, upright):
    # Bounds 0.2113 and 0.7887 = 1/2 -+ 1/sqrt(12), Gilbert 1991 as above.
    gm = afloat(box(10.0, 1.0, 1.0), FRESH, density * 1e4, 0.5).gm_m
    assert (gm > 0.0) == upright


@pytest.mark.parametrize(("density", "settles"),
                         [(0.27, False), (0.29, True), (0.71, True), (0.73, False)])
def test_square_log_rests_corner_up_between_9_and_23_thirty_seconds(box, density, settles):
    arms = righting_arms_m(box(10.0, 1.0, 1.0), FRESH, density * 1e4, 0.5, [44.5, 45.5])
    assert (arms[1] > arms[0]) == settles


@pytest.mark.parametrize("draft_share", [0.3, 0.7, 1.0, 1.4])
def test_circular_bilge_has_its_metacentre_at_the_circles_centre(lying_cylinder, draft_share):
    # 0.001 mm of a 1 m circle: 1441 points leave 6e-7 of the circle's area out
    ship = lying_cylinder(5.0, 1.0, points=1441)
    wet = immersed(half_outline(ship), up_vectors([0.0], [0.0]), np.array([draft_share]))
    mass = float(wet.volume_m3[0]) * 1000.0
    particulars = afloat(ship, FRESH, mass, 0.5)
    assert particulars.draft_m == pytest.approx(draft_share, abs=1e-9)
    assert particulars.kb_m + particulars.bm_m == pytest.approx(1.0, abs=1e-5)
    arms = righting_arms_m(ship, FRESH, mass, 0.5, [10.0, 50.0, 90.0, 130.0])
    assert arms == pytest.approx(0.5 * np.sin(np.radians([10.0, 50.0, 90.0, 130.0])), abs=1e-5)


def test_half_ellipsoid(half_ellipsoid):
    # L 5, B 0.56, T 0.13: V = pi/6 LBT, KB = 5T/8, BM = 0.22615 m; waterplane an ellipse.
    volume = math.pi / 6.0 * 5.0 * 0.56 * 0.13
    hull = afloat(half_ellipsoid(5.0, 0.56, 0.13, 0.1, count=481, points=241), FRESH,
                  volume * 1000.0, 0.2)
    assert hull.draft_m == pytest.approx(0.13, abs=1e-5)
    assert hull.kb_m == pytest.approx(5.0 * 0.13 / 8.0, abs=1e-5)
    assert hull.bm_m == pytest.approx(0.22615, abs=2e-5)
    assert hull.bm_long_m == pytest.approx(0.22615 * (5.0 / 0.56) ** 2, rel=1e-4)
    assert hull.waterplane_area_m2 == pytest.approx(math.pi / 4.0 * 5.0 * 0.56, rel=5e-5)


def test_parabolic_hull_matches_its_closed_forms(parabolic):
    # L/B 10, B/T 1.6; V = 4/9 LBT, KB = 5T/8, BM = 3/35 B2/T, BM_L = 3/40 L2/T, S/L2 = 0.148791.
    length, beam, draft = 5.0, 0.5, 0.3125
    hull = parabolic(length, beam, draft, 0.1, count=481, points=241)
    volume = 4.0 / 9.0 * length * beam * draft
    afloat_there = afloat(hull, FRESH, volume * 1000.0, 0.2)
    assert afloat_there.draft_m == pytest.approx(draft, abs=1e-5)
    assert afloat_there.kb_m == pytest.approx(5.0 * draft / 8.0, abs=1e-5)
    assert afloat_there.bm_m == pytest.approx(3.0 / 35.0 * beam**2 / draft, abs=1e-5)
    assert afloat_there.bm_long_m == pytest.approx(3.0 / 40.0 * length**2 / draft, rel=1e-4)
    thirds = (afloat_there.prismatic_coefficient, afloat_there.midship_coefficient,
              afloat_there.waterplane_coefficient)
    assert thirds == pytest.approx((2.0 / 3.0,) * 3, abs=5e-5)
    assert afloat_there.block_coefficient == pytest.approx(4.0 / 9.0, abs=5e-5)
    assert afloat_there.wetted_area_m2 / length**2 == pytest.approx(0.148791, abs=2e-6)
    assert afloat_there.lcb_m == pytest.approx(length / 2.0, abs=1e-9)


def order_of(errors):
    """Power of the step by which errors fall when it is halved each time."""
    return np.log2(np.abs(errors[:-1]) / np.abs(errors[1:]))


def test_parabolic_hull_converges_with_the_square_of_the_spacing(parabolic):
    exact = 4.0 / 9.0 * 5.0 * 0.5 * 0.3125
    volumes = np.array([enclosed_volume_m3(parabolic(5.0, 0.5, 0.3125, count=n, points=n))
                        for n in (21, 41, 81, 161)])
    assert order_of(volumes - exact) == pytest.approx([2.0] * 3, abs=0.05)


def test_wetted_area_converges_with_the_square_of_the_spacing(parabolic):
    # the hull's own skin alone: columns below the deck
    areas = np.array([2.0 * strip_areas_m2(parabolic(5.0, 0.5, 0.3125, count=n, points=n))
                      [:, :-2].sum() for n in (21, 41, 81)])
    assert order_of(areas / 25.0 - 0.148791) == pytest.approx([2.0] * 2, abs=0.1)


def test_circle_converges_with_the_square_of_the_point_spacing(lying_cylinder):
    volumes = np.array([enclosed_volume_m3(lying_cylinder(1.0, 1.0, points=n))
                        for n in (46, 91, 181)])
    assert order_of(volumes - math.pi) == pytest.approx([2.0] * 2, abs=0.05)
