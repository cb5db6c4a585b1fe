"""Drag of the shipped bases: by plain quadrature, by refinement, and by what must hold of any hull.

Published and tabled values are in `test_drag_published.py`.
"""

import numpy as np
import pytest
from scipy.integrate import quad

from sizer.errors import BadInput
from sizer.hull.boat import scaled_boat
from sizer.hull.scale import Scaling
from sizer.hull.sections import Sections, half_section_at
from sizer.hydro import waves
from sizer.hydro.drag import (
    PROPULSIVE_EFFICIENCY,
    drag_curve,
    drag_sections,
    pace,
    wetted,
)
from sizer.hydro.flotation import Load
from sizer.hydro.particulars import float_upright
from sizer.hydro.water import water_at
from sizer.hydro.waves import sources_m2, under_water, wave_drag_N
from sizer.units import STANDARD_GRAVITY_MPS2 as G

SEA_15 = water_at("salt", 15.0)
MPS_PER_KN = 1852.0 / 3600.0
LENGTH, BEAM, DRAFT = 5.0, 0.5, 0.3125
FINEST = {"TAIL_RATIO": 20.0, "PANEL_PHASE": 10.0, "TERMS_PER_FOLD": 8.0, "END_PARTS": 64}
ALL_SPEEDS = np.array([0.3, 0.4, 0.5, 0.7, 1.0, 1.25, 1.5, 2.0, 2.5, 3.0, 3.5, 4.0])


@pytest.fixture(scope="module")
def afloat(boat, drawn_load):
    """Each shipped base in its own water, with its load: fine sections and particulars."""
    water = water_at(boat.design.drawn_for.water, 10.0)
    return drag_sections(boat), float_upright(boat.sections, drawn_load, water), water


@pytest.fixture(scope="module")
def hull(afloat):
    return wetted(*afloat)


def test_wave_drag_of_a_base_matches_scipy_quadrature_over_a_grid(afloat, hull):
    """Half-breadths on a grid of x and depth, summed plainly; the outer integral by quad."""
    sections, particulars, water = afloat
    trim = np.radians(particulars.trim_deg)
    x = np.linspace(sections.x_m[0], sections.x_m[-1], 801)
    depth = -particulars.draft_m * 1.05 * (np.linspace(0.0, 1.0, 121) ** 1.5)[::-1]
    surface = particulars.sinkage_m + np.tan(trim) * (x - sections.mid_x_m)
    y, z = half_section_at(sections, x)
    grid = np.array([np.interp(depth + level, heights[: sections.sheer + 1],
                               breadths[: sections.sheer + 1], left=0.0)
                     for level, breadths, heights in zip(surface, y, z, strict=True)])
    speed = 4.0 * MPS_PER_KN
    k = G / speed**2

    def integrand(u):
        across = np.cosh(u)
        source = np.trapezoid(grid * np.exp(k * across**2 * depth), depth, axis=1)
        return abs(k * across**2 * np.trapezoid(source * np.exp(1j * k * across * x), x)) ** 2

    whole = quad(integrand, 0.0, 3.0, limit=100, epsrel=1e-4)[0]
    wanted = 4.0 * water.density_kgpm3 * G * k / np.pi * whole
    assert wave_drag_N(hull.under, water, [speed])[0] == pytest.approx(wanted, rel=0.005)


@pytest.mark.parametrize("step", [0.0, 1e-6, 0.0199, 0.0201, 1.0, 30.0, 400.0])
def test_sources_are_exact_on_a_straight_edge(prism, step):
    """A wedge of draft T: y = B/2 (1 + z/T); either side of where the series takes over."""
    hull = under_water(prism(LENGTH, BEAM, DRAFT), DRAFT, 0.0)
    wanted = quad(lambda z: 0.5 * BEAM * (1.0 + z / DRAFT) * np.exp(step / DRAFT * z),
                  -DRAFT, 0.0, epsrel=1e-12, limit=200)[0]
    assert sources_m2(hull, [step / DRAFT])[0] == pytest.approx([wanted] * 3, rel=1e-8)


def test_wave_drag_of_a_box_has_both_flat_ends(box, monkeypatch):
    """S = B/2 (1 - exp(-q T)) / q (1 - exp(i k l L)): ends shed waves of their own."""
    monkeypatch.setattr(waves, "TAIL_RATIO", 60.0)  # behind a flat end the tail dies slowly
    speed, k = 2.0, G / 4.0

    def integrand(u):
        across = np.cosh(u)
        q = k * across**2
        source = 0.5 * BEAM * -np.expm1(-q * DRAFT) / q
        return (across * source) ** 2 * 2.0 * (1.0 - np.cos(k * across * LENGTH))

    wanted = 4.0 * SEA_15.density_kgpm3 * G * k / np.pi * quad(integrand, 0.0, 6.0, limit=5000)[0]
    hull = under_water(box(LENGTH, BEAM, 2.0 * DRAFT), DRAFT, 0.0)
    assert wave_drag_N(hull, SEA_15, [speed])[0] == pytest.approx(wanted, rel=0.001)


def test_quadrature_is_within_half_a_percent_at_every_speed(afloat, hull, monkeypatch):
    sections, particulars, water = afloat
    usual = wave_drag_N(hull.under, water, ALL_SPEEDS)
    for name, value in FINEST.items():
        monkeypatch.setattr(waves, name, value)
    finest = wave_drag_N(wetted(sections, particulars, water).under, water, ALL_SPEEDS)
    assert usual == pytest.approx(finest, rel=0.005)
    assert usual[4:] == pytest.approx(finest[4:], rel=0.001)  # 1 m/s and faster


