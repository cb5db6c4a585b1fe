"""A request with the shop's own bias: heavier boats, paddlers who sit elsewhere, and said so."""

import numpy as np
import pytest

from sizer.built.departures import expected
from sizer.errors import BadInput
from sizer.fit.assess import assess
from sizer.fit.odds import strayed, sure_of
from sizer.fit.person import person_of
from sizer.fit.request import read_request
from sizer.fit.sensitivity import sensitivity
from sizer.fit.uses import USES
from sizer.hull.scale import Scaling
from sizer.paddler.spread import INPUTS

REQUEST = {"base": "day-boat", "use": next(iter(USES)),
           "paddler": {"weight_kg": 82, "stature_mm": 1780, "hip_width_mm": 385}}
BIAS = {"boat_share": 0.10, "seat_up_mm": 12.0, "seat_ahead_mm": -10.0, "boats": 5}


def test_one_boat_weighs_more_and_its_paddler_sits_where_the_shop_found(base_lines):
    lines = base_lines["day-boat"]
    plain, biased = (assess(lines, Scaling(), person_of(read_request(one)), 41, seat_held=True)
                     for one in (REQUEST, REQUEST | {"shop_bias": BIAS}))
    own = [one.weight for one in (plain, biased)]
    assert own[1].mass_kg == pytest.approx(1.1 * own[0].mass_kg, rel=1e-12)
    assert (own[1].lcg_m, own[1].vcg_m) == pytest.approx((own[0].lcg_m, own[0].vcg_m), rel=1e-12)
    seats = [one.loading.paddler for one in (plain, biased)]
    assert seats[1].vcg_m - seats[0].vcg_m == pytest.approx(0.012, abs=1e-12)
    assert seats[1].lcg_m - seats[0].lcg_m == pytest.approx(0.010, abs=1e-12)  # x runs aft
    assert biased.upright.gm_m < plain.upright.gm_m
    unmoved, _ = strayed(biased, np.zeros((2, len(INPUTS))))  # the odds' boats are this shop's too
    assert unmoved.weight.mass_kg == pytest.approx(own[1].mass_kg, rel=2e-3)  # fewer sections
    told = sensitivity(lines, Scaling(), biased.person)
    assert told.now.gm_m == pytest.approx(biased.upright.gm_m, abs=0.002)


def test_a_shop_whose_boats_stray_less_is_told_surer(base_lines):
    told = {"seat_up_spread_mm": 6.0, "boat_spread": 0.02}
    usual, surer = (person_of(read_request(REQUEST | {"shop_bias": one}))
                    for one in (BIAS, BIAS | told))
    boats = [assess(base_lines["day-boat"], Scaling(), one, 41, seat_held=True)
             for one in (usual, surer)]
    gm = [sure_of(one).spread["gm"] for one in boats]
    paddler, whole = boats[0].loading.paddler.mass_kg, boats[0].loading.load.mass_kg
    by_height = paddler / whole * np.sqrt(0.016**2 - 0.006**2)  # GM falls as the weight rises
    assert np.sqrt(gm[0] ** 2 - gm[1] ** 2) == pytest.approx(by_height, rel=0.1)
    assert np.array_equal(*(one.upright.gm_m for one in boats))
    # but no weight goes aboard at a launch because other boats strayed less
    assert expected(boats[0])["gm_m"] == expected(boats[1])["gm_m"]
    words = read_request(REQUEST | {"shop_bias": BIAS | told}).shop_bias.words
    assert "± 6 mm (1/4 in) of height" in words


def test_the_bias_says_itself_and_odd_ones_are_refused():
    assert "5 launches" in read_request(REQUEST | {"shop_bias": BIAS}).shop_bias.words
    assert read_request(REQUEST).shop_bias.words == ""
    with pytest.raises(BadInput) as told:
        read_request(REQUEST | {"shop_bias": {"boat_share": 2, "seat_up": 3}})
    assert {one.place for one in told.value.faults} == {"shop_bias.boat_share", "shop_bias.seat_up"}
