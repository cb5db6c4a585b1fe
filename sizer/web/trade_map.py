"""The map of the trade-offs: a pure function from a what-if record to a Plotly figure."""

import numpy as np
import plotly.graph_objects as go

from sizer.web.look import COLOURS
from sizer.web.trade_charts import STATUSES, known, laid_out, legend_mark, mark

SHADES = {"light": ("#dfe9d8", "#dcb878", "#8f4438", "#b9b2a6"),
          "dark": ("#9fc7a4", "#8a6a34", "#4a2a2c", "#4d5257")}
MARK_INKS = {"light": ("#245c3c", "#4a2c00", "#ffe9e4", "#2b2620"),
             "dark": ("#173d26", "#ffe2a6", "#ffb4ab", "#e6e0d4")}
MAP_PX = 440


def map_chart(found, across, up, theme):
    """Where every check passes, over two dimensions, and today's boat.

    Parameters
    ----------
    found : PassingMap of `sizer.fit.what_if`
    across, up : Axis of each dimension
    theme : "light" or "dark"
    """
    theme = known(theme)
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
            marker=mark(status, MARK_INKS[theme][index], 4 if status == "pass" else 8))
        if status != "unknown" or rows.size:
            legend_mark(figure, status, colours)
    today = found.today[0] * across.per_unit, found.today[1] * up.per_unit
    figure.add_scatter(
        x=[today[0]], y=[today[1]], mode="markers", name="today's boat", hoverinfo="skip",
        marker={"symbol": "diamond", "size": 15, "color": colours["ink"],
                "line": {"color": colours["paper"], "width": 3}})
    laid_out(figure, MAP_PX, across.title, up.title, colours)
    figure.update_xaxes(range=_edges(x, today[0]), showgrid=False)
    figure.update_yaxes(range=_edges(y, today[1]), showgrid=False)
    return figure


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
