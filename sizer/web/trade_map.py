"""The map of the trade-offs: a pure function from a what-if record to a Plotly figure."""

import numpy as np
import plotly.graph_objects as go

from sizer.web.look import COLOURS
from sizer.web.trade_charts import STATUSES, known, laid_out, legend_mark, mark
from sizer.web.trade_words import cell_words

MAP_PX = 440


def map_chart(found, across, up, theme, ringed):
    """Where every check passes, over two dimensions, and today's boat.

    Parameters
    ----------
    found : PassingMap of `sizer.fit.what_if`
    across, up : Axis of each dimension
    theme : "light" or "dark"
    ringed : (column, row) of the boat that is told beside the map
    """
    theme = known(theme)
    colours = COLOURS[theme]
    x, y = found.across_at * across.per_unit, found.up_at * up.per_unit
    level = np.array([[STATUSES.index(one) for one in row] for row in found.status])
    figure = go.Figure()
    sides, ends = _sides(x), _sides(y)
    figure.add_heatmap(  # unseen: it is what a pointer meets
        x=x, y=y, z=level, showscale=False, opacity=0.0, text=_hover_texts(found, across, up),
        hovertemplate="%{text}<extra></extra>")
    for index, status in enumerate(STATUSES):
        rows, columns = np.nonzero(level == index)
        figure.add_scatter(
            **_cells(sides, ends, rows, columns), mode="lines", fill="toself", hoverinfo="skip",
            showlegend=False, fillcolor=colours[f"on-{status}"],
            line={"color": colours["paper"], "width": 1})
    for index, status in enumerate(STATUSES):
        rows, columns = np.nonzero(level == index)
        figure.add_scatter(
            x=x[columns], y=y[rows], mode="markers", hoverinfo="skip", showlegend=False,
            marker=mark(status, colours[f"mark-{status}"], 4 if status == "pass" else 8))
        if status != "unknown" or rows.size:
            legend_mark(figure, status, colours)
    today = found.today[0] * across.per_unit, found.today[1] * up.per_unit
    figure.add_scatter(
        x=[today[0]], y=[today[1]], mode="markers", name="today's boat", hoverinfo="skip",
        marker={"symbol": "diamond", "size": 15, "color": colours["ink"],
                "line": {"color": colours["paper"], "width": 3}})
    figure.add_scatter(
        x=[x[ringed[0]]], y=[y[ringed[1]]], mode="markers", name="ringed: told below",
        hoverinfo="skip", marker={"symbol": "circle-open", "size": 24, "color": colours["ink"],
                                  "line": {"width": 3}})
    laid_out(figure, MAP_PX, across.title, up.title, colours)
    figure.update_xaxes(range=_edges(sides, today[0]), showgrid=False)
    figure.update_yaxes(range=_edges(ends, today[1]), showgrid=False)
    return figure


def _sides(centres):
    """The sides of cells round their centres: half-way between, and as far beyond the outer."""
    if centres.size < 2:
        return centres[0] + np.array([-0.5, 0.5])
    middles = 0.5 * (centres[1:] + centres[:-1])
    return np.concatenate([[2.0 * centres[0] - middles[0]], middles,
                           [2.0 * centres[-1] - middles[-1]]])


def _cells(sides, ends, rows, columns):
    """Outlines of cells, one after the other with a gap between, as x and y."""
    corners = np.array([0, 1, 1, 0, 0]), np.array([0, 0, 1, 1, 0])
    gap = np.full((rows.size, 1), np.nan)
    return {axis: np.hstack([side[at[:, None] + corner], gap]).ravel()
            for axis, side, at, corner in (("x", sides, columns, corners[0]),
                                           ("y", ends, rows, corners[1]))}


def _hover_texts(found, across, up):
    return [["{}<br><b>{}</b>".format(*said) + "".join(f"<br>{name}" for name in names)
             for column in range(found.across_at.size)
             for *said, names in (cell_words(found, across, up, (column, row)),)]
            for row in range(found.up_at.size)]


def _edges(sides, today):
    """Ends of an axis: round the outer cells, and today's boat where it lies beyond."""
    return min(sides[0], today), max(sides[-1], today)
