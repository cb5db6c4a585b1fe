"""Charts that people hover over: pure functions from arrays to Plotly figures, each made in one go,
since every later change of a figure is checked whole.

Lines differ by dash and carry their names, so that colour alone never tells them apart.
"""

import math
from dataclasses import dataclass

import numpy as np
import plotly.graph_objects as go

from sizer.units import MM_PER_IN, both_text
from sizer.web.draft import in_unit
from sizer.web.look import COLOURS
from sizer.web.units_first import units_first

DASHES = ("solid", "dash", "dot", "dashdot")
HEIGHT_PX = 380
MARK_ROW = 0.085  # share of the height that a row of words over the curves takes
WORDS_WIDE = 0.45  # of the axis that the longest words may take, on a phone
MARK_STEPS_IN = (1 / 16, 1 / 8, 1 / 4, 1 / 2, 1, 2, 3, 6, 12, 24)  # of an axis in inches
MOST_UP, MOST_ACROSS = 6.0, 3.3  # steps of it, so that words of two lines fit on a phone
SETTINGS = {"displayModeBar": False}  # the tool bar would cover the picture


@dataclass(frozen=True)
class Curve:
    name: str
    x: np.ndarray
    y: np.ndarray


@dataclass(frozen=True)
class Mark:
    words: str
    x: float


def curves_chart(curves, x_title, y_title, theme, marks=()):
    """Curves over one axis, the first drawn strongest, with Marks such as the angle at which the
    rim goes under; both titles bear the unit, `theme` is "light" or "dark"."""
    colours = colours_in(theme)
    inks = (colours["ink"], colours["wood"], colours["water"], colours["body"])
    traces = [{"type": "scatter", "mode": "lines", "x": curve.x, "y": curve.y, "name": curve.name,
               "line": {"color": inks[index % 4], "dash": DASHES[index % 4],
                        "width": 2.4 if index == 0 else 1.8}}
              for index, curve in enumerate(curves)]
    wide = np.ptp(np.concatenate([curve.x for curve in curves]))
    top, marked = _marked(marks, wide, colours)
    layout = plain_layout(colours, x_title, y_title) | marked
    layout["yaxis"]["domain"] = (0.0, top)
    return go.Figure(traces, layout)


def colours_in(theme):
    """The colours of a theme, light where it is none of ours."""
    return COLOURS["dark" if theme == "dark" else "light"]


def _marked(marks, wide, colours):
    """(Where the curves end, marks as lines up through them with their words over the curves).

    Words lie one over the other only where they would meet: `wide` is the reach of the axis.
    """
    row, last = 0, -np.inf
    rows = []
    for mark in sorted(marks, key=lambda mark: mark.x):
        row = row + 1 if mark.x - last < WORDS_WIDE * wide else 0
        last = mark.x
        rows.append((mark, row))
    most = max((row for _, row in rows), default=-1)
    top = 1.0 - MARK_ROW * (most + 1)
    lines, notes = [], []
    for mark, row in rows:
        high = top + MARK_ROW * (most + 1 - row)
        lines.append(upright(mark.x, high, colours))
        notes.append({"x": mark.x, "y": high, "yref": "paper", "yanchor": "top",
                      "text": mark.words, "showarrow": False, "xanchor": "left", "xshift": 3,
                      "font": {"color": colours["ink"], "size": 12}})
    return top, {"shapes": lines, "annotations": notes}


def upright(x, high, colours):
    """A dotted line at an x, up to a share of the height."""
    return {"type": "line", "x0": x, "x1": x, "yref": "paper", "y0": 0.0, "y1": high,
            "line": {"color": colours["pencil"], "width": 1.2, "dash": "dot"}}


def inch_marks(low, high, most):
    """What an axis of inches has besides, from one to another: at the `most` so many steps, at
    round ones, marked as lengths are told, in feet and inches with mm under them."""
    step = next((one for one in MARK_STEPS_IN if (high - low) / one <= most), MARK_STEPS_IN[-1])
    at = step * np.arange(math.ceil(low / step), math.floor(high / step) + 1)
    said = (units_first(both_text(one * MM_PER_IN), "in", "kg") for one in at)
    return {"tickvals": at, "ticktext": [one.replace(" (", "<br>(") for one in said],
            "tickangle": 0}


def length_axis(words, unit, values, most):
    """(title, what else its axis has) of lengths in a unit of the screen, in it already."""
    if unit != "in" or not len(values):
        return f"{words}, {unit}", {}
    return words, inch_marks(min(values), max(values), most)


def crowd_chart(one, bodies, own, theme):
    """People as marks, weight against stature, in the units of a Draft; `bodies` and `own`, the
    crowd and the customer at hand, are lists of (stature mm, weight kg)."""
    colours = colours_in(theme)
    traces = [{"type": "scatter", "mode": "markers", "name": name, "marker": mark,
               "x": [in_unit(stature, one.length_unit) for stature, _ in marks],
               "y": [in_unit(weight, one.mass_unit) for _, weight in marks]}
              for name, marks, mark in (
        ("crowd", bodies, {"symbol": "circle-open", "size": 6, "color": colours["body"]}),
        ("customer at hand", own, {"symbol": "diamond", "size": 13, "color": colours["wood"]}))]
    title, marks = length_axis("stature", one.length_unit,
                               [value for trace in traces for value in trace["x"]], MOST_ACROSS)
    laid = plain_layout(colours, title, f"weight, {one.mass_unit}") | {"hovermode": "closest"}
    laid["xaxis"] |= marks
    return go.Figure(traces, laid)


def plain_layout(colours, x_title, y_title):
    """Our axes and letters, on no ground of their own."""
    return layout(HEIGHT_PX, colours, (x_title, y_title), {
        "zerolinewidth": 1.2, "zerolinecolor": colours["ink"]}) | {"hovermode": "x unified"}


def layout(height_px, colours, titles, axis):
    """What all our charts have in common; `axis` is what both axes have besides."""
    axis = {"gridcolor": colours["line"], "linecolor": colours["ink"], "fixedrange": True,
            "tickfont": {"color": colours["ink"]}, **axis}
    x, y = ({"title": {"text": text, "font": {"color": colours["ink"]}}, **axis}
            for text in titles)
    return {"height": height_px, "margin": {"l": 10, "r": 10, "t": 10, "b": 10},
            "paper_bgcolor": "rgba(0,0,0,0)", "plot_bgcolor": "rgba(0,0,0,0)",
            "font": {"color": colours["ink"], "size": 13}, "xaxis": x, "yaxis": y,
            "legend": {"orientation": "h", "y": 1.02, "yanchor": "bottom", "x": 0}}
