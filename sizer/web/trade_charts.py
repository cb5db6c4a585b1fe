"""The curve of the trade-offs: a pure function from a what-if record to a Plotly figure.

A status is a mark and a shade: a dot, a triangle or a cross in a square, from light to dark.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from itertools import combinations, product

import numpy as np
import plotly.graph_objects as go

from sizer.web.charts import MOST_ACROSS, MOST_UP, colours_in, inch_marks, layout, upright

STATUSES = ("pass", "caution", "fail", "unknown")
MARKS = {"pass": "circle", "caution": "triangle-up-open", "fail": "square-x-open",
         "unknown": "line-ns-open"}
CURVE_PX = 400
STRIP = 0.08  # share of the height that the row of marks takes
STRIP_TOP = 0.20  # and where the curve begins, over the row and its words
WORDS_OVER = 0.93  # and ends, under the words of today's boat
WORDS_HIGH, WORDS_WIDE = 0.085, 0.46  # of both axes that a limit's words take, on a phone
SIDE_TINT = {"fail": 0.16, "caution": 0.13}  # of what lies outside a curve's window
PLACES = tuple(product((False, True), repeat=2))  # of words: under the line, at the right end
UNTOLD = {"hoverinfo": "skip", "showlegend": False}  # neither to a pointer nor in the legend
LEAST_SPAN = 0.06  # of a value: flatter curves are drawn as flat; our judgement


@dataclass(frozen=True)
class Axis:
    """How one quantity is written on the screen."""

    words: str  # such as "beam"
    title: str  # such as "beam, mm"
    per_unit: float  # units of the screen in one of the record's
    text: Callable[[float], str]  # a figure of the record, with its unit
    read_to: float = 0.0  # one step of that text, in the record's unit; 0: as fine as it is
    inches: bool = False  # whether it is of inches, to be marked as `inch_marks`

    def marks(self, low, high, most):
        """What the axis of a chart has besides, from one figure of the screen to another."""
        return inch_marks(low, high, most) if self.inches else {}

    def inside(self, low, high):
        """First and last figure between two that read as what they are; None where none does."""
        if not self.read_to:
            return low, high
        slack = 1e-6  # of a step, so that an end that reads as it is stays
        first = math.ceil(low / self.read_to - slack) * self.read_to
        last = math.floor(high / self.read_to + slack) * self.read_to
        return (first, last) if first <= last else None


def curve_chart(curve, across, up, theme):
    """A Curve of `sizer.fit.what_if`, drawn along the Axis of its dimension and up that of its
    result: where its checks pass, its limits, today's boat."""
    colours = colours_in(theme)
    x, y = curve.at * across.per_unit, curve.value * up.per_unit
    low, high = span = _span(curve, up)
    shown = [(f"{words} {up.text(limit)}", limit * up.per_unit)
             for words, limit in limits_of(curve) if low <= limit * up.per_unit <= high]
    places = limit_places([limit for _, limit in shown], x, y, span, x[curve.today])
    today = x[curve.today], y[curve.today]
    traces = [{"type": "scatter", "mode": "lines", "x": x, "y": y, "showlegend": False,
               "line": {"color": colours["ink"], "width": 2.4},
               "text": [f"{across.text(at)}: <b>{up.text(value)}</b>"
                        for at, value in zip(curve.at, curve.value, strict=True)],
               "hovertemplate": "%{text}<extra></extra>"}]
    if curve.bands:
        traces.append(points([None], [None], {
            "symbol": "square", "size": 14, "color": colours["pass"], "opacity": 0.3},
            name="its checks pass"))
    traces += [*_status_row(curve, across, colours), points(today[:1], today[1:], {
        "symbol": "diamond", "size": 12, "color": colours["ink"],
        "line": {"color": colours["paper"], "width": 2}}, **UNTOLD)]
    laid = laid_out(CURVE_PX, across.title, up.title, colours)
    laid["yaxis"] |= {"range": span, "domain": (STRIP_TOP, WORDS_OVER),
                      **up.marks(low, high, MOST_UP)}
    laid["xaxis"] |= {"anchor": "y2", **across.marks(x[0], x[-1], MOST_ACROSS)}
    return go.Figure(traces, laid | {
        "yaxis2": {"domain": (0.0, STRIP), "range": (-1, 1), "visible": False, "fixedrange": True},
        "shapes": [*_grounds(curve, across, up, span, colours),
                   *(_across(limit, limit, type="line", line={
                       "color": colours["wood"], "width": 1.4, "dash": "dash"})
                     for _, limit in shown), upright(today[0], 1.0, colours)],
        "annotations": [
            *(_limit_words(limit, words, place, colours["wood"])
              for (words, limit), place in zip(shown, places, strict=True)),
            _words("every check:", 0.0, STRIP, colours["ink"], xref="paper", yref="paper",
                   xanchor="left", yanchor="bottom"),
            _today_words(today[0], up.text(curve.value[curve.today]),
                         today[0] > 0.5 * (x[0] + x[-1]), colours["ink"])]})


