"""A picture for the page read back as XML, and moved and scaled before."""

from dataclasses import replace
from xml.etree import ElementTree

import numpy as np
import pytest

from sizer.drawing.marks import WIDE, apart, on_page, paper_round, size_line, words
from sizer.drawing.page_svg import page_svg
from sizer.drawing.pens import PENS, page_css
from sizer.drawing.record import CAP_HEIGHT, Circle, Drawing, Path, Text

FRAME = (-0.010, -0.020, 0.090, 0.030)
STROKES = (
    Path("ink", np.array([(0.0, 0.0), (0.05, 0.0), (0.05, 0.02)])),
    Path("block", np.array([(0.0, 0.0), (0.01, 0.0), (0.01, 0.01)]), closed=True),
    Circle("drill", (0.02, 0.01), 0.0032),
    Text("text", (0.03, 0.0), CAP_HEIGHT * 0.010, "5' <b>", 90.0, "start", rim=True))
DRAWN = Drawing("a & b", STROKES, ("What it", "shows."), FRAME)


def parsed(drawing):
    return ElementTree.fromstring(page_svg(drawing))


def test_one_unit_is_one_millimetre_down_from_the_papers_corner():
    root = parsed(DRAWN)
    assert root.get("viewBox") == "0 0 100 50"
    title, line, block, hole, text = root
    assert line.get("d") == "M10 30L60 30L60 10"
    assert block.get("d").endswith("Z")
    assert [hole.get(key) for key in ("cx", "cy", "r")] == ["30", "20", "3.2"]
    assert (title.text, root.get("aria-label")) == ("a & b", "What it shows.")
    assert [text.get(key) for key in ("x", "font-size", "text-anchor", "class", "transform")] == [
        "40", "10", "start", "sz-text sz-rim", "rotate(-90 40 30)"]
    assert text.text == "5' <b>"


def test_scaled_and_moved_keep_the_picture_on_its_paper():
    larger = DRAWN.scaled(3.0).moved((0.4, -0.7))
    root = parsed(larger)
    assert root.get("viewBox") == "0 0 300 150"
    assert root[1].get("d") == "M30 90L180 90L180 30"
    assert root[3].get("r") == "9.6"
    assert root[4].get("font-size") == "30"


def test_turned_a_quarter_to_the_left():
    turned = DRAWN.moved((0.0, 0.0), turned=True)
    assert turned.strokes[0].points_m == pytest.approx(
        np.array([(0.0, 0.0), (0.0, 0.05), (-0.02, 0.05)]))
    assert turned.frame_m == pytest.approx((-0.030, -0.010, 0.020, 0.090))
    assert turned.strokes[3].angle_deg == 180.0


def test_paper_round_a_box_leaves_the_room_that_was_asked_for():
    paper = paper_round((2.0, -0.3, 4.0, 0.3), 260.0, 30.0, 12.0, 40.0)
    assert paper.unit_m == pytest.approx(0.01)  # 2 m on 200 mm
    left, bottom, right, top = paper.frame_m
    assert (left, right) == pytest.approx((2.0 - 0.3, 4.0 + 0.3))
    assert (top, bottom) == pytest.approx((0.3 + 0.12, -0.3 - 0.4))
    drawn = paper.on_paper(STROKES)
    assert drawn.frame_m[2] - drawn.frame_m[0] == pytest.approx(0.260)


def test_a_piece_at_true_size_fills_the_width_of_a_desk():
    piece = replace(DRAWN, frame_m=None)
    shown = on_page(piece, "A piece.")
    assert parsed(shown).get("viewBox").startswith(f"0 0 {WIDE:g} ")
    assert shown.width_m == pytest.approx((WIDE - 20.0) * 1e-3)


def test_words_stand_on_their_place_and_a_dimension_ends_where_it_says():
    text = words((1.0, 2.0), "a", 0.01)
    assert text.at_m[1] - text.height_m / 2.0 == pytest.approx(2.0)
    ends = size_line((0.0, 0.0), (0.3, 0.4), 0.01).points_m[2:4]
    assert ends == pytest.approx(np.array([(0.0, 0.0), (0.3, 0.4)]))


def test_places_apart_move_no_more_than_they_must():
    assert apart([0.0, 10.0], 4.0) == pytest.approx([0.0, 10.0])
    assert apart([0.0, 1.0], 4.0) == pytest.approx([-1.5, 2.5])
    assert np.diff(apart([0.0, 0.1, 0.2, 9.0], 4.0)).min() >= 4.0 - 1e-9


def test_every_pen_is_a_rule_that_draws_something():
    rules = page_css()
    for name in PENS:
        rule = rules.split(f".sz-{name} {{")[1].split("}")[0]
        assert "var(--sz-" in rule or name in ("text", "number", "size")
