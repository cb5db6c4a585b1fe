"""Water loose inside: boxes in closed form, a handbook's loss, lost buoyancy, and the mesh."""

import numpy as np
import pytest
import trimesh

from sizer.hull.boat import sections_at
from sizer.hydro.flotation import Load
from sizer.hydro.free_water import free_surface_loss_m, water_inside
from sizer.hydro.immersion import planes_at
from sizer.hydro.lost_buoyancy import balance
from sizer.hydro.watertight import Chamber, Solids, no_solids
from tests.hydro.test_against_mesh import balanced, closed_mesh, under_water, up_of

LENGTH, BEAM, DRAFT, KG = 4.0, 0.6, 0.15, 0.2
DEPTHS_M = np.array([0.0, 0.02, 0.05, 0.10])


@pytest.fixture
def box_load(ship_water):
    return Load(LENGTH * BEAM * DRAFT * ship_water.density_kgpm3, LENGTH / 2.0, KG)


def box_gm_by_hand(depth, pool_length, loss_second_moment, held_m3):
    """Archimedes on the whole box, the water inside as a load at half its depth, less i / V."""
    held = pool_length * BEAM * depth if held_m3 is None else held_m3
    volume = LENGTH * BEAM * DRAFT + held
    draft = volume / (LENGTH * BEAM)
    kg = (LENGTH * BEAM * DRAFT * KG + held * depth / 2.0) / volume
    return draft / 2.0 + BEAM**2 / (12.0 * draft) - kg - loss_second_moment / volume


def test_box_with_water_all_over_its_floor_in_closed_form(box, box_load, ship_water):
    found = water_inside(box(LENGTH, BEAM, 0.6, 41), (), no_solids(), box_load, ship_water,
                         DEPTHS_M)
    assert found.litres == pytest.approx(1000.0 * LENGTH * BEAM * DEPTHS_M, abs=1e-6)
    for depth, gm in zip(DEPTHS_M, found.gm_m, strict=True):
        second = LENGTH * BEAM**3 / 12.0 if depth > 0.0 else 0.0
        assert gm == pytest.approx(box_gm_by_hand(depth, LENGTH, second, None), abs=1e-8)
    assert found.over_inside_m == pytest.approx(np.full(4, DRAFT), abs=1e-8)


def test_bulkheads_and_bags_are_taken_out_of_the_surface(box, box_load, ship_water):
    """Ends of 1 m shut off, and 0.5 m beside each filled to 80 %: the surface is 1 m whole and
    twice 0.5 m of a fifth."""
    chambers = (Chamber(0.0, 1.0), Chamber(1.0, 1.5, 0.8), Chamber(2.5, 3.0, 0.8),
                Chamber(3.0, 4.0))
    found = water_inside(box(LENGTH, BEAM, 0.6, 41), chambers, no_solids(), box_load, ship_water,
                         DEPTHS_M[1:])
    for depth, gm, loss in zip(DEPTHS_M[1:], found.gm_m, found.loss_m, strict=True):
        second = (1.0 + 2.0 * 0.5 * 0.2) * BEAM**3 / 12.0
        held = (1.0 + 2.0 * 0.5 * 0.2) * BEAM * depth
        assert loss == pytest.approx(second / (LENGTH * BEAM * DRAFT + held), abs=1e-8)
        assert gm == pytest.approx(box_gm_by_hand(depth, 0.0, second, held), abs=1e-8)


def test_what_stands_in_the_water_takes_its_place(box, box_load, ship_water):
    """A block 1 x 0.3 m from the floor up: water round it, its own breadth out of the surface."""
    block = Solids(np.array([2.0]), np.zeros(1), np.full(1, 0.4), np.full(1, 0.3 * 0.4),
                   np.full(1, 0.3))
    found = water_inside(box(LENGTH, BEAM, 0.6, 41), (), block, box_load, ship_water,
                         np.array([0.05]))
    held = (LENGTH * BEAM - 0.3) * 0.05
    assert found.litres == pytest.approx([1000.0 * held])
    second = LENGTH * BEAM**3 / 12.0 - 0.3**3 / 12.0
    assert found.loss_m == pytest.approx([second / (LENGTH * BEAM * DRAFT + held)], abs=1e-8)


def test_free_surface_of_a_slack_tank_as_the_handbook_works_it():
    """Barrass & Derrett, free surface, from memory: 10,000 t, tank 25 x 15 m divided at the centre
    line, oil of relative density 0.84: GM loses 0.148 m."""
    second = 2.0 * 25.0 * 7.5**3 / 12.0
    assert free_surface_loss_m(second, 840.0, 10_000e3) == pytest.approx(0.148, abs=0.0005)


