"""The close-up of the cockpit says what the checks say, where it says it, and nothing overlaps."""

import itertools
import re
from dataclasses import replace
from functools import cache
from pathlib import Path
from xml.etree import ElementTree

import numpy as np
import pytest
from shapely import LineString, Polygon, box

from sizer.design.read import read_design
from sizer.drawing.page_svg import page_svg
from sizer.fit.checks import checks_of
from sizer.fit.facts import facts_of
from sizer.fit.person import person_of
from sizer.fit.request import read_request
from sizer.fit.solve import fit, fit_many
from sizer.hull.lines import fair_lines
from sizer.hull.sections import half_section_at
from sizer.scenes.clearances import clearances, marks_of, spare_text
from sizer.units import inches_text

BASELINES = Path(__file__).parents[2] / "baselines"
BASES = sorted(path.stem for path in BASELINES.glob("*.toml"))
PEOPLE = ((45, 1500, 330), (74, 1715, 392), (82, 1780, 385), (140, 1950, 470))
TEXTS = {"mm": lambda value_m: f"{value_m * 1000:.0f} mm",
         "cm": lambda value_m: f"{value_m * 100:.1f} cm",
         "in": lambda value_m: f"{inches_text(value_m * 1000, 16)} in"}
CASES = [(base, who) for turn, base in enumerate(BASES)  # one of the two between them by turns
         for who in (PEOPLE[0], PEOPLE[1 + turn % 2], PEOPLE[3])]
LETTER = 0.56  # of the text height: a broad sans-serif with digits


@cache
def lines_of(base):
    path = BASELINES / f"{base}.toml"
    return fair_lines(read_design(path.read_bytes(), path.name))


def request_of(base, who, **fixed):
    weight, stature, hips = who
    return read_request({"base": base, "use": "sheltered-day", "fixed": fixed, "paddler": {
        "weight_kg": weight, "stature_mm": stature, "hip_width_mm": hips}})


@cache
def fitted_to_all(base):
    """{who: as `fitted`} of those in CASES, side by side: each as alone."""
    people = [who for one, who in CASES if one == base]
    persons = [person_of(request_of(base, who)) for who in people]
    return {who: (one.assessed, person.body) for who, person, one in zip(
        people, persons, fit_many(lines_of(base), persons), strict=True)}


@cache
def fitted(base, who, crown=None):
    """(assessed boat, body) of the fit of a base to a paddler, its deck crown held or not."""
    if crown is None and (base, who) in CASES:
        return fitted_to_all(base)[who]
    request = request_of(base, who, **({} if crown is None else {"deck_crown": crown}))
    person = person_of(request)
    return fit(lines_of(base), person, request.fixed, explained=False).assessed, person.body


@cache
def parsed(base, who, unit="mm", narrow=False, crown=None):
    assessed, body = fitted(base, who, crown)
    return ElementTree.fromstring(page_svg(clearances(assessed, body, TEXTS[unit], narrow)))


def of_class(root, mark):
    return [node for node in root.iter() if node.get("class") == mark]


def points(node):
    return np.array(re.findall(r"(-?[\d.]+) (-?[\d.]+)", node.get("d")), float)


def shapes_of(root):
    """The strokes of each status shape, which stand together."""
    runs = itertools.groupby(root.iter(), lambda node: (node.get("class") or "").startswith(
        "sz-shape"))
    return [list(nodes) for shape, nodes in runs if shape]


def words_of(root):
    return [node for node in root.iter() if node.tag.endswith("text")]


def word_box(node):
    size = float(node.get("font-size"))
    long = LETTER * size * len(node.text)
    left = float(node.get("x")) - {"start": 0.0, "end": 1.0}[node.get("text-anchor")] * long
    low = float(node.get("y"))
    return box(left, low - 0.74 * size, left + long, low + 0.2 * size)


def shapes_box(nodes):
    places = np.concatenate([points(node) for node in nodes])
    return box(*places.min(axis=0), *places.max(axis=0))


@pytest.mark.parametrize(("base", "who"), CASES)
@pytest.mark.parametrize("narrow", [False, True])
def test_clearances_are_the_checks_own(base, who, narrow):
    assessed, _ = fitted(base, who)
    checks = {check.key: check for check in checks_of(facts_of(assessed))}
    side, above, brace = marks_of(assessed)
    assert [mark.check for mark in (*side, *above, *brace)] == [checks[key] for key in (
        "feet", "knees", "thighs", "feet-wide", "hips", "brace-far", "brace-near")]
    root = parsed(base, who, narrow=narrow)
    shown = [node.text for node in words_of(root)]
    for mark in (*side, *above, *brace):
        at = shown.index(mark.name)
        assert shown[at + 1] == spare_text(mark.check, TEXTS["mm"])
        assert f"{mark.name} {shown[at + 1]}" in root.get("aria-label")


@pytest.mark.parametrize(("base", "who"), CASES)
def test_marks_are_drawn_as_long_as_the_checks_say(base, who):
    assessed, _ = fitted(base, who)
    side, above, brace = marks_of(assessed)
    root = parsed(base, who)
    span = assessed.boat.seat_x_m + 0.27 - (side[0].x_m - 0.36)
    scale = (860.0 - 28.0) / span
    bars = [np.ptp(points(node), axis=0).max() for node in of_class(root, "sz-bar")]
    assert bars[:5] == pytest.approx([scale * mark.need_m for mark in (*side, *above)], abs=0.11)
    spares = [np.ptp(points(node)[2:4], axis=0).max() for node in root.iter()
              if node.get("class") in ("sz-dimension", "sz-short")]
    halves = [0.5 * (mark.clear_m - mark.need_m) for mark in above for _ in range(2)]
    over = [*(mark.clear_m - mark.need_m for mark in side), *halves,
            *(mark.clear_m - mark.need_m for mark in brace)]
    assert spares[:9] == pytest.approx([scale * abs(one) for one in over], abs=0.16)


