"""Where the thigh braces' boards and the coaming's wall are bored."""

from itertools import pairwise
from math import hypot

import numpy as np
import pytest
from shapely.geometry import LineString, Point, box

from sizer.shop.lashing import EDGE_M, HOLE_M
from sizer.shop.thigh import wall_holes_words

BASES = ("day-boat", "long-tourer", "steady-boat", "teaching-boat")


@pytest.fixture(scope="module", params=BASES)
def job(request, middle_job):
    return middle_job(request.param)


def test_a_board_is_lashed_on_three_sides_of_its_middle_through_holes_with_wood_round_them(bench):
    board = box(0.0, 0.0, 0.100, bench.thigh.wide_m)
    holes = [Point(spot) for spot in bench.thigh.holes_m]
    for hole in holes:
        assert board.contains(hole)
        assert board.exterior.distance(hole) >= EDGE_M + 0.005 + 0.5 * HOLE_M  # beside a nick too
    wall = Point(np.mean(bench.thigh.holes_m[:2], axis=0))
    lashed = LineString([wall, *holes[2:], wall])
    assert lashed.envelope.area > 0.3 * board.area
    rows = [hypot(a.x - b.x, a.y - b.y) for a, b in pairwise(holes)]
    assert min(rows) >= 0.020 - 1e-9
    cord = next(one for one in bench.materials.items if one.what == "waxed cord")
    assert "6 lashings of thigh braces" in cord.allowance  # three a board, two boards


def test_the_walls_holes_lie_at_the_board_and_clear_of_the_notches(job, bench):
    """By the tape round the wall's inside, which a hand lays from the front's centre line."""
    boat, rim, one = job.fitted.assessed.boat, bench.materials.coaming, bench.thigh
    said = wall_holes_words(one, rim, boat.opening)
    assert "8 mm under the deck line, 20 mm apart" in said
    round_m = float(said.split("between them ")[1].split(" mm")[0]) / 1000.0
    at = LineString(rim.outline_m).interpolate(round_m)
    x = boat.opening.front_x_m + at.x * np.cos(np.radians(rim.slope_deg))
    assert x == pytest.approx(one.wall_middle_m, abs=0.001)
    assert one.fore_x_m < x - 0.010 < x + 0.010 < one.aft_x_m
    for notch in rim.notches:  # whose own holes are 10 mm beside its ends
        assert abs(round_m - notch.round_m) - 0.5 * notch.wide_m > 0.010 + 0.010
