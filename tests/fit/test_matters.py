"""What measuring or care would bring: closed forms of the normal, and other people's draws."""

from dataclasses import replace

import numpy as np
import pytest

from sizer.fit.checks import ROWS
from sizer.fit.matters import TAPED, gm_sd_m, matters, with_care, worth_measuring
from sizer.fit.odds import odds_all_hard
from sizer.fit.person import person
from sizer.fit.solve import fit
from sizer.hydro.water import water_at
from sizer.paddler.measures import Measured
from sizer.paddler.spread import INPUTS, SPREADS

GM = [row.key for row in ROWS].index("gm")


@pytest.fixture(scope="module")
def fitted(base_lines):
    """A light paddler, whose boat is near several limits."""
    return fit(base_lines["small-cruiser"],
               person(Measured(56.0, 1.64, 0.372), "sheltered-day", 5.0, water_at("fresh", 15.0)))


@pytest.fixture(scope="module")
def found(fitted):
    return {one.key: one for one in matters(fitted.checks, fitted.sure,
                                            fitted.assessed.person.body)}


def test_what_strays_by_itself_leaves_the_rest_when_known(fitted, found):
    """Variances of what strays apart add up: known exactly, each takes its own."""
    slopes, whole = fitted.sure.slopes[GM], gm_sd_m(fitted.sure)
    assert whole == pytest.approx(fitted.check("gm").sd_si)
    for key in ("centre-height", "boat-weight", "build-beam", "build-depth", "gear-mass"):
        own = slopes[INPUTS.index(key)] * SPREADS[key].sd
        assert found[key].gm_sd_m == pytest.approx(np.sqrt(whole**2 - own**2), rel=1e-9)
    both = sum((slopes[INPUTS.index(key)] * SPREADS[key].sd) ** 2
               for key in ("weight-day", "clothing"))
    assert found["weight-day"].gm_sd_m == pytest.approx(np.sqrt(whole**2 - both), rel=1e-9)


@pytest.mark.parametrize("measure", ["sitting_height", "foot_length"])
def test_a_measure_more_narrows_what_goes_with_it(fitted, found, measure):
    """The normal given one of its own: C - C_m C_m' / C_mm of what was predicted."""
    before, at = fitted.sure.covariance, INPUTS.index(measure)
    after = before - np.outer(before[at], before[at]) / before[at, at]
    slopes = fitted.sure.slopes[GM]
    assert found[measure].gm_sd_m == pytest.approx(np.sqrt(slopes @ after @ slopes), rel=1e-6)
    assert found[measure].gm_sd_m <= gm_sd_m(fitted.sure)


def test_odds_then_are_those_of_plain_draws(fitted, found):
    """Other random numbers, the centre's height known: the share that meets every limit."""
    covariance = fitted.sure.covariance.copy()
    at = INPUTS.index("centre-height")
    covariance[at] = covariance[:, at] = 0.0
    moves = np.random.default_rng(5).multivariate_normal(
        np.zeros(len(INPUTS)), covariance, 20_000, method="eigh")
    rows = {row.key: place for place, row in enumerate(ROWS)}
    hard = [one for one in fitted.checks if one.is_hard and one.sd_si]
    off = moves @ fitted.sure.slopes[[rows[one.key] for one in hard]].T
    low, value, high = np.array([(one.window_si[0], one.value_si, one.window_si[3])
                                 for one in hard]).T
    kept = ((value - low + off >= 0.0) & (high - value - off >= 0.0)).all(axis=1).mean()
    assert found["centre-height"].odds == pytest.approx(kept, abs=0.012)
    assert found["centre-height"].odds > odds_all_hard(fitted.checks, fitted.sure)


def test_the_most_telling_come_first_and_only_what_is_not_measured_is_asked_for(fitted, found):
    ranked = tuple(found.values())
    assert list(ranked) == sorted(ranked, key=lambda one: (-round(one.odds, 2), -one.narrows))
    assert {one.key for one in worth_measuring(ranked)} == set(TAPED) - {"hip_sitting"}
    assert len(with_care(ranked)) == 3
    body = fitted.assessed.person.body
    taped = replace(body, sitting_height=replace(body.sitting_height, plus_minus_m=0.0,
                                                 measured=True))
    again = matters(fitted.checks, fitted.sure, taped)
    assert "sitting_height" not in {one.key for one in again}


def test_what_narrows_is_told_of_the_least_sure_check(fitted, found):
    hard = [one for one in fitted.checks if one.is_hard and one.sd_si]
    least = min(hard, key=lambda one: one.odds)
    place = [row.key for row in ROWS].index(least.key)
    slope = fitted.sure.slopes[place, INPUTS.index("build-depth")]
    own = (slope * SPREADS["build-depth"].sd / least.sd_si) ** 2
    assert found["build-depth"].narrows == pytest.approx(own, abs=1e-9)
