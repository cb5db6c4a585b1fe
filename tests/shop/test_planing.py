"""What is planed off the sticks: the face, the edges and the depths that the papers tell."""

import re

import numpy as np
import pytest
from shapely.geometry import LineString, Point

from sizer.export.plan_work import told_figures
from sizer.shop.planing import planed_words
from sizer.shop.work import filled
from tests.conftest import BASE_NAMES

TENTH_MM = 0.051
PLANED = re.compile(r"(.+?) (\d+\.\d|lower \d+\.\d, upper \d+\.\d)")
TWO = "the outer face to two slopes, nothing along its middle, mm down both sides"
ONE = ("a gunwale's upper face, never its outer one, to one slope, nothing at its outer corner, mm "
       "down its inner side")


@pytest.fixture(scope="module", params=BASE_NAMES)
def base(request):
    return request.param


@pytest.fixture(scope="module")
def bench(base, middle_bench):
    return middle_bench(base)


def told_of(pattern):
    """{stick: figures in mm} of what a pattern's words tell."""
    return {name: [float(one) for one in re.findall(r"\d+\.\d", figures)] for name, figures in (
        PLANED.fullmatch(said).groups() for said in planed_words(pattern))}


def in_its_axes(notch, way):
    """A way of the skin, along a stick's face and into the boat."""
    return float(np.dot(way, notch.along)), float(np.dot(way, notch.inward))


def test_a_gunwale_stands_out_at_its_upper_faces_inner_corner_alone(bench):
    """Its outer face lies in the skin of the side. Its inner side is its depth from the outer one
    and stands out by what the deck falls over that depth, as steep as it is to the upper face. The
    frame cuts the stick askew: the depth on the stick itself is the same share of it."""
    for pattern, drawing in zip(bench.frames, bench.drawings, strict=False):
        section = pattern.section
        notch = next(one for one in section.notches if one.role == "gunwale")
        skin = LineString(section.skin_m)
        for across in (notch.low_m, notch.high_m):
            assert skin.distance(Point(notch.at(across, 0.0))) < 1e-6
        row = section.sheer
        along, inward = in_its_axes(notch, section.skin_m[row + 1] - section.skin_m[row])
        cut = notch.depth_m * (notch.lean - along / inward)
        proud = cut * notch.size_m[0] / (notch.high_m - notch.low_m)
        told = told_of(pattern).get(notch.stringer)
        if told is None:
            assert proud < 0.0005 + 1e-6
            continue
        assert told == pytest.approx([1000.0 * proud], abs=TENTH_MM)
        assert ONE in " ".join(drawing.notes)


def test_any_other_stick_stands_out_at_its_edges_and_nowhere_along_its_middle(bench):
    """Down each side as far as the skin falls from the middle of the face to that edge: the edge's
    place times the skin's slope to the face. Where a stick lies near its host the skin there turns
    once for both: left out."""
    ridges = 0
    for pattern, drawing in zip(bench.frames, bench.drawings, strict=False):
        section, told = pattern.section, told_of(pattern)
        points = [(-section.skin_m[1, 0], section.skin_m[1, 1]), *section.skin_m,
                  (-section.skin_m[-2, 0], section.skin_m[-2, 1])]
        for row, notch in enumerate(section.notches):
            if notch.role == "gunwale" or notch.stringer not in told:
                continue
            assert LineString(section.skin_m).distance(Point(notch.at(0.0, 0.0))) < 1e-9
            assert TWO in " ".join(drawing.notes)
            before, here, after = np.array(points[row:row + 3])
            near = min(np.hypot(*(here - before)), np.hypot(*(after - here)))
            if near < 0.030 or notch.stringer in pattern.blending:
                continue
            wanted = []
            ways = sorted(in_its_axes(notch, other - here) for other in (before, after))
            for edge, (along, inward) in zip((notch.low_m, notch.high_m), ways, strict=True):
                steep = inward / along
                cut = steep * edge / (1.0 - steep * notch.lean)
                wanted.append(1000.0 * cut * notch.size_m[1] / notch.depth_m)
            found = told[notch.stringer]
            assert (found * 2)[:2] == pytest.approx(wanted, abs=TENTH_MM), notch.stringer
            ridges += notch.role == "ridge"
    assert ridges


def test_the_step_tells_the_faces_of_the_sticks_it_planes(base, bench, middle_job):
    step = next(one for one in filled(told_figures(middle_job(base), bench)) if one.key == "fair")
    names = {PLANED.fullmatch(said)[1] for one in bench.frames for said in planed_words(one)}
    roles = {notch.role for one in bench.frames for notch in one.section.notches
             if notch.stringer in names}
    assert (ONE in step.do) == ("gunwale" in roles)
    assert (TWO in step.do) == bool(roles - {"gunwale"})
    assert ("on the stick's sides first, square down from the face" in step.do) == bool(names)
