"""The coaming's pattern and strips against the opening and circles."""

import math
from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest
from shapely.geometry import LineString, Polygon

from sizer.design.woods import WOODS
from sizer.drawing.record import Path, Text, text_corners_m
from sizer.hull.boat import Opening, scaled_boat
from sizer.hull.scale import Scaling
from sizer.hull.weight import COAMING_KGPM
from sizer.shop.coaming import (
    BELOW_DECK_M,
    COAMING_WOOD,
    LIP_M,
    WALL_M,
    arm_checks,
    coaming,
    rim_checks,
)
from sizer.shop.coaming_drawing import coaming_drawing
from sizer.shop.frames import frame_patterns
from sizer.shop.lashing import EDGE_M, HOLE_M


def test_outline_is_the_opening_seen_square_to_its_slope(boat):
    rim, opening = coaming(boat), boat.opening
    outline = rim.outline_m
    assert outline[0] == pytest.approx(outline[-1], abs=1e-12)
    assert Polygon(outline).is_valid
    assert outline[:, 1].max() == pytest.approx(opening.width_m / 2.0, abs=5e-5)
    assert outline[:, 1].min() == pytest.approx(-opening.width_m / 2.0, abs=5e-5)
    drop = opening.rim_z_m[0] - opening.rim_z_m[1]
    assert outline[:, 0].max() == pytest.approx(math.hypot(opening.length_m, drop), abs=1e-9)
    assert rim.slope_deg == pytest.approx(math.degrees(math.atan(drop / opening.length_m)))
    level = outline[:, 0] * math.cos(math.radians(rim.slope_deg)) + opening.front_x_m
    inside = slice(1, -1)
    assert np.abs(outline[inside, 1]) == pytest.approx(
        opening.half_width_m(level[inside]), abs=2e-4)


def test_girth_is_the_outlines_length_and_the_lip_lies_outside_it(boat):
    rim = coaming(boat)
    polygon = Polygon(rim.outline_m)
    assert rim.girth_m == pytest.approx(polygon.length, abs=0.001)
    lip = polygon.buffer(WALL_M + LIP_M, 64)
    assert rim.lip_girth_m == pytest.approx(lip.length, abs=0.002)
    left, low, right, high = lip.bounds
    assert rim.lip_size_m == pytest.approx((right - left, high - low), abs=5e-4)
    assert rim.wall_girth_m == pytest.approx(polygon.buffer(WALL_M, 64).length, abs=0.002)
    wall, outer = rim.strips
    assert wall.length_m > rim.girth_m
    assert outer.length_m > rim.lip_girth_m


def test_the_wall_reaches_from_under_the_deck_to_the_rim(boat):
    rim, opening = coaming(boat), boat.opening
    assert rim.wall_m == pytest.approx(
        tuple(top - deck for top, deck in zip(opening.rim_z_m, opening.deck_z_m, strict=True)))
    assert rim.strips[0].width_m == pytest.approx(max(rim.wall_m) + BELOW_DECK_M, abs=0.0005)


def test_a_strip_is_as_wide_on_every_paper(boat):
    """The pattern's notes tell whole millimetres, the list of buying all that a figure holds."""
    for one in coaming(boat).strips:
        assert f"{1000.0 * one.width_m:g}" == f"{1000.0 * one.width_m:.0f}"


def test_the_tightest_bend_is_that_of_the_drawn_end(boat):
    """Near an end the outline is y = (w/2) sqrt(2.5 d / a): a radius of 2.5 (w/2)^2 / (2 a)."""
    rim = coaming(boat)
    ends = [2.5 * (rim.width_m / 2.0) ** 2 / (2.0 * part)
            for part in (rim.widest_m, rim.length_m - rim.widest_m)]
    assert rim.tightest_m <= min(ends) * 1.02
    assert rim.tightest_m == pytest.approx(min(ends), rel=0.1)
    thick = rim.strips[0].thickness_m
    assert rim.tightest_m / thick >= 75.0, "bends cold with care, as the guide of the woods says"
    assert thick == 0.003 or rim.tightest_m / 0.003 < 75.0
    assert rim.verdict in ("bends easily", "bends with care")
    for strip, whole in zip(rim.strips, (WALL_M, LIP_M), strict=True):
        assert strip.count * strip.thickness_m == pytest.approx(whole)


