"""The swamped boat with its ends full: who is where, and what is said."""

import re
from dataclasses import replace
from fractions import Fraction

import numpy as np
import pytest

from sizer.fit.assess import assess
from sizer.fit.mishaps import aboard_of
from sizer.fit.person import drawn_person
from sizer.hull.boat import SECTION_COUNT
from sizer.hull.scale import Scaling
from sizer.hydro.bags import smallest_bags
from sizer.hydro.ends import End, end_zones
from sizer.hydro.flooded import LEAVE, flooded, load_of
from sizer.hydro.swamped import LYING_OVER_DECK_M, filling_ends, lying_aft, swamped


@pytest.fixture(scope="module")
def assessed(lines):
    return assess(lines, Scaling(), drawn_person(lines.design), SECTION_COUNT)


@pytest.fixture(scope="module")
def found(assessed):
    return swamped(assessed.boat, assessed.weight, aboard_of(assessed), assessed.person.water)


def test_recommended_bags_are_all_that_fit(assessed, found):
    zones = end_zones(assessed.boat, assessed.loading.gear)
    for litres, zone in ((found.bow_l, zones.bow), (found.stern_l, zones.stern)):
        assert litres == int(litres)
        assert zone.bag_l - 1.0 < litres <= zone.bag_l
    assert f"{found.bow_l:.0f} litres in the bow and {found.stern_l:.0f}" in found.says[0]
    least = smallest_bags(assessed.boat, assessed.weight, aboard_of(assessed),
                          assessed.person.water)
    assert least.says.startswith("Fit none smaller than those that fill the ends. ")


def test_each_case_is_the_flooded_boat_with_those_people_and_bags(assessed, found):
    boat, weight, water = assessed.boat, assessed.weight, assessed.person.water
    ends = filling_ends(boat, assessed.loading.gear)
    bow, stern = ends
    left = (End(), stern) if bow.bag_l > stern.bag_l else (bow, End())
    for who, seated, lost in ((aboard_of(assessed), found.seated, found.larger_lost),
                              (aboard_of(assessed, False), found.out, found.larger_lost_out)):
        assert seated == flooded(boat, weight, who, *ends, water)
        assert lost == flooded(boat, weight, who, *left, water)


def test_who_lies_on_the_deck_lies_behind_the_opening_over_the_ridge(assessed):
    boat = assessed.boat
    load = lying_aft(boat, 80.0)
    ridge = np.interp(load.lcg_m, boat.sections.x_m, boat.sections.z_m.max(axis=1))
    assert boat.opening.back_x_m < load.lcg_m < boat.length_m
    assert load.vcg_m == pytest.approx(ridge + LYING_OVER_DECK_M)
    assert load.mass_kg == 80.0


def test_climbing_on_weighs_the_stern_down_and_takes_from_gm(found):
    """The whole body over the back deck, and nothing of it in the water that fills the boat."""
    assert found.climbing.trim_deg > found.out.trim_deg + 0.5
    assert found.climbing.gm_m < found.out.gm_m
    assert "lying on the back deck" in found.climbing.says


def test_a_boat_that_cannot_be_paddled_swamped_says_what_to_do(assessed, found):
    assert not found.can_be_paddled
    assert LEAVE in found.says[0]
    assert found.says[0].endswith(found.seated.says)
    aboard = aboard_of(assessed)
    drop = 0.40 * load_of(assessed.weight, aboard).mass_kg / assessed.weight.mass_kg
    low = replace(assessed.weight, vcg_m=assessed.weight.vcg_m - drop)
    steady = swamped(assessed.boat, low, aboard, assessed.person.water)
    assert steady.can_be_paddled
    assert LEAVE not in " ".join(steady.says[:2])


def test_steady_but_awash_is_to_be_left_too(assessed):
    """Low weight keeps it upright; small bags put rim or side deck under: nobody paddles that."""
    aboard, weight = aboard_of(assessed), assessed.weight
    low = replace(weight, vcg_m=weight.vcg_m
                  - 0.6 * load_of(weight, aboard).mass_kg / weight.mass_kg)
    said = flooded(assessed.boat, low, aboard, End(14.0), End(14.0), assessed.person.water)
    assert not said.can_be_paddled
    assert LEAVE in said.says
    assert flooded(assessed.boat, low, aboard, End(), End(), assessed.person.water).says.endswith(
        f"It cannot be paddled: {LEAVE}")


def test_litres_that_tip_it_are_told_and_never_rounded_up(found):
    tips = found.rising.tips_at_l
    assert 1.0 < tips < found.seated.water_inside_l
    assert f"About {int(tips)} litres loose" in found.says[-1]
    assert "until the pump sucks air" in found.says[-1]  # no litres are seen in a hull
    dry = re.search(r"dry, its GM is (\d+) mm \((.*) in\)\.", found.says[-1])
    assert int(dry[1]) == round(1000.0 * found.rising.gm_m[0])
    assert 25.4 * float(sum(map(Fraction, dry[2].split()))) == pytest.approx(
        1000.0 * found.rising.gm_m[0], abs=25.4 / 32.0)
    assert found.rising.gm_m[0] > 0.0 > found.rising.gm_m[-1]