def test_full_to_the_sea_it_is_the_boat_of_lost_buoyancy(boat, drawn_load, ship_water):
    """Two roads to one boat: water inside as a load, or as no boat at all. The righting moments
    agree, so GM goes with the weight that each counts; level and trim agree."""
    chambers = (Chamber(0.0, 0.32 * boat.length_m, 0.8),
                Chamber(0.62 * boat.length_m, boat.length_m, 0.8))
    lost = balance(boat.sections, chambers, no_solids(), drawn_load, ship_water)
    found = water_inside(boat.sections, chambers, no_solids(), drawn_load, ship_water,
                         np.array([0.5 * lost.sinkage_m, lost.sinkage_m]))
    total = drawn_load.mass_kg + ship_water.density_kgpm3 * found.litres[-1] / 1000.0
    assert found.over_inside_m[-1] == pytest.approx(0.0, abs=1e-5)
    assert found.trim_deg[-1] == pytest.approx(lost.trim_deg, abs=1e-3)
    assert found.gm_m[-1] * total == pytest.approx(lost.gm_m * drawn_load.mass_kg, abs=0.01)
    assert found.over_inside_m[0] > 0.02  # half full, the sea stands higher


def surface_second_moment(mesh, up, level_m):
    """Of the cut of a mesh with a plane, about the centre line, by the shoelace of its outline."""
    cut = mesh.section(up, level_m * up)
    points = cut.discrete[0]
    x, y = points[:, 0] / up[2], points[:, 1]  # along the plane's own slope
    cross = x[:-1] * y[1:] - x[1:] * y[:-1]
    return abs(np.sum(cross * (y[:-1]**2 + y[:-1] * y[1:] + y[1:]**2))) / 12.0


def test_pool_between_bulkheads_matches_the_mesh(boat, drawn_load, ship_water):
    front, back = 0.32 * boat.length_m, 0.62 * boat.length_m
    chambers = Chamber(0.0, front), Chamber(back, boat.length_m)
    heights = np.array([0.06, 0.12])
    found = water_inside(boat.sections, chambers, no_solids(), drawn_load, ship_water, heights)
    pool = closed_mesh(sections_at(boat, np.linspace(front, back, 121)))
    up, level = planes_at(heights, found.trim_deg, boat.sections.mid_x_m)
    for index in range(2):
        volume, _ = under_water(pool, up[index], level[index])
        assert found.litres[index] == pytest.approx(1000.0 * volume, rel=5e-3)
        second = surface_second_moment(pool, up[index], level[index])
        displaced = drawn_load.mass_kg / ship_water.density_kgpm3 + volume
        assert found.loss_m[index] == pytest.approx(second / displaced, abs=0.0005)


def test_swamped_gm_matches_a_mesh_that_is_heeled(boat, drawn_load, ship_water):
    """Only the shut ends of the boat as a mesh, heeled half a degree each way and balanced by a
    general solver: GM is the arm over the angle."""
    front, back = 0.32 * boat.length_m, 0.62 * boat.length_m
    lost = balance(boat.sections, (Chamber(0.0, front), Chamber(back, boat.length_m)),
                   no_solids(), drawn_load, ship_water)
    ends = trimesh.util.concatenate([
        closed_mesh(sections_at(boat, np.linspace(*reach, 121)))
        for reach in ((0.0, front), (back, boat.length_m))])
    up = up_of(0.0, lost.trim_deg)
    start = up[2] * lost.sinkage_m + up[0] * boat.sections.mid_x_m, lost.trim_deg
    arms = [balanced(ends, drawn_load, ship_water, heel, start)[2] for heel in (0.5, -0.5)]
    assert (arms[0] - arms[1]) / np.sin(np.radians(0.5)) / 2.0 == pytest.approx(
        lost.gm_m, abs=0.001)


def test_tips_where_gm_passes_zero(box, ship_water):
    """A box with a pool 1 m long and KG such that GM is 40 mm dry; by hand GM falls through zero
    as soon as the floor is wet, since 1 m of surface takes 50 mm."""
    kg = DRAFT / 2.0 + BEAM**2 / (12.0 * DRAFT) - 0.040
    load = Load(LENGTH * BEAM * DRAFT * ship_water.density_kgpm3, LENGTH / 2.0, kg)
    chambers = Chamber(0.0, 1.5), Chamber(2.5, 4.0)
    found = water_inside(box(LENGTH, BEAM, 0.6, 41), chambers, no_solids(), load, ship_water,
                         np.array([0.0, 0.001, 0.02]))
    assert found.gm_m[0] == pytest.approx(0.040)
    assert found.gm_m[1] < 0.0
    assert 0.0 < found.tips_at_l <= found.litres[1] + 1e-9
    low = water_inside(box(LENGTH, BEAM, 0.6, 41), chambers, no_solids(),
                       Load(load.mass_kg, load.lcg_m, 0.05), ship_water, DEPTHS_M)
    assert low.tips_at_l is None
    high = water_inside(box(LENGTH, BEAM, 0.6, 41), chambers, no_solids(),
                        Load(load.mass_kg, load.lcg_m, 0.4), ship_water, DEPTHS_M)
    assert high.tips_at_l == 0.0
