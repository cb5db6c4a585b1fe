"""Charts that people hover over: pure functions from arrays to Plotly figures.

Lines differ by dash and carry their names, so that colour alone never tells them apart.
"""

from dataclasses import dataclass

import numpy as np
import plotly.graph_objects as go

from sizer.web.draft import in_unit
from sizer.web.look import COLOURS

DASHES = ("solid", "dash", "dot", "dashdot")
HEIGHT_PX = 340
SETTINGS = {"displayModeBar": False}  # the tool bar would cover the picture


@dataclass(frozen=True)
class Curve:
    """One line of a chart."""

    name: str
    x: np.ndarray
    y: np.ndarray


@dataclass(frozen=True)
class Mark:
    """An upright line at an x, with words on it."""

    words: str
    x: float


def curves_chart(curves, x_title, y_title, theme, marks=()):
    """Several curves over one axis.

    Parameters
    ----------
    curves : Curve, the first drawn strongest
    x_title, y_title : texts with the unit
    theme : "light" or "dark"
    marks : Mark, such as the angle at which the rim goes under
    """
    colours = COLOURS["dark" if theme == "dark" else "light"]
    inks = (colours["ink"], colours["wood"], colours["water"], colours["body"])
    figure = go.Figure()
    for index, curve in enumerate(curves):
        figure.add_scatter(
            x=curve.x, y=curve.y, name=curve.name, mode="lines",
            line={"color": inks[index % 4], "dash": DASHES[index % 4],
                  "width": 2.4 if index == 0 else 1.8})
    for index, mark in enumerate(marks):
        figure.add_vline(x=mark.x, line={"color": colours["pencil"], "width": 1.2, "dash": "dot"})
        figure.add_annotation(x=mark.x, y=1.0 - 0.09 * index, yref="paper", text=mark.words,
                              showarrow=False, xanchor="left", xshift=4, bgcolor=colours["paper"],
                              font={"color": colours["ink"], "size": 12})
    plain_layout(figure, colours, x_title, y_title)
    return figure


def crowd_chart(one, bodies, own, theme):
    """People as marks, weight against stature, in the units of a Draft.

    Parameters
    ----------
    one : Draft
    bodies, own : lists of (stature mm, weight kg): the crowd, the customer at hand
    theme : "light" or "dark"
    """
    colours = COLOURS["dark" if theme == "dark" else "light"]
    figure = go.Figure()
    for name, marks, mark in (
        ("crowd", bodies, {"symbol": "circle-open", "size": 6, "color": colours["body"]}),
        ("customer at hand", own, {"symbol": "diamond", "size": 13, "color": colours["wood"]}),
    ):
        figure.add_scatter(x=[in_unit(stature, one.length_unit) for stature, _ in marks],
                           y=[in_unit(weight, one.mass_unit) for _, weight in marks],
                           name=name, mode="markers", marker=mark)
    plain_layout(figure, colours, f"stature, {one.length_unit}", f"weight, {one.mass_unit}")
    figure.update_layout(hovermode="closest")
    return figure


def plain_layout(figure, colours, x_title, y_title):
    """Gives a figure our axes and letters, on no ground of its own."""
    axis = {"gridcolor": colours["line"], "linecolor": colours["ink"], "zerolinewidth": 1.2,
            "zerolinecolor": colours["ink"], "fixedrange": True,
            "tickfont": {"color": colours["ink"]}}
    x_title, y_title = ({"text": text, "font": {"color": colours["ink"]}}
                        for text in (x_title, y_title))
    figure.update_layout(
        height=HEIGHT_PX, margin={"l": 10, "r": 10, "t": 10, "b": 10},
        paper_bgcolor="rgba(0,0,0,0)", plot_bgcolor="rgba(0,0,0,0)",
        font={"color": colours["ink"], "size": 13}, hovermode="x unified",
        legend={"orientation": "h", "y": 1.02, "yanchor": "bottom", "x": 0},
        xaxis={"title": x_title, **axis}, yaxis={"title": y_title, **axis})