def test_drag_sections_are_close_enough_together(lines, afloat, hull):
    _, particulars, water = afloat
    finer = wetted(scaled_boat(lines, Scaling(), 1601).sections, particulars, water)
    usual, finest = drag_curve(hull, ALL_SPEEDS), drag_curve(finer, ALL_SPEEDS)
    assert usual.wave_N[4:] == pytest.approx(finest.wave_N[4:], rel=0.005)
    assert usual.total_N == pytest.approx(finest.total_N, rel=0.0005)


def test_friction_grows_with_speed_and_waves_do_not_pull(hull):
    curve = drag_curve(hull, np.linspace(0.3, 4.0, 75))
    assert np.all(np.diff(curve.friction_N) > 0.0)
    assert np.all(curve.wave_N > 0.0)


def test_one_speed_alone_gives_what_it_gives_among_others(hull):
    among = drag_curve(hull, [3.0, 0.3, 1.7])
    assert among.wave_N[2] == pytest.approx(drag_curve(hull, 1.7).wave_N[0], rel=1e-4)


@pytest.mark.parametrize("trim_deg", [-3.0, 0.0, 3.0])
def test_under_water_keeps_the_displaced_volume_and_its_centre(boat, drawn_load, trim_deg):
    """At q = 0, F is a half-section's area."""
    water = water_at("salt", 10.0)
    level = float_upright(boat.sections, drawn_load, water)
    moved = drawn_load.lcg_m + np.tan(np.radians(trim_deg)) * level.gm_long_m * 0.7
    particulars = float_upright(
        boat.sections, Load(drawn_load.mass_kg, moved, drawn_load.vcg_m), water)
    under = under_water(boat.sections, particulars.sinkage_m, particulars.trim_deg)
    area = 2.0 * sources_m2(under, [0.0])[0]
    volume = np.trapezoid(area, under.x_m)
    assert volume == pytest.approx(particulars.volume_m3, rel=5e-4)
    trim = np.radians(particulars.trim_deg)
    # the water's x of the centre of buoyancy, whose height is known from the waterline's
    wanted = (particulars.lcb_m * np.cos(trim) + np.sin(trim) * (
        boat.sections.z_m.min() + particulars.kb_m))
    assert np.trapezoid(area * under.x_m, under.x_m) / volume == pytest.approx(wanted, abs=0.002)


def test_wave_drag_is_the_same_bow_first_and_stern_first(afloat, hull):
    sections, particulars, water = afloat
    turned = Sections(sections.x_m[-1] - sections.x_m[::-1], sections.y_m[::-1],
                      sections.z_m[::-1], sections.sheer)
    backward = under_water(turned, particulars.sinkage_m, -particulars.trim_deg)
    assert wave_drag_N(backward, water, [1.0, 2.0]) == pytest.approx(
        wave_drag_N(hull.under, water, [1.0, 2.0]), rel=1e-6)


def test_a_section_twice_over_adds_nothing(parabolic):
    """Scaling can put two sections in one place."""
    once = parabolic(LENGTH, BEAM, DRAFT, 0.1)
    order = np.sort(np.append(np.arange(once.x_m.size), [0, 40, 120]))
    twice = Sections(once.x_m[order], once.y_m[order], once.z_m[order], once.sheer)
    assert wave_drag_N(under_water(twice, DRAFT, 0.0), SEA_15, [1.5, 3.0]) == pytest.approx(
        wave_drag_N(under_water(once, DRAFT, 0.0), SEA_15, [1.5, 3.0]), rel=1e-9)


def test_wave_drag_follows_froude(parabolic):
    """Twice the hull at the same Froude number drags eight times as much."""
    small = under_water(parabolic(2.0, 0.3, 0.1, 0.1), 0.1, 0.0)
    large = under_water(parabolic(4.0, 0.6, 0.2, 0.2), 0.2, 0.0)
    speeds = np.array([0.8, 1.2, 1.6])
    assert wave_drag_N(large, SEA_15, np.sqrt(2.0) * speeds) == pytest.approx(
        8.0 * wave_drag_N(small, SEA_15, speeds), rel=1e-9)


def test_pace_gives_back_its_efforts(hull):
    found = pace(hull)
    assert found.effort_w == (50.0, 75.0, 100.0)
    curve = drag_curve(hull, found.speed_mps)
    assert curve.effort_w == pytest.approx(found.effort_w, rel=0.003)  # 1 mm/s of speed
    assert curve.total_N * curve.speed_mps == pytest.approx(
        PROPULSIVE_EFFICIENCY * curve.effort_w)


def test_pace_finds_the_lowest_speed_at_which_waves_equal_friction(hull):
    speed = pace(hull).waves_equal_friction_mps
    near = [] if speed is None else [speed - 0.011, speed + 0.011]
    curve = drag_curve(hull, np.sort([*np.linspace(1.0, 4.0, 61), *near]))
    above = curve.speed_mps[curve.wave_N >= curve.friction_N]
    if speed is None:
        assert not above.size
    else:
        assert above[0] == pytest.approx(speed, abs=0.0111)


def test_pace_is_none_where_no_speed_in_range_takes_that_effort(hull):
    assert pace(hull, (0.01, 1e5)).speed_mps == (None, None)


@pytest.mark.parametrize("effort", [0.0, -5.0, np.nan, np.inf])
def test_pace_refuses_efforts_that_are_none(hull, effort):
    with pytest.raises(BadInput, match="efforts_w"):
        pace(hull, (50.0, effort))


@pytest.mark.parametrize("speeds", [[0.29], [1.0, 4.01], [np.nan], [-1.0], [], [[1.0, 2.0]],
                                    [np.inf]])
def test_drag_refuses_speeds_out_of_range(hull, speeds):
    with pytest.raises(BadInput, match=r"speeds_mps: .*0\.3 to 4 m/s"):
        drag_curve(hull, speeds)
