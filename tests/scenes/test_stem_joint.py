"""The stems as they are lashed: names and letters stand where nothing is drawn."""

from itertools import combinations

import numpy as np
import pytest
from shapely.geometry import LineString, Point, Polygon, box

from sizer.drawing.record import Circle, Path, Text
from sizer.hull.boat import scaled_boat
from sizer.hull.scale import Scaling
from sizer.scenes.stem_joint import LETTERS, stem_joint
from sizer.shop.stem_drawing import stem_drawing
from sizer.shop.stems import stem_patterns

LETTERS_M = 0.0022 * 5  # 2.2 mm of capitals on paper at 1 : 5


@pytest.fixture(scope="module")
def joints(lines):
    """(StemPattern, its Drawing) of both ends of each base as drawn."""
    return [(one, stem_joint(one, stem_drawing(one), LETTERS_M))
            for one in stem_patterns(scaled_boat(lines, Scaling()))]


def letters_box(text):
    """The box of some words, a letter 0.72 of its room wide."""
    x, y = text.at_m
    wide, high = 0.72 * text.width_m, text.height_m
    left = x - wide * {"start": 0.0, "middle": 0.5, "end": 1.0}[text.anchor]
    return box(left, y - 0.5 * high, left + wide, y + 0.5 * high)


def said(drawing, lettered):
    return [one for one in drawing.strokes
            if isinstance(one, Text) and (one.text in LETTERS) == lettered]


def test_no_stick_is_named_on_wood_or_on_a_line(joints):
    for stem, drawing in joints:
        wood = [Polygon(one.points_m) for one in drawing.strokes if one.pen == "block"]
        lines = [LineString(one.points_m) for one in drawing.strokes
                 if isinstance(one, Path) and one.pen != "extension"]
        for text in said(drawing, lettered=False):
            if text.text == stem.name:  # stands in the stem's own corner
                continue
            area = letters_box(text)
            assert not [one for one in (*wood, *lines) if area.intersects(one)], text.text


def test_the_waterlines_tail_stays_on_the_pattern_where_it_is_named(middle_bench):
    bench = middle_bench("teaching-boat")
    stems = [(one, drawing) for one, drawing in zip(
        bench.stems, bench.drawings[len(bench.frames):], strict=True) if one.water_m is not None]
    assert stems
    for stem, drawing in stems:
        for shown, there in ((drawing, True), (stem_joint(stem, drawing, LETTERS_M), False)):
            assert any(isinstance(one, Path) and one.pen == "guide"
                       and np.allclose(one.points_m[0], stem.water_m[-1])
                       for one in shown.strokes) == there


def test_each_lashing_has_its_letter_beside_its_own_hole_and_on_no_other(joints):
    for stem, drawing in joints:
        letters = said(drawing, lettered=True)
        assert [one.text for one in letters] == list(LETTERS[:len(stem.lashings)])
        for one, other in combinations(letters, 2):
            assert not letters_box(one).intersects(letters_box(other)), (one.text, other.text)
        for text, own in zip(letters, stem.lashings, strict=True):
            away = [min(np.hypot(*np.subtract(text.at_m, hole)) for hole in lashing.holes)
                    for lashing in stem.lashings]
            assert stem.lashings[int(np.argmin(away))] is own, text.text
            holes = [Point(one.centre_m).buffer(one.radius_m) for one in drawing.strokes
                     if isinstance(one, Circle)]
            area = letters_box(text)
            assert not [one for one in holes if area.intersects(one)], text.text


def test_most_letters_lie_on_nothing_at_all(joints):
    """Where wood lies close round a hole, a letter may have to stand on one line."""
    for _, drawing in joints:
        lines = [LineString(one.points_m) for one in drawing.strokes if isinstance(one, Path)]
        on = [sum(map(letters_box(one).intersects, lines)) for one in said(drawing, lettered=True)]
        assert max(on) <= 1
        assert sum(on) <= 0.5 * len(on)
