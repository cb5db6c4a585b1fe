"""Reading the paddler: what is taken, what is refused, and the unit that was probably meant."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizer.errors import BadInput
from sizer.paddler.measures import RANGES, Measured, read_paddler

GIVEN = {"weight_kg": 85, "stature_mm": 1780, "hip_width_mm": 380}


def faults_of(given_measures):
    with pytest.raises(BadInput) as caught:
        read_paddler(given_measures)
    return {fault.place.removeprefix("paddler."): str(fault) for fault in caught.value.faults}


def test_read_paddler_turns_millimetres_into_metres():
    full = GIVEN | {
        "hip_measured": "standing",
        "inseam_mm": 850,
        "sitting_height_mm": 920,
        "foot_length_mm": 270,
        "shoe_length_mm": 295,
        "shoulder_width_mm": 510,
    }
    expected = Measured(85, 1.78, 0.38, "standing", 0.85, 0.92, 0.27, 0.295, 0.51)
    assert read_paddler(full) == expected


def test_read_paddler_takes_null_as_not_measured():
    nulls = {key: None for key in RANGES if key not in GIVEN} | {"hip_measured": None}
    assert read_paddler(GIVEN | nulls) == Measured(85, 1.78, 0.38)


@pytest.mark.parametrize(
    ("key", "value", "hint"),
    [
        ("hip_width_mm", 0.38, "metres: 380 mm?"),
        ("hip_width_mm", 38, "centimetres: 380 mm?"),
        ("hip_width_mm", 15, "inches: 381 mm?"),
        ("stature_mm", 5.8, "feet: 1768 mm?"),
        ("stature_mm", 70, "inches: 1778 mm?"),
        ("stature_mm", 178, "centimetres: 1780 mm?"),
        ("weight_kg", 220, "pounds: 99.79 kg?"),
        ("weight_kg", 85000, "grams: 85 kg?"),
        ("weight_kg", 13.5, "stone: 85.73 kg?"),
        ("foot_length_mm", 10.5, "inches: 266.7 mm?"),
        ("hip_width_mm", -380, "measure again"),
    ],
)
def test_read_paddler_suggests_the_unit_that_was_meant(key, value, hint):
    faults = faults_of(GIVEN | {key: value})
    assert list(faults) == [key]
    assert hint in faults[key]


def test_read_paddler_suspects_pounds_when_weight_does_not_suit_stature():
    # 190 kg at 1.5 m is 84 kg/m2; 190 lb is 86 kg and 38 kg/m2.
    faults = faults_of(GIVEN | {"weight_kg": 190, "stature_mm": 1500})
    assert "pounds: 86.18 kg?" in faults["weight_kg"]


def test_read_paddler_reports_all_faults_at_once():
    wrong = {
        "weight_kg": "85",
        "stature_mm": math.nan,
        "hip_measured": "lying",
        "inseem_mm": 850,
        "foot_length_mm": True,
        "shoe_length_mm": [1],
    }
    faults = faults_of(wrong)
    assert set(faults) == {*wrong, "hip_width_mm"}
    assert "missing" in faults["hip_width_mm"]
    assert "did you mean inseam_mm?" in faults["inseem_mm"]


@pytest.mark.parametrize(
    ("changes", "place"),
    [
        ({"inseam_mm": 1050}, "inseam_mm"),
        ({"inseam_mm": 600}, "inseam_mm"),
        ({"sitting_height_mm": 1140}, "sitting_height_mm"),
        ({"sitting_height_mm": 700}, "sitting_height_mm"),
        ({"weight_kg": 35, "stature_mm": 1900}, "weight_kg"),
        ({"foot_length_mm": 280, "shoe_length_mm": 270}, "shoe_length_mm"),
    ],
)
def test_read_paddler_refuses_measures_that_cannot_be_one_body(changes, place):
    assert list(faults_of(GIVEN | changes)) == [place]


@pytest.mark.parametrize("mapping", [None, [], "paddler", 85])
def test_read_paddler_refuses_what_has_no_names(mapping):
    assert list(faults_of(mapping)) == ["paddler"]


@given(
    st.sampled_from(list(RANGES)),
    st.one_of(st.none(), st.booleans(), st.text(), st.floats(), st.integers(), st.lists(st.none())),
)
def test_read_paddler_takes_a_value_in_range_or_names_its_key(key, value):
    try:
        read_paddler(GIVEN | {key: value})
    except BadInput as refusal:
        places = {fault.place for fault in refusal.faults}
        in_range = type(value) in (int, float) and RANGES[key][0] <= value <= RANGES[key][1]
        assert f"paddler.{key}" in places or in_range
    else:
        low, high = RANGES[key]
        assert value is None or low <= value <= high
        assert value is not True