def _grounds(curve, across, up, span, colours):
    """Where its checks pass, and what lies outside its window, as tinted shapes."""
    low, high = span
    clean = [max(low, *(side * up.per_unit for side in curve.window[:2])),
             min(high, *(side * up.per_unit for side in curve.window[2:]))]
    for start, end in curve.bands:
        yield {"type": "rect", "x0": start * across.per_unit, "x1": end * across.per_unit,
               "y0": clean[0], "y1": clean[1], "fillcolor": colours["pass"], "opacity": 0.22,
               "layer": "below", "line": {"width": 0}}
    for status, start, end in sides_of(curve):
        if end * up.per_unit > low and start * up.per_unit < high:
            yield _across(max(start * up.per_unit, low), min(end * up.per_unit, high), type="rect",
                          line={"width": 0}, fillcolor=colours[status],
                          opacity=SIDE_TINT[status], layer="below")


def _across(low, high, **more):
    return {"xref": "x domain", "x0": 0, "x1": 1, "yref": "y", "y0": low, "y1": high, **more}


def sides_of(curve):
    """(status, from, to in SI) of what lies outside the clean window: too little, then too much."""
    fails_below, wanted_from, wanted_to, fails_above = curve.window
    sides = (("fail", -np.inf, fails_below), ("caution", fails_below, wanted_from),
             ("caution", wanted_to, fails_above), ("fail", fails_above, np.inf))
    return [(status, start, end) for status, start, end in sides if start < end]


def limits_of(curve):
    """(words, limit in SI) of the sides of a curve's window, from the lowest; open ones are out."""
    fails_below, wanted_from, wanted_to, fails_above = curve.window
    sides = [("at least", fails_below), ("at most", fails_above)]
    sides += [(words, wanted) for words, wanted, hard in (
        ("better from", wanted_from, fails_below), ("better to", wanted_to, fails_above))
        if wanted != hard]
    return sorted((side for side in sides if np.isfinite(side[1])), key=lambda side: side[1])


def limit_places(limits, x, y, span, today):
    """Where the words of each limit stand, (under its line, at the right end): of all ways the one
    that crosses least, so that no words lie on another limit's line.

    Parameters
    ----------
    limits : heights of the lines, on the axis of y
    x, y : the curve, (n,) each
    span : lowest and highest of the axis of y
    today : x of the line through today's boat
    """
    boxes = {(limit, place): _words_box(limit, place, x, span)
             for limit in limits for place in PLACES}
    alone = {key: _crossed(box, key[0], limits, x, y, span, today) for key, box in boxes.items()}

    def crossed(places):
        chosen = list(zip(limits, places, strict=True))
        return sum(alone[one] for one in chosen) + sum(
            3 * _meet(boxes[one], boxes[other]) for one, other in combinations(chosen, 2))

    return min(product(PLACES, repeat=len(limits)), key=crossed)


