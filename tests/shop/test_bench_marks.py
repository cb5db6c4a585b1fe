"""The rest of the strongback's marks."""

import io
import math
from dataclasses import replace

import numpy as np
import pytest
from pypdf import PdfReader

from sizer.drawing.record import Path, Text
from sizer.export.plan_work import told_figures
from sizer.export.setting_up_sheet import setting_up_pdf
from sizer.fit.request import read_request
from sizer.job import run
from sizer.scenes.risers import hung_side, riser_side
from sizer.shop.bench_marks import bench_marks
from sizer.shop.frames import frame_patterns
from sizer.shop.risers import KINDS, risers
from sizer.shop.seat import seat_built
from sizer.shop.stems import stem_patterns
from sizer.shop.sundries import bench_items
from sizer.shop.work import filled


@pytest.fixture(scope="module", params=("long-tourer", "teaching-boat"))
def job(request, base_lines):
    return run(read_request({"base": request.param, "use": "coastal-day", "paddler": {
        "weight_kg": 92, "stature_mm": 1800, "hip_width_mm": 405}}), base_lines[request.param])


@pytest.fixture(scope="module")
def bench(job):
    assessed = job.fitted.assessed
    boat = assessed.boat
    return bench_marks(boat, job.setting_up, seat_built(assessed), frame_patterns(boat),
                       stem_patterns(boat))


def test_every_frame_has_a_riser_on_its_mark_against_its_reference_face(job, bench):
    stations = job.setting_up.stations
    assert [riser.frame for riser in bench.risers] == [station.name for station in stations]
    for riser, station in zip(bench.risers, stations, strict=True):
        assert riser.strongback_m == station.strongback_m
        assert {riser.stands, station.plywood_lies} == {"forward", "aft"}
        assert riser.height_m > station.keel_height_m
        assert riser.gunwale_height_m == station.gunwale_height_m


def test_marks_are_one_tape_pull_in_order(job, bench):
    places = [mark.strongback_m for mark in bench.marks]
    assert places == sorted(places)
    for mark in bench.marks:
        assert mark.strongback_m == pytest.approx(
            mark.x_m - job.setting_up.strongback_start_x_m)
        assert mark.on_strongback == (0.0 <= mark.strongback_m <= bench.strongback_m)


def test_seat_footbrace_and_opening_are_the_fits(job, bench):
    assessed = job.fitted.assessed
    boat, marks = assessed.boat, {mark.name: mark for mark in bench.marks}
    up = job.setting_up.baseline_height_m
    near, far = assessed.space.footbrace_m
    farthest, at, nearest = (marks[f"footbrace, {name}"].x_m
                             for name in ("farthest", "this paddler", "nearest"))
    assert boat.seat_x_m - far <= farthest <= at <= nearest <= boat.seat_x_m - near
    assert at == pytest.approx(boat.seat_x_m - assessed.room.foot_rest_ahead_m, abs=0.012)
    assert marks["seat, back of the buttocks"].x_m == boat.seat_x_m
    sit = marks["seat, top under the sitting bones, 65 mm off the centre line"]
    assert (sit.x_m, sit.height_m) == pytest.approx((boat.seat_x_m - 0.1, boat.seat_z_m + up))
    band = marks["backband"].height_m - sit.height_m
    assert band == pytest.approx(boat.design.cockpit.backband_height_m)
    opening = boat.opening
    for name, x, z in (
            ("coaming in front at the deck line, rim's height",
             opening.front_x_m, opening.rim_z_m[0]),
            ("coaming behind at the deck line, rim's height",
             opening.back_x_m, opening.rim_z_m[1])):
        assert marks[name].x_m == x
        assert marks[name].height_m == pytest.approx(z + up)
        assert marks[name].on_strongback


def test_overhangs_and_strongback_make_the_boats_length(job, bench):
    assert sum(bench.overhangs_m) + bench.strongback_m == pytest.approx(
        job.fitted.assessed.boat.length_m)
    assert not next(mark for mark in bench.marks if mark.name == "bow").on_strongback


@pytest.mark.parametrize("kind", KINDS)
def test_screws_and_laths_are_bought_for_every_joint_of_a_riser(job, bench, kind):
    """Two a joint, as the sheet tells: a cheek on the foot; hangers and both ends of two legs."""
    assessed = job.fitted.assessed
    bench = replace(bench, risers=risers(job.setting_up.stations, frame_patterns(assessed.boat),
                                         job.setting_up.baseline_height_m, kind))
    hung = [one for one in bench.risers if one.kind == "hung"]
    cheeks = 2 * 2 * (len(bench.risers) - len(hung)) + 2 * (2 + 2 * 2) * len(hung)
    items = {one.what: one for one in bench_items(bench)}
    assert items["screw 4 x 50 (#8 x 2 in)"].quantity == math.ceil(1.15 * cheeks)
    assert items["screw 4 x 35 (#8 x 1 1/4 in)"].quantity == math.ceil(
        1.15 * 4 * (len(bench.risers) - len(hung)))
    told = " ".join(f"{one.what} {one.allowance}" for one in items.values())
    assert all((word in told) == bool(hung) for word in ("hanger", "legs"))
    assert hung or kind != "hung"


