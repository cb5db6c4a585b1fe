"""Sheets of plywood: nothing lost, nothing over another, nothing over the edge."""

from itertools import combinations

import numpy as np
import pytest
import rectpack
from shapely.geometry import Polygon, box

from sizer.drawing.record import Circle, Drawing, Path, Text, side_by_side
from sizer.errors import BadInput
from sizer.shop.layout import PART_SHEETS, WHOLE, Layout, Placement, Sheet, layouts, serving_words
from sizer.shop.settings import Shop
from sizer.shop.stem_drawing import stem_drawing
from sizer.shop.stems import stem_patterns

SMALL = Shop(sheet_m=(1.525, 0.9), cutter_m=0.008, relief="none")


@pytest.fixture(scope="module")
def pieces(boat, frames, frame_drawings):
    sawn = [(drawing, one.thickness_m)
            for drawing, one in zip(frame_drawings, frames, strict=True)]
    return sawn + [(stem_drawing(one), one.thickness_m) for one in stem_patterns(boat)]


@pytest.fixture(scope="module")
def plans(pieces):
    return layouts(pieces, SMALL)


def rectangle(name, width_m, height_m):
    return Drawing(name, (Path("cut", np.array([(0, 0), (width_m, 0), (width_m, height_m),
                                                (0, height_m)], float), closed=True),))


def woods(drawing):
    """The parts of a sheet: a saw line that lies in an odd number of others is an opening."""
    loops = [Polygon(stroke.points_m) for stroke in drawing.strokes
             if isinstance(stroke, Path) and stroke.pen == "cut"]
    inside = [[other for other in loops if other is not one and other.contains(one)]
              for one in loops]
    return [Polygon(one.exterior, [hole.exterior for hole, around in zip(loops, inside, strict=True)
                                   if len(around) == len(own) + 1 and one in around])
            for one, own in zip(loops, inside, strict=True) if len(own) % 2 == 0]


def test_parts_lie_a_cutter_and_two_millimetres_apart_and_on_the_sheet(pieces, plans):
    shop = SMALL
    areas = {}
    for plan in plans:
        for sheet in plan.sheets:
            shapes = woods(sheet.drawing)
            for one, other in combinations(shapes, 2):
                assert one.distance(other) >= shop.cutter_m + 0.002 - 1e-9
            inner = box(0, 0, *sheet.size_m).buffer(-shop.cutter_m - 0.002 + 1e-9)
            assert all(inner.covers(shape) for shape in shapes)
            areas.setdefault(plan.thickness_m, []).extend(shape.area for shape in shapes)
            assert sheet.used_share == pytest.approx(
                sum(shape.area for shape in shapes) / np.prod(sheet.size_m))
            assert sheet.offcut_m == pytest.approx(
                sheet.size_m[0] - max(shape.bounds[2] for shape in shapes))
    for thickness, found in areas.items():
        wanted = [woods(one)[0].area for one, own in pieces if own == thickness]
        assert sorted(found) == pytest.approx(sorted(wanted))


def test_part_sheets_are_halves_and_quarters_that_take_the_last_sheets_parts(pieces, plans):
    shares = {name: length * width for name, length, width in PART_SHEETS}
    for plan in plans:
        for sheet in plan.sheets:
            whole = np.prod(SMALL.sheet_m)
            assert np.prod(sheet.size_m) / whole == pytest.approx(shares.get(sheet.kind, 1.0))
        assert all(sheet.kind == WHOLE for sheet in plan.sheets[:-1])
    stems = [sheet.kind for sheet in layouts(pieces[-2:])[-1].sheets]
    assert stems == ["quarter sheet"]  # two stems do not take a sheet


def test_nesting_takes_no_more_plywood_than_rectangles_do(pieces, plans):
    """Packed by the rectangles round them, another way by another program, at the same gap."""
    for plan in plans:
        packer = rectpack.newPacker(sort_algo=rectpack.SORT_SSIDE, rotation=True)
        for one, _ in [pair for pair in pieces if pair[1] == plan.thickness_m]:
            packer.add_rect(*(int(np.ceil((side + SMALL.gap_m) * 1e4)) for side in (
                one.on("cut").width_m, one.on("cut").height_m)))
        packer.add_bin(*(int((side - SMALL.gap_m) * 1e4) for side in SMALL.sheet_m), count=9)
        packer.pack()
        sheets = len({rect[0] for rect in packer.rect_list()})
        bought = sum(np.prod(sheet.size_m) for sheet in plan.sheets)
        assert bought <= sheets * np.prod(SMALL.sheet_m)


