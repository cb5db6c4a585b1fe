"""The trade-offs' charts and the checks' bars say the record's own windows, on both sides."""

from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest

from sizer.fit.check import Check
from sizer.fit.checks import BY_KEY
from sizer.fit.tried import DIMENSIONS
from sizer.fit.what_if import RESULTS, Curve, PassingMap
from sizer.scenes.window_bar import WIDTH, window_bar
from sizer.web.charts import Curve as Drawn
from sizer.web.charts import Mark, crowd_chart, curves_chart
from sizer.web.draft import Draft
from sizer.web.look import COLOURS
from sizer.web.trade_charts import Axis, curve_chart, limits_of
from sizer.web.trade_map import map_chart
from sizer.web.trade_words import (
    change_text,
    curve_sentence,
    dimension_axis,
    map_heads,
    map_rows,
    map_sentence,
    result_axis,
)

INF = np.inf
AXIS = Axis("beam", "beam, mm", 1000.0, lambda value: f"{1000.0 * value:.0f} mm")
WINDOWS = {  # zones from left to right
    (0.10, 0.11, 0.18, INF): ["fail", "caution", "pass", "caution"],
    (0.10, -INF, INF, INF): ["fail", "pass"],
    (-INF, -0.02, 0.02, INF): ["caution", "pass", "caution"],
    (0.9, -INF, INF, 1.1): ["fail", "pass", "fail"],
    (0.57, -INF, 0.56, INF): ["fail", "caution"]}  # the body needs more than is wanted


def zones(drawn):
    """(kind, left, width in mm) of each zone of a bar."""
    return [(one.pen.removeprefix("zone-"), 1000.0 * one.points_m[:, 0].min(),
             1000.0 * np.ptp(one.points_m[:, 0]))
            for one in drawn.strokes if one.pen.startswith("zone-")]


def tick(drawn):
    return next(1000.0 * one.points_m[0, 0] for one in drawn.strokes if one.pen == "here")


@pytest.mark.parametrize("window", WINDOWS)
def test_a_bar_shows_its_whole_window_and_where_the_boat_is(window):
    for value in (0.05, 0.105, 0.565, 2.0):
        check = Check(BY_KEY["freeboard"], value, window)
        drawn = window_bar(check)
        found = zones(drawn)
        assert [kind for kind, *_ in found] == WINDOWS[window]
        assert sum(wide for *_, wide in found) == pytest.approx(WIDTH, abs=0.3)
        here = tick(drawn)
        kind = next(kind for kind, left, wide in found if here <= left + wide + 0.1)
        assert kind == check.status


def test_a_yes_or_no_has_no_bar():
    assert window_bar(Check(BY_KEY["suits"], 0.0, (-INF, 1.0, INF, INF))) is None


@pytest.fixture
def gm():
    at = np.linspace(0.5, 0.7, 5)
    return Curve(DIMENSIONS["beam"], RESULTS["gm"], at, at - 0.53, (0.05, 0.055, 0.12, INF),
                 ("fail", "fail", "pass", "pass", "caution"),
                 ("fail", "fail", "pass", "pass", "caution"), ((0.585, 0.65),), ((0.585, 0.65),), 2)


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_a_curve_shows_both_sides_of_its_window(gm, theme):
    figure = curve_chart(gm, AXIS, AXIS, theme)
    low, high = figure.layout.yaxis.range
    bands = sorted((shape.y0, shape.y1) for shape in figure.layout.shapes if shape.type == "rect")
    assert np.ravel(bands) == pytest.approx([low, 50.0, 50.0, 55.0, 55.0, 120.0, 120.0, high])
    lines = [shape.y0 for shape in figure.layout.shapes
             if shape.type == "line" and shape.y0 == shape.y1]
    assert sorted(lines) == pytest.approx([50.0, 55.0, 120.0])
    said = {note.text for note in figure.layout.annotations}
    assert {"at least 50 mm", "better from 55 mm", "better to 120 mm"} <= said


@pytest.mark.parametrize(("before", "after", "unit", "said"), [
    (0.0646, 0.0464, "m", "−19 mm"),  # 65 and 46 mm, though they are 18.2 mm apart
    (0.9449, 0.9751, "of the base", "+4%"),  # 94 and 98 of 100
    (15.04, 15.06, "kg", "+0.1 kg"), (0.5003, 0.4997, "m", "±0 mm"), (70.4, 69.6, "deg", "±0°"),
    (12.34, 12.36, "N", "+0.1 N")])
