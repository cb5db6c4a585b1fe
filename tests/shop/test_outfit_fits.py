"""Whether the outfit's parts fit each other by the figures that the papers tell of them."""

import re
from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest
import shapely
from shapely.affinity import scale
from shapely.geometry import LineString, Point, Polygon, box
from shapely.ops import unary_union

from sizer.drawing.record import Circle, Path, Text
from sizer.export.owners_use import use_words
from sizer.export.plan_footbrace import _pedals, _places, _rail_table, _rails
from sizer.export.plan_outfit import _bored
from sizer.hull.boat import sections_at
from sizer.paddler.legs import FEET_APART_M
from sizer.scenes.outfit_views import thigh_board
from sizer.shop.climbing import feet_lath_words
from sizer.shop.outfit import cased_m, eye_m, tie_path_m, tie_round_m
from sizer.shop.outfit_boards import brace_board, cheek_board, hip_board
from sizer.shop.seat import places
from sizer.shop.work_room import brace_left_words
from tests.conftest import BASE_NAMES


@pytest.fixture(scope="module", params=BASE_NAMES)
def job(request, middle_job):
    return middle_job(request.param)


def test_the_straps_bolts_go_through_the_pedals_holes_where_it_is_told_to_hang(bench):
    """From the words of the sheet alone, against the holes that the pattern draws."""
    said = " ".join(_pedals(bench))
    assert "its upper edge flush with theirs" in said
    (out, up), (far, high) = [tuple(map(float, found)) for found in (
        re.search(r"a side one (\d+) mm off the centre line and (\d+) under", said).groups(),
        re.search(r"upper edge, one (\d+) and (\d+), in slots", said).groups())]
    drawn = [one.centre_m for one in bench.pedal_piece.strokes if isinstance(one, Circle)]
    top = 1000.0 * max(one.points_m[:, 1].max() for one in bench.pedal_piece.strokes
                       if isinstance(one, Path))
    holes = sorted((1000.0 * y, top - 1000.0 * z) for y, z in drawn)
    told = [(out - 10.0, up), (far - 10.0, high)]
    assert np.asarray(holes) == pytest.approx(np.asarray(told), abs=1.1)


def test_the_straps_slots_let_its_bolts_go_with_the_rails_to_every_hole(bench):
    """By the rails' half-breadths that the sheet tells at both frames: the boat's own splay."""
    rails, made = bench.foot_rails, bench.pedals
    pairs = re.search(r"in the strap, (\d+) to (\d+) and (\d+) to (\d+) mm",
                      " ".join(_pedals(bench)))
    low, far = np.array(list(map(float, pairs.groups()))).reshape(2, 2)
    faces = rails.long_m - 0.045, 0.020  # the after frame's after face, the fore frame's fore one
    splay = (rails.aft_half_m - rails.fore_half_m) / (faces[0] - faces[1] - 0.012)
    for sole in rails.soles_m:
        out = 1000.0 * splay * (sole - rails.set_m)
        for (at, _), (inner, outer) in zip(made.bolts_m, (low, far), strict=True):
            assert inner + 3.5 - 0.6 < 1000.0 * at + out < outer - 3.5 + 0.6
    half = 1000.0 * made.strap_m[:, 0].max()
    assert outer < half - 14.0, "wood left at its end"
    assert low[0] > 14.0, "wood left between port and starboard"
    drawn = sorted(1000.0 * edge - half for row in bench.outfit_pieces for piece in row
                    if piece.name == "pedal strap" for one in piece.strokes
                    if isinstance(one, Path) and one.pen == "cut"
                    for edge in (one.points_m[:, 0].min(), one.points_m[:, 0].max()))
    assert drawn[5:9] == pytest.approx(sorted([*low, *far]), abs=0.6)


