"""What the sheets Lashing, Skin and Coaming tell, by the patterns and the sticks themselves."""

import re

import numpy as np
import pytest

from sizer.drawing.record import Path
from sizer.export.plan_lashing import _one_hole
from sizer.scenes.skin_views import seam_drawing
from sizer.shop.screws import APART_M, END_M, along_m, staggered_m
from tests.conftest import BASE_NAMES


@pytest.fixture(scope="module", params=BASE_NAMES)
def job(request, middle_job):
    return middle_job(request.param)


def test_where_one_hole_alone_is_bored_is_named_by_stick_and_frame(bench):
    """Counted among the holes beside each stick off the centre line."""
    central = {one.stringer for frame in bench.frames for one in frame.section.notches
               if one.central}
    alone = [f"{name} at {frame.name}, both sides" for frame in bench.frames
             for name in dict.fromkeys(one.stringer for one in frame.section.notches)
             if name not in central and sum(
                 named == name and y > 0.0 for named, (y, _) in frame.holes) == 1
             and sum(other.stringer == name for other in frame.section.notches) == 1]
    pockets = {name for sticks, _, _ in bench.materials.lashing.frames if len(sticks) > 1
               for name in sticks}
    alone = [one for one in alone if one.split(" at ")[0] not in pockets]
    said = _one_hole(bench.frames)
    assert [one for one in alone if one not in said] == []
    assert said.count("both sides") == len(alone)


def test_a_seams_folds_lie_on_its_gunwales_face_as_told_and_as_drawn(job, bench):
    """From the words alone: what is cut beyond the line is folded and laps it, and the lower fold
    ends on the stick."""
    boat, sewn = job.fitted.assessed.boat, bench.materials.seams
    beyond = float(re.search(r"cut every edge to (\d+) mm", sewn.trimmed)[1])
    fold, past = map(float, re.search(
        r"fold (\d+) mm .*?: (\d+) mm .*?past the stitches", sewn.folded).groups())
    assert fold + past == beyond
    assert past < fold, "the stitches go through the folded part too"
    if sewn.lengths == 1:
        return
    under = float(re.search(r"gunwale, (\d+) mm .*?under its upper corner", sewn.where)[1])
    top, side = map(float, re.search(
        r"upper face, (\d+) mm .*?outer face, (\d+) mm", sewn.folded).groups())
    gunwale = next(one for one in boat.design.stringers if one.role == "gunwale")
    assert under - past > 0.0, "the hull's fold ends under the corner"
    assert under + past < 1000.0 * gunwale.width_m - 5.0, "the deck's ends on the stick"
    assert top < 1000.0 * gunwale.depth_m - 4.0, "the hull's tack is in wood"
    assert abs(side - under) >= 8.0, "no tack where stitches go"
    assert beyond > under + top, "the hull's cloth reaches its tack"
    drawn = seam_drawing(boat, bench.materials, 0.002)
    paths = [one for one in drawn.strokes if isinstance(one, Path)]
    _, sewn_on, *_ = [one.points_m for one in paths if one.pen == "block"]
    corner = sewn_on.max(axis=0)
    deck = next(one.points_m for one in paths if one.pen == "ink" and len(one.points_m) == 6)
    assert 1000.0 * (corner[1] - deck[-3, 1]) == pytest.approx(under + past)
    assert 1000.0 * np.hypot(*(deck[-1] - deck[-2])) == pytest.approx(fold)


def test_screws_in_a_row_keep_off_ends_and_those_too_near_stand_in_two_lines():
    """By hand: four in 250 mm at 31.25 and every 62.5 mm; three in 40 x 18 mm by turns at 6 and
    12 mm up, 10 mm from the ends, so that those on one line are 20 mm apart."""
    assert np.array(along_m(0.250, 4)) == pytest.approx(
        np.array([0.03125, 0.09375, 0.15625, 0.21875]))
    assert np.array(staggered_m(0.040, 0.018, 3)) == pytest.approx(
        np.array([(0.010, 0.006), (0.020, 0.012), (0.030, 0.006)]))
    assert np.array(staggered_m(0.100, 0.018, 3))[:, 1] == pytest.approx(0.009)
    assert along_m(0.025, 3)[0] >= END_M
    assert along_m(0.120, 4)[1] - along_m(0.120, 4)[0] >= APART_M
