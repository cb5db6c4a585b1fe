"""Small changes: their signs, and one of them worked out directly."""

import pytest

from sizer.fit.person import person_of
from sizer.fit.request import read_request
from sizer.fit.sensitivity import sensitivity
from sizer.fit.solve import fit
from sizer.hydro.flotation import Load
from sizer.hydro.particulars import float_upright


@pytest.fixture(scope="module")
def assessed(lines):
    return fitted(lines, "coastal-day")


def fitted(lines, use):
    """The Assessed boat of a paddler of middle size, for a use."""
    request = read_request({"base": "day-boat", "use": use, "paddler": {
        "weight_kg": 82, "stature_mm": 1770, "hip_width_mm": 390}})
    return fit(lines, person_of(request), explained=False).assessed


@pytest.fixture(scope="module")
def effects(assessed):
    boat = assessed.boat
    found = sensitivity(boat.lines, boat.scaling, assessed.person)
    return {one.name: one.change for one in found.changes}


def test_more_weight_takes_freeboard_and_adds_drag(effects):
    for words in ("5 kg more paddler", "10 kg more gear"):
        assert effects[words].freeboard_m < 0.0
        assert effects[words].drag_3kn_N > 0.0
        assert effects[words].drag_4kn_N > 0.0


def test_five_kilograms_sink_it_by_the_waterplane(assessed, effects):
    by_plane = -0.05 / assessed.particulars.kg_per_cm
    assert effects["5 kg more paddler"].freeboard_m == pytest.approx(by_plane, rel=0.1)


def test_seat_aft_trims_by_the_stern(assessed, effects):
    assert effects["seat 20 mm further aft"].trim_deg > 0.0
    load, water = assessed.loading, assessed.person.water
    # paddler and the day's kit behind the seat go aft
    moved = (load.paddler_kg + load.gear_kg) * 0.020 / load.load.mass_kg
    sections = assessed.boat.sections
    whole = load.load
    aft = float_upright(sections, Load(whole.mass_kg, whole.lcg_m + moved, whole.vcg_m), water)
    assert effects["seat 20 mm further aft"].trim_deg == pytest.approx(
        aft.trim_deg - assessed.particulars.trim_deg, rel=0.01)


def test_seat_height_goes_straight_into_gm(assessed, effects):
    load = assessed.loading
    share = load.paddler_kg / load.load.mass_kg
    assert effects["seat 20 mm higher"].gm_m == pytest.approx(-0.020 * share, rel=0.002)
    assert effects["seat 20 mm higher"].freeboard_m == pytest.approx(0.0, abs=2e-4)


def test_beam_adds_gm(effects):
    assert effects["10 mm more beam"].gm_m > 0.005
    assert effects["10 mm more beam"].freeboard_m > 0.0


def test_little_gear_is_never_taken_below_none(lines):
    """With 3 kg aboard the step runs from none to 10 kg, and still counts as 10 kg."""
    done = fitted(lines, "fitness-paddling")
    found = sensitivity(lines, done.boat.scaling, done.person)
    change = next(one.change for one in found.changes if one.name == "10 kg more gear")
    by_plane = -0.10 / done.particulars.kg_per_cm
    assert change.freeboard_m == pytest.approx(by_plane, rel=0.25)