def test_no_paper_offers_a_place_that_the_gap_bars(job, bench):
    """The row of holes, the seat's sheet, the order of work and the owner's part tell one range:
    that at which 25 mm go by nowhere, 2 mm left to the saw."""
    rails, made, up = bench.foot_rails, bench.pedals, job.setting_up
    assert [one.sole_m for one in made.openings] == list(rails.soles_m)
    assert max(one.bar_m for one in made.openings) <= 0.023
    tape = bench.seat.footbrace.start_x_m - up.strongback_start_x_m
    ends = [1000.0 * (tape + one) for one in (rails.soles_m[0], rails.soles_m[-1])]
    said = _places(bench, up)
    told = re.search(r"after faces, .*?, from tape (\d+\.\d) mm .*? to (\d+\.\d) mm", said).groups()
    assert list(map(float, told)) == pytest.approx(ends, abs=0.051)
    row = {name: 1000.0 * (x - up.strongback_start_x_m)
           for name, x, _ in places(bench.seat, job.fitted.assessed.boat)}
    assert [row["footbrace, farthest"], row["footbrace, nearest"]] == pytest.approx(ends)
    aft = re.search(r" and (\d+) mm (\(.*\) )?aft", brace_left_words(rails))[1]
    assert float(aft) == pytest.approx(1000.0 * (rails.soles_m[-1] - rails.set_m), abs=0.51)
    for paper in (said, " ".join(use_words(job, bench))):
        count, fore, after, others = re.search(
            r"has (\d+) holes.*? pins are in (\d) and (\d); (.*?) are allowed", paper).groups()
        pairs = sorted([(int(fore), int(after)), *(
            tuple(map(int, one.split(" and "))) for one in others.split(" or "))])
        bored = np.asarray(rails.holes_m)
        assert len(bored) == int(count) == pairs[-1][1]
        for sole, (near, far) in zip(rails.soles_m, pairs, strict=True):
            assert bored[[near - 1, far - 1]] - sole == pytest.approx([0.020, 0.045], abs=1e-6)


def test_what_is_open_over_the_pedals_is_told_as_high_as_it_is(job, bench):
    """From the plates' upper edge to the deck's skin at the middle of a foot, by the lines."""
    made, boat = bench.pedals, job.fitted.assessed.boat
    x = bench.seat.footbrace.start_x_m + made.set_m
    skin = sections_at(boat, np.array([x]))
    ring = Polygon(np.stack([skin.y_m[0], skin.z_m[0]], axis=1))
    there = LineString([(FEET_APART_M, -1.0), (FEET_APART_M, 2.0)]).intersection(ring)
    high = there.bounds[3] - made.plate_m[:, 1].max()
    assert made.here.over_m == pytest.approx(high, abs=0.0015)
    assert 0.05 < high < 0.2


def test_a_pedals_corner_is_as_far_from_square_as_its_rail_leans_and_splays(bench):
    """By the angle between a plane across the boat and one through three points of the rail."""
    rails = bench.foot_rails
    fore, after = np.array([0.0, rails.fore_half_m, 0.0]), np.array(
        [rails.long_m - 0.045 - 0.020 - 0.012, rails.aft_half_m, 0.0])
    lean = np.radians(rails.lean_deg(rails.set_m))
    up = fore + np.array([0.0, np.sin(lean), np.cos(lean)])
    inward = np.cross(after - fore, up - fore)
    between = np.degrees(np.arccos(abs(inward[0]) / np.linalg.norm(inward)))
    aft, ahead = map(float, re.search(r"plate is (\d+) degrees, the block's, planed to suit, (\d+)",
                                      " ".join(_pedals(bench))).groups())
    assert (aft, ahead) == pytest.approx((180.0 - between, between), abs=0.6)
    assert aft > 90.0


def test_a_pedals_pins_reach_past_cheek_and_rail_with_their_heads_beside_the_shoe(job, bench):
    said = " ".join(_pedals(bench))
    long = float(re.search(r"pins, (\d+) mm under their heads", said)[1])
    thick = float(re.search(r"hard wood (\d+) x 18 mm", _rails(bench, job.setting_up))[1])
    assert long - 12.0 - thick == pytest.approx(10.0), "for the ring"
    assert "Heads lie against the cheek" in said


def test_the_backbands_tie_is_as_long_as_from_its_eye_to_the_gunwale(job, bench):
    """By Pythagoras from what the sheet and the list tell, to the millimetre of both."""
    band = bench.seat.backband
    item = next(one for one in bench.materials.items if one.what.startswith("backband"))
    eyes = float(re.search(r"^(\d+) mm .* from eye to eye", item.allowance)[1]) / 1000.0
    assert eyes == pytest.approx(band.eyes_m, abs=0.0005)
    out = band.tie_half_breadth_m - 0.5 * band.eyes_m
    ahead = job.fitted.assessed.boat.seat_x_m - band.loop_x_m
    assert np.hypot(np.hypot(out, ahead), band.z_m - band.tie_z_m) == pytest.approx(band.tie_m)
    what = [one.what for one in bench.materials.items]
    assert "cord 4 mm (5/32 in) for the backband's ties" in what
    assert "elastic cord 5 mm (3/16 in) for the backband" in what


def test_a_thigh_braces_board_is_bored_and_nicked_where_its_drawing_is(bench):
    if bench.thigh is None:
        pytest.skip("no braces in this boat")
    holes, nicks = ([tuple(map(float, spot.split(" / "))) for spot in re.findall(
        r"-?\d+ / -?\d+", part)] for part in _bored(bench.thigh).split("nicks"))
    drawing = thigh_board(bench.thigh, 0.002)
    drawn = [one.centre_m for one in drawing.strokes if isinstance(one, Circle)]
    assert np.asarray(holes) == pytest.approx(1000.0 * np.asarray(drawn), abs=0.5)
    board = next(one for one in drawing.strokes if getattr(one, "pen", "") == "cut").points_m
    for spot in nicks:  # its mouth's two corners on the edge, 4 mm apart
        assert sum(np.hypot(*(1000.0 * board - spot).T) < 3.0) == 2


