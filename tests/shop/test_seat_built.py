"""The seat's boards, parts and drawings, the backband and the footbrace."""

import re
from dataclasses import replace

import numpy as np
import pytest
from shapely.geometry import LineString, Point, Polygon

from sizer.drawing.record import Circle, Path, Text
from sizer.fit.person import drawn_person
from sizer.fit.solve import fit
from sizer.hull.boat import frame_points_m, sections_at
from sizer.scenes.seat_views import seat_views
from sizer.shop.boards import hull_at, sticks_at
from sizer.shop.frames import frame_patterns
from sizer.shop.layout import layouts
from sizer.shop.seat import edges_m, places, seat_built, seat_checks
from sizer.shop.seat_drawing import least_clear_m, plywood_plates, seat_pieces
from sizer.shop.seat_parts import boards
from sizer.shop.settings import SHOP
from sizer.shop.stations import setting_up


@pytest.fixture(scope="module")
def assessed(lines):
    return fit(lines, drawn_person(lines.design), explained=False).assessed


@pytest.fixture(scope="module")
def seat(assessed):
    return seat_built(assessed)


def item(seat, begins):
    return [one for one in seat.items if begins in one.what]


def test_plates_lie_on_every_stick_they_are_tied_to(assessed, seat):
    """Each plate's underside meets both its sticks, front and back, and is flat between them."""
    if seat.kind != "panel":
        return
    boat = assessed.boat
    assert len(seat.boards) == len(seat.stands_on) - 1
    for x in (seat.front_x_m, seat.sit_x_m, seat.back_x_m):
        sticks = [one for one in sticks_at(boat, x).geoms if one.bounds[2] > 0.0]
        for board in boards(boat, x):
            plate = Polygon(board.section_m)
            assert sum(plate.distance(one) < 1e-4 for one in sticks) == 2
            sides = np.hypot(*np.diff(board.section_m, axis=0).T)
            assert sides[1] == pytest.approx(boat.design.seat.thickness_m)


def test_no_two_plates_share_wood_and_each_bears_on_half_its_sticks(assessed, seat):
    """At five places along the seat, port with starboard; what bears on a stick is measured on the
    underside, by points within the stick's width of where its inner face's middle is."""
    if seat.kind != "panel":
        return
    boat = assessed.boat
    for x in np.linspace(seat.front_x_m, seat.back_x_m, 5):
        laid = boards(boat, x)
        plates = [Polygon(one.section_m * (side, 1.0)) for one in laid for side in (1.0, -1.0)]
        for row, one in enumerate(plates):
            assert one.is_valid
            for other in plates[row + 1:]:
                assert one.distance(other) >= 0.0019  # a saw's width, so that they go in
        sticks = [one for one in sticks_at(boat, x).geoms if one.bounds[2] > 0.0]
        for number, board in enumerate(laid):
            under = LineString(board.section_m[:2])
            for name in seat.stands_on[number:number + 2]:
                wide = boat.design.stringer(name).width_m
                least = {seat.stands_on[0]: 0.3 * wide, seat.stands_on[-1]: 0.005}.get(
                    name, 0.5 * wide - 0.003)
                borne = max(under.intersection(one.buffer(0.0012)).length for one in sticks
                            if name_of(one, boat, x) == name)
                assert borne >= least, (name, borne)


def test_no_plate_is_planed_to_a_knifes_edge_and_its_bevels_are_told(assessed, seat):
    """What the drawn stick leaves of the plate's square end, all along the outermost."""
    if seat.kind != "panel":
        return
    boat, thick = assessed.boat, assessed.boat.design.seat.thickness_m
    for x in np.linspace(seat.front_x_m, seat.back_x_m, 7):
        section = boards(boat, x)[-1].section_m
        left = LineString(section[1:3]).difference(sticks_at(boat, x)).length
        assert left >= 0.47 * thick  # half of it; a straight edge between front and back
        assert left <= thick
    section = boards(boat)[-1].section_m
    left = LineString(section[1:3]).difference(sticks_at(boat, seat.sit_x_m)).length
    told = re.search(rf"a bevel ([\d.]+) mm wide on the {seat.stands_on[-1]}, "
                     r"which leaves ([\d.]+) mm of", seat.says[0])
    assert float(told[2]) == pytest.approx(1000.0 * left, abs=0.3)
    assert 2.5 < float(told[1]) <= 6.0


