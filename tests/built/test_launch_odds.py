"""Odds after a launch: by slopes of the fit here, by floating the loads as learnt there."""

from dataclasses import replace

import numpy as np
import pytest

from sizer.built.departures import expected
from sizer.built.launch_odds import checks_after, gm_odds, odds_after
from sizer.built.learnt import lesson, odds_above
from sizer.built.trial import Freeboards, Heeled, Trial
from sizer.design.library import read_base
from sizer.fit.assess import assess_boat
from sizer.fit.odds import odds_all_hard
from sizer.fit.person import drawn_person
from sizer.fit.solve import fit
from sizer.hull.lines import fair_lines


@pytest.fixture(scope="module")
def fitted():
    lines = fair_lines(read_base("small-cruiser"))
    return fit(lines, drawn_person(lines.design))


def heeled_as_if(fitted, more_gm_m):
    """A Trial whose heels are those of a GM so much more: tan heel = w d / (W GM)."""
    one, off_centre_m, kg, height_m = fitted.assessed, 0.25, 0.6, 0.30
    whole = one.loading.load.mass_kg + kg
    gm = expected(one)["gm_m"][0] + more_gm_m
    gm -= kg / whole * (height_m - one.loading.load.vcg_m)  # what the weight itself takes, nearly
    return Trial(None, None, None, (), tuple(
        Heeled(kg, side * off_centre_m, height_m, float(np.degrees(np.arctan(
            kg * side * off_centre_m / (whole * gm))))) for side in (1, -1, 1, -1, 1, -1)))


@pytest.mark.parametrize("more_gm_m", [-0.012, 0.0, 0.012])
def test_odds_of_gm_are_those_of_floating_the_loads_as_learnt(fitted, more_gm_m):
    found = lesson(fitted.assessed, heeled_as_if(fitted, more_gm_m))
    after = {one.key: one for one in checks_after(fitted, found)[0]}["gm"]
    gm = found.of("gm_m")
    assert after.value_si == pytest.approx(gm.after, abs=0.001)
    assert after.odds == pytest.approx(
        odds_above(after.window_si[0], gm.after, gm.after_plus_minus), abs=0.03)
    assert after.sd_si < 0.7 * fitted.check("gm").sd_si


def test_a_steadier_boat_than_reckoned_is_surer_and_a_tippier_one_less(fitted):
    worse, same, better = (odds_after(fitted, lesson(fitted.assessed, heeled_as_if(fitted, off)))
                           for off in (-0.015, 0.0, 0.015))
    assert worse < fitted.odds_all_hard < better
    found = lesson(fitted.assessed, heeled_as_if(fitted, -0.015))
    checks, sure = checks_after(fitted, found)
    gm = next(one for one in checks if one.key == "gm")
    assert odds_all_hard((gm,), sure) == pytest.approx(gm.odds, abs=0.012)  # drawn, and the normal
    assert worse < same < better + 1e-9


def test_a_heavier_load_weighed_at_the_launch_takes_the_freeboard_that_floating_it_does(fitted):
    one = fitted.assessed
    load_kg = one.loading.paddler_kg + one.loading.gear_kg + 4.0
    found = lesson(one, Trial(one.weight.mass_kg, load_kg, None, (), ()))
    after = {check.key: check for check in checks_after(fitted, found)[0]}
    body = one.person.body
    heavier = replace(one.person, body=replace(body, weight_kg=body.weight_kg + 4.0))
    again = assess_boat(one.boat, heavier, seat_held=True)
    took = again.upright.freeboard_m - one.upright.freeboard_m
    assert took < -0.002
    assert after["freeboard"].value_si - fitted.check("freeboard").value_si == pytest.approx(
        took, abs=0.0005)
    assert after["hips"].sd_si == pytest.approx(fitted.check("hips").sd_si)
    assert after["hips"].value_si == fitted.check("hips").value_si


@pytest.mark.parametrize("off_m", [-0.06, 0.06])
@pytest.mark.parametrize("confirmed", [(), ("afloat[1].side_m",)])
def test_no_impossible_freeboard_makes_a_boat_surer(fitted, off_m, confirmed):
    """Neither left out nor confirmed: the boat's weight alone is as sure as it gets."""
    own, read = fitted.assessed.weight.mass_kg, fitted.assessed.upright.freeboard_m + off_m
    plain = lesson(fitted.assessed, Trial(own, None, None, (), ()))
    found = lesson(fitted.assessed, Trial(own, None, None, (Freeboards(None, None, read),), (),
                                          confirmed))
    assert [name for name, _ in found.doubts] == ["afloat[1].side_m"]
    assert odds_after(fitted, found) <= odds_after(fitted, plain) + 1e-9
    assert gm_odds(fitted, found)[1] <= gm_odds(fitted, plain)[1] + 1e-9
    assert gm_odds(fitted, found)[0] == gm_odds(fitted, plain)[0]


def test_a_freeboard_that_fits_no_boat_leaves_no_odds(fitted):
    read = Freeboards(None, None, fitted.assessed.upright.freeboard_m + 0.254)
    found = lesson(fitted.assessed, Trial(None, None, None, (read,), ()))
    assert "odds after the launch are not told" in found.says[1]
    assert odds_after(fitted, found) is None
    assert gm_odds(fitted, found)[1] is None


def test_heels_left_out_still_tell_a_boat_that_is_not_steady(fitted):
    found = lesson(fitted.assessed, heeled_as_if(fitted, -0.055))
    assert found.left_out
    before, after = gm_odds(fitted, found)
    assert after < 0.05 < before
