"""Every edge of a region against the exact checks on both sides of it."""

import pytest

from sizer.crowd.finished import finished, persons_of, verdict
from sizer.crowd.pool import Stopped
from sizer.crowd.region import BODY_ENDS, extremes, likely_body, who_fits
from sizer.hull.scale import Scaling
from sizer.paddler.body import FIELDS, MEAN
from tests.crowd.conftest import WATER


@pytest.fixture(scope="module")
def region(day_boat):
    return who_fits(finished(day_boat, Scaling()), "day-boat", "coastal-day", WATER, 10.0)


def found(region, body, gear_kg):
    person, = persons_of([body], "day-boat", "coastal-day", WATER, gear_kg)
    return verdict(region.hull, person)


def test_inside_each_edge_passes_and_just_outside_its_check_fails(region):
    for plane, gear in ((region.statures, 10.0), (region.hip_widths, 10.0),
                        (region.statures_without_gear, 0.0)):
        assert len(plane.rows) > 4
        for row in plane.rows[::2]:
            for edge, sign in ((row.lightest, -1.0), (row.heaviest, 1.0)):
                inside = likely_body(plane.measure, row.at_m, edge.weight_kg)
                assert found(region, inside, gear).serves
                outside = likely_body(plane.measure, row.at_m, edge.weight_kg + sign * 0.2)
                if edge.ended_by == BODY_ENDS:
                    assert outside is None
                else:
                    assert edge.ended_by in found(region, outside, gear).fails


def test_no_row_beyond_the_tips_fits(region):
    for plane in (region.statures, region.hip_widths):
        assert getattr(plane.least, f"{plane.measure}_m") <= plane.rows[0].at_m
        assert getattr(plane.most, f"{plane.measure}_m") >= plane.rows[-1].at_m
        assert plane.most.ended_by != BODY_ENDS


def test_extremes_are_those_of_the_rows_and_less_gear_carries_no_less(region):
    lightest, heaviest = extremes(region.statures)
    assert lightest.weight_kg == min(row.lightest.weight_kg for row in region.statures.rows)
    assert heaviest.weight_kg == max(row.heaviest.weight_kg for row in region.statures.rows)
    assert heaviest.weight_kg > 70.0 > lightest.weight_kg


def test_a_boat_that_fits_nobody_has_no_rows(day_boat):
    flat = finished(day_boat, Scaling(depth=0.86, cockpit_length_m=0.30))
    region = who_fits(flat, "day-boat", "coastal-day", WATER, 10.0)
    assert (region.statures.rows, region.statures.least, region.statures.outline) == ((), None, ())
    assert extremes(region.statures) == (None, None)


def test_outline_goes_up_the_heavy_side_and_down_the_light_one(region):
    rows = region.statures.rows
    outline = region.statures.outline
    assert len(outline) == 2 * len(rows)
    assert outline[0] == (rows[0].heaviest.weight_kg, rows[0].at_m)
    assert outline[-1] == (rows[0].lightest.weight_kg, rows[0].at_m)


def test_likely_body_of_mean_weight_and_stature_has_mean_hips():
    hips = float(MEAN[FIELDS.index("hip_sitting")])
    body = likely_body("stature", float(MEAN[1]), float(MEAN[0]))
    assert body.hip_width_m == pytest.approx(hips, abs=1e-6)
    assert likely_body("stature", 1.30, 190.0) is None


def test_a_stop_is_heard(day_boat):
    with pytest.raises(Stopped):
        who_fits(finished(day_boat, Scaling()), "day-boat", "coastal-day", WATER, 10.0,
                 stop=lambda: True)