def name_of(stick, boat, x):
    """The hull's stick whose corner of the skin is nearest to the middle of a shape of it."""
    names = list(boat.lines.hull_sticks)
    skin = hull_at(boat, [x])[0]
    return min(names, key=lambda name: Point(skin[boat.lines.hull_sticks[name][0]]).distance(stick))


def test_a_plate_cut_flat_is_as_wide_as_from_stick_to_stick(assessed, seat):
    """Ties stand beside the sticks: a hole in a stick would be no hole."""
    if seat.kind != "panel":
        return
    boat = assessed.boat
    for number, board in enumerate(seat.boards):
        for at, x in ((0.0, seat.front_x_m), (board.flat_m[:, 0].max(), seat.back_x_m)):
            section = boards(boat, x)[number].section_m
            width = board.flat_m[board.flat_m[:, 0] == at, 1].max()
            assert width == pytest.approx(np.hypot(*(section[1] - section[0])))
        outline = Polygon(board.flat_m)
        for hole in board.holes_m:
            assert outline.exterior.distance(Point(hole)) > 0.010
            share = hole[0] / board.flat_m[:, 0].max()
            x = seat.front_x_m + share * (seat.back_x_m - seat.front_x_m)
            low, high = boards(boat, x)[number].section_m[:2]
            spot = low + hole[1] * (high - low) / np.hypot(*(high - low))
            away = sticks_at(boat, x).distance(Point(spot))
            assert 0.002 < away < 0.020
    ties = item(seat, "waxed cord")[0].allowance
    assert ties.startswith(f"{2 + 4 * len(seat.boards)} lashings of the seat")


def test_every_hole_of_the_plates_is_told_with_the_lashing_that_goes_through_it(seat):
    """At the keel and between two plates a lashing goes through two holes."""
    if seat.kind != "panel":
        return
    holes = 2 * sum(len(board.holes_m) for board in seat.boards)
    outer = 2 * 2  # near front and back, port and starboard: a hole of its own each
    lashings = outer + (holes - outer) // 2
    assert f"{lashings} lashings through {holes} holes: 2 round {seat.stands_on[0]}" in seat.says[0]
    assert f"{outer} round {seat.stands_on[-1]}, each through one hole" in seat.says[0]
    assert item(seat, "waxed cord")[0].allowance.startswith(f"{lashings} lashings of the seat")


def test_the_tops_height_is_told_for_where_one_sits_and_both_edges(assessed, seat):
    """By points let down on the boards 65 mm off the centre line; a single plate is straight."""
    inner, outer = edges_m(seat)
    tops = {half: max(Polygon(one.section_m).intersection(
        LineString([(half, -1.0), (half, 1.0)])).bounds[3] for one in seat.boards
        if one.section_m[:, 0].min() <= half <= one.section_m[:, 0].max())
        for half in (inner[0] + 1e-4, 0.065, outer[0] - 1e-4)}
    assert list(tops.values()) == pytest.approx([inner[1], seat.top_m, outer[1]], abs=3e-4)
    if len(seat.boards) == 1:
        assert np.interp(0.065, *zip(inner, outer, strict=True)) == pytest.approx(
            seat.top_m, abs=3e-4)
    mark, = (name for name, _, z in places(seat, assessed.boat) if z == seat.top_m)
    assert mark.endswith("65 mm off the centre line")


def test_slats_reach_from_frame_to_frame(assessed, seat):
    if seat.kind == "panel":
        return
    fore, aft = (next(one for one in setting_up(assessed.boat).stations if one.name == name)
                 for name in seat.stands_on)
    span = abs(aft.x_m - fore.x_m)
    for board in seat.boards:
        assert span <= np.ptp(board.flat_m[:, 0]) <= span + fore.thickness_m + aft.thickness_m
        assert np.ptp(board.flat_m[:, 0]) == np.ptp(board.plan_m[:, 0])
    edges = sorted(side for board in seat.boards for side in (
        board.plan_m[:, 1].min(), board.plan_m[:, 1].max()))
    assert edges[0] > 0.0
    assert np.diff(edges).min() > 0.004, "none over another"
    assert edges[-1] == pytest.approx(0.5 * assessed.boat.design.seat.width_m, abs=0.028)


