"""The table of small changes on every base: signs a paddler would expect, boats floated by hand."""

from dataclasses import replace

import numpy as np
import pytest

from sizer.fit.loading import loading
from sizer.fit.person import drawn_person
from sizer.fit.sensitivity import sensitivity
from sizer.hull.boat import scaled_boat
from sizer.hull.scale import Scaling
from sizer.hull.weight import own_weight
from sizer.hydro.drag import drag_curve, drag_sections, wetted
from sizer.hydro.particulars import float_upright

SHIFTED = Scaling(length=1.01, beam=1.02, depth=0.99, seat_shift_m=0.015)
SPEEDS_MPS = np.array([3.0, 4.0]) * 1852.0 / 3600.0


@pytest.fixture(scope="module")
def person(lines):
    return drawn_person(lines.design)


@pytest.fixture(scope="module")
def table(lines, person):
    return sensitivity(lines, SHIFTED, person)


@pytest.fixture(scope="module")
def change(table):
    return {row.name: row.change for row in table.changes}


def by_hand(lines, person, scaling=SHIFTED, seat_aft_m=0.0, seat_up_m=0.0):
    """Freeboard, trim, GM and drags of one boat, floated with the seat where it is put."""
    boat = scaled_boat(lines, scaling)
    weight = own_weight(boat)
    seat = replace(boat.seat, top_m=boat.seat.top_m + seat_up_m)
    boat = replace(boat, seat_x_m=boat.seat_x_m + seat_aft_m, seat=seat)
    load = loading(boat, weight, person.body, person.centre, person.use,
                   person.gear_kg).load
    at_rest = float_upright(boat.sections, load, person.water)
    drag = drag_curve(wetted(drag_sections(boat), at_rest, person.water), SPEEDS_MPS).total_N
    return np.array([at_rest.freeboard_m, at_rest.trim_deg, at_rest.gm_m, *drag])


def heavier(person, kilograms):
    return replace(person, body=replace(person.body,
                                        weight_kg=person.body.weight_kg + kilograms))


def figures(record):
    return np.array(list(vars(record).values()))


def test_now_is_the_boat_as_it_is(table, lines, person):
    assert figures(table.now) == pytest.approx(by_hand(lines, person), rel=1e-6, abs=1e-7)


def test_every_change_is_named_with_its_size(change):
    assert list(change) == ["5 kg more paddler", "10 kg more gear", "seat 20 mm further aft",
                            "seat 20 mm higher", "10 mm more beam"]


def test_more_paddler_sinks_the_boat_and_drags_more(change):
    row = change["5 kg more paddler"]
    assert row.freeboard_m < 0.0
    assert row.drag_3kn_N > 0.0
    assert row.drag_4kn_N > row.drag_3kn_N


def test_more_gear_sinks_the_boat_and_drags_more(change):
    row = change["10 kg more gear"]
    assert row.freeboard_m < change["5 kg more paddler"].freeboard_m
    assert row.trim_deg > 0.0  # it lies behind the seat, or more of it in the after end
    assert row.drag_3kn_N > 0.0


def test_seat_aft_sinks_the_stern(change):
    assert change["seat 20 mm further aft"].trim_deg > 0.0


def test_seat_higher_costs_steadiness_and_little_else(change, lines, person):
    row = change["seat 20 mm higher"]
    boat = scaled_boat(lines, SHIFTED)
    load = loading(boat, own_weight(boat), person.body, person.centre, person.use,
                   person.gear_kg)
    # the paddler's share of 20 mm, at a trim that stays within a hair
    assert row.gm_m == pytest.approx(-0.020 * load.paddler_kg / load.load.mass_kg, rel=0.01)
    assert row.freeboard_m == pytest.approx(0.0, abs=1e-4)


def test_more_beam_is_steadier_and_floats_higher(change):
    row = change["10 mm more beam"]
    assert row.gm_m > 0.0
    assert row.freeboard_m > 0.0


def test_changes_agree_with_boats_floated_by_hand(change, lines, person):
    beam = scaled_boat(lines, SHIFTED).beam_m
    least_kg = max(person.gear_kg - 5.0, 0.0)
    pairs = {
        "5 kg more paddler": [by_hand(lines, heavier(person, kg)) for kg in (2.5, -2.5)],
        "10 kg more gear": [by_hand(lines, replace(person, gear_kg=least_kg + kg))
                            for kg in (10.0, 0.0)],
        "seat 20 mm further aft": [by_hand(lines, person, seat_aft_m=m) for m in (0.01, -0.01)],
        "seat 20 mm higher": [by_hand(lines, person, seat_up_m=m) for m in (0.01, -0.01)],
        "10 mm more beam": [
            by_hand(lines, person, replace(SHIFTED, beam=SHIFTED.beam * (1.0 + m / beam)))
            for m in (0.005, -0.005)],
    }
    for name, (more, less) in pairs.items():
        assert figures(change[name]) == pytest.approx(more - less, rel=1e-4, abs=1e-6), name


def test_adding_the_whole_change_lands_near_what_the_table_says(table, change, lines, person):
    """One-sided, so good to the curve's bend over the step only: a fifth, or 2 mm of GM, where a
    chine comes to the water's surface."""
    moved = by_hand(lines, heavier(person, 5.0)) - figures(table.now)
    row = figures(change["5 kg more paddler"])
    assert moved[[0, 2, 3, 4]] == pytest.approx(
        row[[0, 2, 3, 4]], rel=0.2, abs=0.002)
