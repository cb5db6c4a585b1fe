"""How sure a finished boat's checks are: draws through the whole engine, and the fit's own word."""

import numpy as np
import pytest

from sizer.crowd.finished import finished, persons_of, verdict
from sizer.crowd.how_sure import sure_in
from sizer.fit.assess import assess_boat
from sizer.fit.check import CLEAN_ODDS, FAIL, codes_of, read_rows
from sizer.fit.checks import PLAIN, ROWS
from sizer.fit.facts import facts_of
from sizer.fit.odds import odds_all_hard, odds_together_of_many, strayed
from sizer.fit.solve import fit_many
from sizer.paddler.measures import Measured
from sizer.paddler.spread import INPUTS
from sizer.rows import many_of, stacked
from tests.crowd.conftest import TRIP, drawn_people

PLACE = {row.key: place for place, row in enumerate(ROWS)}


@pytest.fixture(scope="module")
def fitted(day_boat):
    """People, the boat fitted to each, and the same boat as a finished one."""
    persons = persons_of(drawn_people(24, 9, 1.0), TRIP)
    return [(one, found, finished(day_boat, found.assessed.boat.scaling))
            for one, found in zip(persons, fit_many(day_boat, persons), strict=True)]


@pytest.mark.parametrize("weight_kg", [58.0, 81.0, 97.0])  # between those that slopes are read at
def test_spread_is_that_of_draws_through_the_whole_engine(day_boat, fitted, weight_kg):
    hull = fitted[0][2]
    person, = persons_of([Measured(weight_kg, 1.72, 0.39)], TRIP)
    sure = sure_in(hull, person)
    moves = np.random.default_rng(3).multivariate_normal(
        np.zeros(len(INPUTS)), sure.covariance, 800)
    many, shape = strayed(assess_boat(hull.boat, person, weight=hull.weight), moves)
    value, window = read_rows(PLAIN, facts_of(many, shape))
    drawn = (value - np.where(np.isfinite(window[0]), window[0], 0.0)).std(axis=1)
    for key in ("freeboard", "gm", "reserve", "thighs", "rim", "load"):
        assert sure.spread[key] == pytest.approx(drawn[PLACE[key]], rel=0.10), key


def test_of_many_is_as_of_each_alone_and_each_own_measures_count(fitted):
    hull = fitted[0][2]
    persons = persons_of([Measured(70.0, 1.70, 0.38), Measured(70.0, 1.70, 0.38, 0.79, 0.90)], TRIP)
    both = sure_in(hull, stacked(persons))
    for index, one in enumerate(persons):
        assert both.sd[index] == pytest.approx(sure_in(hull, one).sd)
    assert both.sd[1, PLACE["gm"]] < both.sd[0, PLACE["gm"]]


def test_a_finished_boat_says_of_its_own_paddler_what_the_fit_said(fitted):
    """The same slopes by another road: at a usual body of that weight, and not at this one."""
    cautioned = 0
    for person, found, hull in fitted:
        told, hard = verdict(hull, person), {one.key for one in found.checks if one.is_hard}
        odds = [found.odds_all_hard,
                *(one.odds for one in found.checks if one.key in hard and one.sd_si)]
        if min(abs(one - CLEAN_ODDS) for one in odds) > 0.02:
            assert told.status == found.status
            assert ("together" in told.cautions) == (found.check("together") is not None)
            assert set(told.cautions) & hard == {
                one.key for one in found.checks if one.status == "caution"} & hard
        cautioned += "together" in told.cautions
        assert ("together" in told.cautions) <= (not told.clean)
    assert 0 < cautioned < len(fitted)


def test_odds_of_many_are_those_of_the_checks_one_by_one(fitted):
    """Drawn alike; where nothing was drawn, no more than the draws say and yet clean."""
    drawn = 0
    for _, found, _ in fitted:
        facts = facts_of(found.assessed)
        value, window = read_rows(PLAIN, facts)
        if (codes_of(value, window) == FAIL).any():
            continue
        sure = found.sure
        plain = [one for one in found.checks if one.key in PLACE and not one.row.mishap]
        sd = sure.sd[:len(PLAIN), None]
        odds = float(odds_together_of_many(value[:, None], window[..., None], sd,
                                           many_of(type(sure)(sure.slopes[:len(PLAIN)],
                                                              sure.covariance)))[0])
        exact = odds_all_hard(plain, sure)
        if exact < CLEAN_ODDS:
            assert odds == pytest.approx(exact, abs=1e-9)
        drawn += odds < CLEAN_ODDS
        assert odds <= exact + 0.01
        assert (odds >= CLEAN_ODDS) == (exact >= CLEAN_ODDS)
    assert drawn > 0
