"""What a drysuit leaves of the load, and that the maker knows it at the fit."""

import re
from dataclasses import replace

import pytest

from sizer.fit.dressed import dressed_cautions
from sizer.fit.request import read_request
from sizer.fit.uses import USES
from sizer.hydro.water import temperature_caution, water_at
from sizer.job import run
from tests.conftest import BASE_NAMES, MIDDLE


@pytest.fixture(scope="module")
def job(middle_job):
    return middle_job("day-boat")


def cautions(job, gear_kg, water_c):
    person = replace(job.person, gear_kg=gear_kg, water=water_at("fresh", water_c))
    return tuple(dressed_cautions(person, job.mishaps.swamped))


def test_the_fit_says_where_the_clothing_that_its_water_asks_for_is_not_within_the_load(job):
    """4 kg against 2.5, bags at seven grams a litre, boards half a kilogram, 2 kg for what
    goes along on every trip."""
    bags = job.mishaps.swamped
    need = 1.5 + 0.007 * (bags.bow_l + bags.stern_l) + 0.5 + 2.0
    told, = cautions(job, need - 0.1, 10.0)
    assert cautions(job, need + 0.1, 10.0) == ()
    asked = float(re.search(r"fit it with ([\d.]+) kg", told)[1])
    assert need <= asked < need + 0.5
    assert cautions(job, asked, 10.0) == ()
    assert len(cautions(job, 0.0, 10.0)) == 1  # no gear reckoned with: it comes on top
    assert told.startswith("As it is, this boat stays ashore in water of 15 °C")
    assert "the 2.0 kg (4.4 lb) that go along on every trip (a litre of water, hand pump" in told


@pytest.mark.parametrize("water_c", [0.0, 10.0, 14.9, 15.0, 15.1, 21.0])
def test_it_goes_by_what_the_waters_own_caution_asks_for(job, water_c):
    """A drysuit or a wetsuit as thick; above 15 degrees a thin one does."""
    asks = re.search("drysuit (over|or thick)", temperature_caution(water_c))
    assert bool(cautions(job, 2.0, water_c)) == bool(asks)


@pytest.mark.parametrize("water_c", [10.0, 20.0])
def test_the_jobs_cautions_bear_it(base_lines, water_c):
    made = run(read_request({
        "base": "surf-runner", "use": "rough-water", "paddler": MIDDLE, "gear_kg": 3,
        "water": {"kind": "salt", "temperature_c": water_c}}), base_lines["surf-runner"])
    assert any("Dressed for this water" in said for said in made.cautions) == (water_c == 10.0)


@pytest.mark.parametrize("base", BASE_NAMES)
def test_no_use_has_so_little_gear_that_its_boat_stays_ashore_in_cold_water(middle_job, base):
    job = middle_job(base)
    assert cautions(job, min(use.gear_kg for use in USES.values()), 10.0) == ()
