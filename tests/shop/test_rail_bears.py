"""What a footbrace's rail bears, against forces summed along it and a section cut up small."""

import re

import numpy as np
import pytest

from sizer.design.woods import WOODS
from sizer.export.plan_footbrace import _rails, _stop
from sizer.fit.request import read_request
from sizer.job import run
from sizer.shop.bench import bench_of
from sizer.shop.rail_bears import rail_bears_ratio, stout_enough_m

GRAVITY = 9.80665
WET_ASH_PA = 0.8 * 66.0e6  # of wet white ash, a fifth off as built


def stress_pa(thick, over, ahead, span, body_kg):
    """Greatest stress where a hole is, of a rail 18 mm high beside a cheek and a stop of 12 mm: the
    moments of every force left of a cut, taken on bits of the section."""
    push = body_kg * GRAVITY
    inside, outside, up = 0.5 * thick + 0.006, 0.5 * thick + 0.006, over
    side = push * (inside + outside) / span  # what both frames hold sideways, by their lever
    rise = push * up / span
    cuts = np.linspace(0.0, span, 2001)
    past = cuts >= ahead
    sideways = side * cuts - push * inside * past
    upward = rise * cuts - push * up * past
    out = (np.arange(400) + 0.5) / 400 * thick - 0.5 * thick
    high = (np.arange(900) + 0.5) / 900 * 0.018 - 0.009
    area = np.broadcast_to((np.abs(high) > 0.004)[None, :] * (thick / 400 * 0.018 / 900),
                           (400, 900))
    bent = ((area * out[:, None]**2).sum(), (area * high[None, :]**2).sum())
    pulled = push / area.sum()
    return max(pulled + 0.5 * thick / bent[0] * np.abs(sideways).max()
               + 0.009 / bent[1] * np.abs(upward).max(), 0.0)


@pytest.mark.parametrize("given", [(0.018, 0.000, 0.09, 0.44, 78.0),
                                   (0.018, 0.030, 0.32, 0.44, 78.0),
                                   (0.027, 0.020, 0.05, 0.48, 140.0)])
def test_rail_bears_ratio_is_that_of_forces_summed_along_a_section_cut_up_small(given):
    thick, over, ahead, span, body_kg = given
    found = rail_bears_ratio("white ash", (thick, 0.018), (0.012, 0.012), over, [ahead], span,
                             body_kg)
    assert found == pytest.approx(WET_ASH_PA / stress_pa(*given), rel=0.01)


def test_a_rail_bears_half_of_twice_the_push_and_the_least_of_its_places():
    given = ("white ash", (0.018, 0.018), (0.012, 0.012), 0.02)
    each = [rail_bears_ratio(*given, [at], 0.45, 80.0) for at in (0.1, 0.2, 0.3)]
    assert rail_bears_ratio(*given, [0.1, 0.2, 0.3], 0.45, 80.0) == min(each)
    assert rail_bears_ratio(*given, [0.1], 0.45, 160.0) == pytest.approx(0.5 * each[0])
    assert WOODS["okoume plywood"].wet_rupture_stress_mpa is None
    assert np.isnan(rail_bears_ratio("okoume plywood", *given[1:], [0.1], 0.45, 80.0))


def test_the_first_thickness_that_bears_is_taken_or_the_last():
    assert stout_enough_m((1, 2, 3), lambda one: 0.7 * one) == 2  # 1.26 wanted
    assert stout_enough_m((1, 2, 3), lambda one: 0.1 * one) == 3


@pytest.mark.parametrize(("base", "kg"), [("day-boat", 140.0), ("steady-boat", 140.0)])
def test_a_heavy_paddlers_rails_are_stouter_and_bear_and_every_paper_tells_them_so(
        base, kg, base_lines):
    job = run(read_request({"base": base, "use": base_lines[base].design.drawn_for.use, "paddler": {
        "weight_kg": kg, "stature_mm": 1900, "hip_width_mm": 480}}), base_lines[base])
    bench = bench_of(job)
    thick, bears = re.search(r"hard wood (\d+) x 18 mm.* alone, ([\d.]+) times",
                             f"{_rails(bench, job.setting_up)} {_stop(bench.foot_rails)}").groups()
    assert float(thick) >= 24.0
    assert float(bears) >= 1.26
    item = next(one for one in bench.materials.items if "rail for the footbrace" in one.what)
    assert [round(1000.0 * one) for one in item.size_m[:2]] == [float(thick), 18.0]
    assert item in bench.seat.items