def test_a_slats_lashing_goes_round_both_floors_clear_of_sticks(assessed, seat):
    """Each hole is inside the boat's bay, its edge off the plywood's inner face; the floor that the
    cord goes round there is the frame's wood under the slat, no stick's, down to the hollow."""
    if seat.kind != "slats":
        return
    frames = [one for one in frame_patterns(assessed.boat, assessed.particulars,
                                            assessed.person.water) if one.name in seat.stands_on]
    for board in seat.boards:
        for at, out in board.holes_m:
            x = seat.front_x_m + at
            half = board.plan_m[:, 1].min() + out
            frame = min(frames, key=lambda one: abs(one.x_m - x))
            off = [abs(x - face) for face in frame.faces_x_m]
            assert min(off) == pytest.approx(0.010, abs=1e-6)
            assert seat.front_x_m + 0.012 < x < seat.back_x_m - 0.012
            cord = LineString([(half, -0.1), (half, boards(assessed.boat, frame.x_m)[
                seat.boards.index(board)].section_m[:, 1].max())])
            assert not any(notch.cut().intersects(cord) for notch in frame.section.notches)
            floor = frame.wood.intersection(cord)
            assert 0.016 < floor.length < 0.024
            assert floor.bounds[1] > frame.section.outline().intersection(cord).bounds[1] + 0.004


def test_parts_are_counted_for_both_sides(assessed, seat):
    design = assessed.boat.design.seat
    if seat.kind == "panel":
        plates = item(seat, "seat plate")
        assert [one.quantity for one in plates] == [2] * len(seat.boards)
        assert {one.size_m[0] for one in plates} == {design.thickness_m}
    else:
        assert sum(one.quantity for one in item(seat, " slat:")) == 2 * len(seat.boards)
        holes = sum(len(board.holes_m) for board in seat.boards)
        assert item(seat, "waxed cord")[0].allowance.startswith(f"{2 * holes} lashings of the seat")
        assert not item(seat, "screw")
    assert not item(seat, "footbrace, pair")  # a bought one would be bought beside the made one
    for what in ("backband", "rail for the footbrace"):
        assert len([one for one in item(seat, what)
                    if "cord" not in one.what and "cases a tie" not in one.what]) == 1
    assert item(seat, "rail")[0].size_m[2] == seat.footbrace.rail_m


def test_a_back_that_leans_on_the_backband_pulls_its_ties(assessed, seat):
    """They lead forward, to ahead of a frame that keeps the knots from sliding aft."""
    boat, band = assessed.boat, seat.backband
    assert band.z_m - boat.seat_z_m == pytest.approx(boat.design.cockpit.backband_height_m)
    index = [frame.name for frame in boat.design.frames].index(band.frame)
    assert band.tie_x_m <= boat.frame_x_m[index] + 1e-9
    assert 0.15 <= band.x_m - band.tie_x_m < 0.8
    assert band.tie_half_breadth_m > 0.5 * boat.design.seat.width_m  # outside the body
    assert boat.frame_x_m[[one.name for one in boat.design.frames].index(band.behind)] > band.x_m
    gunwale = next(one for one in boat.design.stringers if one.role == "gunwale")
    y, z = frame_points_m(boat, index)[gunwale.name]
    assert (band.tie_half_breadth_m, band.tie_z_m) == pytest.approx(
        (y - gunwale.depth_m, z - 0.5 * gunwale.width_m))
    assert band.tie_m > band.x_m - band.tie_x_m


def test_the_footbrace_moves_between_two_frames_that_hold_its_rails(assessed, seat):
    boat, brace = assessed.boat, seat.footbrace
    fore, aft = (next(one for one in setting_up(boat).stations if one.name == name)
                 for name in (brace.fore_frame, brace.aft_frame))
    assert brace.nearest_m < brace.set_m <= brace.farthest_m
    assert fore.faces_x_m[1] < boat.seat_x_m - brace.farthest_m
    assert boat.seat_x_m - brace.nearest_m < aft.faces_x_m[1] + 1e-9
    assert brace.rail_m == pytest.approx(aft.faces_x_m[1] - fore.faces_x_m[0] + 0.020 + 0.045)
    between = [x for x in boat.frame_x_m if fore.x_m < x < aft.x_m]
    assert between == []


