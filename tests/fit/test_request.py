"""Requests: what is refused, and with which words."""

import pytest

from sizer.errors import BadInput
from sizer.fit.request import read_request
from sizer.fit.uses import USES

GOOD = {"base": "day-boat", "use": "coastal-day",
        "paddler": {"weight_kg": 82, "stature_mm": 1780, "hip_width_mm": 385}}


def faults_of(**changes):
    with pytest.raises(BadInput) as caught:
        read_request({**GOOD, **changes})
    return {fault.place: f"{fault.value}: {fault.allowed}" for fault in caught.value.faults}


def test_defaults_are_the_use_and_cold_fresh_water():
    request = read_request(GOOD)
    assert request.trip.gear_kg == USES["coastal-day"].gear_kg
    assert (request.trip.water.kind, request.trip.water.temperature_c) == ("fresh", 10.0)
    assert request.fixed == ()


def test_every_fault_is_reported_at_once():
    found = faults_of(use="sailing", gear_kg=-1, water={"kind": "beer"}, bases=3,
                      fixed={"lenght_mm": 4000, "beam_mm": "wide"}, paddler={"weight_kg": -5})
    assert set(found) == {"bases", "use", "gear_kg", "water.kind", "fixed.lenght_mm",
                          "fixed.beam_mm", "paddler.weight_kg", "paddler.stature_mm",
                          "paddler.hip_width_mm"}
    assert "did you mean length_mm?" in found["fixed.lenght_mm"]
    assert "coastal-day" in found["use"]


def test_hips_in_metres_are_recognised():
    found = faults_of(paddler=GOOD["paddler"] | {"hip_width_mm": 0.385})
    assert "metres: 385 mm?" in found["paddler.hip_width_mm"]


@pytest.mark.parametrize("value", [None, [], "text", 5])
def test_a_request_that_is_no_object_is_refused(value):
    with pytest.raises(BadInput):
        read_request(value)


@pytest.mark.parametrize("gear", [float("nan"), float("inf"), True, "ten", 151])
def test_gear_must_be_a_sensible_number(gear):
    assert "0 to 150 kg" in faults_of(gear_kg=gear)["gear_kg"]


@pytest.mark.parametrize("follow", [1, 0, "yes", [True]])
def test_whether_sizes_follow_is_true_or_false(follow):
    assert "true or false" in faults_of(follow=follow)["follow"]


@pytest.mark.parametrize("base", ["", "  ", None, 7])
def test_base_is_needed(base):
    assert "base" in faults_of(base=base)


@pytest.mark.parametrize("water", [{"temperature_c": 50}, {"temperature_c": float("nan")},
                                   {"temp": 5}, "salt"])
def test_water_must_be_water(water):
    assert any(place.startswith("water") for place in faults_of(water=water))
