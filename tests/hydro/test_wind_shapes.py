"""Side areas, torso and lead against closed forms of a kayak-sized box, and its refusals."""

import numpy as np
import pytest

from sizer.errors import BadInput
from sizer.hydro.flotation import Load, float_at
from sizer.hydro.immersion import up_vectors
from sizer.hydro.particulars import float_upright
from sizer.hydro.water import Water, water_at
from sizer.hydro.wind import (
    HEAD_DEPTH_M,
    SHOULDER_SHARE,
    TORSO_DEPTH_SHARE,
    wind_after_seat_shift,
    wind_balance,
    wind_balance_at,
)
from sizer.paddler.body import predict
from sizer.paddler.measures import Measured
from sizer.rows import one_of, side_by_side

FRESH = Water("fresh", 4.0, 1000.0, 1.57e-6)
BODY = predict(Measured(80.0, 1.78, 0.38, sitting_height_m=0.92, shoulder_width_m=0.50))
LENGTH, BEAM, DEPTH, DRAFT = 4.0, 0.6, 0.40, 0.05
SEAT_X, SEAT_Z = 2.2, 0.02
MASS = 1000.0 * LENGTH * BEAM * DRAFT


def box_balance(box, lcg_m=LENGTH / 2.0, seat_x_m=SEAT_X, count=3):
    sections = box(LENGTH, BEAM, DEPTH, count)
    particulars = float_upright(sections, Load(MASS, lcg_m, 0.2), FRESH)
    return particulars, wind_balance(sections, particulars, BODY, seat_x_m, SEAT_Z)


def test_torso_is_what_shows_over_the_deck(box):
    _, balance = box_balance(box)
    shoulder = SEAT_Z + SHOULDER_SHARE * 0.92
    chest = TORSO_DEPTH_SHARE * 0.50 * (shoulder - DEPTH)
    head = HEAD_DEPTH_M * (SEAT_Z + 0.92 - shoulder)
    assert balance.torso.area_m2 == pytest.approx(chest + head)
    assert balance.torso.x_m == pytest.approx(SEAT_X - 0.5 * TORSO_DEPTH_SHARE * 0.50)
    height = (chest * 0.5 * (shoulder + DEPTH)
              + head * 0.5 * (shoulder + SEAT_Z + 0.92)) / (chest + head) - DRAFT
    assert balance.torso.height_m == pytest.approx(height)
    assert balance.above.area_m2 == pytest.approx(
        balance.torso.area_m2 + balance.hull_above.area_m2)


@pytest.mark.parametrize("count", [2, 3, 14])
@pytest.mark.parametrize("off", [-0.2, 0.3])
def test_trimmed_box_has_the_areas_of_its_trapezoids(box, count, off):
    """Depth of water along x is mean + slope (x - L/2): centres move by slope L^2 / (12 mean)."""
    particulars, balance = box_balance(box, LENGTH / 2.0 + off, count=count)
    slope = np.tan(np.radians(particulars.trim_deg))
    assert slope * off > 0.0
    assert 0.5 * abs(slope) * LENGTH < DRAFT  # both ends stay in the water: trapezoids
    freeboard = DEPTH - DRAFT
    for side, mean, sign in ((balance.below, DRAFT, 1.0), (balance.hull_above, freeboard, -1.0)):
        assert side.area_m2 == pytest.approx(LENGTH * mean)
        assert side.x_m == pytest.approx(
            LENGTH / 2.0 + sign * slope * LENGTH**2 / (12.0 * mean), rel=1e-6)


def test_box_with_its_end_out_of_the_water_has_a_triangle_below(box):
    """Lcg off by more than L/6; a box shows the displaced volume over its beam at any trim."""
    particulars, balance = box_balance(box, LENGTH / 2.0 + 0.9, count=801)
    wet = 3.0 * (LENGTH - balance.below.x_m)
    assert wet < LENGTH
    assert balance.below.area_m2 == pytest.approx(
        0.5 * wet**2 * np.tan(np.radians(particulars.trim_deg)))
    assert balance.below.area_m2 == pytest.approx(LENGTH * DRAFT, rel=1e-4)
    assert balance.below.area_m2 + balance.hull_above.area_m2 == pytest.approx(LENGTH * DEPTH)


@pytest.mark.parametrize("heel", [20.0, -20.0])
def test_heeled_box_shows_its_slanted_width(box, heel):
    """From abeam a box heeled by f is B sin f + D cos f tall; loaded to half its volume, half of
    that is under water."""
    sections, load = box(LENGTH, BEAM, DEPTH), Load(0.5 * MASS / DRAFT * DEPTH, 2.0, 0.2)
    found = float_at(sections, load, FRESH, heel)
    balance = wind_balance_at(sections, up_vectors(found.heel_deg, found.trim_deg),
                              found.level_m, BODY, SEAT_X, SEAT_Z)
    tall = BEAM * np.sin(np.radians(20.0)) + DEPTH * np.cos(np.radians(20.0))
    for side in (balance.below, balance.hull_above):
        assert side.area_m2 == pytest.approx([LENGTH * tall / 2.0])
        assert side.x_m == pytest.approx([2.0])
    assert balance.below.height_m == pytest.approx([-tall / 4.0])
    assert balance.waterline_length_m == pytest.approx([LENGTH])


