"""The charts of the trade-offs: pure functions from what-if records to Plotly figures.

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
SHADES = {"light": ("#dfe9d8", "#dcb878", "#8f4438", "#b9b2a6"),
          "dark": ("#9fc7a4", "#8a6a34", "#4a2a2c", "#4d5257")}
MARK_INKS = {"light": ("#245c3c", "#4a2c00", "#ffe9e4", "#2b2620"),
             "dark": ("#173d26", "#ffe2a6", "#ffb4ab", "#e6e0d4")}
CURVE_PX, MAP_PX = 400, 440
STRIP = 0.08  # share of the height that the row of marks takes
STRIP_TOP = 0.20  # and where the curve begins, over the row and its words
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
    colours = COLOURS[_known(theme)]
    x, y = curve.at * across.per_unit, curve.value * up.per_unit
    figure = go.Figure()
    figure.add_scatter(
        x=x, y=y, mode="lines", showlegend=False, line={"color": colours["ink"], "width": 2.4},
        text=[f"{across.text(at)}: <b>{up.text(value)}</b>"
              for at, value in zip(curve.at, curve.value, strict=True)],
        hovertemplate="%{text}<extra></extra>")
    low, high = _span(curve, up)
    for start, end in curve.bands:
        figure.add_vrect(x0=start * across.per_unit, x1=end * across.per_unit,
                         fillcolor=colours["pass"], opacity=0.16, layer="below", line_width=0)
    if curve.bands:
        figure.add_scatter(x=[None], y=[None], mode="markers", name="its checks pass",
                           marker={"symbol": "square", "size": 14, "color": colours["pass"],
                                   "opacity": 0.3})
    for words, limit in limits_of(curve):
        if low <= limit * up.per_unit <= high:
            under = words in ("at least", "better to")  # so that near ones do not cover each other
            _limit_line(figure, limit * up.per_unit, f"{words} {up.text(limit)}", under, colours)
    _status_row(figure, curve, across, colours)
    _today_mark(figure, x[curve.today], y[curve.today], up.text(curve.value[curve.today]),
                x[curve.today] > 0.5 * (x[0] + x[-1]), colours)
    _laid_out(figure, CURVE_PX, across.title, up.title, colours)
    figure.update_layout(
        yaxis={"range": (low, high), "domain": (STRIP_TOP, 1.0)}, xaxis={"anchor": "y2"},
        yaxis2={"domain": (0.0, STRIP), "range": (-1, 1), "visible": False, "fixedrange": True})
    return figure


def map_chart(found, across, up, theme):
    """Where every check passes, over two dimensions, and today's boat.

    Parameters
    ----------
    found : PassingMap of `sizer.fit.what_if`
    across, up : Axis of each dimension
    theme : "light" or "dark"
    """
    theme = _known(theme)
    colours = COLOURS[theme]
    x, y = found.across_at * across.per_unit, found.up_at * up.per_unit
    level = np.array([[STATUSES.index(one) for one in row] for row in found.status])
    figure = go.Figure()
    count = len(STATUSES)
    steps = [(share, SHADES[theme][index]) for index in range(count)
             for share in (index / count, (index + 1) / count)]
    figure.add_heatmap(
        x=x, y=y, z=level, zmin=-0.5, zmax=count - 0.5, colorscale=steps, showscale=False,
        xgap=1, ygap=1, text=_hover_texts(found, across, up),
        hovertemplate="%{text}<extra></extra>")
    for index, status in enumerate(STATUSES):
        rows, columns = np.nonzero(level == index)
        figure.add_scatter(
            x=x[columns], y=y[rows], mode="markers", hoverinfo="skip", showlegend=False,
            marker=_mark(status, MARK_INKS[theme][index], 4 if status == "pass" else 8))
        if status != "unknown" or rows.size:
            _legend_mark(figure, status, colours)
    today = found.today[0] * across.per_unit, found.today[1] * up.per_unit
    figure.add_scatter(
        x=[today[0]], y=[today[1]], mode="markers", name="today's boat", hoverinfo="skip",
        marker={"symbol": "diamond", "size": 15, "color": colours["ink"],
                "line": {"color": colours["paper"], "width": 3}})
    _laid_out(figure, MAP_PX, across.title, up.title, colours)
    figure.update_xaxes(range=_edges(x, today[0]), showgrid=False)
    figure.update_yaxes(range=_edges(y, today[1]), showgrid=False)
    return figure


def limits_of(curve):
    """(words, limit in SI) of the sides of a curve's window, from the lowest; open ones are out."""
    fails_below, wanted_from, wanted_to, fails_above = curve.window
    sides = [("at least", fails_below), ("at most", fails_above)]
    sides += [(words, wanted) for words, wanted, hard in (
        ("better from", wanted_from, fails_below), ("better to", wanted_to, fails_above))
        if wanted != hard]
    return sorted((side for side in sides if np.isfinite(side[1])), key=lambda side: side[1])


