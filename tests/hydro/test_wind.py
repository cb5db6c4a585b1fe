"""Side areas against closed forms, and which way weight and skeg move the balance."""

from math import radians, tan

import pytest

from sizer.errors import BadInput
from sizer.hydro.flotation import Load
from sizer.hydro.particulars import float_upright
from sizer.hydro.wind import wind_after_seat_shift, wind_balance
from sizer.paddler.body import predict
from sizer.paddler.measures import Measured

BODY = predict(Measured(84.0, 1.76, 0.385))
SEAT = (10.0, 2.0)  # x and height in the box


@pytest.fixture
def floating(box, ship_water):
    """A box 20 x 4 x 3 m floating 1 m deep, level."""
    hull = box(20.0, 4.0, 3.0)
    load = Load(20.0 * 4.0 * 1.0 * ship_water.density_kgpm3, 10.0, 1.0)
    return hull, float_upright(hull, load, ship_water)


def test_box_has_its_rectangles(floating):
    balance = wind_balance(*floating, BODY, *SEAT)
    assert (balance.hull_above.area_m2, balance.below.area_m2) == pytest.approx((40.0, 20.0))
    assert (balance.hull_above.x_m, balance.below.x_m) == pytest.approx((10.0, 10.0))
    assert (balance.hull_above.height_m, balance.below.height_m) == pytest.approx((1.0, -0.5))
    assert balance.above.area_m2 == pytest.approx(40.0 + balance.torso.area_m2)


def test_trimmed_box_has_its_trapezoids(box, ship_water):
    """Depth d(x) = m + s (x - 10) has its centre at 10 + s 20^2 / (12 m)."""
    hull = box(20.0, 4.0, 3.0)
    load = Load(80.0 * ship_water.density_kgpm3, 10.5, 1.0)
    particulars = float_upright(hull, load, ship_water)
    balance = wind_balance(hull, particulars, BODY, *SEAT)
    slope = 12.0 * (balance.below.x_m - 10.0) / 20.0**2
    assert slope == pytest.approx(
        tan(radians(particulars.trim_deg)) / particulars.sinkage_m, rel=1e-6)
    assert balance.lead > 0.0
    assert "bow falls away" in balance.meaning


def test_a_skeg_moves_the_waters_centre_to_itself(floating):
    plain = wind_balance(*floating, BODY, *SEAT)
    skeg = plain.with_skeg(1.0, 18.0, 1.2)
    assert skeg.below.x_m == pytest.approx((20.0 * 10.0 + 18.0) / 21.0)
    assert skeg.lead > plain.lead
    with pytest.raises(BadInput, match=r"skeg\.area_m2"):
        plain.with_skeg(-1.0, 18.0, 1.2)


def test_seat_aft_sinks_the_stern_and_holds_it(floating, ship_water):
    hull, particulars = floating
    load = Load(particulars.displacement_kg, 10.0, 1.0)
    after, balance = wind_after_seat_shift(hull, load, 5000.0, ship_water, BODY, *SEAT, 2.0)
    assert after.trim_deg > particulars.trim_deg
    assert balance.below.x_m > 10.0
    with pytest.raises(BadInput, match="seat_shift_m"):
        wind_after_seat_shift(hull, load, 5000.0, ship_water, BODY, *SEAT, 11.0)


def test_every_base_carries_its_paddler_over_the_deck(boat, drawn_load, ship_water):
    particulars = float_upright(boat.sections, drawn_load, ship_water)
    balance = wind_balance(boat.sections, particulars, BODY, boat.seat_x_m, boat.seat_z_m)
    assert 0.10 < balance.torso.area_m2 < 0.35
    assert balance.torso.height_m > balance.hull_above.height_m
    assert abs(balance.lead) < 0.10