def test_the_small_boards_are_drawn_at_true_size_as_the_sheets_words_tell_them(job, bench):
    """Each once among the patterns, by what a rule shows on the paper of them."""
    drawn = {piece.name: piece for piece in (cheek_board(), *(
        () if bench.thigh is None else (brace_board(bench.thigh),)), *(
        () if bench.hip_pads is None else (hip_board(bench.hip_pads),)))}
    every = [stroke for piece in bench.pieces for stroke in piece.strokes]
    for name in drawn:
        assert sum(getattr(one, "text", "") == f"{name}, 2 off" for one in every) == 1
    long, high, ahead, fore, aft = map(float, re.search(
        r"A cheek of 12 mm plywood, (\d+) x (\d+) mm.* (\d+) mm ahead of the plate's after "
        r"face.* the first (\d+) mm and the other (\d+) mm behind the plate's after face",
        " ".join(_pedals(bench))).groups())
    cheek = drawn["pedal cheek"]
    assert 1000.0 * np.asarray(cheek.on("cut").box_m) == pytest.approx([0.0, 0.0, long, high])
    holes = [(*one.centre_m, one.radius_m) for one in cheek.strokes if isinstance(one, Circle)]
    assert 1000.0 * np.asarray(holes) == pytest.approx(np.array([
        (ahead + fore, 0.5 * high, 4.0), (ahead + aft, 0.5 * high, 4.0)]))
    if bench.thigh is not None:
        spots = re.findall(r"-?\d+ / -?\d+", _bored(bench.thigh).split("nicks")[0])
        told = [tuple(map(float, spot.split(" / "))) for spot in spots]
        bored = [one.centre_m for one in drawn["thigh brace"].on("drill").strokes]
        assert 1000.0 * np.asarray(bored) == pytest.approx(np.asarray(told), abs=0.5)
    if bench.hip_pads is not None:
        one = bench.hip_pads
        _, _, right, top = drawn["hip pad board"].on("cut").box_m
        assert right == pytest.approx(one.aft_x_m - one.fore_x_m, abs=0.0005)
        (_, up), _ = drawn["hip pad board"].on("mark").strokes[0].points_m
        share = (one.spacer_m[1] - one.low_m) / (one.high_m - one.low_m)
        assert up / top == pytest.approx(share, abs=0.01), "as high as the spacer's middle"


def test_a_piece_that_is_cut_out_still_tells_which_way_up_it_goes_and_on_which_face(bench):
    """By words on the piece itself, clear of every other line, letters six tenths as wide as
    high."""
    wanted = [(bench.pedal_piece, ("UP", "starboard, after face")),
              (next(one for one in bench.pieces if one.name == "pedal strap"),
               ("UP", "after face"))]
    if bench.hip_pads:
        wanted.append((hip_board(bench.hip_pads), ("UP, starboard, inner face", "BOW")))
    if bench.thigh:
        wanted.append((brace_board(bench.thigh), ("starboard, upper face", "BOW")))
    for piece, words in wanted:
        outline = next(one.points_m for one in piece.strokes if getattr(one, "pen", "") == "cut")
        wood = Polygon(outline)
        written = [(one, box(one.at_m[0] - 0.3 * one.height_m * len(one.text),
                             one.at_m[1] - 0.5 * one.height_m,
                             one.at_m[0] + 0.3 * one.height_m * len(one.text),
                             one.at_m[1] + 0.5 * one.height_m))
                   for one in piece.strokes if isinstance(one, Text)]
        holes = [Point(one.centre_m).buffer(one.radius_m) for one in piece.strokes
                 if isinstance(one, Circle)]
        for said in words:
            room = next(room for one, room in written if one.text == said)
            assert wood.contains(room), (piece.name, said)
            assert not any(room.intersects(hole) for hole in holes), (piece.name, said)
            assert sum(room.intersects(other) for _, other in written) == 1, (piece.name, said)
        for one, room in written:
            if one.text.startswith("UP"):
                assert wood.bounds[3] - room.bounds[3] < 0.02


