"""What is told of a found boat and not sought: one boat as many, in full as quickly, unsought."""

from dataclasses import replace

import numpy as np
import pytest

from sizer.errors import NotSolved
from sizer.fit import told
from sizer.fit.assess import assess_crowd
from sizer.fit.checks import BY_KEY, checks_of
from sizer.fit.facts import facts_of
from sizer.fit.mishaps import facts_with, mishap_facts, mishaps, mishaps_of_many, quick_rightings
from sizer.fit.person import person
from sizer.fit.solve import fit
from sizer.fit.uses import USES, WAVE_SHARE
from sizer.hull.boat import scaled_boat
from sizer.hull.scale import Scaling
from sizer.hull.weight import own_weight
from sizer.hydro.water import water_at
from sizer.paddler.measures import Measured
from sizer.rows import stacked

WATER = water_at("fresh", 10.0)
PEOPLE = (Measured(82.0, 1.78, 0.385), Measured(52.0, 1.60, 0.37))
KEYS = ("swamped-out", "wave")


def of_keys(checks):
    return {check.key: check for check in checks if check.key in KEYS}


@pytest.fixture(scope="module")
def rough(base_lines):
    return fit(base_lines["steady-boat"], person(PEOPLE[1], "rough-water", 3.0, WATER))


def test_in_full_and_quickly_say_the_same(rough):
    """The same boat, its wave started from a curve to 180 or to 90 degrees."""
    full = of_keys(checks_of(facts_with(rough.assessed, rough.mishaps)))
    quick = of_keys(checks_of(replace(facts_of(rough.assessed),
                                      mishap=mishap_facts(rough.assessed))))
    assert set(full) == set(quick) == set(KEYS)
    for key in KEYS:
        assert full[key].value == pytest.approx(quick[key].value, abs=1e-4)


def test_many_in_one_boat_say_what_each_says_alone(base_lines):
    boat = scaled_boat(base_lines["day-boat"], Scaling())
    persons = [person(one, "coastal-day", 10.0, WATER) for one in PEOPLE]
    many = assess_crowd(boat, stacked(persons), 2, own_weight(boat))
    found = mishaps_of_many(many, quick_rightings(many), told=True)
    for index in range(2):
        alone = mishap_facts(many.one(index))
        assert found.swamped_out_gm_m[index] == pytest.approx(alone.swamped_out_gm_m, abs=1e-6)
        assert found.wave_arm_area_mrad[index] == pytest.approx(alone.wave_arm_area_mrad, abs=1e-6)


def test_a_crowd_whose_seats_all_stay_is_told_each_alike(base_lines):
    """Nobody's seat slides and camping gear lies in the ends: the boat alone is one for all."""
    boat = scaled_boat(base_lines["load-carrier"], Scaling())
    persons = [person(Measured(kg, 1.78, 0.385), "camp-touring", 40.0, WATER) for kg in (80., 90.)]
    many = assess_crowd(boat, stacked(persons), 2, own_weight(boat))
    found = mishaps_of_many(many, quick_rightings(many), told=True)
    for index in range(2):
        assert found.swamped_out_gm_m[index] == pytest.approx(
            mishap_facts(many.one(index)).swamped_out_gm_m, abs=1e-6)


def test_unasked_they_are_no_numbers_and_no_checks(base_lines):
    boat = scaled_boat(base_lines["day-boat"], Scaling())
    many = assess_crowd(boat, person(PEOPLE[0], "coastal-day", 10.0, WATER), 1, own_weight(boat))
    found = mishaps_of_many(many, quick_rightings(many))
    assert np.isnan(found.swamped_out_gm_m).all()
    assert np.isnan(found.wave_arm_area_mrad).all()
    assert found.known.all()


@pytest.mark.parametrize("use", USES)
def test_the_wave_is_checked_for_coastal_and_rough_water_alone_and_told_for_all(base_lines, use):
    fitted = fit(base_lines["day-boat"], person(PEOPLE[0], use, USES[use].gear_kg, WATER))
    checks = of_keys(fitted.checks)
    assert ("wave" in checks) == (use in ("coastal-day", "rough-water"))
    assert fitted.mishaps.wave.arms.height_m == USES[use].wave_height_m
    assert "swamped-out" in checks


def test_a_stiff_boat_for_a_light_paddler_is_cautioned_in_rough_water(rough):
    """The steady boat's trough: under half of what calm water asks."""
    check = of_keys(rough.checks)["wave"]
    assert check.value_si == pytest.approx(rough.mishaps.wave.arm_area_mrad)
    assert check.value_si < WAVE_SHARE * USES["rough-water"].least_arm_area_mrad
    assert (check.status, check.too) == ("caution", "small")
    assert rough.mishaps.wave.says.rstrip(".") in check.meaning


def test_swamped_and_unsteady_beside_its_swimmer_is_a_caution(rough):
    facts = facts_with(rough.assessed, rough.mishaps)
    low = replace(facts, mishap=replace(facts.mishap, swamped_out_gm_m=-0.001))
    assert of_keys(checks_of(facts))["swamped-out"].status == "pass"
    assert of_keys(checks_of(low))["swamped-out"].status == "caution"
    assert BY_KEY["swamped-out"].fails_below is None


def test_what_cannot_be_worked_out_is_no_check_but_a_sentence(rough, monkeypatch):
    def failing(*_given, **_more):
        raise NotSolved("no rest")

    monkeypatch.setattr(told, "on_wave", failing)
    found = mishaps(rough.assessed)
    assert found.wave is None
    checks = of_keys(checks_of(facts_with(rough.assessed, found)))
    assert "wave" not in checks
