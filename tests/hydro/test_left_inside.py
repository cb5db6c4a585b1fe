"""The water that a wet exit leaves: a box by hand, and lost buoyancy where both see one boat."""

from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest

from sizer.fit.assess import assess
from sizer.fit.mishaps import aboard_of
from sizer.fit.person import drawn_person
from sizer.hull.boat import SECTION_COUNT
from sizer.hull.scale import Scaling
from sizer.hydro import left_inside as module
from sizer.hydro.flooded import load_of
from sizer.hydro.flotation import Load
from sizer.hydro.free_water import water_inside
from sizer.hydro.left_inside import left_inside
from sizer.hydro.swamped import filling_ends, swamped, wet_exit_says
from sizer.hydro.watertight import Chamber, no_solids

LENGTH, BEAM, DRAFT, RIM, OPEN = 4.0, 0.6, 0.15, 0.3, 1.6


@pytest.fixture
def left(monkeypatch, box, ship_water):
    """What is left in a box whose middle is open, its ends shut or open too, after so many litres
    ran in."""
    sections = replace(box(LENGTH, BEAM, 0.6, 41), rim_x_m=np.array([1.5, 2.5]),
                       rim_z_m=np.array([RIM, RIM]))
    mass = LENGTH * BEAM * DRAFT * ship_water.density_kgpm3

    def of(kg, ran_in_l, shut=True):
        ends = (LENGTH - OPEN) / 2.0
        chambers = (Chamber(0.0, ends), Chamber(LENGTH - ends, LENGTH)) if shut else ()
        monkeypatch.setattr(
            module, "free_water", lambda boat, weight, out, ends, water, top_m, count: water_inside(
                boat.sections, chambers, no_solids(), Load(mass, LENGTH / 2.0, kg), water,
                top_m * np.linspace(0.0, 1.0, count) ** 2))
        return left_inside(SimpleNamespace(sections=sections), None, None, None, ship_water,
                           ran_in_l)

    return of


def gm_by_hand(depth, kg):
    """Archimedes on the whole box, the water at half its depth as a load, its surface's i / V off;
    the least from that depth down to the wet floor, or dry."""
    depth = np.linspace(1e-9, depth, 4001)
    held = OPEN * BEAM * depth
    volume = LENGTH * BEAM * DRAFT + held
    draft = volume / (LENGTH * BEAM)
    height = (LENGTH * BEAM * DRAFT * kg + held * depth / 2.0) / volume
    return np.min(draft / 2.0 + BEAM**2 / (12.0 * draft) - height
                  - OPEN * BEAM**3 / 12.0 / volume)


@pytest.mark.parametrize("kg", [0.05, 0.25])
def test_a_box_keeps_what_ran_in_and_holds_up_to_its_rim(left, kg):
    found = left(kg, 96.0)
    assert found.litres == 96.0
    assert found.most_l == pytest.approx(1000.0 * OPEN * BEAM * RIM, rel=1e-4)
    assert found.pump_minutes == pytest.approx(96.0 / 30.0)
    assert found.most_pump_minutes == pytest.approx(288.0 / 30.0, rel=1e-4)
    assert found.gm_m == pytest.approx(gm_by_hand(96.0 / (1000.0 * OPEN * BEAM), kg), abs=2e-3)
    assert found.most_gm_m == pytest.approx(gm_by_hand(RIM, kg), abs=2e-3)
    assert "count on 288 litres, 9.6 minutes at a hand pump" in found.says
    assert "at the least 96 litres, 3.2 minutes" in found.says
    assert ("may not stay upright by itself: a helper holds both" in found.says) == (kg > 0.2)


def test_a_box_that_sinks_under_its_paddler_is_full_to_its_rim(left):
    found = left(0.05, None)
    assert found.litres == found.most_l
    assert found.gm_m == found.most_gm_m
    assert "at the least" not in found.says


def test_a_box_without_shut_ends_goes_under_before_it_is_full(left):
    """Its own draft more than the water inside, at every height: the sea runs in over the rim."""
    assert left(0.05, 96.0, shut=False) is None


@pytest.fixture(scope="module")
def assessed(lines):
    return assess(lines, Scaling(), drawn_person(lines.design), SECTION_COUNT)


def test_at_the_level_of_the_sea_it_is_the_boat_of_lost_buoyancy(assessed):
    """Were no more left than the trial lets in, both would have one righting moment, but for the
    skin, which lost buoyancy alone counts as afloat: half a millimetre of height."""
    boat, weight, water = assessed.boat, assessed.weight, assessed.person.water
    full = swamped(boat, weight, aboard_of(assessed), water)
    out = aboard_of(assessed, False)
    same = left_inside(boat, weight, out, filling_ends(boat, out.gear), water,
                       full.out.water_inside_l)
    mass = load_of(weight, out).mass_kg
    total = mass + water.density_kgpm3 * same.litres / 1000.0
    assert same.gm_m == pytest.approx(full.out.gm_m * mass / total, abs=0.009)


def test_a_boat_tells_what_runs_in_under_its_paddler(assessed):
    """More than the trial lets in, and so less steady, the same in every sentence."""
    full = swamped(assessed.boat, assessed.weight, aboard_of(assessed), assessed.person.water)
    assert full.left.litres == full.seated.water_inside_l > full.out.water_inside_l
    assert full.left.gm_m < full.out.gm_m
    assert full.larger_lost_left.litres == full.larger_lost_left.most_l > full.left.litres
    assert "at a hand pump" not in full.out.says
    assert full.says[1] == wet_exit_says(full.out, full.left) == (
        f"{full.out.says} {full.left.says}")
    assert f"{full.seated.water_inside_l:.0f} litres, " in full.left.says
