"""The board to climb on in the dry frame lies in a bay in which cheeks and ledges of risers stand:
no part of it comes to lie on one of them, or on the frames."""

import re
from functools import cache

import pytest
from shapely import box

from sizer.shop.climbing import climbing_board, climbing_items, climbing_words
from sizer.shop.risers import KINDS, risers
from sizer.units import MM_PER_M
from tests.conftest import BASE_NAMES

BOARD_HALF_M, CLEAT_M = 0.060, 0.030
SHOE_M = 0.320  # a long one
RISER_M = 0.021  # thickness of cheeks and ledges
LEDGE_HIGH_M, FOOT_HIGH_M, FOOT_M = 0.045, 0.045, 0.045


@pytest.fixture(scope="module", params=BASE_NAMES)
def job(request, middle_job):
    return middle_job(request.param)


@cache
def stood(job, kind):
    """The Risers of a job's frames."""
    up = job.setting_up
    return risers(up.stations, job.patterns.frames, up.baseline_height_m, kind)


def standing(job, kind):
    """(frame, plan, least height, most height) over the strongback of all that stands in the dry
    frame near the keel: plan in tape and half-breadth."""
    up, frames = job.setting_up, job.patterns.frames
    start, base = up.strongback_start_x_m, up.baseline_height_m
    for one in frames:
        floor = one.wood.intersection(box(-BOARD_HALF_M, -1.0, BOARD_HALF_M, 0.2)).bounds
        yield (one.name, box(min(one.faces_x_m) - start, -1.0, max(one.faces_x_m) - start, 1.0),
               floor[1] + base, floor[3] + base)
    for one in stood(job, kind):
        away = -1.0 if one.stands == "forward" else 1.0
        mark, span = one.strongback_m, (one.inner_m, one.outer_m)
        yield one.frame, _plan(mark, mark + away * RISER_M, span), one.low_m, one.height_m
        behind = mark + away * RISER_M
        yield (one.frame, _plan(behind, behind + away * FOOT_M, (0.0, 0.5 * one.foot_m)), 0.0,
               FOOT_HIGH_M)
        if one.ledge_m:  # what hangs from a bar is far overhead and out
            yield (one.frame, _plan(mark, mark - away * RISER_M, span),
                   min(one.ledge_m) - LEDGE_HIGH_M, max(one.ledge_m))


def _plan(near, far, span):
    return box(min(near, far), span[0], max(near, far), span[1])


@pytest.mark.parametrize("kind", KINDS)
def test_nothing_of_the_board_or_its_cleats_meets_frame_cheek_or_ledge(job, kind):
    board = climbing_board(job.fitted.assessed.boat, job.patterns.frames, stood(job, kind))
    ends = board.tape_m - 0.5 * board.long_m, board.tape_m + 0.5 * board.long_m
    keel = next(one for one in job.fitted.assessed.boat.design.stringers if one.role == "keel")
    under = board.high_m + keel.depth_m
    half = 0.5 * board.keel_m
    solids = {
        "board": (box(ends[0], 0.0, ends[1], BOARD_HALF_M), under, under + board.thick_m),
        "cleat": (box(ends[0], half, ends[1], half + CLEAT_M), under - board.cleat_m, under)}
    for name, (plan, low, high) in solids.items():
        for frame, there, least, most in standing(job, kind):
            apart = max(least - high, low - most)
            assert plan.distance(there) > 0.004 or apart > 0.004, (name, frame, kind)
    assert board.long_m >= 0.140, "room for the ball of a foot and its middle"
    shoe = box(board.tape_m - 0.5 * SHOE_M, 0.0, board.tape_m + 0.5 * SHOE_M, BOARD_HALF_M)
    for frame, there, least, most in standing(job, kind):
        if frame in (board.fore, board.aft) and shoe.intersects(there):
            assert under + board.thick_m > most + 0.009 or least > 0.200, (frame, kind)


@pytest.mark.parametrize("kind", KINDS)
def test_the_block_under_it_leaves_room_for_its_wedges_wherever_its_height_is_told(job, kind):
    """A foot stands over it. The keel's height there is a straight line between the stations', less
    what the bottom is rounded; words and list must tell one block, two wedges of 20 mm lower."""
    up = job.setting_up
    board = climbing_board(job.fitted.assessed.boat, job.patterns.frames, stood(job, kind))
    high, block = map(float, re.search(
        r"outer face is (\d+\.\d) mm .*?, a block (\d+\.\d) mm .*?, two wedges on it",
        climbing_words(board)).groups())
    fore, aft = (next(one for one in up.stations if one.name == name)
                 for name in (board.fore, board.aft))
    share = (board.tape_m - fore.strongback_m) / (aft.strongback_m - fore.strongback_m)
    straight = (1.0 - share) * fore.keel_height_m + share * aft.keel_height_m
    assert straight - 0.004 < high / MM_PER_M < straight + 0.0005
    assert high - block == pytest.approx(20.0, abs=0.101)
    listed, = (one for one in climbing_items(board) if one.what.startswith("block under the keel"))
    assert listed.size_m[0] * MM_PER_M == pytest.approx(block, abs=0.51)
    assert "two wedges on it" in listed.allowance


def test_the_load_carriers_board_goes_in_before_the_cheeks_of_its_after_frame(middle_job):
    """A builder measured 246 mm from plywood to cheeks at F5 and F6: a board of about 235 mm."""
    job = middle_job("load-carrier")
    up, frames = job.setting_up, job.patterns.frames
    board = climbing_board(job.fitted.assessed.boat, frames,
                           risers(up.stations, frames, up.baseline_height_m))
    marks = {one.name: one.strongback_m for one in up.stations}
    room = marks["F6"] - 0.021 - (marks["F5"] + 0.012)
    assert room - 0.025 < board.long_m < room - 0.009
    assert f"{board.long_m * MM_PER_M:.0f} mm" in climbing_words(board)