@pytest.mark.parametrize(("base", "who"), CASES)
def test_marks_stand_where_the_engine_measured(base, who):
    """The boat's own deck at each mark, less a deck beam of 30 mm, is the clear height; between the
    spacers (`tests/shop/test_hip_room.py`) it is narrower than between the stringers."""
    assessed, _ = fitted(base, who)
    (feet, knees, thighs), (_, hips), _ = marks_of(assessed)
    sheer = assessed.boat.sections.sheer
    for mark, out in ((feet, 0.07), (knees, 0.14), (thighs, 0.10)):
        y, z = half_section_at(assessed.boat.sections, mark.x_m)
        deck = np.interp(out, y[sheer:-2][::-1], z[sheer:-2][::-1])
        assert deck - 0.030 - mark.floor_m == pytest.approx(mark.clear_m, abs=1e-9)
    y, z = half_section_at(assessed.boat.sections, hips.x_m)
    stock = max(line.stringer.depth_m for line in assessed.boat.lines.between)
    at = np.interp(assessed.boat.seat_z_m + 0.10, z[:sheer + 1], y[:sheer + 1])
    assert 0.0 < 2.0 * (at - stock) - hips.clear_m < 0.050


@pytest.mark.parametrize(("base", "who"), CASES)
@pytest.mark.parametrize("unit", TEXTS)
@pytest.mark.parametrize("narrow", [False, True])
def test_no_words_meet_each_other_a_line_to_them_or_the_body(base, who, unit, narrow):
    root = parsed(base, who, unit, narrow)
    _, _, width, height = (float(number) for number in root.get("viewBox").split())
    boxes = [(node.text, word_box(node)) for node in words_of(root)]
    boxes += [("shape", shapes_box(nodes)) for nodes in shapes_of(root)]
    for (one, here), (other, there) in itertools.combinations(boxes, 2):
        assert not here.intersects(there), (one, other)
    outlines = [Polygon(points(node)).buffer(0) for node in of_class(root, "sz-body-fill")]
    lines = [LineString(points(node)) for node in of_class(root, "sz-extension")]
    assert len(outlines) == 1
    assert len(lines) == 6
    for text, here in boxes:
        assert box(0.0, 0.0, width, height).contains(here), text
        for thing in (*outlines, *lines):
            assert not here.intersects(thing), text


@pytest.mark.parametrize(("base", "who"), CASES)
@pytest.mark.parametrize("narrow", [False, True])
def test_everything_drawn_stays_in_the_picture(base, who, narrow):
    root = parsed(base, who, narrow=narrow)
    _, _, width, height = (float(number) for number in root.get("viewBox").split())
    for node in root.iter():
        if node.tag.endswith("path"):
            places = points(node)
            assert places.min() >= 0.0
            assert places[:, 0].max() <= width
            assert places[:, 1].max() <= height


@pytest.mark.parametrize(("base", "who"), CASES)
@pytest.mark.parametrize("narrow", [False, True])
def test_marks_at_one_place_stand_apart(base, who, narrow):
    feet, knees, thighs, *_ = [points(node)[0, 0] for node in of_class(
        parsed(base, who, narrow=narrow), "sz-bar")]
    assert knees - feet >= 17.9
    assert thighs - knees >= 17.9


def test_thighs_are_measured_where_they_are_thickest_if_that_is_under_the_deck():
    assessed, _ = fitted("day-boat", PEOPLE[1])
    opening = replace(assessed.boat.opening, front_x_m=assessed.boat.seat_x_m - 0.10)
    covered = replace(assessed, boat=replace(assessed.boat, opening=opening))
    (_, knees, thighs), _, _ = marks_of(covered)
    assert assessed.boat.seat_x_m - thighs.x_m == pytest.approx(0.25)
    assert assessed.boat.seat_x_m - knees.x_m == pytest.approx(assessed.room.knee_ahead_m)


def test_a_check_that_is_short_has_a_shape_and_the_word():
    who, low = (82, 1780, 385), 0.65  # a foredeck held low presses on the knees
    knees = marks_of(fitted("day-boat", who, low)[0])[0][1]
    assert knees.check.status == "fail"
    root = parsed("day-boat", who, crown=low)
    assert len(shapes_of(root)) == 1
    assert of_class(root, "sz-shape-fail")
    assert len(of_class(root, "sz-short")) == 1
    assert spare_text(knees.check, TEXTS["mm"]).endswith("short")
    calm = parsed("day-boat", who)
    assert not [node for node in calm.iter() if "shape" in (node.get("class") or "")]


@pytest.mark.parametrize(("over_m", "said"), [
    (-0.0003, "just short"), (0.0003, "just fits"), (-0.012, "12 mm short"), (0.040, "40 mm spare"),
    (0.200, "200 mm: loose")])
def test_what_is_over_the_need_is_said_with_its_side(over_m, said):
    knees = marks_of(fitted("day-boat", PEOPLE[1])[0])[0][1].check
    moved = replace(knees, value_si=knees.window_si[0] + over_m)
    assert spare_text(moved, TEXTS["mm"]) == said
