"""How long flotation and a fit take, beside the triangle-mesh route in the same run.

Run with `.venv/bin/python -m pytest tests/benchmarks`; nothing here asserts a time.
"""

import numpy as np
import pytest
import trimesh
from scipy.optimize import root

from sizer.fit.person import person_of
from sizer.fit.request import read_request
from sizer.fit.solve import fit
from sizer.hull.boat import scaled_boat
from sizer.hull.scale import Scaling
from sizer.hull.sections import closed_rings
from sizer.hydro.flotation import Load
from sizer.hydro.particulars import float_upright
from sizer.hydro.water import water_at

WATER = water_at("salt", 10.0)
LOAD = Load(115.0, 2.35, 0.28)


@pytest.fixture(scope="module")
def sections(base_lines):
    return scaled_boat(base_lines["day-boat"], Scaling()).sections


def test_upright_flotation(benchmark, sections):
    benchmark.group = "one upright flotation"
    result = benchmark(float_upright, sections, LOAD, WATER)
    assert result.displacement_kg == pytest.approx(LOAD.mass_kg)


def mesh_of(sections):
    """The closed hull as triangles, straight between neighbouring rings."""
    rings = closed_rings(sections)[:, :-1]
    count, around = rings.shape[:2]
    x = np.broadcast_to(sections.x_m[:, None, None], (count, around, 1))
    points = np.concatenate([x, rings], axis=-1).reshape(-1, 3)
    at = np.arange(count * around).reshape(count, around)
    a, b = at[:-1], at[1:]
    c, d = np.roll(a, -1, axis=1), np.roll(b, -1, axis=1)
    faces = np.concatenate([np.stack([a, c, b], -1).reshape(-1, 3),
                            np.stack([c, d, b], -1).reshape(-1, 3)])
    mesh = trimesh.Trimesh(points, faces, process=True, validate=True)
    mesh.fix_normals()
    return mesh


def float_mesh(mesh, middle_m):
    """Level and trim by clipping the mesh at the water, as one would without our own route."""
    def off(guess):
        level, trim = guess
        normal = np.array([-np.sin(trim), 0.0, np.cos(trim)])
        wet = mesh.slice_plane([middle_m, 0.0, level], -normal, cap=False)
        # the open top lies in the water's plane, so measure heights from it and need no cap
        moved = wet.copy()
        moved.apply_translation([-middle_m, 0.0, -level])
        volume = abs(moved.volume)
        centre = moved.center_mass[0] + middle_m
        return [volume * WATER.density_kgpm3 / LOAD.mass_kg - 1.0, centre - LOAD.lcg_m]
    return root(off, [0.12, 0.0], tol=1e-7)


def test_upright_flotation_by_triangle_mesh(benchmark, sections):
    benchmark.group = "one upright flotation"
    mesh = mesh_of(sections)
    solved = benchmark.pedantic(float_mesh, (mesh, sections.mid_x_m), rounds=3)
    assert solved.success


@pytest.mark.parametrize("kilograms", [62.0, 82.0, 105.0])
def test_one_fit(benchmark, base_lines, kilograms):
    benchmark.group = "one fit (beside one mesh flotation above)"
    person = person_of(read_request({"base": "day-boat", "use": "coastal-day", "paddler": {
        "weight_kg": kilograms, "stature_mm": 1760, "hip_width_mm": 395}}))
    assert benchmark(fit, base_lines["day-boat"], person).status == "pass"
