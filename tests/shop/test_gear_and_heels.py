"""Loops for the gear, the mat under the heels, what is left to move the footbrace."""

import re
from dataclasses import replace

import numpy as np
import pytest
from shapely.geometry import Point
from shapely.ops import unary_union

from sizer.drawing.record import Circle, Text
from sizer.export.plan_work import told_figures
from sizer.hydro.ends import end_zones
from sizer.paddler.legs import FEET_APART_M
from sizer.scenes.bag_views import gear_view, mat_view
from sizer.shop.boards import sticks_at
from sizer.shop.foot_rails import RAIL
from sizer.shop.heel_mat import mat_words
from sizer.shop.lashing import EDGE_M, HOLE_M
from sizer.shop.relief import relieved
from sizer.shop.work import filled
from sizer.shop.work_room import brace_left_words


@pytest.fixture(scope="module", params=["day-boat", "load-carrier", "long-tourer",
                                        "surf-runner"])
def job(request, middle_job):
    return middle_job(request.param)


def test_gear_is_tied_to_one_chine_between_the_frames_beside_it(job, bench):
    stations = {one.name: one for one in job.setting_up.stations}
    for tie in bench.gear_ties:
        fore, aft = (stations[name] for name in tie.frames)
        assert not any(fore.x_m < one.x_m < aft.x_m for one in stations.values())
        halves = [one.points_m[tie.stick][0] for one in (fore, aft)]
        across = np.hypot(aft.x_m - fore.x_m, sum(halves))  # from port before to starboard behind
        assert tie.cord_m > 2.0 * across + 2.0 * sum(halves)
        roles = {one.name: one.role for one in job.fitted.assessed.boat.design.stringers}
        assert roles[tie.stick] == "chine"


def test_every_pack_lies_where_it_is_told_and_they_balance_as_their_heap(job, bench):
    """Between the plywood of its two frames, 300 mm or more of it, its middle where the figures
    have it; by moments about the bow and about the keel."""
    stations = {one.name: one for one in job.setting_up.stations}
    heaps = job.fitted.assessed.loading.gear
    assert heaps
    for row, heap in enumerate(heaps):
        packs = [one for one in bench.gear_ties if one.heap == row]
        assert sum(one.mass_kg for one in packs) == pytest.approx(heap.mass_kg)
        assert sum(one.mass_kg * one.x_m for one in packs) == pytest.approx(
            heap.mass_kg * heap.lcg_m)
        for one in packs:
            assert one.mass_kg > 0.0
            fore, aft = (stations[name] for name in one.frames)
            assert one.long_m >= 0.3
            assert fore.faces_x_m[1] - 1e-9 <= one.x_m - 0.5 * one.long_m
            assert one.x_m + 0.5 * one.long_m <= aft.faces_x_m[0] + 1e-9


def test_gears_litres_and_the_bags_are_what_an_end_holds(job, bench):
    """Of the end without any gear, to the litre that the bag is rounded down by."""
    empty = end_zones(job.fitted.assessed.boat)
    for bag, zone in zip(bench.bag_ties, (empty.bow, empty.stern), strict=True):
        most = sum(one.most_l for one in bench.gear_ties if one.end == bag.end)
        assert 0.0 <= zone.bag_l - (bag.litres + most) < 1.0


def test_the_mat_lies_under_both_heels_from_stick_to_stick(job, bench):
    """Behind the soles, ahead of the frame, its edge no farther out than the stick's middle."""
    mat, boat = bench.heel_mat, job.fitted.assessed.boat
    soles = boat.seat_x_m - bench.seat.footbrace.set_m
    assert mat.fore_x_m > soles
    assert mat.aft_x_m - mat.fore_x_m > 0.2
    for station in job.setting_up.stations:
        assert station.faces_x_m[1] < mat.fore_x_m or station.faces_x_m[0] > mat.aft_x_m
    assert mat.half_m > FEET_APART_M + 0.025
    sticks = sticks_at(boat, 0.5 * (mat.fore_x_m + mat.aft_x_m))
    nearest = min(abs(mat.half_m - half) for one in sticks.geoms
                   for half in (one.bounds[0], one.bounds[2]))
    assert nearest < 0.015
    assert any("heel mat" in one.what for one in bench.materials.items)