def test_a_small_part_lies_in_the_opening_of_a_large_one():
    ring = Drawing("ring", (Path("cut", np.array([(0, 0), (.9, 0), (.9, .9), (0, .9)]), True),
                            Path("cut", np.array([(.1, .1), (.8, .1), (.8, .8), (.1, .8)]), True)))
    (plan,) = layouts([(ring, 0.012), (rectangle("inner", 0.6, 0.6), 0.012)],
                      Shop(sheet_m=(1.0, 1.0)))
    assert plan.count == 1
    inner, outer = sorted(woods(plan.sheets[0].drawing), key=lambda one: one.exterior.length)
    assert Polygon(outer.interiors[0]).contains(inner)
    assert plan.used_share == pytest.approx(0.81 - 0.49 + 0.36, abs=1e-4)  # less the relief


def test_placements_tell_where_each_piece_lies(pieces, plans):
    for plan in plans:
        assert sorted(place.piece for place in plan.placements) == sorted(
            one.name for one, own in pieces if own == plan.thickness_m)
        assert {place.sheet for place in plan.placements} == set(range(plan.count))
        assert len(plan.sheets) == plan.count
        for number, sheet in enumerate(plan.sheets):
            shapes = woods(sheet.drawing)
            for place in plan.placements:
                if place.sheet == number:
                    room = box(place.left_m, place.bottom_m, place.left_m + place.width_m,
                               place.bottom_m + place.height_m)
                    bounds = [shape.bounds for shape in shapes]
                    assert any(one == pytest.approx(room.bounds) for one in bounds)


def test_turned_pieces_save_a_sheet_and_what_cannot_fit_takes_more():
    slats = [(rectangle(f"slat {number}", 0.20, 0.95), 0.012) for number in range(4)]
    (plan,) = layouts(slats, Shop(sheet_m=(1.00, 0.90)))
    assert plan.count == 1
    assert all(place.turn_deg % 180.0 == 90.0 for place in plan.placements)
    squares = [(rectangle(f"square {number}", 0.6, 0.6), 0.012) for number in range(3)]
    assert layouts(squares, Shop(sheet_m=(1.0, 1.0)))[0].count == 3


def test_each_thickness_has_its_own_sheets(pieces, plans):
    assert [plan.thickness_m for plan in plans] == [0.012, 0.018]


def test_a_drawing_of_several_parts_stays_together():
    pair = Drawing("pair", tuple(
        Path("cut", np.array([(left, 0), (left + .2, 0), (left + .2, .3), (left, .3)]), True)
        for left in (0.0, 0.25)))
    (plan,) = layouts([(pair, 0.012)])
    one, other = sorted(woods(plan.sheets[0].drawing), key=lambda shape: shape.bounds)
    assert one.distance(other) == pytest.approx(0.05)
    assert len(plan.placements) == 1
    assert plan.sheets[0].parts_m2 == pytest.approx(0.12)


def test_a_piece_larger_than_the_sheet_is_told():
    with pytest.raises(BadInput, match="board"):
        layouts([(rectangle("board", 1.2, 0.3), 0.012)], Shop(sheet_m=(1.0, 1.0)))


def test_moved_and_turned_drawings_keep_their_shape():
    drawing = Drawing("one", (
        Path("cut", np.array([(0.0, 0.0), (0.3, 0.0), (0.3, 0.1)]), closed=True),
        Circle("drill", (0.2, 0.05), 0.01), Text("text", (0.1, 0.02), 0.005, "word")))
    turned = drawing.moved((1.0, 2.0), turned=True)
    assert turned.box_m == pytest.approx((0.9, 2.0, 1.0, 2.3))
    assert turned.strokes[0].points_m == pytest.approx(np.array([(1, 2), (1, 2.3), (0.9, 2.3)]))
    assert turned.strokes[1].centre_m == pytest.approx((0.95, 2.2))
    assert turned.strokes[2].angle_deg == 90.0
    row = side_by_side("row", [drawing, drawing], 0.05)
    assert row.width_m == pytest.approx(0.65)


def test_a_sheet_sold_by_the_foot_serves_only_where_the_cutter_stays_in_its_wood():
    """Half of 4 x 8 ft is 1219.2 mm square: with a cutter of 6 mm parts go to 1213.2 at the most;
    boards of 3.6 m are shorter than 12 ft, 3657.6 mm."""
    for reach, serves in ((1.2130, True), (1.2135, False)):
        lying = Placement("part", 0, reach - 0.1, 0.01, 0.1, 0.1, 0.0)
        upright = Placement("part", 0, 0.01, reach - 0.1, 0.1, 0.1, 0.0)
        for one in (lying, upright):
            sheet = Sheet("half sheet", (1.22, 1.22), (one,), 0.01, None, False)
            said = serving_words((Layout(0.012, 0.012, (sheet,)),), Shop())
            assert ("sheets of 4 x 8 ft" in said) == serves
            assert "boards of 12 ft" in said
