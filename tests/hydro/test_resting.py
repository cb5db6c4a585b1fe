"""The search over all trims, on boxes that have closed forms, alone and behind Newton's steps."""

import math

import pytest

from sizer.errors import WillNotFloat
from sizer.hydro import flotation
from sizer.hydro.flotation import Load, float_at
from sizer.hydro.immersion import half_outline
from sizer.hydro.resting import level_and_trim

LENGTH_M, BEAM_M, DEPTH_M, DRAFT_M = 4.0, 0.6, 0.5, 0.2
VOLUME_M3 = LENGTH_M * BEAM_M * DRAFT_M


def trimmed_load(trim_deg, height_m=0.15):
    """The load that trims the box as wanted, while neither end leaves or enters the water whole.

    With slope t the immersed part is a box and a wedge: its centre lies L^2 t / 12 T aft of the
    middle and T / 2 + L^2 t^2 / 24 T up; the weight stands square to the water over it.
    """
    slope = math.tan(math.radians(trim_deg))
    aft = LENGTH_M / 2.0 + LENGTH_M**2 * slope / (12.0 * DRAFT_M)
    up = DRAFT_M / 2.0 + LENGTH_M**2 * slope**2 / (24.0 * DRAFT_M)
    return Load(VOLUME_M3 * 1025.0, aft + slope * (up - height_m), height_m)


@pytest.fixture(scope="module")
def hull(box):
    return box(LENGTH_M, BEAM_M, DEPTH_M, 401)


@pytest.mark.parametrize("trim_deg", [-5.0, -0.3, 0.0, 1.0, 3.7])
def test_trim_is_the_boxes_own(hull, trim_deg):
    level, trim = level_and_trim(half_outline(hull), 0.0, trimmed_load(trim_deg), VOLUME_M3)
    assert trim == pytest.approx(trim_deg, abs=1e-5)  # heights of sections are joined straight
    angle = math.radians(trim_deg)  # water stands T over the bottom at half length
    assert level == pytest.approx(
        math.cos(angle) * DRAFT_M - math.sin(angle) * LENGTH_M / 2.0, abs=1e-6)


@pytest.mark.parametrize("heel_deg", [0.0, 12.0])
def test_takes_over_where_newton_stops_short(hull, ship_water, monkeypatch, heel_deg):
    """Wall-sided box: GZ = sin(heel) (GM + BM tan^2(heel) / 2) at level trim."""
    monkeypatch.setattr(flotation, "MOST_STEPS", 1)
    load = trimmed_load(2.0) if heel_deg == 0.0 else trimmed_load(0.0)
    found = float_at(hull, load, ship_water, heel_deg)
    assert found.trim_deg[0] == pytest.approx(2.0 if heel_deg == 0.0 else 0.0, abs=1e-5)
    angle, bm = math.radians(heel_deg), BEAM_M**2 / (12.0 * DRAFT_M)
    gm = DRAFT_M / 2.0 + bm - load.vcg_m
    assert found.righting_arm_m[0] == pytest.approx(
        math.sin(angle) * (gm + 0.5 * bm * math.tan(angle) ** 2), abs=1e-8)


@pytest.mark.parametrize(("share", "end"), [(0.08, "bow"), (0.92, "stern")])
def test_a_weight_over_an_end_takes_that_end_down(hull, ship_water, share, end):
    load = Load(0.8 * LENGTH_M * BEAM_M * DEPTH_M * 1025.0, share * LENGTH_M, 0.2)
    with pytest.raises(WillNotFloat, match=f"goes down by the {end}"):
        float_at(hull, load, ship_water)


@pytest.mark.parametrize("trim_deg", [-3.5, 3.5])
def test_of_two_places_to_rest_it_goes_where_the_weight_pulls(hull, trim_deg):
    """Top-heavy lengthwise, GM -0.01 m: it lolls by either end, at 3.1 degrees were the weight in
    the middle; somewhat aft of it, at 3.5 stern down or at less than that bow down."""
    height = DRAFT_M / 2.0 + LENGTH_M**2 / (12.0 * DRAFT_M) + 0.01
    load = trimmed_load(trim_deg, height)
    assert (load.lcg_m - LENGTH_M / 2.0) * trim_deg > 0.0
    found = level_and_trim(half_outline(hull), 0.0, load, VOLUME_M3)
    assert found[1] == pytest.approx(trim_deg, abs=1e-3)