def test_many_boats_and_heels_are_each_as_alone(box, walls):
    """A box with its stern out of the water, and a lozenge; then one boat at three heels."""
    plan = np.interp(np.linspace(0.0, LENGTH, 9), [0.0, 2.0, LENGTH], [0.0, 0.3, 0.0])
    boats = box(LENGTH, BEAM, DEPTH, 9), walls(np.linspace(0.0, LENGTH, 9), plan, DEPTH)
    found = [float_at(one, load, FRESH, 5.0) for one, load in zip(
        boats, (Load(MASS, 1.2, 0.2), Load(0.4 * MASS, 2.1, 0.2)), strict=True)]
    up = np.concatenate([up_vectors(one.heel_deg, one.trim_deg) for one in found])
    level = np.concatenate([one.level_m for one in found])
    many = wind_balance_at(side_by_side(boats), up, level, BODY, np.array([1.9, 2.2]), SEAT_Z)
    heels = wind_balance_at(boats[0], np.stack([up[0], up[1], up[0]]), level[[0, 1, 0]], BODY,
                            1.9, SEAT_Z)
    for index, (boat, seat) in enumerate(zip(boats, (1.9, 2.2), strict=True)):
        alone = wind_balance_at(boat, up[index], level[index], BODY, seat, SEAT_Z)
        assert vars(one_of(many, index).above) == pytest.approx(vars(alone.above))
        assert vars(one_of(many, index).below) == pytest.approx(vars(alone.below))
        assert many.lead[index] == pytest.approx(alone.lead)
        assert many.waterline_length_m[index] == pytest.approx(alone.waterline_length_m)
        assert index or heels.lead[[0, 2]] == pytest.approx(alone.lead)


def test_lead_is_positive_where_the_wind_pushes_ahead_of_the_water(box):
    _, forward = box_balance(box, seat_x_m=0.8)
    _, aft = box_balance(box, seat_x_m=3.6)
    assert forward.lead == pytest.approx(
        (2.0 - (forward.torso.area_m2 * forward.torso.x_m + 1.40 * 2.0)
         / (forward.torso.area_m2 + 1.40)) / LENGTH)
    assert forward.lead > 0.0 > aft.lead
    assert "bow falls away downwind" in forward.meaning
    assert "bow turns up into the wind" in aft.meaning
    _, middle = box_balance(box, seat_x_m=2.0 + 0.5 * TORSO_DEPTH_SHARE * 0.50)
    assert middle.lead == pytest.approx(0.0, abs=1e-12)
    assert "beam on" in middle.meaning


def test_skeg_of_no_area_changes_nothing(box):
    _, balance = box_balance(box)
    assert balance.with_skeg(0.0, 3.5, 0.12).lead == pytest.approx(balance.lead)


def test_seat_shift_floats_the_boat_again(box):
    sections = box(LENGTH, BEAM, DEPTH)
    paddler_kg, shift = 90.0, 0.05
    particulars, balance = wind_after_seat_shift(
        sections, Load(MASS, 2.0, 0.2), paddler_kg, FRESH, BODY, SEAT_X, SEAT_Z, shift)
    again, wanted = box_balance(box, 2.0 + paddler_kg * shift / MASS, SEAT_X + shift)
    assert particulars.trim_deg == pytest.approx(again.trim_deg)
    assert balance.lead == pytest.approx(wanted.lead)


def test_sitting_aft_lowers_the_urge_to_turn_up_into_the_wind(boat, drawn_load):
    """The stern sinks, and that outweighs the torso that moves aft with the seat."""
    leads = [wind_after_seat_shift(boat.sections, drawn_load, 85.0, water_at("salt", 10.0), BODY,
                                   boat.seat_x_m, boat.seat_z_m, shift)[1].lead
             for shift in (-0.05, 0.0, 0.05)]
    assert leads[0] < leads[1] < leads[2]


def test_each_base_shows_the_wind_more_than_the_water(boat, drawn_load):
    particulars = float_upright(boat.sections, drawn_load, water_at("salt", 10.0))
    balance = wind_balance(boat.sections, particulars, BODY, boat.seat_x_m, boat.seat_z_m)
    assert 1.5 < balance.above.area_m2 / balance.below.area_m2 < 4.0  # our judgement
    assert abs(balance.lead) < 0.10
    assert balance.waterline_length_m == pytest.approx(particulars.waterline_length_m, abs=1e-3)
    # the silhouette's deepest point is the draft, and it spans the waterline
    assert balance.below.area_m2 < particulars.draft_m * particulars.waterline_length_m


@pytest.mark.parametrize(("skeg", "place"), [
    ((-0.01, 3.5, 0.1), "skeg.area_m2"), ((np.nan, 3.5, 0.1), "skeg.area_m2"),
    ((20.0, 3.5, 0.1), "skeg.area_m2"), ((0.02, 3500.0, 0.1), "skeg.x_m"),
    ((0.02, 3.5, -0.1), "skeg.depth_m")])
def test_odd_skegs_are_refused(box, skeg, place):
    with pytest.raises(BadInput, match=place):
        box_balance(box)[1].with_skeg(*skeg)


@pytest.mark.parametrize("shift", [np.nan, 20.0, -2.1])
def test_odd_seat_shifts_are_refused(box, shift):
    with pytest.raises(BadInput, match="seat_shift_m"):
        wind_after_seat_shift(box(LENGTH, BEAM, DEPTH), Load(MASS, 2.0, 0.2), 90.0, FRESH, BODY,
                              SEAT_X, SEAT_Z, shift)
