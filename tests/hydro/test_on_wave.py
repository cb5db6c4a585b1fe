"""The paddler who keeps upright on a wave: areas by hand, and what is said."""

import re
from dataclasses import replace
from fractions import Fraction

import numpy as np
import pytest
from scipy.integrate import trapezoid

from sizer.hydro.on_wave import on_wave
from sizer.hydro.wave_arms import STEEPEST, wave_arms

MOMENT_KGM = 15.0


@pytest.fixture(scope="module")
def found(boat, drawn_load, ship_water):
    return on_wave(boat.sections, drawn_load, ship_water, 0.3, MOMENT_KGM)


def upright_arms(curve, mass_kg, fine_deg):
    """The rigid arms plus the upper body's, held upright to 35 degrees: m r (sin a cos f +
    (1 - cos a) sin f) / M, as the mover's own docstring states it, on a fine grid."""
    heel = np.radians(fine_deg)
    lean = np.minimum(heel, np.radians(35.0))
    rigid = np.interp(fine_deg, curve.heel_deg, curve.gz_m)
    return rigid + MOMENT_KGM / mass_kg * (
        np.sin(lean) * np.cos(heel) + (1.0 - np.cos(lean)) * np.sin(heel))


def test_area_is_the_lesser_of_crest_and_trough_by_hand(boat, found, drawn_load, ship_water):
    """Summed on fine heels between arms of 2 degrees' step, up to where the arm is gone."""
    fine = np.linspace(0.0, 90.0, 1801)
    areas = []
    arms = wave_arms(boat.sections, drawn_load, ship_water, 0.3, tuple(np.arange(0.0, 91.0, 2.0)))
    for _, curve in arms.curves:
        arm = upright_arms(curve, drawn_load.mass_kg, fine)
        gone = np.flatnonzero((arm[1:] <= 0.0) & (arm[:-1] > 0.0))
        to = gone[0] + 1 if gone.size else fine.size
        areas.append(trapezoid(arm[:to], np.radians(fine[:to])))
    # arms every 10 degrees through a spline, against every 2: within 0.7 mm rad
    assert found.arm_area_mrad == pytest.approx(min(areas), abs=0.0007)


def test_says_how_high_the_wave_is_and_how_far_it_rights(found):
    assert "On a wave 300 mm (11 13/16 in) high" in found.says
    assert "righted on the crest to" in found.says
    for sums in (found.crest, found.trough):
        assert f"to {sums.vanishing_deg:.0f} degrees" in found.says
    told = re.search(r"in the trough .*, GM sitting still (-?)(\d+) mm \(-?(.*?) in\)", found.says)
    assert int(told[1] + told[2]) == round(1000.0 * found.arms.trough.gm_m)
    assert 25.4 * float(sum(map(Fraction, told[3].split()))) == pytest.approx(
        int(told[2]), abs=25.4 / 32.0)


def test_a_gm_under_zero_is_told_for_what_it_is(boat, drawn_load, ship_water, found):
    """With a load higher and lower by what is left in the worse place, less or more 2 mm."""
    left = dict(found.arms.curves)
    worse = min(left, key=lambda where: left[where].gm_m)
    for over_m in (-0.002, 0.002):
        load = replace(drawn_load, vcg_m=drawn_load.vcg_m + left[worse].gm_m - over_m)
        tender = on_wave(boat.sections, load, ship_water, 0.3, MOMENT_KGM)
        assert dict(tender.arms.curves)[worse].gm_m == pytest.approx(over_m, abs=0.0004)
        falls = tender.says.partition("A GM under 0 means: ")[2]
        assert (f"{worse} it does not stay up by itself" in falls) == (over_m < 0.0)


def test_what_keeps_a_boat_up_is_told_in_the_words_of_every_trip(boat, drawn_load, ship_water,
                                                                found):
    """Under nothing by little the body kept upright does it; so high that no heel rights it,
    nothing does."""
    worse = min(curve.gm_m for _, curve in found.arms.curves)
    for over_m, says in ((0.005, "only the upper body upright, hips loose, so that the boat rolls"),
                         (0.500, "not even the upper body upright")):
        load = replace(drawn_load, vcg_m=drawn_load.vcg_m + worse + over_m)
        told = on_wave(boat.sections, load, ship_water, 0.3, MOMENT_KGM).says
        assert says in told
        assert "leans against" not in told


def test_a_wave_too_high_for_its_length_is_cut_to_what_can_be(boat, drawn_load, ship_water):
    found = on_wave(boat.sections, drawn_load, ship_water, 5.0, MOMENT_KGM)
    assert found.arms.height_m == pytest.approx(STEEPEST * boat.length_m)