def test_a_bags_panel_lies_inside_the_sticks_and_leaves_no_foot_a_gap(job, bench):
    """By the frame's own wood and sticks: the hem is laced to loops just inside of these, and what
    of the frame's opening it does not cover is narrower than toes."""
    frames = {one.name: one for one in bench.frames}
    for one in bench.bag_ties:
        frame, up = frames[one.panel], job.setting_up.baseline_height_m
        half = [(y, z - up) for y, z in one.corners_m]
        panel = Polygon([*half, *((-y, z) for y, z in half[::-1])]).buffer(0.0)
        side = unary_union([notch.stock() for notch in frame.section.notches])
        sticks = unary_union([side, scale(side, -1.0, 1.0, origin=(0.0, 0.0))])
        assert 0.001 < panel.distance(sticks) < 0.008
        wide, high = np.ptp(np.asarray(panel.exterior.coords), axis=0)
        assert one.panel_size_m == pytest.approx((wide, high))
        assert one.cloth_m == pytest.approx((wide + 0.080, high + 0.080))
        assert one.eyelets >= panel.length / 0.100
        open_ = frame.opening.difference(panel)
        for gap in getattr(open_, "geoms", [open_]):
            if gap.area > 1e-6:
                assert 2.0 * shapely.maximum_inscribed_circle(gap, tolerance=1e-4).length < 0.010


def test_the_panels_come_out_of_what_is_left_of_the_skins_cloth(bench):
    """The lengths go round the boat at its widest; the strip left over is as long as it."""
    cloth = bench.materials.skin
    left = cloth.cloth_width_m - min(cloth.over_m) - 0.100
    for one in bench.materials.items:
        if "bag's panel" in one.what:
            assert ("large enough" in one.allowance) == (min(one.size_m) <= left)


def test_the_outfits_plywood_lies_on_the_sheets_that_are_bought(bench):
    """Each piece that the list has sawn from sheets, as large as it tells, as often as it tells."""
    layout, = (one for one in bench.layouts if one.thickness_m == 0.012)
    for words, name in (("pedal of the footbrace", "footbrace pedal"),
                        ("cheek of a pedal", "pedal cheek"), ("strap of", "pedal strap"),
                        ("board of a hip pad", "hip pad board"), ("thigh brace:", "thigh brace")):
        listed = [one for one in bench.materials.items if one.sawn and words in one.what]
        laid = [one for one in layout.placements if one.piece == name]
        assert len(laid) == sum(round(one.quantity) for one in listed)
        for one in laid:
            assert sorted((one.width_m, one.height_m)) == pytest.approx(
                sorted(listed[0].size_m[1:]), abs=0.002)


def test_a_rails_grooves_are_told_beside_both_faces_of_its_two_frames(job, bench):
    """From the rail's own overlaps: 10 mm before and behind each frame's plywood."""
    rails = bench.foot_rails
    thick = {one.name: 1000.0 * one.thickness_m for one in bench.frames}
    on = SimpleNamespace(read=str, inner_mm=180.0)
    rows = [[cell.getPlainText() for cell in row]
            for row in _rail_table(on, rails, 8.0)._cellvalues]
    told = [tuple(map(float, one)) for row in rows if row[0].startswith("grooves")
            for one in re.findall(r"(\d+) to (\d+)", row[1])]
    back = 1000.0 * rails.long_m - 45.0
    fore, ahead = 20.0 + thick[rails.fore], back - thick[rails.aft]
    assert np.array(told) == pytest.approx(np.array([
        (10.0, 20.0), (fore, fore + 10.0), (ahead - 10.0, ahead), (back, back + 10.0)]), abs=0.51)


def test_a_band_round_a_back_leaves_its_ties_less(job, bench):
    """A band of 370 mm on a circle of 250 mm: half of it turns by 0.74 rad, so that the eyes come
    250 (1 - cos) forward and stand 250 sin off the middle."""
    band = replace(bench.seat.backband, eyes_m=0.370)
    x, half = eye_m(band, leant_on=True)
    assert band.x_m - x == pytest.approx(0.0654, abs=2e-4)
    assert half == pytest.approx(0.1686, abs=2e-4)
    straight, leant = (tie_round_m(band, bench.frames, one) for one in (False, True))
    assert 0.030 < straight - leant < 0.0654 + 0.020  # it comes forward, and farther off the side
    far = cased_m(tie_path_m(band, bench.frames))
    assert far is None or 0.0 < straight - far < 0.080  # the plywood is near the loop


def test_ball_and_heel_are_told_apart_in_the_dry_frame(job, bench):
    """The lath's mark is the ball's; the heel as far behind as a shoe reaches at 50 degrees."""
    boat, body = job.fitted.assessed.boat, job.fitted.assessed.person.body
    said = feet_lath_words(boat, bench.foot_rails, bench.seat.footbrace, body)
    told = re.search(r"the balls of the feet touch it, heels about (\d+) mm", said)[1]
    assert float(told) == pytest.approx(
        0.62 * 1000.0 * body.shoe_length.value_m * np.cos(np.radians(50.0)), abs=0.51)