def test_a_hung_frame_is_told_the_height_of_its_bare_wood(middle_job, middle_bench):
    """By its outline as it is sawn; the ridge, let in, stands higher."""
    job, bench = middle_job("load-carrier"), middle_bench("load-carrier")
    up = job.setting_up.baseline_height_m
    hung = [(one, frame) for one, frame in zip(bench.marks.risers, bench.frames, strict=True)
            if one.kind == "hung"]
    assert hung
    for riser, frame in hung:
        sawn = max(z for _, z in frame.wood.exterior.coords) + up
        ridge = next(notch for notch in frame.section.notches if notch.role == "ridge")
        lies = max(z for _, z in ridge.stock_through(0.5).exterior.coords) + up
        told = [one.text for one in hung_side(riser, frame.thickness_m, 0.02).strokes
                if isinstance(one, Text)]
        assert f"plywood, its highest {sawn * 1000:.0f} high" in told
        assert sawn < lies - 0.003


@pytest.mark.parametrize("base", ["teaching-boat", "load-carrier", "surf-runner"])
def test_arms_in_a_long_tips_way_are_loose_and_off_before_it_comes(base, middle_job, middle_bench):
    """Each stick's line carried on straight from its landing to the stem's edge, which its tip is
    cut to: where it passes over the post under the arms' height, it is named."""
    job, bench = middle_job(base), middle_bench(base)
    text = " ".join(" ".join(page.extract_text() for page in PdfReader(io.BytesIO(
        setting_up_pdf(job, bench))).pages).split())
    for post, stem in zip(bench.marks.posts, bench.stems, strict=True):
        x = post.x_m if stem.end == "bow" else job.fitted.assessed.boat.length_m - post.x_m
        floor = float(np.interp(x - 0.045, *stem.profile_m.T))
        met = set()
        for one in stem.beside:
            way = (one.line_m[0] - one.line_m[1]) / np.linalg.norm(one.line_m[0] - one.line_m[1])
            for ahead in np.linspace(0.0, 0.4, 401):
                right, up = one.line_m[0] + ahead * way
                if up < np.interp(right, *stem.profile_m.T):
                    break  # past the stem's edge
                if x - 0.045 < right < x and up < floor + post.arms_m:
                    met.add(one.stringer)
        assert met <= set(post.tips)
        for name in post.tips:
            assert f"The {name}'s long tip comes in its arms' way: they are loose" in text
        assert f"{post.long_m * 1000.0:.1f} mm" in text
        assert post.long_m == pytest.approx(0.1 + floor + post.arms_m, abs=0.003)
    steps, loose = {one.key: one.do for one in filled(told_figures(job, bench))}, [
        post.stem for post in bench.marks.posts if post.tips]
    for key, told in (("chines", "loose arms off"), ("reassemble", "Loose arms on again")):
        assert (told in steps[key]) == bool(loose)
    assert all(name in steps["chines"] for name in loose)
    allowed = [one.allowance for one in bench.materials.items]
    screws = [one for one in allowed if "posts' loose arms" in one]
    assert len(screws) == 2 * bool(loose)
    assert all(f": {4 * len(loose)}" in one for one in screws)
    assert text.count("along the slot's floor, and screw each") == bool(loose)
    if base == "teaching-boat":
        assert bench.marks.posts[0].tips == ("chine",)


def test_risers_from_the_side_stand_as_the_boat_does_the_bow_on_the_left(middle_bench):
    """Boards forward of the mark are drawn left of it, boards aft of it right; the plywood on the
    other side."""
    bench = middle_bench("load-carrier")
    sides = set()
    for riser, frame in zip(bench.marks.risers, bench.frames, strict=True):
        view = hung_side if riser.kind == "hung" else riser_side
        shaded, = (one for one in view(riser, frame.thickness_m, 0.02).strokes
                   if isinstance(one, Path) and one.pen == "block")
        plywood_aft = min(frame.faces_x_m) == pytest.approx(frame.x_m)
        assert (shaded.points_m[:, 0].mean() > 0.0) == plywood_aft
        sides.add(plywood_aft)
    assert sides == {True, False}
