"""The curve of the trade-offs: a pure function from a what-if record to a Plotly figure.

A status is a mark and a shade: a dot, a triangle or a cross in a square, from light to dark.
"""

from collections.abc import Callable
from dataclasses import dataclass

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
NEAR = 0.10  # of the height: words of two limits would cover each other, so each has its end
SIDE_TINT = {"fail": 0.16, "caution": 0.13}  # of what lies outside a curve's window
LEAST_SPAN = 0.06  # of a value: flatter curves are drawn as flat; our judgement


@dataclass(frozen=True)
class Axis:
    """How one quantity is written on the screen."""

    words: str  # such as "beam"
    title: str  # such as "beam, mm"
    per_unit: float  # units of the screen in one of the record's
    text: Callable[[float], str]  # a figure of the record, with its unit


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
    to_right = None
    for index, (words, limit) in enumerate(shown):
        near = index and limit - shown[index - 1][1] < NEAR * (high - low)
        to_right = not to_right if near else abs(y[-1] - limit) > abs(y[0] - limit)
        _limit_line(figure, limit, words, (y[-1 if to_right else 0] > limit, to_right), colours)
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
    """A limit, its words under or over the line, whichever the curve is not, at one end."""
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
