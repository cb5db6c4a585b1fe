"""What a riser stands in the way of at a dry fit, and what its other face reads instead."""

from dataclasses import replace

import pytest

from sizer.built.asked import ACROSS, DIAGONAL, asked_of
from sizer.built.behind_risers import behind_risers, risers_of
from sizer.built.points import points_of
from sizer.hull.boat import sections_at
from sizer.shop.risers import KINDS

BASES = ("day-boat", "load-carrier", "long-tourer")


def asked_for(job):
    return asked_of(points_of(job.fitted.assessed.boat), job.setting_up)


@pytest.mark.parametrize("base", BASES)
@pytest.mark.parametrize("kind", KINDS)
def test_a_tape_across_is_free_where_no_cheek_is_at_its_height(base, kind, middle_job):
    """By heights alone: between both cheeks' ends, give or take 5 mm of tape."""
    job = middle_job(base)
    job = replace(job, shop=replace(job.shop, risers=kind))
    asked, made = asked_for(job), risers_of(job)
    behind, height = behind_risers(job, asked), {}
    for station in job.setting_up.stations:
        for name, (_, high) in station.points_m.items():
            height[station.name, name] = high
    met = 0
    for one in asked:
        riser = made.get(one.frame)
        if one.what == ACROSS and 0.5 * one.designed_m > riser.outer_m + 0.005:
            high = height[one.frame, one.stringer]
            inside = riser.low_m - 0.005 <= high <= riser.height_m + 0.005
            assert (one in behind) == inside, one
            met += inside
    assert met > 0
    assert {one.what for one in behind} <= {ACROSS, DIAGONAL}


@pytest.mark.parametrize("base", BASES)
def test_the_other_face_reads_what_the_hulls_own_section_has_there(base, middle_job):
    """The hull narrows to its ends, and the mark's face is the nearer one: most is taken off."""
    job = middle_job(base)
    boat = job.fitted.assessed.boat
    at = {station.name: station for station in job.setting_up.stations}
    column = {line.stringer.name: row for row, line in enumerate(boat.lines.between, start=1)}
    behind = behind_risers(job, asked_for(job))
    across = {one: more for one, more in behind.items() if one.what == ACROSS}
    for one, more in across.items():
        station = at[one.frame]
        order = slice(None, None, 1 if station.far_x_m > station.x_m else -1)
        near, far = sections_at(boat, [*sorted((station.x_m, station.far_x_m))]).y_m[order]
        row = column[one.stringer]
        assert one.designed_m == pytest.approx(2.0 * near[row], abs=1e-6)
        assert one.designed_m - more == pytest.approx(2.0 * far[row], abs=1e-6)
    assert sum(more < 0.0 for more in across.values()) > 0.8 * len(across)
