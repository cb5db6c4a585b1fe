"""Whether the outfit's pieces are the same on the sheets as in the patterns, and where their screws
go."""

import re

import numpy as np
import pytest
from shapely.geometry import Point, Polygon

from sizer.drawing.record import Circle, Path, Text
from sizer.shop.outfit_boards import brace_board, cheek_board, hip_board, stop_board
from sizer.shop.pedals import CHEEK_SCREWS_M
from tests.conftest import BASE_NAMES


@pytest.fixture(scope="module", params=BASE_NAMES)
def job(request, middle_job):
    return middle_job(request.param)


def test_a_piece_on_the_sheets_is_its_pattern_stroke_by_stroke_port_its_mirror_image(bench):
    """The sheets of plywood, from which the kit's files are made, by the patterns: what is sawn,
    bored and marked, and on which side it goes."""
    patterns = {one.name: one for one in (bench.pedal_piece, cheek_board(), *(
        () if bench.thigh is None else (brace_board(bench.thigh),)), *(
        () if bench.hip_pads is None else (hip_board(bench.hip_pads),)))}
    laid = [piece for row in bench.outfit_pieces for piece in row]
    for name, pattern in patterns.items():
        starboard, port = [piece for piece in laid if piece.name == name]
        for piece, turned in ((starboard, 1.0), (port, 1.0 if name == "pedal cheek" else -1.0)):
            for pen in ("cut", "drill", "mark"):
                spots, wanted = ([spot for one in each.on(pen).strokes for spot in (
                    one.points_m.tolist() if isinstance(one, Path) else [one.centre_m])]
                    for each in (piece, pattern))
                assert np.reshape(spots, (-1, 2)) == pytest.approx(
                    np.reshape(wanted, (-1, 2)) * (turned, 1.0))
        said = " ".join(one.text for one in port.strokes if isinstance(one, Text))
        assert ("port" in said) == (name != "pedal cheek")
        assert "starboard" not in said
    kept = [one.text for layout in bench.layouts for sheet in layout.sheets
            for one in sheet.drawing.strokes if isinstance(one, Text)]
    for side in ("starboard", "port"):
        assert sum(one == f"{side}, after face" for one in kept) == 1


def test_screws_are_marked_as_many_as_are_bought_clear_of_ends_edges_and_each_other(bench):
    """By the crosses drawn: 10 mm from ends, 6 mm from any edge, cords' nicks too, and two on one
    line of the grain 20 mm apart."""
    listed = next(one for one in bench.materials.items if one.what.startswith(
        "stainless screw 3.5 x 20"))
    pieces = [*(piece for row in bench.outfit_pieces for piece in row),
              *2 * [stop_board()]]
    marked = 0
    for piece in pieces:
        spots = _crossed_m(piece)
        marked += len(spots)
        ring = next(one.points_m for one in piece.strokes if getattr(one, "pen", "") == "cut")
        for spot in spots:
            assert Polygon(ring).exterior.distance(Point(spot)) > 0.0059, piece.name
        for word in piece.strokes:
            if isinstance(word, Text) and not word.angle_deg:
                half = 0.3 * word.height_m * len(word.text) + 0.002, 0.5 * word.height_m + 0.002
                assert all((np.abs(np.subtract(spot, word.at_m)) > half).any()
                           for spot in spots), (piece.name, word.text)
        for row, one in enumerate(spots):
            assert all(np.hypot(*np.subtract(one, other)) > 0.0115 for other in spots[:row])
    assert marked == int(re.search(r"posts: (\d+)|pads: (\d+)|stops: (\d+)",
                                   listed.allowance).group(0).split(": ")[1])
    if bench.thigh is not None:
        post, (screw,) = Polygon(bench.thigh.post_flat_m), _crossed_m(brace_board(bench.thigh))
        assert post.exterior.distance(Point(screw)) == pytest.approx(0.006, abs=1e-5)
        assert min(np.hypot(*np.subtract(screw, nick)) for nick in bench.thigh.nicks_m) > 0.010


def test_a_pedals_screws_meet_its_block_and_not_each_other(bench):
    """In the block's own measures: those through the plate 10 mm from its cheek's face or more,
    none at the height of one through the cheek."""
    made = bench.pedals
    block, plate = Polygon(made.block_m), Polygon(made.plate_m)
    assert block.area == pytest.approx(0.040 * 0.060, rel=1e-6)
    assert plate.contains(block.buffer(-1e-6)), "a plate to screw through all over the block"
    for spot in made.screws_m:
        assert block.exterior.distance(Point(spot)) == pytest.approx(0.010)
    for side, high in CHEEK_SCREWS_M[:2]:
        assert side == pytest.approx(0.010)
        assert min(abs(high - up) for up in (0.010, 0.050)) > 0.0095


def _crossed_m(piece):
    """Middles of a Drawing's crosses: two short marks over each other; a cheek's pins have a circle
    round theirs and are no screws."""
    marks = [one.points_m for one in piece.strokes if isinstance(one, Path)
             and one.pen == "mark" and len(one.points_m) == 2
             and np.hypot(*np.diff(one.points_m, axis=0)[0]) < 0.006]
    middles = [tuple(one.mean(axis=0).round(6)) for one in marks]
    round_them = [one.centre_m for one in piece.strokes if isinstance(one, Circle)]
    return [one for one in dict.fromkeys(middles) if middles.count(one) == 2
            and all(np.hypot(*np.subtract(one, pin)) > 0.001 for pin in round_them)]
