"""Every edge of a region against the exact checks on both sides of it."""

from dataclasses import replace

import pytest

from sizer.crowd.edges import BODY_ENDS
from sizer.crowd.finished import finished, persons_of, title_of, verdict
from sizer.crowd.likely import likely_body
from sizer.crowd.pool import Stopped
from sizer.crowd.region import extremes, who_fits
from sizer.crowd.served import OF_THE_PADDLER
from sizer.design.library import read_base, shipped_names
from sizer.errors import NotSolved
from sizer.fit.request import Trip
from sizer.fit.uses import USES
from sizer.hull.lines import fair_lines
from sizer.hull.scale import Scaling
from sizer.paddler.body import FIELDS, MEAN
from tests.crowd.conftest import TRIP, WATER, few_rows


@pytest.fixture(scope="module")
def region(day_boat):
    return who_fits(finished(day_boat, Scaling()), TRIP)


def found(region, body, gear_kg):
    person, = persons_of([body], replace(TRIP, gear_kg=gear_kg))
    return verdict(region.hull, person)


def test_inside_each_edge_passes_and_just_outside_its_check_fails(region):
    for plane, gear, clean in (
            (region.statures, 10.0, False), (region.hip_widths, 10.0, False),
            (region.statures_without_gear, 0.0, False), (region.clean_statures, 10.0, True),
            (region.clean_hip_widths, 10.0, True)):
        assert len(plane.rows) > 1
        for row in plane.rows[::2]:
            for edge, sign in ((row.lightest, -1.0), (row.heaviest, 1.0)):
                inside = found(region, likely_body(plane.measure, row.at_m, edge.weight_kg), gear)
                assert inside.clean if clean else inside.serves
                outside = likely_body(plane.measure, row.at_m, edge.weight_kg + sign * 0.2)
                if edge.ended_by == BODY_ENDS:
                    assert outside is None
                else:
                    there = found(region, outside, gear)
                    assert edge.key in (there.faults if clean else there.fails)
                    assert edge.ended_by == title_of(edge.key)


def test_every_measure_has_two_ends_and_a_check_names_each(region):
    """A finished boat is too large for some as well as too small for others."""
    statures, hips = region.clean_statures, region.clean_hip_widths
    ends = {"weight": extremes(statures), "stature": (statures.least, statures.most),
            "hip width": (hips.least, hips.most)}
    for low, high in ends.values():
        assert low.key in OF_THE_PADDLER
        assert high.key in OF_THE_PADDLER
    assert hips.least.key == "hips"  # too loose
    assert extremes(statures)[0].key in ("load", "freeboard", "gm", "hips", "lines")
    assert extremes(region.statures)[0].key == "load"  # too much boat, even with padding
    assert extremes(region.statures)[1].key in OF_THE_PADDLER


def test_who_fits_without_caution_lies_within_who_fits(region):
    for clean, served in ((region.clean_statures, region.statures),
                          (region.clean_hip_widths, region.hip_widths)):
        wide = {row.at_m: row for row in served.rows}
        for row in clean.rows:
            assert row.lightest.weight_kg >= wide[row.at_m].lightest.weight_kg - 0.05
            assert row.heaviest.weight_kg <= wide[row.at_m].heaviest.weight_kg + 0.05


@pytest.mark.parametrize("base", shipped_names())
def test_no_boat_fits_a_very_light_and_a_very_heavy_paddler_without_caution(base):
    lines = fair_lines(read_base(base))
    use = lines.design.drawn_for.use
    for scaling in (Scaling(), Scaling(length=1.03, beam=1.03, depth=1.02)):
        hull = finished(lines, scaling)
        clean = [verdict(hull, person).clean for person in persons_of(
            [likely_body("stature", 1.58, 46.0), likely_body("stature", 1.86, 112.0)],
            Trip(base, use, WATER, USES[use].gear_kg))]
        assert not all(clean)


def test_bodies_that_cannot_be_worked_out_are_counted(day_boat, monkeypatch):
    def failing(*_given, **_more):
        raise NotSolved("no rest")

    few_rows(monkeypatch)
    monkeypatch.setattr("sizer.crowd.finished.assess_boat", failing)
    region = who_fits(finished(day_boat, Scaling()), TRIP)
    assert region.unknown > 0
    assert not region.statures.rows


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


def test_a_boat_that_fits_nobody_has_no_rows(day_boat, monkeypatch):
    few_rows(monkeypatch)
    flat = finished(day_boat, Scaling(depth=0.86, cockpit_length_m=0.30))
    region = who_fits(flat, TRIP)
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
        who_fits(finished(day_boat, Scaling()), TRIP,
                 stop=lambda: True)
