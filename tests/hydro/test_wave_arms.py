"""Righting arms on a wave: calm water again at no height, a box in closed form, the mesh."""

import numpy as np
import pytest

from sizer.errors import BadInput
from sizer.hull.boat import scaled_boat
from sizer.hull.scale import Scaling
from sizer.hydro.flotation import Load, float_at
from sizer.hydro.stability import righting_curve
from sizer.hydro.wave_arms import STEEPEST, WAVE_HEELS_DEG, wave_arms, wave_rise_m
from tests.hydro.test_against_mesh import FINE_COUNT, closed_mesh, under_water, up_of

LENGTH, BEAM, DRAFT, KG = 5.0, 0.6, 0.14, 0.2
BOX_HEELS_DEG = (0.0, 3.0, 6.0, 9.0, 12.0)


@pytest.fixture
def fine_box(box):
    return box(LENGTH, BEAM, 0.6, 1001)


@pytest.fixture
def box_load(ship_water):
    return Load(LENGTH * BEAM * DRAFT * ship_water.density_kgpm3, LENGTH / 2.0, KG)


def test_no_wave_gives_the_calm_curve_to_the_last_digit(boat, drawn_load, ship_water):
    calm = righting_curve(boat.sections, drawn_load, ship_water, WAVE_HEELS_DEG)
    for _, curve in wave_arms(boat.sections, drawn_load, ship_water, 0.0).curves:
        for name in ("gz_m", "trim_deg", "level_m", "rim_m"):
            np.testing.assert_array_equal(getattr(curve, name), getattr(calm, name))
        assert curve.slope_m_per_rad == calm.slope_m_per_rad
        # the whole outline's waterplane against the half one's
        assert curve.gm_m == pytest.approx(calm.gm_m, abs=1e-9)


@pytest.mark.parametrize("height_m", [0.06, 0.12])
def test_wall_sided_box_on_a_sine_wave_in_closed_form(fine_box, box_load, ship_water, height_m):
    """Walls wet throughout: a whole wave adds no volume, so the box sinks as in calm water. With
    h/2 = a the water stands T + a cos(k x) / cos f along the walls' middle, whose mean square is
    T^2 + a^2 / (2 cos^2 f): buoyancy's height is half of that over T, and the arm is
    sin f (T/2 + a^2 / (4 T cos^2 f) + B^2 / (12 T) (1 + tan^2 f / 2) - KG)."""
    found = wave_arms(fine_box, box_load, ship_water, height_m, BOX_HEELS_DEG)
    heel, a = np.radians(BOX_HEELS_DEG), 0.5 * height_m
    gm = DRAFT / 2.0 + a**2 / (4.0 * DRAFT) + BEAM**2 / (12.0 * DRAFT) - KG
    arms = np.sin(heel) * (
        DRAFT / 2.0 + a**2 / (4.0 * DRAFT * np.cos(heel) ** 2)
        + BEAM**2 / (12.0 * DRAFT) * (1.0 + np.tan(heel) ** 2 / 2.0) - KG)
    for _, curve in found.curves:
        assert curve.gz_m == pytest.approx(arms, abs=1e-6)
        assert curve.level_m == pytest.approx(DRAFT * np.cos(heel), abs=1e-6)
        assert curve.trim_deg == pytest.approx(0.0, abs=1e-6)
        assert curve.gm_m == pytest.approx(gm, abs=1e-6)
        assert curve.slope_m_per_rad == pytest.approx(gm, abs=1e-5)


def test_crest_stands_amidships_and_trough_is_its_negative(boat):
    """A cosine by hand: full height amidships, half a wave lower at both ends."""
    rise = wave_rise_m(boat.sections, 0.3)
    assert (rise[0], rise[-1]) == pytest.approx((-0.15, -0.15))
    middle = np.argmin(np.abs(boat.sections.x_m - boat.sections.mid_x_m))
    assert rise[middle] == pytest.approx(0.15, abs=0.001)
    assert np.all(np.abs(rise) <= 0.15)


