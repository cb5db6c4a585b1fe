"""Under way in wind: hold against slender-body closed forms, balance and skeg by hand."""

from dataclasses import replace

import numpy as np
import pytest
from scipy.optimize import brentq

from sizer.errors import BadInput
from sizer.hull.sections import Sections
from sizer.hydro.abeam import Side
from sizer.hydro.particulars import float_upright
from sizer.hydro.side_hold import CROSS_FLOW, hold
from sizer.hydro.wind import wind_balance, wind_balance_at
from sizer.hydro.wind_under_way import (
    AHEAD_PER_RADIAN,
    AIR_KGPM3,
    HULL_IN_WIND,
    LEAD_ERROR,
    SKEG_ERROR,
    SKEG_LIFT,
    TORSO_IN_WIND,
    UnderWay,
    skeg_place_m,
    under_way,
)
from sizer.paddler.body import predict
from sizer.paddler.measures import Measured
from sizer.rows import one_of, side_by_side

FRESH = 1000.0
BODY = predict(Measured(80.0, 1.78, 0.38, sitting_height_m=0.92, shoulder_width_m=0.50))
LENGTH, DRAFT, DECK = 4.5, 0.12, 0.30  # deck over the water
WINDS, SPEEDS = np.array([[5.0], [10.0]]), np.array([1.0, 1.75])


def keeled(draft_m):
    """A hull with a flat deck and this draft along it, its water at z = 0."""
    draft = np.asarray(draft_m, float)
    none, half = np.zeros_like(draft), np.full_like(draft, 0.25)
    return Sections(np.linspace(0.0, LENGTH, draft.size), np.stack([none, half, none], axis=1),
                    np.stack([-draft, none + DECK, none + DECK], axis=1), sheer=1)


def abeam(hull, seat_x_m=2.6, with_paddler=True):
    balance = wind_balance_at(hull, np.array([0.0, 0.0, 1.0]), 0.0, BODY, seat_x_m, -0.05)
    if with_paddler:
        return balance
    none = Side(0.0, 0.5 * LENGTH, 0.0)
    return replace(balance, torso=none, above=balance.hull_above)


def parabola(count=401):
    return keeled(DRAFT * (1.0 - np.linspace(-1.0, 1.0, count) ** 2))


@pytest.mark.parametrize(("draft", "lift_x", "area_share", "area_x"), [
    (np.full(3, DRAFT), 0.0, 1.0, 1.0 / 2.0),  # a flat plate is held at its leading edge
    (np.linspace(0.0, DRAFT, 5), 2.0 / 3.0, 1.0 / 2.0, 2.0 / 3.0),  # a delta at its middle
    (np.linspace(DRAFT, 0.0, 5), 0.0, 1.0 / 2.0, 1.0 / 3.0),
    (DRAFT * (1.0 - np.linspace(-1.0, 1.0, 401) ** 2), 0.5 * (1.0 - 8.0 / 15.0), 2.0 / 3.0, 0.5),
])
def test_hold_of_plain_profiles_is_slender_body_theory(draft, lift_x, area_share, area_x):
    """Lift pi/2 rho T^2 U v of a wing in a mirror; for a parabola the mean of (1 - s^2)^2, 8/15."""
    found = hold(abeam(keeled(draft)), FRESH)
    assert found.lift_kgpm == pytest.approx(0.5 * np.pi * FRESH * DRAFT**2)
    assert found.lift_x_m == pytest.approx(lift_x * LENGTH, abs=2e-5)
    assert found.cross_kgpm == pytest.approx(
        0.5 * FRESH * CROSS_FLOW * area_share * LENGTH * DRAFT, rel=1e-4)
    assert found.cross_x_m == pytest.approx(area_x * LENGTH)


def test_the_stated_error_covers_other_coefficients_and_a_fit_to_ships(
        boat, drawn_load, ship_water):
    """Y' and N' of Clarke, Gedling & Hine 1983, from memory: lift of 1 + 0.40 CB B/T times slender-
    body theory's, at (0.5 + 2.4 T/L) / (1 + 0.40 CB B/T) of L ahead of the waterline's middle."""
    afloat = float_upright(boat.sections, drawn_load, ship_water)
    balance = wind_balance(boat.sections, afloat, BODY, boat.seat_x_m, boat.seat_z_m)
    long, density = afloat.waterline_length_m, ship_water.density_kgpm3
    more = 1.0 + 0.40 * afloat.block_coefficient * afloat.waterline_beam_m / afloat.draft_m
    wet = balance.outline.x_m[balance.outline.low_m < 0.0]
    ships_x = 0.5 * (wet[0] + wet[-1]) - (0.5 * long + 2.4 * afloat.draft_m) / more
    found = hold(balance, density)
    assert 0.0 < ships_x - found.lift_x_m < 0.18 * long
    others = _leads_over_ranges(balance, found, more, ships_x)
    lead = under_way(balance, density, WINDS, SPEEDS).lead[..., None]
    assert np.mean(np.abs(others - lead) < LEAD_ERROR) > 0.95
    assert 0.85 < skeg_place_m(balance) / boat.length_m < 0.98


