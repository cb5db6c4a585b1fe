"""Spreads of the inputs: printed residuals, many drawn bodies, and what measuring more narrows."""

from dataclasses import replace

import numpy as np
import pytest

from sizer.paddler.body import COVARIANCE, FIELDS, MEAN, predict
from sizer.paddler.measures import Measured
from sizer.paddler.spread import SPREADS, body_spread, centre_height_sd_m

USUAL = Measured(85.0, 1.78, 0.38)
# Pooled, stature, weight and sitting hips known; with inseam, with sitting height: as printed in
# the survey's summary that the body table comes with.
PRINTED_SD_MM = {"buttock_knee": 17.5, "knee_height": 12.7, "foot_length": 8.6,
                 "inseam": 23.6, "thigh_clearance": 8.1}


@pytest.fixture(scope="module")
def people():
    return np.random.default_rng(3).multivariate_normal(MEAN, COVARIANCE, size=60_000)


@pytest.mark.parametrize("name", PRINTED_SD_MM)
def test_spread_is_the_printed_residual(name):
    found = body_spread(predict(USUAL)).sd[name]
    assert 1000.0 * found == pytest.approx(PRINTED_SD_MM[name], abs=0.06)


def test_covariance_is_that_of_what_a_regression_leaves_on_drawn_people(people):
    """Least squares on 60,000 people, weight, stature and hips known."""
    found = body_spread(predict(USUAL))
    rest = [FIELDS.index(name) for name in found.columns]
    terms = np.column_stack([np.ones(len(people)), people[:, :3]])
    left = people[:, rest] - terms @ np.linalg.lstsq(terms, people[:, rest], rcond=None)[0]
    drawn = np.cov(left.T)
    sd = np.sqrt(np.diag(found.covariance))
    assert drawn / np.outer(sd, sd) == pytest.approx(
        found.covariance / np.outer(sd, sd), abs=0.025)  # six standard errors


def test_standing_hips_stray_with_all_that_is_predicted_from_them(people):
    """Hips told with an error of 17/1.2816 mm: what the plain prediction is then off by."""
    found = body_spread(predict(replace(USUAL, hip_measured="standing", hip_width_m=0.3405)))
    noise = np.random.default_rng(5).normal(0.0, 0.017 / 1.2816, len(people))
    place = FIELDS.index("buttock_knee")
    terms = np.column_stack([np.ones(len(people)), people[:, :3]])
    by = np.linalg.lstsq(terms, people[:, place], rcond=None)[0]
    off = people[:, place] - (terms @ by + by[3] * noise)
    assert found.sd["buttock_knee"] == pytest.approx(off.std(), rel=0.015)
    assert found.sd["hip_sitting"] == pytest.approx(0.017 / 1.2816)
    joint = found.covariance[found.columns.index("buttock_knee"), -1]
    assert joint == pytest.approx(np.cov(off, -noise)[0, 1], rel=0.05)


def test_measuring_more_narrows_and_what_is_measured_is_sure():
    plain = body_spread(predict(USUAL))
    more = body_spread(predict(replace(USUAL, sitting_height_m=0.92)))
    assert "sitting_height" not in more.columns
    assert 1000.0 * more.sd["buttock_knee"] == pytest.approx(12.0, abs=0.06)  # printed
    assert more.sd["knee_height"] < plain.sd["knee_height"]
    assert more.of({"sitting_height": 1.0}) == 0.0


def test_centre_is_known_to_its_own_16_mm_once_sitting_height_is_measured():
    """By hand: predicted sitting height is good to 22 mm (printed, to 1 mm), of which 0.95 times
    0.2890 comes to the centre."""
    taken = predict(replace(USUAL, sitting_height_m=0.92))
    assert centre_height_sd_m(taken) == pytest.approx(0.016)
    by_hand = np.hypot(0.016, 0.95 * 0.2890 * 0.022)
    assert centre_height_sd_m(predict(USUAL)) == pytest.approx(by_hand, abs=0.0001)


def test_every_spread_says_whose_it_is():
    for key, one in SPREADS.items():
        assert one.key == key
        assert one.sd > 0.0
        assert one.unit in ("m", "kg", "of 1")
        assert one.source
    stated = {"centre-height": 0.016, "centre-ahead": 0.020, "boat-weight": 0.05,
              "build-beam": 0.005, "build-depth": 0.005}
    assert {key: SPREADS[key].sd for key in stated} == stated