def sheared(mesh, up, sections, rise_sign, height_m):
    """The mesh with the wave taken off: each point lowered by the wave over its place, straight
    down. What lies under the wave then lies under a plane, with the same volume and lever."""
    turn = 2.0 * np.pi * (mesh.vertices[:, 0] - sections.mid_x_m) / sections.length_m
    lowered = mesh.copy()
    lowered.vertices = mesh.vertices - np.outer(rise_sign * 0.5 * height_m * np.cos(turn), up)
    return lowered


@pytest.mark.parametrize(("place", "sign"), [("crest", 1.0), ("trough", -1.0)])
def test_arms_on_a_wave_match_the_mesh(lines, boat, drawn_load, ship_water, place, sign):
    """At the engine's own level and trim the mesh carries the load there with the same arm."""
    mesh = closed_mesh(scaled_boat(lines, Scaling(), FINE_COUNT).sections)
    curve = getattr(wave_arms(boat.sections, drawn_load, ship_water, 0.3), place)
    wanted = drawn_load.mass_kg / ship_water.density_kgpm3
    for index in (1, 3, 6):
        up = up_of(curve.heel_deg[index], curve.trim_deg[index])
        volume, centre = under_water(sheared(mesh, up, boat.sections, sign, 0.3), up,
                                     curve.level_m[index])
        ahead = np.array([1.0, 0.0, 0.0]) - up[0] * up
        ahead /= np.linalg.norm(ahead)
        off = centre - (drawn_load.lcg_m, 0.0, drawn_load.vcg_m)
        assert volume == pytest.approx(wanted, rel=2e-3)
        assert off @ np.cross(up, ahead) == pytest.approx(curve.gz_m[index], abs=0.0005)
        assert off @ ahead == pytest.approx(0.0, abs=0.003)


def test_slope_is_the_waterplanes_gm_on_a_wave_too(boat, drawn_load, ship_water):
    for _, curve in wave_arms(boat.sections, drawn_load, ship_water, 0.3).curves:
        assert curve.slope_m_per_rad == pytest.approx(curve.gm_m, abs=0.0005)


def test_a_start_from_calm_water_moves_nothing(boat, drawn_load, ship_water):
    near = righting_curve(boat.sections, drawn_load, ship_water)
    cold, warm = (wave_arms(boat.sections, drawn_load, ship_water, 0.3, near=one)
                  for one in (None, near))
    for (_, one), (_, other) in zip(cold.curves, warm.curves, strict=True):
        assert one.gz_m == pytest.approx(other.gz_m, abs=1e-8)


def test_rim_is_measured_over_the_wave(boat, drawn_load, ship_water):
    """By hand at the rim's ends: their height over the level there, less the wave."""
    calm = float_at(boat.sections, drawn_load, ship_water)
    curve = wave_arms(boat.sections, drawn_load, ship_water, 0.2).crest
    opening = boat.opening
    ends = np.array([opening.front_x_m, opening.back_x_m])
    trim = np.radians(curve.trim_deg[0])
    wave = 0.1 * np.cos(2.0 * np.pi * (ends - boat.length_m / 2.0) / boat.length_m)
    over = np.cos(trim) * opening.rim_z_m - np.sin(trim) * ends - curve.level_m[0] - wave
    assert curve.rim_m[0] == pytest.approx(over.min(), abs=0.0005)
    assert curve.level_m[0] < calm.level_m[0]  # the crest carries it


@pytest.mark.parametrize("height_m", [-0.1, np.nan, 3.0])
def test_refuses_waves_that_cannot_be(boat, drawn_load, ship_water, height_m):
    with pytest.raises(BadInput, match="breaks") as caught:
        wave_arms(boat.sections, drawn_load, ship_water, height_m)
    assert caught.value.faults[0].place == "wave_height_mm"
    assert STEEPEST * boat.length_m < 1.0
