"""The cleats ahead of the footbrace's after frame: where they are glued, and their glue."""

import numpy as np
import pytest
from shapely.geometry import Point, Polygon

from sizer.shop.parts import boat_parts
from tests.conftest import BASE_NAMES

GLUE_KGPM2 = 0.40 * 1.5  # as the list tells: with half of it left in pots


@pytest.fixture(scope="module", params=BASE_NAMES)
def job(request, middle_job):
    return middle_job(request.param)


def test_a_cleat_lies_on_its_sticks_inner_face_with_all_its_end_on_plywood(bench):
    cleats = bench.cleats
    frame = next(one for one in bench.frames if one.name == cleats.frame)
    notch = next(one for one in frame.section.notches if one.stringer == cleats.stick)
    cleat, stick = Polygon(cleats.section_m), notch.stock()
    assert cleat.area == pytest.approx(cleats.size_m[0] * cleats.size_m[2])
    assert cleat.distance(stick) < 1e-6
    assert cleat.intersection(stick).area < 1e-9
    assert frame.wood.buffer(1e-6).covers(cleat), "its end bears on wood alone"
    low, high = ([np.linalg.norm(one - cleats.stick_m[row]) for one in cleats.section_m[:2]]
                 for row in (0, 1))
    tall = np.linalg.norm(cleats.stick_m[1] - cleats.stick_m[0])
    assert max(*low, *high) < tall + 1e-6, "all of it on the stick's face"
    assert cleats.off_edge_m == pytest.approx(low[0])


def test_no_lashing_hole_of_its_frame_is_under_a_cleat(bench):
    cleat = Polygon(bench.cleats.section_m)
    frame = next(one for one in bench.frames if one.name == bench.cleats.frame)
    assert all(cleat.distance(Point(spot)) > 0.0016 + 0.003 for _, spot in frame.holes)


def test_it_has_a_number_and_its_glue_is_bought(job, bench):
    part = next(one for one in boat_parts(job, bench) if one.name.startswith("cleat ahead of"))
    assert part.count == 2
    assert part.size_m == bench.cleats.size_m
    _, long, tall = bench.cleats.size_m
    epoxy = next(one for one in bench.materials.items if one.what.startswith("epoxy"))
    assert f"cleats {2e4 * long * tall:.0f} cm2" in epoxy.allowance
    assert epoxy.quantity > 2.0 * long * tall * GLUE_KGPM2
