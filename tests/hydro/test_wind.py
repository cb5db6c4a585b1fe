"""Side areas against closed forms, and which way weight and skeg move the balance."""

from math import radians, tan

import pytest

from sizer.hydro.flotation import Load
from sizer.hydro.particulars import float_upright
from sizer.hydro.water import water_at
from sizer.hydro.wind import Side, paddler_sides, wind_balance
from sizer.paddler.body import predict
from sizer.paddler.measures import Measured


@pytest.fixture
def floating(box, ship_water):
    """A box 20 x 4 x 3 m floating 1 m deep, level."""
    hull = box(20.0, 4.0, 3.0)
    load = Load(20.0 * 4.0 * 1.0 * ship_water.density_kgpm3, 10.0, 1.0)
    return hull, float_upright(hull, load, ship_water)


def test_box_has_its_rectangles(floating):
    balance = wind_balance(*floating)
    assert (balance.above.area_m2, balance.below.area_m2) == pytest.approx((40.0, 20.0))
    assert (balance.above.x_m, balance.below.x_m) == pytest.approx((10.0, 10.0))
    assert (balance.above.height_m, balance.below.height_m) == pytest.approx((1.0, -0.5))
    assert balance.lead_share == pytest.approx(0.0, abs=1e-9)
    assert "across the wind" in balance.says


def test_trimmed_box_has_its_trapezoids(box, ship_water):
    """Depth d(x) = 1 + s (x - 10): centre 10 + s 20^2 / 12 aft of the bow, for slope s."""
    hull = box(20.0, 4.0, 3.0, 401)
    mass = 80.0 * ship_water.density_kgpm3
    particulars = float_upright(hull, Load(mass, 10.5, 1.0), ship_water)
    balance = wind_balance(hull, particulars)
    ends = (particulars.sinkage_m - balance.below.area_m2 / 20.0)
    assert ends == pytest.approx(0.0, abs=1e-9)
    slope = 12.0 * (balance.below.x_m - 10.0) * 1.0 / 20.0**2
    assert slope == pytest.approx(tan(radians(particulars.trim_deg)) / particulars.sinkage_m,
                                  rel=1e-4)
    assert balance.lead_share > 0.0
    assert "bow falls off" in balance.says


def test_a_skeg_moves_the_waters_centre_aft_and_a_mast_aft_the_winds(floating):
    hull, particulars = floating
    plain = wind_balance(hull, particulars)
    with_skeg = wind_balance(hull, particulars, skeg=Side(1.0, 18.0, -1.2))
    assert with_skeg.below.x_m == pytest.approx((20.0 * 10.0 + 18.0) / 21.0)
    assert with_skeg.lead_share > plain.lead_share
    aft = wind_balance(hull, particulars, [Side(2.0, 19.0, 3.0)])
    assert aft.lead_share < 0.0
    assert "into the wind" in aft.says


def test_every_base_carries_its_paddler_over_the_deck(lines, boat, drawn_load):
    water = water_at("salt", 10.0)
    particulars = float_upright(boat.sections, drawn_load, water)
    body = predict(Measured(84.0, 1.76, 0.385))
    trunk, head = paddler_sides(body, boat.seat_x_m, boat.seat_z_m, boat.opening.rim_z_m[1],
                                particulars.sinkage_m)
    assert 0.05 < trunk.area_m2 < 0.20
    assert head.height_m > trunk.height_m > 0.2
    plain = wind_balance(boat.sections, particulars)
    both = wind_balance(boat.sections, particulars, (trunk, head))
    assert both.above.area_m2 == pytest.approx(
        plain.above.area_m2 + trunk.area_m2 + head.area_m2)
    assert abs(both.lead_share) < 0.10
