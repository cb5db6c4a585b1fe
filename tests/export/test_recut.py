"""Frames drawn anew after a dry fit: of the plywood that the others were sawn from."""

from sizer.built.asked import asked_of, measured_of
from sizer.built.dry_fit import dry_fit
from sizer.built.points import points_of
from sizer.export.built_answer import patterns_as_built
from sizer.fit.request import read_request
from sizer.job import run
from sizer.shop.plywood import Plywood
from sizer.shop.settings import Shop

REQUEST = {"base": "day-boat", "use": "sheltered-day",
           "paddler": {"weight_kg": 78, "stature_mm": 1760, "hip_width_mm": 390}}


def test_a_frame_drawn_anew_is_as_thick_as_the_shops_plywood(base_lines):
    job = run(read_request(REQUEST), base_lines["day-boat"],
              shop=Shop(plywoods=(Plywood(0.012, 0.0115),)))
    asked = asked_of(points_of(job.fitted.assessed.boat), job.setting_up)
    high = {one.key: one.designed_m + 0.012 * (one.frame == "F5") for one in asked
            if one.what == "height"}
    found = dry_fit(job, measured_of(asked, high, job.setting_up.baseline_height_m), 0.002)
    assert "F5" in found.recut
    patterns = patterns_as_built(job, found)
    assert {round(one.thickness_m, 9) for one in patterns} == {0.0115}
    assert {round(one.thickness_m, 9) for one in job.patterns.frames} == {0.0115}
