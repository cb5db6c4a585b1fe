"""The shipped bases against a closed triangle mesh of their rings, clipped and balanced apart.

The mesh is finer (241 sections) than the engine's own. Volume and centre under water come from
trimesh's clipped triangles: tetrahedra from a point on the water's plane, so that the waterplane
itself adds nothing and needs no cap.
"""

import numpy as np
import pytest
import trimesh
from scipy.optimize import brentq, root

from sizer.errors import WillNotFloat
from sizer.hull.boat import SECTION_COUNT, scaled_boat
from sizer.hull.scale import Scaling
from sizer.hull.sections import closed_rings
from sizer.hydro.flotation import Load, enclosed_volume_m3, float_at
from sizer.hydro.immersion import half_outline, immersed, up_vectors
from sizer.hydro.particulars import float_upright

FINE_COUNT = 241
HEELS_DEG = (0.0, 15.0, 30.0, 60.0, 90.0, 120.0)


def closed_mesh(sections):
    """Triangles between neighbouring rings, and flat ends."""
    rings = closed_rings(sections)[:, :-1]
    n, k, _ = rings.shape
    points = np.column_stack([np.repeat(sections.x_m, k), rings.reshape(-1, 2)])
    here = np.arange(n - 1)[:, None] * k + np.arange(k)
    along = np.arange(n - 1)[:, None] * k + (np.arange(k) + 1) % k
    skin = np.concatenate([np.stack([here, along, along + k], -1).reshape(-1, 3),
                           np.stack([here, along + k, here + k], -1).reshape(-1, 3)])
    fan = np.column_stack([np.zeros(k - 2, int), np.arange(1, k - 1), np.arange(2, k)])
    mesh = trimesh.Trimesh(points, np.concatenate([skin, fan[:, ::-1], fan + (n - 1) * k]))
    mesh.update_faces(mesh.nondegenerate_faces())
    return mesh


@pytest.fixture(scope="module")
def mesh(lines):
    return closed_mesh(scaled_boat(lines, Scaling(), FINE_COUNT).sections)


def under_water(mesh, up, level_m):
    """Volume and centre of what lies below the plane up.p = level."""
    on_plane = level_m * up
    corners = trimesh.intersections.slice_mesh_plane(mesh, -up, on_plane).triangles - on_plane
    volumes = np.einsum("ij,ij->i", corners[:, 0],
                        np.cross(corners[:, 1], corners[:, 2])) / 6.0
    centre = volumes @ corners.sum(axis=1) / 4.0 / volumes.sum()
    return volumes.sum(), centre + on_plane


def balanced(mesh, load, water, heel_deg, start):
    """(level, trim, righting arm) at which the mesh carries the load, by a general solver."""
    wanted = load.mass_kg / water.density_kgpm3
    weight = np.array([load.lcg_m, 0.0, load.vcg_m])

    def parts(level, trim_deg):
        up = up_of(heel_deg, trim_deg)
        volume, centre = under_water(mesh, up, level)
        ahead = np.array([1.0, 0.0, 0.0]) - up[0] * up
        ahead /= np.linalg.norm(ahead)
        return volume, centre, ahead, np.cross(up, ahead)

    def amiss(guess):
        volume, centre, ahead, _ = parts(guess[0], guess[1])
        return [volume / wanted - 1.0, (centre - weight) @ ahead]

    found = root(amiss, start, tol=1e-10)
    assert found.success or np.abs(found.fun).max() < 1e-8
    _, centre, _, across = parts(*found.x)
    return found.x[0], found.x[1], (centre - weight) @ across


def up_of(heel_deg, trim_deg):
    """The water's upward normal by turning the vertical: first trim, then heel."""
    heel, trim = np.radians([heel_deg, trim_deg])
    return np.array([-np.sin(trim), -np.sin(heel) * np.cos(trim), np.cos(heel) * np.cos(trim)])


def test_mesh_is_closed_and_holds_the_engines_volume(mesh, boat):
    assert mesh.is_watertight
    assert mesh.is_winding_consistent
    assert mesh.volume == pytest.approx(enclosed_volume_m3(boat.sections), rel=1e-3)


def test_upright_flotation_matches_the_mesh(mesh, boat, drawn_load, ship_water):
    engine = float_upright(boat.sections, drawn_load, ship_water)
    start = (engine.sinkage_m + 0.01, 0.3)
    level, trim, _ = balanced(mesh, drawn_load, ship_water, 0.0, start)
    up = up_of(0.0, trim)
    sinkage = (level - up[0] * boat.length_m / 2.0) / up[2]
    assert sinkage == pytest.approx(engine.sinkage_m, abs=0.0005)
    assert trim == pytest.approx(engine.trim_deg, abs=0.02)
    volume, centre = under_water(mesh, up, level)
    assert volume == pytest.approx(engine.volume_m3, rel=1e-3)
    assert centre[0] == pytest.approx(engine.lcb_m, abs=0.0005)
    # to both sides: the triangles' diagonals run the same way round, so the mesh lists a little
    arms = [balanced(mesh, drawn_load, ship_water, heel, (level, trim))[2] for heel in (0.5, -0.5)]
    assert (arms[0] - arms[1]) / np.sin(np.radians(0.5)) / 2.0 == pytest.approx(
        engine.gm_m, abs=0.0005)


