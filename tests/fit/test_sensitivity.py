"""Small changes: their signs, and one of them worked out directly."""

import pytest

from sizer.fit.request import read_request
from sizer.fit.sensitivity import sensitivity
from sizer.hydro.flotation import Load
from sizer.hydro.particulars import float_upright
from sizer.job import run


@pytest.fixture(scope="module")
def assessed(lines):
    return run(read_request({"base": "day-boat", "use": "coastal-day", "paddler": {
        "weight_kg": 82, "stature_mm": 1770, "hip_width_mm": 390}}), lines).fitted.assessed


@pytest.fixture(scope="module")
def effects(assessed):
    return {change.words: change.effect for change in sensitivity(assessed)}


def test_more_weight_takes_freeboard_and_adds_drag(effects):
    for words in ("5 kg heavier paddler", "10 kg more gear"):
        assert effects[words].freeboard_m < 0.0
        assert all(drag > 0.0 for drag in effects[words].drag_N)


def test_five_kilograms_sink_it_by_the_waterplane(assessed, effects):
    by_plane = -0.05 / assessed.particulars.kg_per_cm
    assert effects["5 kg heavier paddler"].freeboard_m == pytest.approx(by_plane, rel=0.1)


def test_seat_aft_trims_by_the_stern(assessed, effects):
    assert effects["seat 20 mm farther aft"].trim_deg > 0.0
    load, water = assessed.loading, assessed.person.water
    # paddler, the day's kit behind the seat, seat and footbrace all go aft
    moved = (load.paddler_kg + load.gear_kg + 1.6) * 0.020 / load.load.mass_kg
    sections = assessed.boat.sections
    whole = load.load
    aft = float_upright(sections, Load(whole.mass_kg, whole.lcg_m + moved, whole.vcg_m), water)
    assert effects["seat 20 mm farther aft"].trim_deg == pytest.approx(
        aft.trim_deg - assessed.particulars.trim_deg, rel=0.01)


def test_seat_height_goes_straight_into_gm(assessed, effects):
    load = assessed.loading
    # the seat's own kilogram goes up with it
    share = (load.paddler_kg + 1.0) / load.load.mass_kg
    assert effects["seat 20 mm higher"].gm_m == pytest.approx(-0.020 * share, rel=0.02)
    assert effects["seat 20 mm higher"].freeboard_m == pytest.approx(0.0, abs=2e-4)


def test_beam_adds_gm(effects):
    assert effects["beam 10 mm wider"].gm_m > 0.005
    assert effects["beam 10 mm wider"].freeboard_m > 0.0
