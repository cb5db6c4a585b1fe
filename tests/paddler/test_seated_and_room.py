"""Seated centre against the segment model and a scan study; room against plain measures."""

from dataclasses import astuple, fields, replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizer.errors import BadInput
from sizer.paddler.body import MEAN, Measure, predict
from sizer.paddler.measures import Measured
from sizer.paddler.room import folk_measures, room_needed
from sizer.paddler.seated import WORN, seated_centre, worn_kg

PADDLERS = st.builds(
    Measured,
    weight_kg=st.floats(45, 130),
    stature_m=st.floats(1.45, 2.05),
    hip_width_m=st.floats(0.30, 0.52),
)


def exactly(mm):
    return Measure(mm / 1000, 0.0, True)


def median_body(weight_kg, **mm):
    """A body of measured values, in mm by field name; the rest predicted."""
    base = predict(Measured(weight_kg, mm["stature"] / 1000, mm["hip_sitting"] / 1000))
    return replace(base, **{name: exactly(value) for name, value in mm.items()})


# ANSUR II medians (Gordon et al. 2014).
MAN = median_body(
    84.6, stature=1755, hip_sitting=378, sitting_height=918, buttock_knee=617, knee_height=553,
    foot_length=271, shoe_length=291, thigh_clearance=180, arm_span=1812,
)  # fmt: skip
WOMAN = median_body(
    66.8, stature=1626, hip_sitting=397, sitting_height=857, buttock_knee=589, knee_height=510,
    foot_length=246, shoe_length=266, thigh_clearance=167, arm_span=1657,
)  # fmt: skip


@pytest.mark.parametrize(("body", "z_mm", "x_mm"), [(MAN, 304, 259), (WOMAN, 272, 266)])
def test_seated_centre_matches_segment_model_of_median_bodies(body, z_mm, x_mm):
    # de Leva 1996 segments, each sex by itself; the pooled rule sits within 4 mm of both.
    centre = seated_centre(body)
    assert centre.cautious_height_m * 1000 == pytest.approx(z_mm, abs=4)
    assert centre.nominal_height_m * 1000 == pytest.approx(0.95 * z_mm, abs=4)
    assert centre.ahead_m * 1000 == pytest.approx(x_mm, abs=4)


def test_seated_centre_moves_ahead_with_weight_as_scanned():
    # UMTRI scans of 762 adults: 220 mm at 77 kg and 273 at 140 kg, some 0.8 mm per kg.
    hip_per_kg = 0.00187  # what the survey's hips gain per kg at one stature
    slim = seated_centre(predict(Measured(77, 1.756, 0.37)))
    heavy = seated_centre(predict(Measured(140, 1.756, 0.37 + 63 * hip_per_kg)))
    assert (heavy.ahead_m - slim.ahead_m) * 1000 / 63 == pytest.approx(0.84, abs=0.1)


def test_worn_kg_sums_its_table():
    assert worn_kg() == pytest.approx(5.0)
    assert {item for item, _ in WORN} == {"clothing and shoes", "PFD", "paddle", "spray deck"}


@pytest.mark.parametrize(("body", "knee_mm", "rest_mm"), [(MAN, 205, 1047), (WOMAN, 190, 980)])
def test_room_matches_segment_model_of_median_bodies(body, knee_mm, rest_mm):
    room = room_needed(body, "slide")
    assert (room.knee_top_m - 0.015) * 1000 == pytest.approx(knee_mm, abs=1)
    assert (room.foot_rest_ahead_m - 0.015) * 1000 == pytest.approx(rest_mm, abs=3)


def test_room_clearances_are_as_stated():
    slide, sit = room_needed(MAN, "slide"), room_needed(MAN, "sit")
    assert slide.hip_width_m == pytest.approx(0.378 + 0.024)
    assert slide.thigh_height_m == pytest.approx(0.195)
    assert slide.foot_height_m == pytest.approx(0.291 * 0.76604 + 0.010, abs=1e-5)
    assert slide.foot_width_m == pytest.approx(0.8 * 0.271)
    assert slide.knee_ahead_m == pytest.approx(0.617 * 0.98481, abs=1e-5)
    assert slide.opening_width_m == pytest.approx(0.408)
    assert slide.opening_length_m == pytest.approx(0.430)
    assert sit.opening_length_m == pytest.approx(0.677)
    assert replace(sit, opening_length_m=slide.opening_length_m) == slide


def test_slide_opening_grows_for_thick_thighs():
    thick = replace(MAN, thigh_clearance=exactly(210))
    assert room_needed(thick, "slide").opening_length_m == pytest.approx(0.490)


def test_long_shoe_needs_height_and_width():
    booted = replace(MAN, shoe_length=exactly(330))
    plain, roomy = room_needed(MAN, "sit"), room_needed(booted, "sit")
    assert roomy.foot_height_m - plain.foot_height_m == pytest.approx(0.039 * 0.76604, abs=1e-5)
    assert roomy.foot_width_m == pytest.approx(0.8 * 0.310)


@given(PADDLERS, st.sampled_from(["slide", "sit"]))
def test_room_is_more_than_the_bare_body_takes(measured, entry):
    body = predict(measured)
    room = room_needed(body, entry)
    assert min(room.hip_width_m, room.opening_width_m) > body.hip_sitting.value_m
    assert room.thigh_height_m > body.thigh_clearance.value_m
    assert room.opening_length_m > 2 * body.thigh_clearance.value_m
    assert room.knee_ahead_m < room.foot_rest_ahead_m
    assert entry == "slide" or room.opening_length_m > body.buttock_knee.value_m


@given(PADDLERS, st.sampled_from(["slide", "sit"]))
def test_room_does_not_hang_on_whether_a_measure_was_taken_or_predicted(measured, entry):
    """How far a prediction may be off is told by odds, not added to the room."""
    body = predict(replace(measured, hip_measured="standing"))
    known = {
        field.name: exactly(getattr(body, field.name).value_m * 1000)
        for field in fields(body)
        if isinstance(getattr(body, field.name), Measure)
    }
    assert astuple(room_needed(body, entry)) == pytest.approx(
        astuple(room_needed(replace(body, **known), entry)), abs=1e-12)


@given(PADDLERS, st.floats(0.001, 0.03))
def test_room_is_wider_for_a_standing_hip_than_for_its_middle(measured, gain_m):
    standing = replace(measured, hip_measured="standing")
    wider = replace(standing, hip_width_m=standing.hip_width_m + gain_m)
    room = room_needed(predict(standing), "sit")
    assert room.hip_width_m == pytest.approx(
        measured.hip_width_m + 0.5 * (0.034 + 0.045) + 0.024)
    assert room_needed(predict(wider), "sit").hip_width_m > room.hip_width_m


@pytest.mark.parametrize("entry", ["", "jump", None, []])
def test_room_refuses_an_unknown_entry(entry):
    with pytest.raises(BadInput, match="slide or sit"):
        room_needed(MAN, entry)


@pytest.mark.parametrize(("body", "length_mm"), [(MAN, 5436), (WOMAN, 4971)])
def test_folk_measures_match_median_bodies(body, length_mm):
    # Three spans give 5436 and 4971, hips and two fists 554 and 554; one hand-to-span ratio
    # serves both sexes here and costs up to 3 mm.
    folk = folk_measures(body)
    assert folk.length_m * 1000 == pytest.approx(length_mm, abs=0.5)
    assert folk.beam_low_m * 1000 == pytest.approx(554, abs=3)
    assert folk.beam_high_m > folk.beam_low_m


def test_mean_body_is_unremarkable():
    assert predict(Measured(*MEAN[:3])).cautions == ()
