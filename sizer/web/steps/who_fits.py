"""Who fits the boat at hand without rescaling: only seat, footbrace and padding move."""

from functools import partial
from html import escape

import numpy as np
import plotly.graph_objects as go
import streamlit as st

from sizer.crowd.finished import finished
from sizer.crowd.likely import sitting
from sizer.crowd.region import extremes, who_fits
from sizer.export.range_answer import body_note
from sizer.units import MM_PER_M
from sizer.web.charts import MOST_UP, SETTINGS, colours_in, length_axis, plain_layout
from sizer.web.draft import in_unit
from sizer.web.look import put, status_html, table_html
from sizer.web.session import job_for
from sizer.web.state import mine, view
from sizer.web.steps.going import forget, found, going, put_faults, put_going, start

MEASURES = (("statures", "stature"), ("hip_widths", "hip width"))
OWN = "The paddler of this boat"


def put_who_fits(one):
    st.header("Who fits the boat at hand?")
    job, _ = job_for(one)
    if job is None:
        put("<p>Measure a paddler first: the boat that is fitted to them is looked at here.</p>")
        return
    put("<p>Others of the same build whom no check fails in this very boat, with only seat, "
        "footbrace and padding moved; some with a caution.</p>")
    own = job.request.measured
    put(f"<p><b>{escape(one.mark or OWN)}</b>, {one.weighed(own.weight_kg)}, "
        f"{one.said(own.stature_m)} tall: {status_html(job.fitted.status)}</p>")
    if view().get("who_fits_of") is not job:
        forget("who_fits")
    if work := going("who_fits"):
        put_going("who_fits", work)
    elif view().get("who_fits_of") is job and found("who_fits") is not None:
        _region(one, found("who_fits"))
    else:
        put_faults("who_fits")
        if st.button("Work out who fits"):
            start("who_fits", partial(who_fits, like=job.request.measured),
                  finished(job.lines, job.fitted.assessed.boat.scaling), job.request.trip)
            view()["who_fits_of"] = job
            mine().pop("who_fits_found", None)
            st.rerun()


def _region(one, region):
    if not region.statures.rows:
        put("<p>Nobody of the bodies tried passes every check in this boat.</p>")
        return
    for column, (name, words) in zip(st.columns(2, gap="large"), MEASURES, strict=True):
        with column:
            _plane(one, getattr(region, name), words, sitting(region.like))
    _extremes(one, region)
    put(f"<p>{escape(body_note(region))}</p>")


def _plane(one, plane, words, own):
    """The outline of those who fit, the paddler at hand in it, and what ends it on each side."""
    outline = np.array([*plane.outline, plane.outline[0]])
    colours = colours_in(st.context.theme.type)
    lengths = in_unit(outline[:, 1] * MM_PER_M, one.length_unit)
    title, marks = length_axis(words, one.length_unit, lengths, MOST_UP)
    laid = plain_layout(colours, f"weight, {one.mass_unit}", title)
    laid["yaxis"] |= marks
    figure = go.Figure([{
        "type": "scatter", "x": in_unit(outline[:, 0], one.mass_unit),
        "y": lengths, "mode": "lines", "name": "fits",
        "fill": "toself", "fillcolor": colours["panel"], "showlegend": False,
        "line": {"color": colours["ink"], "width": 2}}, {
        "type": "scatter", "x": [in_unit(own.weight_kg, one.mass_unit)],
        "y": [in_unit(getattr(own, f"{plane.measure}_m") * MM_PER_M, one.length_unit)],
        "mode": "markers+text", "text": [escape(one.mark or OWN)], "textposition": "top center",
        "textfont": {"color": colours["ink"], "size": 12}, "showlegend": False,
        "hoverinfo": "skip",
        "marker": {"symbol": "diamond", "size": 11, "color": colours["ink"]}}],
        laid)
    st.plotly_chart(figure, config=SETTINGS, key=f"who_fits_{plane.measure}",
                    alt=f"Weight against {words} of those who fit, with the paddler of this boat; "
                    "the table below says what ends it")
    ends = [("least", plane.least), ("most", plane.most),
            ("lightest", extremes(plane)[0]), ("heaviest", extremes(plane)[1])]
    names = {"least": f"least {words}", "most": f"most {words}"}
    put(table_html(("Side", "ended by"), [
        [names.get(side, side), escape(edge.ended_by)] for side, edge in ends if edge]))


def _extremes(one, region):
    rows = []
    for words, plane in (("with gear", region.statures),
                         ("without gear", region.statures_without_gear)):
        for side, edge in zip(("lightest", "heaviest"), extremes(plane), strict=True):
            if edge is not None:
                rows.append([f"{side}, {words}", one.weighed(edge.weight_kg),
                             one.said(edge.stature_m), one.said(edge.hip_width_m),
                             escape(edge.ended_by)])
    put(table_html(("Paddler", "weight", "stature", "hip width", "ended by"), rows,
                   numbers=(1, 2, 3), stack=True, plain=(4,)))
