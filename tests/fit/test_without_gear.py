"""Steadiness without the gear: gear low in a boat is ballast, and is not always aboard."""

import re
from dataclasses import replace

import pytest

from sizer.fit.request import read_request
from sizer.hydro.particulars import float_upright
from sizer.job import run
from sizer.shop.aboard import bare_words
from tests.conftest import BASE_NAMES

pytestmark = pytest.mark.usefixtures("unsawn")
LADEN = {"use": "camp-touring", "gear_kg": 35,
         "paddler": {"weight_kg": 84, "stature_mm": 1800, "hip_width_mm": 390}}


@pytest.fixture(scope="module", params=BASE_NAMES)
def laden(request, base_lines):
    return run(read_request({"base": request.param} | LADEN), base_lines[request.param])


def test_it_is_the_gm_of_the_same_boat_floated_by_itself_without_the_gear(laden):
    """By the solver of one boat, the load put together by hand."""
    found = laden.fitted.assessed
    loads, water = found.loading, found.person.water
    weight = found.weight
    paddler = loads.paddler
    mass = weight.mass_kg + paddler.mass_kg
    by_hand = replace(loads.load, mass_kg=mass, **{
        place: (weight.mass_kg * getattr(weight, place) + paddler.mass_kg * getattr(paddler, place))
        / mass for place in ("lcg_m", "vcg_m")})
    told = laden.fitted.check("gm-bare").value
    assert told == pytest.approx(1000.0 * float_upright(found.boat.sections, by_hand, water).gm_m,
                                 abs=0.05)


def test_nobodys_boat_fails_for_want_of_its_gear(laden):
    """Found for whoever loads it, it is steady enough without: 12 mm were left in one before."""
    assert laden.fitted.check("gm-bare").value >= 25.0


def test_who_takes_no_gear_is_not_told_of_it(base_lines):
    job = run(read_request({"base": "load-carrier"} | LADEN | {"gear_kg": 0}),
              base_lines["load-carrier"])
    assert job.fitted.check("gm-bare") is None


def test_the_owner_and_the_launch_are_told_how_steady_it_is_without(laden):
    said = bare_words(laden.fitted.assessed)
    bare, full = map(float, re.findall(r"(\d+) mm \(", said))
    assert bare == pytest.approx(laden.fitted.check("gm-bare").value, abs=0.51)
    assert full == pytest.approx(laden.fitted.check("gm").value, abs=0.51)
    assert ("too little" in said) == (bare < 25.0)
