"""Skin pressed in: the strip's closed form, boxes by hand, a strip hung by forces."""

from types import SimpleNamespace

import numpy as np
import pytest

from sizer.hydro.flotation import Load
from sizer.hydro.particulars import float_upright
from sizer.hydro.skin_pressed import (
    SLACK_NPM,
    TIGHT_NPM,
    area_lost_m2,
    mean_pressure_pa,
    pressed_in_m,
    skin_pressed,
    slack_and_tight,
)

LENGTH, BEAM, DEPTH, DRAFT = 4.0, 0.5, 0.25, 0.12
GRAVITY = 9.80665


def test_strip_is_p_l2_over_8t_deep_and_loses_p_l3_over_12t():
    """1000 Pa on 0.2 m at 500 N/m, by hand: 10 mm and 1333 mm2."""
    assert pressed_in_m(1000.0, 0.2, 500.0) == pytest.approx(0.010)
    assert area_lost_m2(1000.0, 0.2, 500.0) == pytest.approx(1333.33e-6, rel=1e-5)


def test_strip_hung_by_forces_takes_that_curve():
    """A string of 200 straight pieces with p's force on each joint: T y'' = -p, solved as a
    system of equations."""
    count, width, pressure, tension = 200, 0.2, 1000.0, 500.0
    step = width / count
    stiff = tension / step * (2.0 * np.eye(count - 1) - np.eye(count - 1, k=1)
                              - np.eye(count - 1, k=-1))
    hung = np.linalg.solve(stiff, np.full(count - 1, pressure * step))
    assert pressed_in_m(pressure, width, tension) == pytest.approx(hung.max(), rel=1e-4)
    assert area_lost_m2(pressure, width, tension) == pytest.approx(hung.sum() * step, rel=1e-4)


@pytest.mark.parametrize(("low", "high", "depth_by_hand"), [
    (0.0, 0.0, 0.10),  # flat, 0.10 m down
    (0.0, 0.06, 0.07),  # 0.10 to 0.04 m down
    (0.0, 0.20, 0.5 * 0.10 * 0.5),  # half of it wet
    (0.12, 0.20, 0.0), (0.06, 0.0, 0.07)])
def test_mean_pressure_by_hand(low, high, depth_by_hand):
    assert mean_pressure_pa(low, high, 0.10, 1000.0) == pytest.approx(
        1000.0 * GRAVITY * depth_by_hand)


def test_box_by_hand(box, ship_water):
    """Floor strips half a beam wide at the draft's pressure; wall strips as wide as the hull is
    deep, wet to the draft: p L^3 / 12 T of each, both sides, along the box."""
    hull = box(LENGTH, BEAM, DEPTH, 41)
    load = Load(LENGTH * BEAM * DRAFT * ship_water.density_kgpm3, LENGTH / 2.0, 0.1)
    afloat = float_upright(hull, load, ship_water)
    alive = np.ones((41, 4), bool)
    found = skin_pressed(hull, alive, afloat, ship_water, 500.0)
    weight = ship_water.density_kgpm3 * GRAVITY
    floor, wall = weight * DRAFT, weight * DRAFT**2 / (2.0 * DEPTH)
    lost = 2.0 * LENGTH * (floor * (BEAM / 2.0)**3 + wall * DEPTH**3) / (12.0 * 500.0)
    assert found.lost_l == pytest.approx(1000.0 * lost, rel=1e-6)
    assert found.deeper_m == pytest.approx(lost / (LENGTH * BEAM), rel=1e-6)
    assert found.deepest_m == pytest.approx(floor * (BEAM / 2.0)**2 / (8.0 * 500.0), rel=1e-6)


def test_where_a_stick_ends_the_strip_is_as_wide_as_both(box, ship_water):
    """Without the stick at the bilge one strip runs straight from keel to gunwale."""
    hull = box(LENGTH, BEAM, DEPTH, 41)
    load = Load(LENGTH * BEAM * DRAFT * ship_water.density_kgpm3, LENGTH / 2.0, 0.1)
    afloat = float_upright(hull, load, ship_water)
    alive = np.ones((41, 4), bool)
    alive[:, 1] = False
    found = skin_pressed(hull, alive, afloat, ship_water, 500.0)
    width = np.hypot(BEAM / 2.0, DEPTH)
    mean = ship_water.density_kgpm3 * GRAVITY * DRAFT**2 / (2.0 * DEPTH)
    assert found.lost_l == pytest.approx(
        1000.0 * 2.0 * LENGTH * mean * width**3 / (12.0 * 500.0), rel=1e-6)


def test_slack_loses_by_the_ratio_of_tensions_more(boat, drawn_load, ship_water):
    afloat = float_upright(boat.sections, drawn_load, ship_water)
    slack, tight = slack_and_tight(boat, afloat, ship_water)
    assert slack.lost_l / tight.lost_l == pytest.approx(TIGHT_NPM / SLACK_NPM)
    assert slack.lost_l < 0.15 * 1000.0 * afloat.volume_m3  # small against the boat
    assert 0.0 < slack.deepest_x_m < boat.length_m
    assert slack.deeper_m == pytest.approx(
        slack.lost_l / 1000.0 / afloat.waterplane_area_m2)


def test_a_dry_hull_loses_nothing(box):
    hull = box(LENGTH, BEAM, DEPTH, 5)
    high = SimpleNamespace(sinkage_m=-0.1, trim_deg=0.0, waterplane_area_m2=1.0)
    water = SimpleNamespace(density_kgpm3=1000.0)
    assert skin_pressed(hull, np.ones((5, 4), bool), high, water, 500.0).lost_l == 0.0
