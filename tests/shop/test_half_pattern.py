"""Half patterns: two of them, one turned over, are the whole; what is not alike stays whole."""

from dataclasses import replace

import numpy as np
import pytest
from shapely.affinity import scale
from shapely.geometry import LineString, Point
from shapely.ops import polygonize, unary_union

from sizer.drawing.record import Circle, Path, Text
from sizer.export.pdf_head import new_canvas
from sizer.export.tile_layout import tile_page
from sizer.export.tile_ways import best_way
from sizer.export.tiles import PAPERS_MM, USUAL_PAPER
from sizer.shop.half_pattern import NOTE, half_pattern
from sizer.shop.relief import outlines
from sizer.shop.stem_drawing import stem_drawing
from sizer.shop.stems import stem_patterns
from sizer.stamp import Imprint, Stamp

IMPRINT = Imprint(Stamp("AB-1234", "", "B", "2026-11-28", "A"), "day-boat", "", ("Mind.",))
A4 = PAPERS_MM[USUAL_PAPER]


@pytest.fixture(scope="module")
def drawings(frame_drawings):
    return frame_drawings


def turned_over(shape):
    return scale(shape, -1.0, origin=(0.0, 0.0))


def test_two_halves_are_the_whole_frame(drawings):
    for drawing in drawings:
        (wood,) = outlines(drawing)
        lines = [LineString(np.vstack([one.points_m, one.points_m[:1]]) if one.closed
                            else one.points_m)
                 for one in half_pattern(drawing).strokes if one.pen == "cut"]
        assert min(line.bounds[0] for line in lines) >= -1e-9
        both = unary_union([*lines, *map(turned_over, lines)])
        assert both.hausdorff_distance(wood.boundary) < 2e-4
        found = unary_union([face for face in polygonize(both)
                             if wood.contains(face.representative_point())])
        assert found.area == pytest.approx(wood.area, rel=1e-3)


def test_every_hole_is_on_one_of_the_halves(drawings):
    for drawing in drawings:
        holes = [one.centre_m for one in half_pattern(drawing).strokes
                 if isinstance(one, Circle) and one.pen == "drill"]
        both = unary_union([Point(one) for one in holes + [(-x, z) for x, z in holes]])
        wanted = unary_union([Point(one.centre_m) for one in drawing.strokes
                              if isinstance(one, Circle) and one.pen == "drill"])
        assert both.hausdorff_distance(wanted) < 1e-9


def test_it_says_that_it_is_a_half_and_whose(drawings):
    for drawing in drawings:
        half = half_pattern(drawing)
        assert half.notes == (*drawing.notes, NOTE)
        words = [one.text for one in half.strokes if isinstance(one, Text)]
        assert drawing.name in words
        assert len({"S", "P"} & set(words)) <= 1
        assert half.on("cut").width_m == pytest.approx(drawing.on("cut").width_m / 2.0, abs=2e-4)


def test_what_is_not_alike_on_both_sides_stays_whole(boat, drawings):
    stem = stem_drawing(stem_patterns(boat)[0])
    assert half_pattern(stem) is stem
    cuts = [one for one in drawings[0].strokes if one.pen == "cut"]
    bitten = np.array(cuts[0].points_m)
    bitten[np.argmax(bitten[:, 0])] -= (0.004, 0.0)
    other = replace(drawings[0], strokes=(Path("cut", bitten, closed=True), *cuts[1:]))
    assert half_pattern(other) is other


def test_halves_take_well_fewer_pages(drawings):
    new_canvas("Boat", IMPRINT)  # its fonts
    pages = [tile_page("Boat: frame, tile 99 of 99", IMPRINT, size) for size in (A4, A4[::-1])]

    def tiles(of):
        return sum(len(best_way(one, pages)[2].tiles) for one in of)

    assert tiles(map(half_pattern, drawings)) <= 0.8 * tiles(drawings)