def test_a_difference_is_that_of_the_figures_as_written(before, after, unit, said):
    assert change_text(Draft(length_unit="mm", mass_unit="kg"), before, after, unit) == said


def test_a_difference_in_inches_and_pounds_is_that_of_the_figures_as_written():
    one = Draft(length_unit="in", mass_unit="lb")
    # 2 9/16 and 1 13/16 in, 165 and 176 lb
    assert change_text(one, 0.0646, 0.0464, "m") == "−3/4 in"
    assert change_text(one, 75.0, 79.6, "kg") == "+10 lb"


@pytest.mark.parametrize(("passing", "unit", "said"), [
    (((0.5664, 0.5846),), "mm", "passes from 567 mm to 584 mm"),
    (((0.567, 0.584),), "mm", "passes from 567 mm to 584 mm"),
    (((0.5664, 0.5846),), "in", "passes from 22 5/16 in to 23 in"),  # 566.7 and 584.2 mm
    (((0.5664, 0.5846), (0.5912, 0.5917)), "mm", "passes from 567 mm to 584 mm."),
    (((0.5742, 0.5746),), "mm", "passes only close to 574 mm"),
    ((), "mm", "passes nowhere along here")])
def test_what_is_said_to_pass_lies_inside_what_does(gm, passing, unit, said):
    across = dimension_axis(Draft(length_unit=unit), gm.dimension)
    assert said in curve_sentence(replace(gm, passing=passing), across, AXIS, unit)


@pytest.mark.parametrize("window", [
    (0.05, 0.055, 0.12, INF), (0.025, 0.038, 0.07, INF), (0.06, 0.062, 0.10, 0.104),
    (-INF, 0.05, 0.058, INF), (0.165, -INF, INF, INF), (-INF, -INF, -0.028, INF)])
@pytest.mark.parametrize("slope", [1.0, -1.0, 0.2])
def test_words_of_the_limits_lie_on_no_line_and_not_on_each_other(gm, window, slope):
    """On a phone 12 px of letters take 17 px of some 215, and the longest words 125 of 285."""
    value = 0.07 + slope * (gm.at - 0.6)
    figure = curve_chart(replace(gm, value=value, window=window), AXIS, AXIS, "light")
    low, high = figure.layout.yaxis.range
    x, y = 1000.0 * gm.at, 1000.0 * value
    limits = [shape.y0 for shape in figure.layout.shapes
              if shape.type == "line" and shape.y0 == shape.y1]
    boxes = []
    for note in figure.layout.annotations:
        if note.text.startswith(("at ", "better ")):
            tall = 17.0 / 215.0 * (high - low)
            bottom = note.y - tall if note.yanchor == "top" else note.y
            at_right = note.xanchor == "right"
            wide = 125.0 / 285.0 * np.ptp(x)
            boxes.append((at_right, bottom, bottom + tall))
            assert not [one for one in limits if bottom < one < bottom + tall and one != note.y]
            along = np.linspace(*((x[-1] - wide, x[-1]) if at_right else (x[0], x[0] + wide)), 99)
            on = np.interp(along, x, y)
            assert not np.any((on > bottom) & (on < bottom + tall)), note.text
    assert len(boxes) == len(limits)
    for one, other in combinations(boxes, 2):
        assert one[0] != other[0] or one[2] <= other[1] or other[2] <= one[1]


def test_words_of_today_stand_over_the_curve(gm):
    figure = curve_chart(gm, AXIS, AXIS, "light")
    today = next(note for note in figure.layout.annotations if note.text.startswith("today"))
    assert (today.yref, today.y) == ("paper", 1.0)
    assert figure.layout.yaxis.domain[1] < 0.95  # under those words


def test_words_of_marks_stand_over_the_curves():
    x = np.linspace(0.0, 180.0, 19)
    figure = curves_chart([Drawn("arm", x, np.sin(np.radians(x)))], "heel", "arm", "light",
                          [Mark("rigid to 41°", 41.0), Mark("rim at 56°", 56.0),
                           Mark("far off 170°", 170.0)])
    top = figure.layout.yaxis.domain[1]
    notes = figure.layout.annotations
    assert all(note.y > top + 1e-9 for note in notes)
    assert len({note.y for note in notes[:2]}) == 2  # near ones one over the other
    assert notes[2].y == notes[0].y
    assert {(line.x0, line.x1) for line in figure.layout.shapes} == {
        (mark, mark) for mark in (41.0, 56.0, 170.0)}


