"""Where the thigh braces' boards and the coaming's wall are bored, and what bears their push."""

from itertools import pairwise
from math import hypot

import numpy as np
import pytest
from shapely.geometry import LineString, Point, Polygon
from shapely.ops import unary_union

from sizer.hull.boat import sections_at
from sizer.shop.coaming import RIM_HOLES
from sizer.shop.lashing import EDGE_M, HOLE_M
from sizer.shop.thigh import wall_holes_words
from tests.conftest import BASE_NAMES

BASES = [name for name in BASE_NAMES if name != "small-cruiser"]  # where they find no place


@pytest.fixture(scope="module", params=BASES)
def job(request, middle_job):
    return middle_job(request.param)


def test_a_board_is_lashed_on_three_sides_of_its_middle_through_holes_with_wood_round_them(bench):
    board, post = Polygon(bench.thigh.flat_m), Polygon(bench.thigh.post_flat_m)
    holes = [Point(spot) for spot in bench.thigh.holes_m]
    for hole in holes:
        assert board.contains(hole)
        assert board.exterior.distance(hole) >= EDGE_M + 0.005 + 0.5 * HOLE_M  # beside a nick too
        assert post.distance(hole) > 0.003
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
    assert "10 mm beside both ends of every notch" in RIM_HOLES
    for notch in rim.notches:
        for own in (notch.round_m - 0.5 * notch.wide_m - 0.010,
                    notch.round_m + 0.5 * notch.wide_m + 0.010):
            for bored in (round_m - 0.010, round_m + 0.010):
                assert abs(own - bored) > 0.0195, (notch.over, "to the millimetre of the words")
            assert abs(own - round_m) - 0.5 * one.post_long_m > 0.005, "the post bars the cord"


def test_a_board_leaves_the_backbands_tie_its_place_on_the_gunwale(job, bench):
    """A round turn and two hitches of 4 mm cord are five turns side by side, beside four strands of
    1.2 mm round the frame's own lashing."""
    band, one = bench.seat.backband, bench.thigh
    face = next(x.faces_x_m[0] for x in job.setting_up.stations if x.name == band.frame)
    assert one.aft_x_m < face - (5 * 0.004 + 0.0048) or one.fore_x_m > face


def test_wood_stands_on_wood_from_the_board_to_the_coamings_wall(job, bench):
    """The wall in plan from its outline, its height from the rim's plane; the post's
    height reaches from the one to the other."""
    boat, rim, one = job.fitted.assessed.boat, bench.materials.coaming, bench.thigh
    opening = Polygon(rim.outline_m * (np.cos(np.radians(rim.slope_deg)), 1.0) + (
        boat.opening.front_x_m, 0.0))
    wall = opening.buffer(0.009).difference(opening)
    board, post = (Polygon(in_plan(one, flat)) for flat in (one.flat_m, one.post_flat_m))
    assert board.buffer(1e-6).contains(post)
    assert board.intersection(opening).area < 2e-5  # of the outline's own corners
    borne = post.intersection(wall)
    assert borne.length > 2.0 * 0.035
    assert borne.area > 0.5 * 0.009 * 0.040
    slope = np.tan(np.radians(rim.deck_slope_deg))
    for (x, half), high in zip(in_plan(one, one.flat_m[1:3]), one.post_m, strict=True):
        low = boat.opening.deck_z_m[0] - slope * (x - boat.opening.front_x_m) - 0.020
        rise = np.array([one.inner_m - one.outer_m, one.inner_z_m - one.outer_z_m])
        thick = 0.012 * np.hypot(*rise) / abs(rise[0])
        top = one.inner_z_m + (half - one.inner_m) * rise[1] / rise[0] + thick
        assert low - top == pytest.approx(high, abs=1e-4)
        assert high > 0.0115


def test_no_push_on_a_pad_tips_its_board(job, bench):
    """What holds it down: where the wall stands on the post, from the wall's outline, and the
    gunwale's two lashings, all in plan. A push comes up midway of the pad or midway of what lies of
    it over the thigh; a pad as long as its board would tip it or come near."""
    boat, rim, one = job.fitted.assessed.boat, bench.materials.coaming, bench.thigh
    opening = Polygon(rim.outline_m * (np.cos(np.radians(rim.slope_deg)), 1.0) + (
        boat.opening.front_x_m, 0.0))
    post = Polygon(in_plan(one, one.post_flat_m))
    borne = post.intersection(opening.buffer(0.009).difference(opening))
    holds = unary_union([borne, *map(Point, in_plan(one, one.holes_m[2:]))]).convex_hull
    _, long, wide = one.foam_m
    half = 0.5 * wide * (one.outer_m - one.inner_m) / one.wide_m
    for out in (half, 0.5 * one.overlap_m):
        push = Point(one.aft_x_m - 0.5 * long, one.inner_m + out)
        assert holds.contains(push)
        assert holds.exterior.distance(push) > 0.0045  # 5 mm, less what the plan foreshortens
    middle = Point(0.5 * (one.fore_x_m + one.aft_x_m), one.inner_m + half)
    assert not holds.buffer(-0.0045).contains(middle)


def in_plan(one, flat_m):
    """x from the bow and half-breadth of places on a board."""
    share = (one.outer_m - one.inner_m) / one.wide_m
    return np.asarray(flat_m) * (1.0, share) + (one.fore_x_m, one.inner_m)


def test_no_hand_goes_in_over_a_board(job, bench):
    """By the deck's cloth from coaming to gunwale and the wall's edge, at 2 mm steps."""
    boat, one = job.fitted.assessed.boat, bench.thigh
    opening = boat.opening
    rise = np.array([one.outer_m - one.inner_m, one.outer_z_m - one.inner_z_m])
    top = one.inner_z_m + 0.012 * np.hypot(*rise) / rise[0]
    most = 0.0
    for x in np.arange(one.fore_x_m, one.aft_x_m - 0.040, 0.002):
        deck = float(np.interp(x, (opening.front_x_m, opening.back_x_m), opening.deck_z_m))
        half = float(opening.half_width_m(np.array([x]))[0])
        skin = sections_at(boat, np.array([x]))
        cloth = LineString([(half, deck), (skin.y_m[0, skin.sheer], skin.z_m[0, skin.sheer])])
        edge = Point(one.inner_m, top)
        assert cloth.distance(edge) > 0.003  # no skin touches
        over = cloth.intersection(LineString([edge, (one.inner_m, 1.0)])).y - top
        wall = edge.distance(LineString([(half, deck - 0.020), (half + 0.009, deck - 0.020)]))
        most = max(most, min(over, wall))
    assert most == pytest.approx(one.slot_m, abs=1e-3)
    assert most <= 0.0255