def _leads_over_ranges(balance, found, more, ships_x_m):
    """Leads at WINDS and SPEEDS with each coefficient drawn evenly over its published range."""
    share, cross, hull, torso, ahead = np.random.default_rng(7).uniform(
        [[0.0], [0.5], [0.6], [0.9], [0.10]], [[1.0], [1.2], [1.0], [1.3], [0.25]], (5, 2000))
    wind, speed = WINDS[..., None], SPEEDS[:, None]
    lift = found.lift_kgpm * (1.0 + share * (more - 1.0)) * speed
    lift_x = found.lift_x_m + share * (ships_x_m - found.lift_x_m)
    square = found.cross_kgpm * cross / CROSS_FLOW
    hull, torso = hull * balance.hull_above.area_m2, torso * balance.torso.area_m2
    force = 0.5 * AIR_KGPM3 * wind**2 * (hull + torso)
    hull_x = balance.hull_above.x_m - (
        ahead * balance.waterline_length_m * np.arctan(speed / wind))
    wind_x = (hull * hull_x + torso * balance.torso.x_m) / (hull + torso)
    drift = (np.sqrt(lift**2 + 4.0 * square * force) - lift) / (2.0 * square)
    held = lift * drift / force
    return (held * lift_x + (1.0 - held) * found.cross_x_m - wind_x) / balance.waterline_length_m


def test_forces_balance_and_the_winds_grows_with_its_square():
    balance = abeam(parabola())
    found, way = hold(balance, FRESH), under_way(balance, FRESH, WINDS, SPEEDS)
    shown = HULL_IN_WIND * balance.hull_above.area_m2 + TORSO_IN_WIND * balance.torso.area_m2
    assert way.side_force_N[0] == pytest.approx(0.5 * AIR_KGPM3 * 25.0 * shown)
    assert way.side_force_N[1] == pytest.approx(4.0 * way.side_force_N[0])
    drift = way.speed_mps * np.tan(np.radians(way.drift_deg))
    assert found.force_N(way.speed_mps, drift) == pytest.approx(way.side_force_N)
    lift = found.lift_kgpm * way.speed_mps * drift
    assert lift * (way.water_x_m - found.lift_x_m) == pytest.approx(
        (way.side_force_N - lift) * (found.cross_x_m - way.water_x_m))


def test_adrift_the_areas_balance_and_fast_in_a_breath_of_wind_lift_does():
    balance = abeam(parabola())
    found, long = hold(balance, FRESH), balance.waterline_length_m
    adrift, fast = (under_way(balance, FRESH, *case) for case in ((8.0, 0.0), (0.05, 4.0)))
    force = adrift.side_force_N
    assert adrift.drift_deg == pytest.approx(90.0)
    assert adrift.water_x_m == pytest.approx(balance.below.x_m)
    assert force == pytest.approx(found.force_N(0.0, np.sqrt(force / found.cross_kgpm)))
    assert fast.water_x_m == pytest.approx(found.lift_x_m, abs=2e-3 * long)
    assert under_way(balance, FRESH, 5.0, 1.75).turns == "windward"


def test_a_boat_alike_at_both_ends_is_balanced_adrift_and_turns_up_under_way():
    balance = abeam(parabola(), with_paddler=False)
    adrift = under_way(balance, FRESH, 5.0, 0.0)
    assert adrift.lead == pytest.approx(0.0, abs=1e-9)
    assert (adrift.turns, adrift.skeg_m2) == ("either", pytest.approx(0.0, abs=1e-9))
    leads = under_way(balance, FRESH, 5.0, np.array([0.5, 1.0, 1.75])).lead
    assert 0.0 > leads[0] > leads[1] > leads[2]
    # the wind felt ahead of abeam moves its centre forward: closed form at equal speeds
    even = under_way(balance, FRESH, 2.0, 2.0)
    assert even.wind_x_m == pytest.approx(
        LENGTH / 2.0 - AHEAD_PER_RADIAN * np.pi / 4.0 * balance.waterline_length_m)


def test_adrift_a_boat_turned_end_for_end_turns_the_other_way():
    draft = DRAFT * np.sin(np.pi * np.linspace(0.0, 1.0, 41) ** 2)
    hull, turned = keeled(draft), keeled(draft[::-1])
    one, other = (under_way(abeam(each, with_paddler=False), FRESH, 5.0, 0.0)
                  for each in (hull, turned))
    assert other.lead == pytest.approx(-one.lead)
    assert abs(one.lead) > 0.02
    assert (one.water_x_m + other.water_x_m) / LENGTH == pytest.approx(1.0)


