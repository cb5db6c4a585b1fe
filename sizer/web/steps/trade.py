"""The trade-offs step: what moving one or two dimensions does, and boats kept side by side."""

import math
from html import escape

import numpy as np
import streamlit as st

from sizer.fit.tried import DIMENSIONS
from sizer.fit.what_if import RESULTS, curve, passing_map, sweep
from sizer.hydro.drag import FASTEST_MPS, SLOWEST_MPS
from sizer.units import KN_PER_MPS
from sizer.web import trade_words as words
from sizer.web.charts import SETTINGS
from sizer.web.look import place, put, table_html
from sizer.web.state import choice, field, kept, standing, view
from sizer.web.steps.move import put_move
from sizer.web.steps.variants import put_variants
from sizer.web.strip import put_cautions, put_next
from sizer.web.trade_charts import curve_chart
from sizer.web.trade_map import map_chart

FIRST = {"trade_result": "gm", "trade_dimension": "beam", "trade_across": "length",
         "trade_up": "beam"}
MOST_KEPT = 12  # sweeps and maps in one session


def page(one, job):
    st.header("One size moved")
    put_move(one, job)
    st.header("What if")
    _curve(one, job)
    st.header("Where every check passes")
    map_place = st.container()  # filled last: it takes longest
    st.header("Side by side")
    put_variants(one, job)
    put_cautions(job.cautions)
    put_next("Next: the water", "water")
    with map_place:
        _map(one, job)


def _curve(one, job):
    picture, controls = st.columns([7, 3], gap="medium")
    with controls:
        result = RESULTS[_pick("Result", "trade_result", RESULTS)]
        dimension = DIMENSIONS[_pick("Over", "trade_dimension", DIMENSIONS)]
        if result.key == "drag":
            _speed(one)
        put(f"<p>{words.stays_sentence(_seat_held(job), (dimension.key,))} "
            f"{_ends_sentence((dimension.key,))}</p>")
    swept = kept("what_if", (job, dimension.key), most=MOST_KEPT, work=lambda: sweep(
        job.fitted.assessed, _seat_held(job), dimension.key))
    found = curve(swept, result.key, one.speed_mps)
    axes = words.dimension_axis(one, dimension), words.result_axis(one, result)
    with picture:
        st.plotly_chart(curve_chart(found, *axes, st.context.theme.type), config=SETTINGS,
                        key="trade_curve_chart")
        said = words.curve_sentence(found, *axes, one.length_unit)
        put(f'<p class="sz-curve-says">{escape(said)}</p>')
        with st.expander("The curve as a table"):
            put(table_html((axes[0].words.capitalize(), axes[1].words, "its checks",
                            "every check"), words.curve_rows(found, *axes), numbers=(0, 1)))


def _map(one, job):
    picture, controls = st.columns([7, 3], gap="medium")
    with controls:
        across = _pick("Across", "trade_across", DIMENSIONS, "trade_up")
        up = _pick("Up", "trade_up", DIMENSIONS, "trade_across")
        put(f"<p>{words.stays_sentence(_seat_held(job), (across, up))} "
            f"{_ends_sentence((across, up))} Which checks a boat does not pass: point at it, or "
            "move the ring under the map.</p>")
    axes = words.dimension_axis(one, DIMENSIONS[across]), words.dimension_axis(one, DIMENSIONS[up])
    with picture:
        with place():  # the bar is there at times only, above the ring's sliders
            found = kept("what_if", (job, across, up), lambda: _tried_map(job, across, up),
                         MOST_KEPT)
        chart = st.container()  # above what moves its ring
        ringed = _ring(found, axes)
        with chart:
            st.plotly_chart(map_chart(found, *axes, st.context.theme.type, ringed),
                            config=SETTINGS, key="trade_map_chart")
        put(f'<p class="sz-ring-says">{escape(words.cell_sentence(found, *axes, ringed))}</p>')
        put(f'<p class="sz-map-says">{escape(words.map_sentence(found, job.fitted.status))}</p>')
        with st.expander("The map as a table"):
            put(table_html(words.map_heads(found, *axes), words.map_rows(found, *axes), stack=True))


def _ring(found, axes):
    """(column, row) of the boat that is told; today's, until the ring is moved: by keys or a finger
    too, which cannot point."""
    places = []
    for column, dimension, axis, at, today in zip(
            st.columns(2, gap="medium"), (found.across, found.up), axes,
            (found.across_at, found.up_at), found.today, strict=True):
        name = f"trade_ring_{dimension.key}"
        now = view().get(name)
        now = int(np.abs(at - today).argmin()) if now is None or now >= at.size else now
        with column:
            st.select_slider(
                f"Ring: {axis.words}", range(at.size),
                format_func=lambda index, at=at, axis=axis: axis.text(at[index]),
                **standing(name, now, lambda index, name=name: view().__setitem__(name, index)))
        places.append(now)
    return tuple(places)


def _tried_map(job, across, up):
    """The map, with a bar while its boats are tried; a click elsewhere ends that early."""
    bar = st.progress(0.0, "Trying the boats of the map")
    found = passing_map(job.fitted.assessed, _seat_held(job), across, up, tell=lambda share:
                        bar.progress(share, "Trying the boats of the map"))
    bar.empty()
    return found


def _pick(label, key, options, other=None):
    """A choice that is still there when the page is opened again; it is swapped with the choice of
    the key `other` where both would be the same."""
    def picked(value):
        if other is not None and value == view()[other]:
            view()[other] = view()[key]
        view()[key] = value

    return st.selectbox(label, tuple(options), **choice(key, FIRST[key], picked, options),
                        format_func=lambda one: options[one].words)


def _speed(one):
    """The speed of the drag, in tenths of a knot within what the drag allows."""
    low, high = math.ceil(SLOWEST_MPS * KN_PER_MPS * 10), int(FASTEST_MPS * KN_PER_MPS * 10)
    now = min(max(round(one.speed_mps * KN_PER_MPS * 10), low), high)
    st.slider("Speed, knots", low / 10, high / 10, step=0.1, format="%.1f", **field(
        "speed_mps", now / 10, lambda one, knots: one.but(speed_mps=knots / KN_PER_MPS)))


def _ends_sentence(moved):
    if "gear" not in moved:
        return "The ends are the base's limits."
    return "Gear ends where we chose." if len(moved) == 1 else (
        "The ends are the base's limits; gear ends where we chose.")


def _seat_held(job):
    return "seat_shift_mm" in dict(job.request.fixed)
