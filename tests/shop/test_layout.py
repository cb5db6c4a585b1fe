"""Sheets of plywood: nothing lost, nothing over another, nothing over the edge."""

from itertools import combinations

import numpy as np
import pytest
from shapely.geometry import Polygon, box

from sizer.drawing.record import Circle, Drawing, Path, Text, side_by_side
from sizer.errors import BadInput
from sizer.shop.frame_drawing import frame_drawing
from sizer.shop.frames import frame_patterns
from sizer.shop.layout import GAP_M, SHEET_M, layouts
from sizer.shop.stem_drawing import stem_drawing
from sizer.shop.stems import stem_patterns


@pytest.fixture(scope="module")
def pieces(boat):
    frames = [(frame_drawing(one), one.thickness_m) for one in frame_patterns(boat)]
    return frames + [(stem_drawing(one), one.thickness_m) for one in stem_patterns(boat)]


def outlines(drawing):
    """Outer saw lines on a sheet: those that lie in no other."""
    loops = [Polygon(stroke.points_m) for stroke in drawing.strokes
             if isinstance(stroke, Path) and stroke.pen == "cut"]
    return [one for one in loops
            if not any(other is not one and other.contains(one) for other in loops)]


def rectangle(name, width_m, height_m):
    return Drawing(name, (Path("cut", np.array([(0, 0), (width_m, 0), (width_m, height_m),
                                                (0, height_m)], float), closed=True),))


@pytest.mark.parametrize("sheet_m", [SHEET_M, (1.525, 1.525), (1.25, 0.70)])
def test_pieces_lie_apart_and_on_the_sheet(pieces, sheet_m):
    areas = {}
    for plan in layouts(pieces, sheet_m):
        for sheet in plan.sheets:
            shapes = outlines(sheet)
            for one, other in combinations(shapes, 2):
                assert one.distance(other) >= GAP_M - 1e-6
            inner = box(0, 0, *sheet_m).buffer(-GAP_M + 1e-6)
            assert all(inner.covers(shape) for shape in shapes)
            for shape in shapes:
                areas.setdefault(plan.thickness_m, []).append(shape.area)
    for thickness, found in areas.items():
        wanted = [outlines(one)[0].area for one, own in pieces if own == thickness]
        assert sorted(found) == pytest.approx(sorted(wanted))


def test_placements_tell_where_each_piece_lies(pieces):
    for plan in layouts(pieces):
        assert sorted(place.piece for place in plan.placements) == sorted(
            one.name for one, own in pieces if own == plan.thickness_m)
        assert {place.sheet for place in plan.placements} == set(range(plan.count))
        assert len(plan.sheets) == plan.count
        for number, sheet in enumerate(plan.sheets):
            shapes = outlines(sheet)
            for place in plan.placements:
                if place.sheet == number:
                    room = box(place.left_m, place.bottom_m, place.left_m + place.width_m,
                               place.bottom_m + place.height_m).buffer(1e-9)
                    assert sum(room.covers(shape) for shape in shapes) == 1


def test_turned_pieces_save_a_sheet_and_what_cannot_fit_takes_more():
    slats = [(rectangle(f"slat {number}", 0.20, 0.95), 0.012) for number in range(4)]
    (plan,) = layouts(slats, (1.00, 0.90))
    assert plan.count == 1
    assert all(place.turned for place in plan.placements)
    squares = [(rectangle(f"square {number}", 0.6, 0.6), 0.012) for number in range(3)]
    assert layouts(squares, (1.0, 1.0))[0].count == 3


def test_each_thickness_has_its_own_sheets(pieces):
    assert [plan.thickness_m for plan in layouts(pieces)] == [0.012, 0.018]


def test_a_piece_larger_than_the_sheet_is_told():
    with pytest.raises(BadInput, match="board"):
        layouts([(rectangle("board", 1.2, 0.3), 0.012)], (1.0, 1.0))


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
