"""The curve of the trade-offs: a pure function from a what-if record to a Plotly figure.

A status is a mark and a shade: a dot, a triangle or a cross in a square, from light to dark.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from itertools import combinations, product

import numpy as np
import plotly.graph_objects as go

from sizer.web.look import COLOURS

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
LEAST_SPAN = 0.06  # of a value: flatter curves are drawn as flat; our judgement


@dataclass(frozen=True)
class Axis:
    """How one quantity is written on the screen."""

    words: str  # such as "beam"
    title: str  # such as "beam, mm"
    per_unit: float  # units of the screen in one of the record's
    text: Callable[[float], str]  # a figure of the record, with its unit
    read_to: float = 0.0  # one step of that text, in the record's unit; 0: as fine as it is

    def inside(self, low, high):
        """The first and the last figure between two that read as what they are; None where no
        figure does."""
        if not self.read_to:
            return low, high
        slack = 1e-6  # of a step, so that an end that reads as it is stays
        first = math.ceil(low / self.read_to - slack) * self.read_to
        last = math.floor(high / self.read_to + slack) * self.read_to
        return (first, last) if first <= last else None


def curve_chart(curve, across, up, theme):
    """One result along one dimension: where its checks pass, its limits, today's boat.

    Parameters
    ----------
    curve : Curve of `sizer.fit.what_if`
    across, up : Axis of its dimension and of its result
    theme : "light" or "dark"
    """
    colours = COLOURS[known(theme)]
    x, y = curve.at * across.per_unit, curve.value * up.per_unit
    figure = go.Figure()
    figure.add_scatter(
        x=x, y=y, mode="lines", showlegend=False, line={"color": colours["ink"], "width": 2.4},
        text=[f"{across.text(at)}: <b>{up.text(value)}</b>"
              for at, value in zip(curve.at, curve.value, strict=True)],
        hovertemplate="%{text}<extra></extra>")
    low, high = _span(curve, up)
    clean = [max(low, *(side * up.per_unit for side in curve.window[:2])),
             min(high, *(side * up.per_unit for side in curve.window[2:]))]
    for start, end in curve.bands:
        figure.add_shape(type="rect", x0=start * across.per_unit, x1=end * across.per_unit,
                         y0=clean[0], y1=clean[1], fillcolor=colours["pass"], opacity=0.22,
                         layer="below", line_width=0)
    if curve.bands:
        figure.add_scatter(x=[None], y=[None], mode="markers", name="its checks pass",
                           marker={"symbol": "square", "size": 14, "color": colours["pass"],
                                   "opacity": 0.3})
    for status, start, end in sides_of(curve):
        if end * up.per_unit > low and start * up.per_unit < high:
            figure.add_hrect(
                y0=max(start * up.per_unit, low), y1=min(end * up.per_unit, high), line_width=0,
                fillcolor=colours[status], opacity=SIDE_TINT[status], layer="below")
    shown = [(f"{words} {up.text(limit)}", limit * up.per_unit)
             for words, limit in limits_of(curve) if low <= limit * up.per_unit <= high]
    places = limit_places([limit for _, limit in shown], x, y, (low, high), x[curve.today])
    for (words, limit), place in zip(shown, places, strict=True):
        _limit_line(figure, limit, words, place, colours)
    _status_row(figure, curve, across, colours)
    _today_mark(figure, x[curve.today], y[curve.today], up.text(curve.value[curve.today]),
                x[curve.today] > 0.5 * (x[0] + x[-1]), colours)
    laid_out(figure, CURVE_PX, across.title, up.title, colours)
    figure.update_layout(
        yaxis={"range": (low, high), "domain": (STRIP_TOP, WORDS_OVER)}, xaxis={"anchor": "y2"},
        yaxis2={"domain": (0.0, STRIP), "range": (-1, 1), "visible": False, "fixedrange": True})
    return figure


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


def known(theme):
    """The theme, light where it is none of ours."""
    return "dark" if theme == "dark" else "light"


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


def _limit_line(figure, y, words, place, colours):
    """A limit, its words under or over the line, at one end."""
    under, to_right = place
    figure.add_hline(y=y, line={"color": colours["wood"], "width": 1.4, "dash": "dash"})
    figure.add_annotation(x=float(to_right), xref="paper", y=y, text=words, showarrow=False,
                          xanchor="right" if to_right else "left",
                          yanchor="top" if under else "bottom", xshift=-4 if to_right else 4,
                          font={"color": colours["wood"], "size": 12})


def _status_row(figure, curve, across, colours):
    """A mark under each boat tried: the worst status of all its checks."""
    for status in STATUSES[:3]:  # a curve leaves out what could not be worked out
        at = np.array([one == status for one in curve.overall])
        figure.add_scatter(
            x=curve.at[at] * across.per_unit, y=np.zeros(at.sum()), yaxis="y2", mode="markers",
            hoverinfo="skip", showlegend=False, marker=mark(status, colours[status], 7))
        legend_mark(figure, status, colours)
    figure.add_annotation(x=0.0, xref="paper", y=STRIP, yref="paper", text="every check:",
                          showarrow=False, xanchor="left", yanchor="bottom",
                          font={"color": colours["ink"], "size": 12})


def legend_mark(figure, status, colours):
    """Says in the legend what a mark is, also where none stands on the chart."""
    words = {"pass": "all pass", "caution": "a caution", "fail": "one fails",
             "unknown": "could not be worked out"}[status]
    figure.add_scatter(x=[None], y=[None], mode="markers", name=words,
                       marker=mark(status, colours.get(status, colours["ink"]), 10))


def mark(status, colour, size):
    """The marker of a status: its own shape, whatever its colour."""
    return {"symbol": MARKS[status], "size": size, "color": colour,
            "line": {"width": 1.6, "color": colour}}


def _today_mark(figure, x, y, words, to_left, colours):
    figure.add_shape(type="line", x0=x, x1=x, yref="paper", y0=0.0, y1=1.0,
                     line={"color": colours["pencil"], "width": 1.2, "dash": "dot"})
    figure.add_scatter(x=[x], y=[y], mode="markers", showlegend=False, hoverinfo="skip",
                       marker={"symbol": "diamond", "size": 12, "color": colours["ink"],
                               "line": {"color": colours["paper"], "width": 2}})
    figure.add_annotation(x=x, y=1.0, yref="paper", text=f"today {words}", showarrow=False,
                          xanchor="right" if to_left else "left", yanchor="top",
                          xshift=-5 if to_left else 5,
                          font={"color": colours["ink"], "size": 12})


def laid_out(figure, height_px, x_title, y_title, colours):
    """Gives a figure its height, its axes and the page's colours."""
    axis = {"gridcolor": colours["line"], "linecolor": colours["ink"], "fixedrange": True,
            "automargin": True, "zeroline": False,
            "tickfont": {"color": colours["ink"], "size": 12}}
    figure.update_layout(
        height=height_px, margin={"l": 10, "r": 14, "t": 10, "b": 10},
        paper_bgcolor="rgba(0,0,0,0)", plot_bgcolor="rgba(0,0,0,0)",
        font={"color": colours["ink"], "size": 13}, hovermode="closest", dragmode=False,
        hoverlabel={"align": "left", "bgcolor": colours["panel"], "bordercolor": colours["line"],
                    "font": {"color": colours["ink"], "size": 13}},
        legend={"orientation": "h", "y": 1.02, "yanchor": "bottom", "x": 0, "itemclick": False,
                "itemdoubleclick": False},
        xaxis={"title": _title(x_title, colours), **axis},
        yaxis={"title": _title(y_title, colours), **axis})


def _title(text, colours):
    return {"text": text, "font": {"color": colours["ink"], "size": 13}}
