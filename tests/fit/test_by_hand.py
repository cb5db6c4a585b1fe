"""How far a size goes by hand is how far a fit that holds it passes, and what ends it fails it."""

import pytest

from sizer.fit.by_hand import reach_by_hand
from sizer.fit.request import read_request
from sizer.job import run

pytestmark = pytest.mark.usefixtures("unsawn")
PADDLER = {"weight_kg": 52.0, "stature_mm": 1580.0, "hip_width_mm": 330.0}


def job_of(base_lines, paddler=PADDLER, **more):
    return run(read_request({"base": "small-cruiser", "use": "sheltered-day", "paddler": paddler,
                             **more}), base_lines["small-cruiser"])


@pytest.mark.parametrize(("sign", "ended_by"), [(1.0, "load"), (-1.0, "together")])
def test_the_last_beam_that_passes_held_and_what_the_next_one_misses(sign, ended_by, base_lines):
    job = job_of(base_lines)
    reach = reach_by_hand(job.fitted.assessed, False, "beam", sign)
    assert sign * (reach.last - reach.now) > 0.001
    assert [check.key for check in reach.ended_by] == [ended_by]
    for off_mm, status in ((-0.2, "pass"), (0.8, "caution")):
        held = job_of(base_lines, fixed={"beam_mm": 1000.0 * reach.last + sign * off_mm})
        assert held.fitted.status == status
    assert held.fitted.check(ended_by).status == "caution"


def test_a_boat_with_a_caution_reaches_nowhere_and_the_bases_limit_is_no_check(base_lines):
    held = job_of(base_lines, fixed={"beam_mm": 595.0})
    assert held.fitted.status == "caution"
    assert reach_by_hand(held.fitted.assessed, False, "beam", 1.0) is None
    job = job_of(base_lines)
    reach = reach_by_hand(job.fitted.assessed, False, "seat", 1.0)
    assert reach.last == pytest.approx(job.lines.design.cockpit.seat_slide_m[1])
    assert reach.ended_by == ()
