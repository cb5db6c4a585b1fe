"""What stands on the strongback's beam: no two things share any of its length."""

from itertools import pairwise

import pytest

from sizer.fit.request import read_request
from sizer.job import run
from sizer.shop.risers import KINDS, risers
from sizer.shop.stem_posts import stem_posts
from tests.conftest import BASE_NAMES

PEOPLE = ({"weight_kg": 71, "stature_mm": 1760, "hip_width_mm": 365},
          {"weight_kg": 51.3, "stature_mm": 1525, "hip_width_mm": 348},
          {"weight_kg": 98, "stature_mm": 1560, "hip_width_mm": 450},
          {"weight_kg": 110.7, "stature_mm": 1870, "hip_width_mm": 431})
BOARD_M, FOOT_M, POST_M = 0.021, 0.045, 0.045


@pytest.fixture(scope="module", params=BASE_NAMES)
def made(request, base_lines):
    """(Job, its StemPosts) of a base, for the heaviest of the people and one of the others."""
    *others, heaviest = PEOPLE
    turn = others[BASE_NAMES.index(request.param) % len(others)]
    jobs = [run(read_request({"base": request.param, "use": "sheltered-day", "paddler": one}),
                base_lines[request.param]) for one in (turn, heaviest)]
    return [(job, stem_posts(job.fitted.assessed.boat, job.setting_up, job.patterns.stems))
            for job in jobs]


def lengths_of_beam(up, made, posts):
    """(least, most, what) on the tape, as the setting-up sheet tells it: a riser's boards on the
    mark, on the side away from the plywood, its foot behind them; a post's inner face on its mark,
    its foot on its outer face, or on the inner one where the beam ends before that."""
    found = []
    for station in up.stations:
        way = -1.0 if station.plywood_lies == "aft" else 1.0
        found.append((station.strongback_m, way * (BOARD_M + FOOT_M), station.name))
    for post, way in zip(posts, (-1.0, 1.0), strict=True):
        far = post.strongback_m + way * (POST_M + FOOT_M)
        mark = post.strongback_m if 0.0 <= far <= up.strongback_length_m else (
            post.strongback_m - way * FOOT_M)
        found.append((mark, way * (POST_M + FOOT_M), post.stem))
    assert len(found) == len(made) + 2
    return sorted((min(mark, mark + long), max(mark, mark + long), name)
                  for mark, long, name in found)


@pytest.mark.parametrize("kind", KINDS)
def test_no_two_things_on_the_beam_share_any_of_its_length(made, kind):
    for job, posts in made:
        up = job.setting_up
        stood = risers(up.stations, job.patterns.frames, up.baseline_height_m, kind)
        lying = lengths_of_beam(up, stood, posts)
        for (_, most, one), (least, _, other) in pairwise(lying):
            assert least - most > 0.0, (one, other, 1000 * (most - least))
        assert lying[0][0] >= 0.0
        assert lying[-1][1] <= up.strongback_length_m
        told = sorted([*((*one.boards_tape_m, one.frame) for one in stood),
                       *((*one.foot_tape_m, one.frame) for one in stood),
                       *((*one.tape_m, one.stem) for one in posts),
                       *((*one.foot_tape_m, one.stem) for one in posts)])
        for row, (least, most, name) in enumerate(lying):
            (near, middle, one), (again, far, other) = told[2 * row:2 * row + 2]
            assert (one, other) == (name, name)
            assert (near, middle, far) == pytest.approx((least, again, most), abs=1e-9)
