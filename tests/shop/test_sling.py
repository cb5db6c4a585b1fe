"""A sling of webbing: what it pulls on its frames, and that no boat passes with it."""

import re

import pytest
from shapely.geometry import LineString

from sizer.design.read import read_design
from sizer.fit.assess import assess
from sizer.fit.person import drawn_person
from sizer.hull.boat import SECTION_COUNT
from sizer.hull.lines import fair_lines
from sizer.hull.scale import Scaling
from sizer.shop.frames import frame_patterns
from sizer.shop.seat import seat_built, seat_checks

BETWEEN = {"long-tourer": ("F6", "F7"), "surf-runner": ("F5", "F6")}


@pytest.fixture(scope="module", params=BETWEEN)
def slung(request, base_texts):
    """A base as drawn for whom it was drawn for, its panel changed to a sling."""
    text, count = re.subn(
        r'(?s)(\[seat\]\n)kind = "panel"\nthickness_mm = [68](.*?)stands_on = [^\n]*',
        r'\1kind = "sling"\nthickness_mm = 3\2stands_on = '
        + str(list(BETWEEN[request.param])).replace("'", '"'), base_texts[request.param])
    assert count == 1
    lines = fair_lines(read_design(text, request.param))
    return assess(lines, Scaling(), drawn_person(lines.design), SECTION_COUNT)


def test_straps_in_balance_under_the_paddler_pull_as_told(slung):
    """Each leg's pull lengthwise is one and the same, their lifts add up to eight
    tenths of the weight. Floors by rays through the sawn wood 65 mm off the centre line."""
    boat, built = slung.boat, seat_built(slung)
    ray = LineString([(0.065, -1.0), (0.065, 1.0)])
    (fore_x, fore_z), (aft_x, aft_z) = (
        (one.x_m, one.opening.intersection(ray).bounds[1])
        for one in frame_patterns(boat) if one.name in built.stands_on)
    under = built.top_m - 0.003
    lifts = ((fore_z - under) / (built.sit_x_m - fore_x), (aft_z - under) / (aft_x - built.sit_x_m))
    weight = 0.8 * slung.person.body.weight_kg * 9.80665
    assert built.pull_n == pytest.approx(weight / sum(lifts), rel=0.02)
    assert built.pull_n > 5.0 * slung.person.body.weight_kg * 9.80665


def test_no_boat_passes_with_a_sling_and_nothing_is_told_to_fix_it_with(slung):
    built = seat_built(slung)
    failed = [one for one in seat_checks(built, frame_patterns(slung.boat), slung.boat)
              if one.status == "fail"]
    assert [(one.frame, one.unit) for one in failed] == [(built.stands_on[0], "N")]
    assert failed[0].value == pytest.approx(built.pull_n)
    assert built.says[0].startswith("NOT TO BE BUILT")
    assert not [one for one in built.items if "cleat" in one.what or "buckle" in one.what]
