"""Every edge of a region against the exact checks on both sides of it."""

from dataclasses import replace

import numpy as np
import pytest

from sizer.crowd.finished import finished, persons_of, title_of, verdict
from sizer.crowd.likely import likely_body
from sizer.crowd.region import BODY_ENDS, extremes, who_fits
from sizer.crowd.served import OF_THE_PADDLER
from sizer.design.library import read_base, shipped_names
from sizer.errors import NotSolved
from sizer.fit.assess import assess_crowd
from sizer.fit.request import Trip, read_request
from sizer.fit.uses import USES
from sizer.hull.lines import fair_lines
from sizer.hull.scale import Scaling
from sizer.job import run
from sizer.paddler.body import FIELDS, MEAN, predict
from sizer.paddler.measures import read_paddler
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

    def floating_nobody(boat, person, count, weight):
        return replace(assess_crowd(boat, person, count, weight), floats=np.zeros(count, bool))

    few_rows(monkeypatch)
    monkeypatch.setattr("sizer.crowd.finished.assess_boat", failing)
    monkeypatch.setattr("sizer.crowd.finished.assess_crowd", floating_nobody)
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


WELL_BUILT = {"weight_kg": 60.0, "stature_mm": 1800.0, "hip_width_mm": 330.0}


@pytest.mark.parametrize("more", [
    {}, {"inseam_mm": 900.0, "shoe_length_mm": 310.0}, {"sitting_height_mm": 930.0},
    {"hip_width_mm": 300.0, "hip_measured": "standing"},
    {"hip_width_mm": None, "hip_measured": "predicted-man"}])
@pytest.mark.parametrize("measure", ["stature", "hip_width"])
def test_a_body_built_like_somebody_is_theirs_at_their_own_place(measure, more):
    own = read_paddler(WELL_BUILT | more)
    body = predict(own)
    at = {"stature": own.stature_m, "hip_width": body.hip_sitting.value_m}[measure]
    there = predict(likely_body(measure, at, own.weight_kg, own))
    for field in (*FIELDS[1:], "shoe_length"):
        expected = getattr(body, field).value_m
        assert getattr(there, field).value_m == pytest.approx(expected, abs=1e-9), field


def test_a_body_built_like_somebody_is_as_far_off_elsewhere():
    own = read_paddler(WELL_BUILT | {"foot_length_mm": 280.0})
    off = own.hip_width_m - likely_body("stature", own.stature_m, own.weight_kg).hip_width_m
    assert abs(off) > 0.005
    expected = likely_body("stature", 1.65, 75.0)
    found = likely_body("stature", 1.65, 75.0, own)
    assert found.hip_width_m - expected.hip_width_m == pytest.approx(off, abs=1e-9)
    foot = [predict(replace(one, foot_length_m=None)).foot_length.value_m for one in (own, found)]
    assert found.foot_length_m - foot[1] == pytest.approx(own.foot_length_m - foot[0], abs=1e-9)


@pytest.mark.parametrize("base", ["small-cruiser", "day-boat"])
def test_a_boat_fits_whom_it_is_fitted_to(base, monkeypatch):
    """A light paddler whose hips are narrower than expected: those who are not fail the opening."""
    few_rows(monkeypatch)
    job = run(read_request({"base": base, "use": "sheltered-day", "paddler": {
        "weight_kg": 52, "stature_mm": 1580, "hip_width_mm": 330}}), fair_lines(read_base(base)))
    assert job.fitted.status == "pass"
    own, trip = job.request.measured, job.request.trip
    region = who_fits(finished(job.lines, job.fitted.assessed.boat.scaling), trip, like=own)
    assert region.own.status == "pass"
    assert not verdict(region.hull, *persons_of(
        [likely_body("stature", own.stature_m, own.weight_kg)], trip)).serves
    for plane, at in ((region.statures, own.stature_m), (region.hip_widths, own.hip_width_m),
                      (region.clean_statures, own.stature_m),
                      (region.clean_hip_widths, own.hip_width_m)):
        row = next(row for row in plane.rows if row.at_m == at)
        assert row.lightest.weight_kg < own.weight_kg < row.heaviest.weight_kg
    lightest, heaviest = extremes(region.statures)
    assert lightest.weight_kg < own.weight_kg < heaviest.weight_kg
