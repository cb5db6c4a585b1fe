"""How long a righting curve and a whole study take, beside the triangle-mesh route in the same run.

Run with `.venv/bin/python -m pytest tests/benchmarks`; nothing here asserts a time.
"""

import numpy as np
import pytest
from scipy.optimize import brentq
from test_fit_speed import LOAD, WATER, mesh_of

from sizer.fit.request import read_request
from sizer.fit.study import study
from sizer.hull.boat import scaled_boat
from sizer.hull.scale import Scaling
from sizer.hydro.stability import HEELS_DEG, righting_curve
from sizer.job import run

GROUP = "one righting curve of 37 angles"


@pytest.fixture(scope="module")
def sections(base_lines):
    return scaled_boat(base_lines["day-boat"], Scaling()).sections


def test_righting_curve(benchmark, sections):
    benchmark.group = GROUP
    curve = benchmark(righting_curve, sections, LOAD, WATER)
    assert curve.heel_deg.size == 37


def mesh_curve(mesh):
    """Arms by clipping the mesh, the boat held level lengthwise: less work than with trim free."""
    wanted = LOAD.mass_kg / WATER.density_kgpm3
    arms = []
    for heel in np.radians(HEELS_DEG):
        up = np.array([0.0, -np.sin(heel), np.cos(heel)])
        across = np.array([0.0, np.cos(heel), np.sin(heel)])

        def wet(level, up=up):
            part = mesh.slice_plane(level * up, -up, cap=False)
            part.apply_translation(-level * up)
            return part

        heights = mesh.vertices @ up
        level = brentq(lambda at: abs(wet(at).volume) - wanted, heights.min() + 0.02,
                       heights.max() - 0.005, xtol=1e-6)
        centre = wet(level).center_mass + level * up
        arms.append(float((centre - (0.0, 0.0, LOAD.vcg_m)) @ across))
    return arms


def test_righting_curve_by_triangle_mesh(benchmark, sections):
    benchmark.group = GROUP
    arms = benchmark.pedantic(mesh_curve, (mesh_of(sections),), rounds=1)
    assert len(arms) == 37


@pytest.mark.parametrize("kilograms", [62.0, 105.0])
def test_request_to_full_answer(benchmark, base_lines, kilograms):
    benchmark.group = "a full fit: search, checks, righting, flooding, drag, wind, sensitivity"
    request = read_request({"base": "day-boat", "use": "coastal-day", "paddler": {
        "weight_kg": kilograms, "stature_mm": 1760, "hip_width_mm": 395}})

    def whole():
        job = run(request, base_lines["day-boat"])
        return study(job.fitted.assessed, job.mishaps.rigid)

    assert benchmark(whole).drag.total_N.size