def test_a_side_that_is_open_is_not_drawn(gm):
    open_above = replace(gm, window=(0.05, -INF, INF, INF))
    assert [words for words, _ in limits_of(open_above)] == ["at least"]
    assert limits_of(replace(gm, window=(-INF, -INF, INF, INF))) == []


@pytest.mark.parametrize("unit", ["mm", "cm", "in"])
def test_axes_in_inches_are_marked_as_lengths_are_told_with_millimetres_under_them(gm, unit):
    """A foot is 304.8 mm, an inch 25.4 mm; 48 inches and more are told in feet."""
    one, row = Draft(length_unit=unit), ("pass", "pass", "pass")
    found = PassingMap(DIMENSIONS["length"], DIMENSIONS["beam"], np.array([4.0, 4.5, 5.0]),
                       np.array([0.55, 0.60]), (row, row), (3 * ((),),) * 2, (4.5, 0.60))
    axes = [dimension_axis(one, one_of) for one_of in (DIMENSIONS["length"], DIMENSIONS["beam"])]
    laid = map_chart(found, *axes, "light", (0, 0)).layout
    titles = [laid.xaxis.title.text, laid.yaxis.title.text]
    beside = curve_chart(gm, axes[1], result_axis(one, RESULTS["gm"]), "dark").layout
    if unit != "in":
        assert titles == [f"length, {unit}", f"beam, {unit}"]
        assert laid.xaxis.ticktext is beside.yaxis.ticktext is None
        return
    assert titles == ["length", "beam"]
    assert dict(zip(laid.xaxis.ticktext, laid.xaxis.tickvals, strict=True)) == {
        "14 ft<br>(4267 mm)": 168.0, "16 ft<br>(4877 mm)": 192.0}
    assert laid.yaxis.ticktext[:2] == ("21 in<br>(533 mm)", "22 in<br>(559 mm)")
    assert beside.xaxis.ticktext == ("21 in<br>(533 mm)", "24 in<br>(610 mm)", "27 in<br>(686 mm)")
    assert beside.yaxis.title.text == "steadiness (GM)"
    assert "2 in<br>(51 mm)" in beside.yaxis.ticktext


def test_the_peoples_statures_in_inches_are_marked_in_feet_with_millimetres_under_them():
    bodies = [(1600.0, 60.0), (1900.0, 90.0)]
    x = crowd_chart(Draft(length_unit="in"), bodies, [], "light").layout.xaxis
    assert dict(zip(x.ticktext, x.tickvals, strict=True)) == {
        "5 ft 6 in<br>(1676 mm)": 66.0, "6 ft<br>(1829 mm)": 72.0}
    assert x.title.text == "stature"
    assert crowd_chart(Draft(), bodies, [], "light").layout.xaxis.title.text == "stature, mm"
    assert crowd_chart(Draft(length_unit="in"), [], [], "light").layout.xaxis.ticktext is None


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_unknown_has_its_own_mark_and_is_counted(theme):
    status = (("pass", "unknown", "fail"), ("caution", "pass", "unknown"))
    names = tuple(tuple((one,) if one != "pass" else () for one in row) for row in status)
    found = PassingMap(DIMENSIONS["length"], DIMENSIONS["beam"], np.array([4.0, 4.5, 5.0]),
                       np.array([0.55, 0.60]), status, names, (4.5, 0.60))
    figure = map_chart(found, AXIS, AXIS, theme, (2, 0))
    marks = {trace.marker.symbol: len(trace.x) for trace in figure.data
             if trace.type == "scatter" and trace.mode == "markers" and trace.showlegend is False}
    grounds = {trace.fillcolor: int(np.isnan(np.asarray(trace.x, float)).sum())
               for trace in figure.data if trace.type == "scatter" and trace.fill == "toself"}
    assert grounds == {COLOURS[theme][f"on-{one}"]: many for one, many in (
        ("pass", 2), ("caution", 1), ("fail", 1), ("unknown", 2))}
    assert figure.layout.xaxis.range == pytest.approx((3.75e3, 5.25e3))  # no cell is cut
    assert marks == {"circle": 2, "triangle-up-open": 1, "square-x-open": 1, "line-ns-open": 2}
    assert "could not be worked out" in {trace.name for trace in figure.data}
    assert "2 could not be worked out" in map_sentence(found, "pass")
    assert len(map_heads(found, AXIS, AXIS)) == 6
    top = map_rows(found, AXIS, AXIS)[0]
    assert top == ["600 mm", "4500 mm", "4000 mm", "–", "5000 mm", "–"]
