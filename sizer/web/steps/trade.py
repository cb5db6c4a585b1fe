"""The trade-offs step: what moving one or two dimensions does, and boats kept side by side."""

import math
from html import escape

import streamlit as st

from sizer.fit.tried import DIMENSIONS
from sizer.fit.what_if import RESULTS, curve, passing_map, sweep
from sizer.hydro.drag import FASTEST_MPS, SLOWEST_MPS
from sizer.units import KN_PER_MPS
from sizer.web.charts import SETTINGS
from sizer.web.look import put, table_html
from sizer.web.session import draft, job_for
from sizer.web.steps.variants import put_variants
from sizer.web.strip import put_cautions, put_strip, put_way_back
from sizer.web.trade_charts import curve_chart
from sizer.web.trade_map import map_chart
from sizer.web.trade_words import (
    curve_rows,
    curve_sentence,
    dimension_axis,
    map_heads,
    map_rows,
    map_sentence,
    result_axis,
    stays_sentence,
)

FIRST = {"trade_result": "gm", "trade_dimension": "beam", "trade_across": "length",
         "trade_up": "beam"}
MOST_KEPT = 12  # sweeps and maps in one session


def page():
    """Draws the step."""
    one = draft()
    put_strip(one)
    job, faults = job_for(one)
    if job is None:
        put_way_back(faults)
        return
    st.header("What if")
    _curve(one, job)
    st.header("Where every check passes")
    map_place = st.container()  # filled last: it takes longest
    st.header("Side by side")
    put_variants(one, job)
    put_cautions(job.cautions)
    if st.button("Next: the water", type="primary"):
        st.switch_page(st.session_state["pages"]["water"])
    with map_place:
        _map(one, job)


@st.fragment
def _curve(one, job):
    """One result over one dimension."""
    if st.session_state.pop("speed_moved", False):
        st.rerun()  # the table below tells drag at this speed too
    picture, controls = st.columns([7, 3], gap="medium")
    with controls:
        result = RESULTS[_pick("Result", "trade_result", RESULTS)]
        dimension = DIMENSIONS[_pick("Over", "trade_dimension", DIMENSIONS)]
        if result.key == "drag":
            _speed(one)
        put(f"<p>{stays_sentence(_seat_held(job), (dimension.key,))} "
            f"{_ends_sentence((dimension.key,))}</p>")
    swept = _kept(job, ("sweep", dimension.key),
                  lambda: sweep(job.fitted.assessed, _seat_held(job), dimension.key))
    found = curve(swept, result.key, one.speed_mps)
    axes = dimension_axis(one, dimension), result_axis(one, result)
    with picture:
        st.plotly_chart(curve_chart(found, *axes, st.context.theme.type), config=SETTINGS,
                        key="trade_curve_chart")
        put(f'<p class="sz-curve-says">{escape(curve_sentence(found, *axes))}</p>')
        with st.expander("The curve as a table"):
            put(table_html((axes[0].words.capitalize(), axes[1].words, "its checks",
                            "every check"), curve_rows(found, *axes), numbers=(0, 1)))


@st.fragment
def _map(one, job):
    """Where every check passes, over two dimensions."""
    picture, controls = st.columns([7, 3], gap="medium")
    with controls:
        across = _pick("Across", "trade_across", DIMENSIONS, "trade_up")
        up = _pick("Up", "trade_up", DIMENSIONS, "trade_across")
        put(f"<p>{stays_sentence(_seat_held(job), (across, up))} "
            f"{_ends_sentence((across, up))} Point at a boat to see which checks do not pass.</p>")
    axes = dimension_axis(one, DIMENSIONS[across]), dimension_axis(one, DIMENSIONS[up])
    with picture:
        found = _kept(job, ("map", across, up), lambda: _tried_map(job, across, up))
        st.plotly_chart(map_chart(found, *axes, st.context.theme.type), config=SETTINGS,
                        key="trade_map_chart")
        put(f'<p class="sz-map-says">{escape(map_sentence(found, job.fitted.status))}</p>')
        with st.expander("The map as a table"):
            put(table_html(map_heads(found, *axes), map_rows(found, *axes), stack=True))


def _tried_map(job, across, up):
    """The map, with a bar while its boats are tried; a click elsewhere ends that early."""
    bar = st.progress(0.0, "Trying the boats of the map")
    found = passing_map(job.fitted.assessed, _seat_held(job), across, up, tell=lambda share:
                        bar.progress(share, "Trying the boats of the map"))
    bar.empty()
    return found


def _pick(label, key, options, other=None):
    """A choice that is still there when the page is opened again.

    Parameters
    ----------
    other : key of the choice that must differ; the two are swapped where they would not
    """
    kept = st.session_state.setdefault("trade_picks", dict(FIRST))
    st.session_state.setdefault(key, kept[key])

    def picked():
        if other is not None and st.session_state[key] == kept[other]:
            st.session_state[other] = kept[other] = kept[key]
        kept[key] = st.session_state[key]

    return st.selectbox(label, tuple(options), key=key, on_change=picked,
                        format_func=lambda one: options[one].words)


def _speed(one):
    """The speed of the drag, in tenths of a knot within what the drag allows."""
    key = "slide_trade_speed"
    low, high = math.ceil(SLOWEST_MPS * KN_PER_MPS * 10), int(FASTEST_MPS * KN_PER_MPS * 10)
    now = min(max(round(one.speed_mps * KN_PER_MPS * 10), low), high)
    st.session_state.setdefault(key, now / 10)

    def moved():
        one.speed_mps = st.session_state[key] / KN_PER_MPS
        st.session_state["speed_moved"] = True

    st.slider("Speed, knots", low / 10, high / 10, step=0.1, format="%.1f", key=key,
              on_change=moved)


def _ends_sentence(moved):
    """Where the axes end."""
    if "gear" not in moved:
        return "The ends are the base's limits."
    return "Gear ends where we chose." if len(moved) == 1 else (
        "The ends are the base's limits; gear ends where we chose.")


def _seat_held(job):
    return "seat_shift_mm" in dict(job.request.fixed)


def _kept(job, what, work):
    """What `work` gives, worked out once for a job in this session."""
    kept = st.session_state.setdefault("what_if", {})
    key = (id(job), *what)  # the job is kept with it, so that its id is not used again
    if key not in kept:
        while len(kept) >= MOST_KEPT:
            kept.pop(next(iter(kept)))
        kept[key] = (job, work())
    return kept[key][1]
