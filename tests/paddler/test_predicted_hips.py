"""Hips that were not measured: against least squares on people drawn from the survey's figures."""

import json
from importlib import resources

import numpy as np
import pytest

from sizer.design.library import read_base
from sizer.errors import BadInput
from sizer.fit.person import person_of
from sizer.fit.request import read_request
from sizer.fit.solve import fit
from sizer.hull.lines import fair_lines
from sizer.paddler.body import predict
from sizer.paddler.measures import read_paddler
from sizer.paddler.spread import body_spread

SURVEY = json.loads(resources.files("sizer.paddler").joinpath("body_table.json").read_text("utf-8"))
GROUPS = {"predicted-man": "male", "predicted-woman": "female"}
COUNT = 200_000


def predicted(whose, **more):
    return read_paddler({"weight_kg": 74, "stature_mm": 1715, "hip_measured": whose} | more)


def drawn(group):
    """People of one sex: (COUNT, 11) in kg and mm."""
    one = SURVEY[group]
    return np.random.default_rng(11).multivariate_normal(one["mean"], one["covariance"], COUNT)


@pytest.mark.parametrize("whose", GROUPS)
def test_nine_in_ten_of_the_sex_that_is_said_are_below_the_wide_end(whose):
    people = drawn(GROUPS[whose])
    terms = np.column_stack([np.ones(COUNT), people[:, :2]])
    by = np.linalg.lstsq(terms, people[:, 2], rcond=None)[0]
    off = people[:, 2] - terms @ by
    hip = predict(predicted(whose)).hip_sitting
    expected = by @ [1.0, 74.0, 1715.0]
    assert 1000.0 * hip.value_m == pytest.approx(expected, abs=0.3)  # four standard errors
    assert 1000.0 * hip.high_m == pytest.approx(expected + np.quantile(off, 0.9), abs=0.4)
    assert not hip.measured


def test_not_told_the_sex_covers_both():
    man, woman, either = (predict(predicted(whose)).hip_sitting
                          for whose in ("predicted-man", "predicted-woman", "predicted"))
    assert woman.value_m > man.value_m + 0.01
    assert either.high_m == pytest.approx(woman.high_m, abs=1e-12)
    assert either.low_m == pytest.approx(man.low_m, abs=1e-12)


def test_measuring_more_narrows_the_hips_and_less_is_left_to_stray():
    plain = predicted("predicted-woman")
    more = predicted("predicted-woman", shoulder_width_mm=430)
    assert predict(more).hip_sitting.plus_minus_m < predict(plain).hip_sitting.plus_minus_m
    sd = body_spread(predict(plain)).sd["hip_sitting"]
    assert sd == pytest.approx(predict(plain).hip_sitting.plus_minus_m / 1.2816, rel=1e-9)


def test_the_opening_takes_the_wide_end_and_the_caution_says_measure():
    body = predict(predicted("predicted-woman"))
    lines = fair_lines(read_base("day-boat"))
    openings, rooms = [], []
    for hips in ({"hip_measured": "predicted-woman"},
                 {"hip_width_mm": 1000.0 * body.hip_sitting.high_m}):
        person = person_of(read_request({"base": "day-boat", "use": "sheltered-day", "paddler": {
            "weight_kg": 74, "stature_mm": 1715} | hips}))
        fitted = fit(lines, person)
        openings.append(fitted.assessed.boat.opening.width_m)
        rooms.append(fitted.check("way-out-wide").odds)
    assert openings[0] == pytest.approx(openings[1], abs=1e-9)
    assert rooms[0] > 0.9
    assert body.hip_sitting.high_m > body.hip_sitting.value_m + 0.01
    assert any("not measured" in one and "a woman" in one and "measure them" in one
               for one in body.cautions)


def test_a_width_with_a_prediction_and_hips_that_no_survey_covers_are_refused():
    with pytest.raises(BadInput, match="leave it out"):
        predicted("predicted-man", hip_width_mm=380)
    with pytest.raises(BadInput, match="measure it, sitting"):
        predicted("predicted-woman", weight_kg=190, stature_mm=1800)