def test_volume_at_the_same_plane_matches_the_mesh(mesh, boat):
    up = up_of(0.0, 0.4)
    volume, centre = under_water(mesh, up, 0.1)
    wet = immersed(half_outline(boat.sections), up[None], np.array([0.1]))
    assert wet.volume_m3[0] == pytest.approx(volume, rel=1e-3)
    assert wet.moment_m4[0] / wet.volume_m3[0] == pytest.approx(centre, abs=0.0005)


def test_wetted_area_waterline_and_draft_match_the_mesh(mesh, boat, drawn_load, ship_water):
    engine = float_upright(boat.sections, drawn_load, ship_water)
    up = up_of(0.0, engine.trim_deg)
    middle = np.array([boat.length_m / 2.0, 0.0, engine.sinkage_m])
    wet = trimesh.intersections.slice_mesh_plane(mesh, -up, middle)
    assert engine.wetted_area_m2 == pytest.approx(wet.area, rel=1e-3)
    depth = (middle - wet.vertices) @ up
    assert engine.draft_m == pytest.approx(depth.max(), abs=0.0005)
    waterline = wet.vertices[np.abs(depth) < 1e-9]
    assert engine.waterline_beam_m == pytest.approx(np.ptp(waterline[:, 1]), abs=0.0005)
    # along the water, which stands 1 in 200 to the hull's x at most
    assert engine.waterline_length_m == pytest.approx(
        np.ptp(waterline[:, 0]) / up[2], abs=0.002)


def test_righting_arms_match_the_mesh_with_trim_free(mesh, boat, drawn_load, ship_water):
    engine = float_at(boat.sections, drawn_load, ship_water, HEELS_DEG)
    for index, heel in enumerate(HEELS_DEG):
        start = (engine.level_m[index] + 0.005, engine.trim_deg[index] + 0.2)
        level, trim, arm = balanced(mesh, drawn_load, ship_water, heel, start)
        assert arm == pytest.approx(engine.righting_arm_m[index], abs=0.0005), heel
        assert trim == pytest.approx(engine.trim_deg[index], abs=0.02), heel
        assert level == pytest.approx(engine.level_m[index], abs=0.0005), heel


def test_doubling_the_sections_moves_displacement_under_a_thousandth(lines):
    up, level = up_vectors([0.0], [0.0]), np.array([lines.design.drawn_for.draft_m])
    coarse, fine = (
        immersed(half_outline(scaled_boat(lines, Scaling(), count).sections), up, level)
        for count in (SECTION_COUNT, 2 * SECTION_COUNT - 1))
    assert coarse.volume_m3 == pytest.approx(fine.volume_m3, rel=1e-3)
    assert coarse.plane_a2_m4 == pytest.approx(fine.plane_a2_m4, rel=1e-3)


def lever_aft_m(mesh, load, water, trim_deg):
    """By how much the mesh's buoyancy lies aft of the weight, with the load carried at a trim."""
    up, wanted = up_of(0.0, trim_deg), load.mass_kg / water.density_kgpm3
    heights = mesh.vertices @ up
    level = brentq(lambda one: under_water(mesh, up, one)[0] - wanted,
                   heights.min() + 1e-3, heights.max() - 1e-6, xtol=1e-6)
    ahead = np.array([1.0, 0.0, 0.0]) - up[0] * up
    return (under_water(mesh, up, level)[1] - (load.lcg_m, 0.0, load.vcg_m)) @ (
        ahead / np.linalg.norm(ahead))


def test_heavy_loads_off_the_middle_rest_where_the_mesh_does_or_go_down(mesh, boat, ship_water):
    """200 to 330 kg centred from 35 to 65 % of the length, as with too much gear in an end."""
    rested, dived = [], []
    for mass in np.arange(200.0, 331.0, 26.0):
        for share in np.arange(0.35, 0.651, 0.02):
            for height in (0.2, 0.3, 0.4):
                load = Load(mass, share * boat.length_m, height)
                try:
                    found = float_at(boat.sections, load, ship_water)
                    rested.append((load, found))
                except WillNotFloat as refused:
                    dived.append((share, str(refused)))
    assert len(rested) > 130
    for share, said in dived:
        assert f"goes down by the {'stern' if share > 0.5 else 'bow'}" in said
    for load, found in rested[::17]:
        volume, centre = under_water(mesh, up_of(0.0, found.trim_deg[0]), found.level_m[0])
        assert volume == pytest.approx(load.mass_kg / ship_water.density_kgpm3, rel=1e-3), load
        # an end of the boat drawn finer moves its buoyancy by a few mm at most
        assert centre[0] == pytest.approx(found.centre_m[0][0], abs=0.003), load


@pytest.mark.parametrize(("mass_kg", "share"), [(260.0, 0.36), (260.0, 0.64), (320.0, 0.62)])
def test_what_goes_down_by_an_end_has_no_rest_on_the_mesh_either(mesh, boat, ship_water, mass_kg,
                                                                 share):
    """Buoyancy stays ahead of a weight far aft, or behind one far forward, at every trim."""
    load = Load(mass_kg * enclosed_volume_m3(boat.sections) / 0.39, share * boat.length_m, 0.3)
    with pytest.raises(WillNotFloat, match="goes down by the"):
        float_at(boat.sections, load, ship_water)
    aft = [lever_aft_m(mesh, load, ship_water, trim) for trim in np.arange(-55.0, 56.0, 22.0)]
    assert np.all(np.array(aft) * (0.5 - share) > 0.0)