def test_the_mats_cords_are_tied_before_the_skin_lies_on_the_stick(job, bench):
    """At its corners, less how far its holes are in; with the mat itself no cord goes round."""
    mat, start = bench.heel_mat, job.setting_up.strongback_start_x_m
    told = {one.key: one.do for one in filled(told_figures(job, bench))}
    assert list(told).index("outfit") < list(told).index("skin") < list(told).index("foam")
    tape = re.search(rf"For the heel mat a waxed cord tied tight round the {mat.stick}, knot "
                     r"inboard, a side at tape ([\d.]+) mm \(.*? in\) and ([\d.]+) mm",
                     told["outfit"])
    assert [float(one) for one in tape.groups()] == [
        round(1000.0 * one, 1)
        for one in (mat.fore_x_m - start + 0.015, mat.aft_x_m - start - 0.015)]
    assert f"by its cords on the {mat.stick}" in told["foam"]
    assert "round" not in told["foam"]


def test_the_rails_holes_keep_their_wood_beside_mortises_and_relief(bench):
    """The frames as a 6 mm cutter leaves them, bitten into at the corners of every cut."""
    rails, seen = bench.foot_rails, 0
    for frame in bench.frames:
        wood = relieved(frame.wood, 0.006, "dog-bone")
        cuts = unary_union([wood.boundary, *frame.mortises])
        for name, spot in frame.holes:
            if name == RAIL:
                seen += 1
                assert frame.name in (rails.fore, rails.aft)
                assert cuts.distance(Point(spot)) - 0.5 * HOLE_M >= EDGE_M
    assert seen == 16


def test_no_hole_forward_is_told_with_what_to_do(job, bench):
    rails = bench.foot_rails
    last = replace(rails, set_m=rails.soles_m[0])
    assert "NO HOLE IS LEFT FORWARD" in brace_left_words(last)
    assert "have the boat fitted again" in brace_left_words(last)
    second = replace(rails, set_m=rails.soles_m[1])
    assert brace_left_words(second).startswith("It can go 25 mm")


def test_gears_loops_and_the_heel_mat_are_drawn_as_the_papers_words_tell_them(job, bench):
    """Loops on the named stick at both frames, and the mat's own sizes, in whole mm."""
    at = {station.name: station for station in job.setting_up.stations}
    for one in bench.gear_ties:
        drawn = gear_view(one, job.setting_up.stations, 0.02)
        loops = {tuple(stroke.centre_m) for stroke in drawn.strokes if isinstance(stroke, Circle)}
        fore, aft = (at[name] for name in one.frames)
        clear = aft.faces_x_m[0] - fore.faces_x_m[1]
        assert loops == {(sign * frame.points_m[one.stick][0], high)
                         for frame, high in ((fore, clear), (aft, 0.0)) for sign in (1.0, -1.0)}
        words = {stroke.text for stroke in drawn.strokes if isinstance(stroke, Text)}
        assert {*one.frames, f"{1000.0 * clear:.0f}"} <= words
    long, wide = re.search(r"foam \d+ x (\d+) x (\d+) mm", mat_words(bench.heel_mat, 0.0)).groups()
    words = {stroke.text for stroke in mat_view(bench.heel_mat, 0.02).strokes
             if isinstance(stroke, Text)}
    assert {long, wide} <= words


def test_what_ties_the_gear_is_drawn_taut_where_a_hand_reaches(job, bench):
    opening = job.fitted.assessed.boat.opening
    stations = {one.name: one for one in job.setting_up.stations}
    for tie in bench.gear_ties:
        led, near = stations[tie.led_to], stations[tie.near]
        away = max(opening.front_x_m - led.x_m, led.x_m - opening.back_x_m)
        assert away <= 0.65 or led is near  # nothing nearer stands between
        assert away <= max(opening.front_x_m - near.x_m, near.x_m - opening.back_x_m)


def test_gear_ahead_of_the_footbrace_has_the_pedals_out_first(job, bench):
    told = next(one for one in filled(told_figures(job, bench)) if one.key == "aboard").do
    ahead = any(one.x_m < bench.seat.footbrace.start_x_m for one in bench.gear_ties)
    assert ("pedals and strap come out first" in told) == ahead