def test_what_is_dimensioned_as_clear_is_the_shortest_way_to_the_skin(assessed, seat):
    """Tried along the seat, as far out as it rests, by points that do not lie on a stick."""
    boat = assessed.boat
    at, to = least_clear_m(seat, boat)
    skin = LineString(hull_at(boat, [seat.sit_x_m])[0])
    assert skin.distance(Point(to)) < 1e-9
    sticks = sticks_at(boat, seat.sit_x_m).buffer(1e-6)
    corners = [Point(one) for board in seat.boards for one in np.concatenate(
        [np.linspace(start, end, 60) for start, end in zip(
            board.section_m[:-1], board.section_m[1:], strict=True)])]
    rests = boat.seat.half_m.max() + 1e-3
    tried = min(skin.distance(one) for one in corners
                if one.x < rests and not sticks.contains(one))
    assert np.hypot(*np.subtract(at, to)) == pytest.approx(tried, abs=3e-4)
    assert seat.clear_of_skin_m < tried + 1e-4, "the least, the paddler on it, can be no more"


def test_views_show_the_skin_where_one_sits(assessed, seat):
    boat = assessed.boat
    drawn = seat_views(seat, boat, 0.010)
    sections = sections_at(boat, np.array([seat.sit_x_m]))
    beam = 2.0 * sections.y_m[0, sections.sheer]
    assert drawn.on("ink").width_m == pytest.approx(beam, abs=1e-9)
    words = [stroke.text for stroke in drawn.strokes if isinstance(stroke, Text)]
    assert f"{seat.top_m * 1000:.0f}" in words
    assert any(f"{seat.clear_of_skin_m * 1000:.0f} mm least" in text for text in words)


def test_pieces_are_cut_at_true_size_and_apart(seat):
    drawn = seat_pieces(seat)
    cuts = [Polygon(stroke.points_m) for stroke in drawn.strokes
            if isinstance(stroke, Path) and stroke.pen == "cut"]
    assert all(one.is_valid and not any(one.intersects(other) for other in cuts[row + 1:])
               for row, one in enumerate(cuts))
    areas = sorted(Polygon(board.flat_m).area for board in seat.boards)
    times = 2 if seat.kind == "panel" else 1
    assert sorted(one.area for one in cuts) == pytest.approx(sorted(areas * times))
    holes = [Point(one.centre_m) for one in drawn.strokes if isinstance(one, Circle)]
    assert holes
    assert all(any(one.contains(hole) for one in cuts) for hole in holes)


def test_a_seat_slid_over_a_frame_is_told_by_its_name(assessed, seat):
    """Slid by hand until the next frame's plywood is under its middle."""
    patterns = frame_patterns(assessed.boat)
    own = seat_checks(seat, patterns, assessed.boat)
    assert [check for check in own if check.status != "pass"] == []
    if seat.kind != "panel":
        return
    aft = next(one for one in setting_up(assessed.boat).stations if one.x_m > seat.back_x_m)
    shift = aft.x_m - seat.sit_x_m
    moved = type(seat)(**{**vars(seat), "front_x_m": seat.front_x_m + shift,
                          "back_x_m": seat.back_x_m + shift})
    found, = seat_checks(moved, patterns, assessed.boat)
    assert (found.frame, found.status) == (aft.name, "caution")
    assert found.value < 0.0


def test_the_grain_of_every_plate_lies_along_the_sheet(assessed, seat):
    """Where its marked line lies on the sheet, of a half sheet too: it runs along the sheet's
    length; other parts are laid as they save most."""
    plates = plywood_plates(seat)
    if seat.kind != "panel":
        assert not plates
        return
    for shop in (SHOP, replace(SHOP, sheet_m=(1.5, 1.5)), replace(SHOP, sheet_m=(1.3, 1.1))):
        laid = layouts([(one, 0.006) for one in plates], shop, athwart=[one.name for one in plates])
        lines = [np.ptp(one.points_m, axis=0) for plan in laid for sheet in plan.sheets
                 for one in sheet.drawing.on("mark").strokes if isinstance(one, Path)]
        assert len(lines) == len(plates)
        sheet, = (sheet for plan in laid for sheet in plan.sheets)
        turned = sheet.kind == "half sheet" and 0.5 * shop.sheet_m[0] < shop.sheet_m[1]
        along = int(turned)
        assert sheet.grain_up == turned  # as the arrow under it is drawn
        assert min(one[along] for one in lines) > 0.050
        assert max(one[1 - along] for one in lines) < 1e-9
    marks = [np.ptp(one.points_m, axis=0) for one in seat_pieces(seat).on("mark").strokes
             if isinstance(one, Path)]  # from stick to stick, as drawn
    assert len(marks) == len(plates)
    for along, out in marks:
        assert along < 1e-9
        assert 0.050 < out < max(board.size_m[0] for board in seat.boards)
