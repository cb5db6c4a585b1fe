"""Loads that flotation refuses, in words."""

import math

import pytest

from sizer.errors import BadInput, WillNotFloat
from sizer.hydro.flotation import Load, enclosed_volume_m3, float_at
from sizer.hydro.particulars import float_upright


@pytest.mark.parametrize("mass_kg", [0.0, -5.0, math.nan, math.inf, -math.inf])
def test_refuses_a_mass_that_is_none(boat, ship_water, mass_kg):
    with pytest.raises(BadInput, match="more than 0 kg") as caught:
        float_at(boat.sections, Load(mass_kg, 2.0, 0.2), ship_water)
    assert [fault.place for fault in caught.value.faults] == ["load"]
    assert caught.value.faults[0].value == f"{mass_kg:g} kg"


CENTRES = {"lcg_m": "centre of the load, aft of the foremost point",
           "vcg_m": "centre of the load, above the baseline",
           "tcg_m": "centre of the load, to starboard"}


@pytest.mark.parametrize("field", CENTRES)
@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf, 30.0, -30.0])
def test_refuses_a_centre_far_from_the_hull(boat, ship_water, field, value):
    given = {"mass_kg": 100.0, "lcg_m": 2.0, "vcg_m": 0.2, "tcg_m": 0.0, field: value}
    with pytest.raises(BadInput) as caught:
        float_at(boat.sections, Load(**given), ship_water)
    assert [fault.place for fault in caught.value.faults] == [CENTRES[field]]


def test_reports_every_odd_number_at_once(boat, ship_water):
    with pytest.raises(BadInput) as caught:
        float_at(boat.sections, Load(-1.0, 99.0, math.nan), ship_water)
    places = [fault.place for fault in caught.value.faults]
    assert places == ["load", CENTRES["lcg_m"], CENTRES["vcg_m"]]


def test_lcg_may_be_anywhere_from_bow_to_stern(box, ship_water):
    punt = box(4.0, 0.6, 0.4)
    for lcg in (-0.001, 4.001):
        with pytest.raises(BadInput, match="0 to 4 m"):
            float_at(punt, Load(200.0, lcg, 0.1), ship_water)


def test_more_than_the_closed_hull_displaces_will_not_float(boat, ship_water):
    carried = enclosed_volume_m3(boat.sections) * ship_water.density_kgpm3
    with pytest.raises(WillNotFloat, match="more than the closed hull displaces"):
        float_at(boat.sections, Load(carried + 1.0, 2.3, 0.2), ship_water)


def test_a_load_so_far_aft_that_the_stern_dives_will_not_float(boat, ship_water):
    """Three quarters of what the closed hull carries, at three quarters of its length."""
    carried = enclosed_volume_m3(boat.sections) * ship_water.density_kgpm3
    with pytest.raises(WillNotFloat, match="goes down by the stern"):
        float_at(boat.sections, Load(0.75 * carried, 0.75 * boat.length_m, 0.5), ship_water)


def test_rim_under_water_will_not_float(boat, drawn_load, ship_water):
    """Between the load that wets the rim and the load that sinks the closed hull."""
    carried = enclosed_volume_m3(boat.sections) * ship_water.density_kgpm3
    load = Load(0.985 * carried, drawn_load.lcg_m, 0.1)
    assert float_at(boat.sections, load, ship_water).volume_m3[0] > 0.0
    with pytest.raises(WillNotFloat, match=r"rim .* under water"):
        float_upright(boat.sections, load, ship_water)
