"""The fitted boat as a design file and as offsets, read back and compared."""

import numpy as np
import pytest

from sizer.design.offsets import with_offsets
from sizer.design.read import read_design
from sizer.export.fitted_design import fitted_design, fitted_design_toml, fitted_offsets_csv
from sizer.fit.request import read_request
from sizer.hull.boat import scaled_boat
from sizer.hull.lines import fair_lines
from sizer.hull.scale import Scaling
from sizer.hull.sections import half_section_at
from sizer.hydro.particulars import float_upright
from sizer.job import run

PEOPLE = ((51, 1525, 348), (111, 1870, 431))


@pytest.fixture(scope="module", params=[(base, person) for base in (
    "day-boat", "long-tourer", "steady-boat", "teaching-boat") for person in PEOPLE],
    ids=lambda pair: f"{pair[0]}-{pair[1][0]}kg")
def job(request, base_lines):
    base, (weight, stature, hips) = request.param
    return run(read_request({"base": base, "use": "coastal-day", "paddler": {
        "weight_kg": weight, "stature_mm": stature, "hip_width_mm": hips}}), base_lines[base])


def test_design_file_reads_back_as_the_same_hull(job):
    text = fitted_design_toml(job)
    assert text.startswith(f"# {job.imprint.line}\n# CAUTION: ")
    boat = job.fitted.assessed.boat
    again = scaled_boat(fair_lines(read_design(text)), Scaling())
    assert again.length_m == pytest.approx(boat.length_m, abs=1e-6)
    x = np.linspace(1e-3, boat.length_m - 1e-3, 301)
    hull = slice(0, boat.sections.sheer + 1)
    for ours, theirs in zip(half_section_at(boat.sections, x), half_section_at(again.sections, x),
                            strict=True):
        assert np.abs(ours - theirs)[:, hull].max() < 1.5e-3
    load, water = job.fitted.assessed.loading.load, job.person.water
    assert float_upright(again.sections, load, water).draft_m == pytest.approx(
        job.fitted.assessed.particulars.draft_m, abs=3e-4)
    assert again.opening.rim_z_m == pytest.approx(boat.opening.rim_z_m, abs=1e-5)


@pytest.mark.parametrize(("notation", "near_m"), [("mm", 1e-5), ("feet", 0.0254 / 32 + 1e-6)])
def test_offsets_read_back_into_the_same_design(job, notation, near_m):
    design = fitted_design(job)
    text = fitted_offsets_csv(job, notation)
    assert "# CAUTION: " in text
    for ours, theirs in zip(design.frames, with_offsets(design, text).frames, strict=True):
        assert theirs.x_m == pytest.approx(ours.x_m, abs=near_m)
        for name, point in ours.points_m.items():
            assert theirs.points_m[name] == pytest.approx(point, abs=near_m)
