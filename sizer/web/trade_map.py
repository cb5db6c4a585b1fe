"""The map of the trade-offs: a pure function from a what-if record to a Plotly figure."""

import numpy as np
import plotly.graph_objects as go

from sizer.web.charts import MOST_ACROSS, MOST_UP, colours_in
from sizer.web.trade_charts import STATUSES, UNTOLD, laid_out, legend_mark, mark, points
from sizer.web.trade_words import cell_words

MAP_PX = 440


def map_chart(found, across, up, theme, ringed):
    """A PassingMap of `sizer.fit.what_if` over the Axis of each dimension, and today's boat;
    `ringed` is the (column, row) of the boat that is told beside it."""
    colours = colours_in(theme)
    x, y = found.across_at * across.per_unit, found.up_at * up.per_unit
    level = np.array([[STATUSES.index(one) for one in row] for row in found.status])
    sides, ends = _sides(x), _sides(y)
    today = found.today[0] * across.per_unit, found.today[1] * up.per_unit
    traces = [{  # unseen: it is what a pointer meets
        "type": "heatmap", "x": x, "y": y, "z": level, "showscale": False, "opacity": 0.0,
        "text": _hover_texts(found, across, up), "hovertemplate": "%{text}<extra></extra>"}]
    marks = []
    for index, status in enumerate(STATUSES):
        rows, columns = np.nonzero(level == index)
        traces.append({
            "type": "scatter", **_cells(sides, ends, rows, columns), "mode": "lines",
            "fill": "toself", "fillcolor": colours[f"on-{status}"],
            "line": {"color": colours["paper"], "width": 1}, **UNTOLD})
        marks.append(points(x[columns], y[rows], mark(
            status, colours[f"mark-{status}"], 4 if status == "pass" else 8), **UNTOLD))
        if status != "unknown" or rows.size:
            marks.append(legend_mark(status, colours))
    marks += [
        points(today[:1], today[1:], {
            "symbol": "diamond", "size": 15, "color": colours["ink"],
            "line": {"color": colours["paper"], "width": 3}},
            name="today's boat", hoverinfo="skip"),
        points([x[ringed[0]]], [y[ringed[1]]], {
            "symbol": "circle-open", "size": 24, "color": colours["ink"], "line": {"width": 3}},
            name="ringed: told below", hoverinfo="skip")]
    laid = laid_out(MAP_PX, across.title, up.title, colours)
    for name, axis, edges, most in (("xaxis", across, _edges(sides, today[0]), MOST_ACROSS),
                                    ("yaxis", up, _edges(ends, today[1]), MOST_UP)):
        laid[name] |= {"range": edges, "showgrid": False, **axis.marks(*edges, most)}
    return go.Figure(traces + marks, laid)


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