def _words_box(limit, place, x, span):
    """(left, right, low, high) of a limit's words."""
    under, to_right = place
    wide, high = WORDS_WIDE * (x[-1] - x[0]), WORDS_HIGH * (span[1] - span[0])
    left = x[-1] - wide if to_right else x[0]
    low = limit - high if under else limit
    return left, left + wide, low, low + high


def _crossed(box, limit, limits, x, y, span, today):
    """How much lies on a limit's words by itself: the curve, other lines, the axis's end."""
    left, right, low, high = box
    along = np.linspace(left, right, 24)
    on = np.interp(along, x, y)
    return (4 * bool(np.any((on > low) & (on < high)))
            + 4 * sum(low < other < high for other in limits if other != limit)
            + 2 * (low < span[0] or high > span[1]) + (left < today < right))


def _meet(one, other):
    return (one[0] < other[1] and other[0] < one[1]) and (one[2] < other[3] and other[2] < one[3])


def _span(curve, up):
    """Lowest and highest of the value's axis, the limits taken in where they are near."""
    value = curve.value * up.per_unit
    now = value[curve.today]
    span = max(float(np.ptp(value)), LEAST_SPAN * abs(float(now)))
    middle = 0.5 * (value.min() + value.max())
    low, high = middle - 0.5 * span, middle + 0.5 * span
    near = [limit * up.per_unit for _, limit in limits_of(curve)
            if low - 0.7 * span <= limit * up.per_unit <= high + 0.7 * span]
    return min([low, *near]) - 0.08 * span, max([high, *near]) + 0.12 * span


def _limit_words(y, words, place, colour):
    under, to_right = place
    return _words(words, float(to_right), y, colour, xref="paper",
                  xanchor="right" if to_right else "left",
                  yanchor="top" if under else "bottom", xshift=-4 if to_right else 4)


def _today_words(x, words, to_left, colour):
    return _words(f"today {words}", x, 1.0, colour, yref="paper",
                  xanchor="right" if to_left else "left", yanchor="top",
                  xshift=-5 if to_left else 5)


def _words(text, x, y, colour, **more):
    return {"text": text, "x": x, "y": y, "showarrow": False,
            "font": {"color": colour, "size": 12}, **more}


def _status_row(curve, across, colours):
    """A mark under each boat tried: the worst status of all its checks."""
    for status in STATUSES[:3]:  # a curve leaves out what could not be worked out
        at = np.array([one == status for one in curve.overall])
        yield points(curve.at[at] * across.per_unit, np.zeros(at.sum()),
                     mark(status, colours[status], 7), yaxis="y2", **UNTOLD)
        yield legend_mark(status, colours)


def legend_mark(status, colours):
    """What says in the legend what a mark is, also where none stands on the chart."""
    words = {"pass": "all pass", "caution": "a caution", "fail": "one fails",
             "unknown": "could not be worked out"}[status]
    return points([None], [None], mark(status, colours.get(status, colours["ink"]), 10),
                  name=words)


def points(x, y, marker, **more):
    """A trace of marks alone; with no places, it stands in the legend only."""
    return {"type": "scatter", "x": x, "y": y, "mode": "markers", "marker": marker, **more}


def mark(status, colour, size):
    """The marker of a status: its own shape, whatever its colour."""
    return {"symbol": MARKS[status], "size": size, "color": colour,
            "line": {"width": 1.6, "color": colour}}


def laid_out(height_px, x_title, y_title, colours):
    """The layout of a chart of this height."""
    laid = layout(height_px, colours, (x_title, y_title), {
        "automargin": True, "zeroline": False, "tickfont": {"color": colours["ink"], "size": 12}})
    for axis in ("xaxis", "yaxis"):
        laid[axis]["title"]["font"]["size"] = 13
    laid["margin"]["r"] = 14
    laid["legend"] |= {"itemclick": False, "itemdoubleclick": False}
    return laid | {
        "hovermode": "closest", "dragmode": False,
        "hoverlabel": {"align": "left", "bgcolor": colours["panel"],
                       "bordercolor": colours["line"],
                       "font": {"color": colours["ink"], "size": 13}}}