def _known(theme):
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


def _limit_line(figure, y, words, under, colours):
    figure.add_hline(y=y, line={"color": colours["wood"], "width": 1.4, "dash": "dash"})
    figure.add_annotation(x=0.0, xref="paper", y=y, text=words, showarrow=False, xanchor="left",
                          yanchor="top" if under else "bottom", xshift=4,
                          font={"color": colours["wood"], "size": 12})


def _status_row(figure, curve, across, colours):
    """A mark under each boat tried: the worst status of all its checks."""
    for status in STATUSES[:3]:  # a curve leaves out what could not be worked out
        at = np.array([one == status for one in curve.overall])
        figure.add_scatter(
            x=curve.at[at] * across.per_unit, y=np.zeros(at.sum()), yaxis="y2", mode="markers",
            hoverinfo="skip", showlegend=False, marker=_mark(status, colours[status], 7))
        _legend_mark(figure, status, colours)
    figure.add_annotation(x=0.0, xref="paper", y=STRIP, yref="paper", text="every check:",
                          showarrow=False, xanchor="left", yanchor="bottom",
                          font={"color": colours["ink"], "size": 12})


def _legend_mark(figure, status, colours):
    """Says in the legend what a mark is, also where none stands on the chart."""
    words = {"pass": "all pass", "caution": "a caution", "fail": "one fails",
             "unknown": "could not be worked out"}[status]
    figure.add_scatter(x=[None], y=[None], mode="markers", name=words,
                       marker=_mark(status, colours.get(status, colours["ink"]), 10))


def _mark(status, colour, size):
    return {"symbol": MARKS[status], "size": size, "color": colour,
            "line": {"width": 1.6, "color": colour}}


def _today_mark(figure, x, y, words, to_left, colours):
    figure.add_vline(x=x, line={"color": colours["pencil"], "width": 1.2, "dash": "dot"})
    figure.add_scatter(x=[x], y=[y], mode="markers", showlegend=False, hoverinfo="skip",
                       marker={"symbol": "diamond", "size": 12, "color": colours["ink"],
                               "line": {"color": colours["paper"], "width": 2}})
    figure.add_annotation(x=x, y=1.0, yref="paper", text=f"today {words}", showarrow=False,
                          xanchor="right" if to_left else "left", yanchor="top",
                          xshift=-5 if to_left else 5, bgcolor=colours["paper"],
                          font={"color": colours["ink"], "size": 12})


def _hover_texts(found, across, up):
    said = {"pass": "passes every check", "caution": "caution:", "fail": "does not pass:",
            "unknown": "unknown:"}
    return [[f"{across.words} {across.text(x)}, {up.words} {up.text(y)}<br><b>{said[status]}</b>"
             + "".join(f"<br>{name}" for name in names)
             for x, status, names in zip(found.across_at, row, names_row, strict=True)]
            for y, row, names_row in zip(found.up_at, found.status, found.names, strict=True)]


def _edges(centres, today):
    """Ends of an axis: half a cell beyond the outer boats."""
    first, last = (0.5 * np.diff(centres)[[0, -1]]) if centres.size > 1 else (0.5, 0.5)
    return min(centres[0] - first, today), max(centres[-1] + last, today)


def _laid_out(figure, height_px, x_title, y_title, colours):
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