@pytest.mark.parametrize("speed", [1.0, 1.75])
@pytest.mark.parametrize("wind", [5.0, 10.0])
def test_the_skeg_takes_every_moment_away(wind, speed):
    """Drift found again by bisection with the skeg's own force in, moments about the bow."""
    balance = abeam(parabola())
    found, way = hold(balance, FRESH), under_way(balance, FRESH, wind, speed)
    long = balance.waterline_length_m
    for area, off, strength in ((way.skeg_m2, 0.0, 1.0), (way.skeg_low_m2, -1.0, SKEG_ERROR),
                                (way.skeg_high_m2, 1.0, 1.0 / SKEG_ERROR)):
        wind_x = way.wind_x_m + off * LEAD_ERROR * long

        def parts(drift, area=area, strength=strength):
            fin = 0.5 * FRESH * strength * area * (SKEG_LIFT * speed * drift
                                                   + CROSS_FLOW * drift**2)
            return found.lift_kgpm * speed * drift, found.cross_kgpm * drift**2, fin

        drift = brentq(lambda v, parts=parts: sum(parts(v)) - way.side_force_N, 0.0, 5.0,
                       xtol=1e-14)
        lift, cross, fin = parts(drift)
        moment = (lift * found.lift_x_m + cross * found.cross_x_m + fin * way.skeg_x_m
                  - way.side_force_N * wind_x)
        if area > 0.0:
            assert moment == pytest.approx(0.0, abs=1e-9 * way.side_force_N * long)
        else:  # held far enough aft without one: it falls away already
            assert moment > 0.0
    assert 0.0 <= way.skeg_low_m2 <= way.skeg_m2 < way.skeg_high_m2


def test_says_which_way_it_turns_and_the_skeg_with_its_ends():
    """Figures typed in; each word beside the sign that it stands for."""
    plain = UnderWay(5.0, 1.75, 15.0, 7.0, 2.3, 1.9, -0.092, 4.5, 0.0113, 0.0026, 0.0251)
    assert plain.says == (
        "Paddled at 1.75 m/s (3.4 knots) across a wind of 5 m/s (10 knots), it weathercocks, up "
        "into the wind: the wind pushes 9 ± 7 % of the waterline behind where the water holds. A "
        "skeg of about 113 cm² (26 to 251; 18 sq in) near the stern would keep it straight.")
    assert "it may turn either way" in replace(plain, lead=0.05).says
    away = replace(plain, lead=0.11, skeg_m2=0.0, skeg_low_m2=0.0, skeg_high_m2=0.0).says
    assert "its bow falls away downwind: the wind pushes 11 ± 7 % of the waterline ahead" in away
    assert away.endswith("No skeg helps; weight farther forward would.")


def test_skeg_stands_where_half_the_draft_is_left():
    """DRAFT (1 - s^2) is half at s = sqrt(1/2)."""
    place = skeg_place_m(abeam(parabola()))
    assert place == pytest.approx(0.5 * LENGTH * (1.0 + np.sqrt(0.5)), abs=1e-4)
    assert skeg_place_m(abeam(keeled(np.full(3, DRAFT)))) == pytest.approx(LENGTH)


def test_a_boat_afloat_on_one_end_needs_no_skeg_or_one_beyond_any():
    bow, stern = (under_way(abeam(keeled(draft)), FRESH, 5.0, 1.0) for draft in (
        np.linspace(DRAFT, -0.29, 31), np.linspace(-0.29, DRAFT, 31)))
    assert stern.turns == "leeward"
    assert stern.skeg_high_m2 == 0.0
    assert bow.turns == "windward"
    assert 1.0 < bow.skeg_m2 < np.inf


def test_many_boats_in_many_winds_are_each_as_alone():
    hulls = parabola(41), keeled(np.linspace(0.0, DRAFT, 41))
    up, level = np.tile([0.0, 0.0, 1.0], (2, 1)), np.zeros(2)
    many = wind_balance_at(side_by_side(hulls), up, level, BODY, np.array([2.6, 2.4]), -0.05)
    way = under_way(many, FRESH, *np.broadcast_arrays(np.array([4.0, 9.0]), 1.5))
    for index, (hull, seat) in enumerate(zip(hulls, (2.6, 2.4), strict=True)):
        alone = under_way(abeam(hull, seat), FRESH, (4.0, 9.0)[index], 1.5)
        for name, value in vars(one_of(way, index)).items():
            assert value == pytest.approx(getattr(alone, name)), name


@pytest.mark.parametrize(("wind", "speed", "place"), [
    (0.0, 1.0, "wind_mps"), (np.nan, 1.0, "wind_mps"), (np.array([5.0, 36.0]), 1.0, "wind_mps"),
    (5.0, -0.1, "speed_mps"), (5.0, 6.3, "speed_mps"), (5.0, np.nan, "speed_mps")])
def test_odd_winds_and_speeds_are_refused(wind, speed, place):
    with pytest.raises(BadInput, match=place):
        under_way(abeam(parabola(41)), FRESH, wind, speed)