def test_a_wood_metre_weighs_what_the_boats_weight_allows_with_glue_and_fastenings(boat):
    section_m2 = sum(one.count * one.width_m * one.thickness_m for one in coaming(boat).strips)
    wood_kgpm = section_m2 * WOODS[COAMING_WOOD].density_kgpm3
    assert 0.8 * COAMING_KGPM < wood_kgpm < COAMING_KGPM


def test_a_level_opening_has_no_slope():
    class Level:
        opening = Opening(1.0, 1.8, 0.42, (0.30, 0.30), (0.33, 0.33))
        design = SimpleNamespace(stringers=(), frames=())

    rim = coaming(Level())
    assert rim.slope_deg == 0.0
    assert rim.length_m == pytest.approx(0.8)


def test_a_longer_opening_takes_longer_strips(lines):
    short, long = (coaming(scaled_boat(lines, Scaling(cockpit_length_m=one)))
                   for one in (0.70, 0.80))
    assert long.strips[0].length_m > short.strips[0].length_m + 0.15


def test_a_spray_deck_finds_room_under_the_lip_and_a_low_rim_is_told(boat):
    """The room as in the papers: from the lip's underside, 14 mm under the rim, to the deck."""
    [found] = rim_checks(boat)
    over = np.subtract(boat.opening.rim_z_m, boat.opening.deck_z_m) * 1000.0
    assert found.value == pytest.approx(over.min() - 14.0, abs=1e-6)
    assert found.status == "pass"
    low = replace(boat, opening=replace(
        boat.opening, rim_z_m=boat.opening.rim_z_m - np.array([0.0, 0.005])))
    [found] = rim_checks(low)
    assert (found.status, found.place) == ("caution", "back")


def test_no_line_on_the_form_but_its_saw_line_can_be_sawn_along(boat):
    """Marks are broken, and no words stand on any line, of the form or beside it."""
    rim = coaming(boat)
    drawing = coaming_drawing(rim, boat)
    (saw,) = drawing.on("cut").strokes
    assert np.abs(saw.points_m[:, 1]).max() == pytest.approx(rim.width_m / 2.0, abs=5e-5)
    marks = [LineString(one.points_m) for one in drawing.on("mark").strokes]
    assert max(one.length for one in marks) < 0.0081
    assert sum(one.length for one in marks) > 0.6 * (rim.length_m + rim.width_m)
    lines = [LineString(np.vstack([one.points_m, one.points_m[:int(one.closed)]]))
             for one in drawing.strokes if isinstance(one, Path)]
    words = {one.text: Polygon(text_corners_m(one)) for one in drawing.strokes
             if isinstance(one, Text)}
    assert {"COAMING FORM", "BOW", "S", "P", "widest"} <= set(words)
    for text, room in words.items():
        assert not any(room.intersects(one) for one in lines), text
        assert not any(room.intersects(other) for name, other in words.items() if name != text)


def test_every_arm_that_the_wall_stands_on_has_a_hole_to_lash_it_through(lines):
    """At the narrowest and the widest crown: outside of the 9 mm wall, well under its own
    holes, 8 mm below the deck line, with wood over it that a pull upwards meets."""
    for crown in lines.design.limits.crown:
        boat = scaled_boat(lines, Scaling(crown=crown))
        frames = frame_patterns(boat)
        over = {one.over for one in coaming(boat).notches}
        for frame in frames:
            holes = [spot for name, spot in frame.holes if name == "coaming"]
            assert len(holes) == (2 if frame.name in over else 0), frame.name
            for y, z in holes:
                end, deck = frame.section.skin_m[-1]
                assert abs(y) - HOLE_M / 2.0 > end + 0.009
                assert z + HOLE_M < deck - 0.008 - HOLE_M
                above = frame.wood.intersection(LineString([(y, z), (y, z + 1.0)])).length
                assert above > EDGE_M + HOLE_M / 2.0
        assert over & {one.name for one in frames}
        assert {one.status for one in arm_checks(frames)} == {"pass"}
        bare = [replace(one, holes=()) for one in frames]
        assert {one.status for one in arm_checks(bare)} == {"fail"}
