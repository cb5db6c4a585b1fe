"""A long work that was begun on a page: how far it is, and a way to stop it."""

from html import escape

import streamlit as st
from streamlit import runtime
from streamlit.runtime.scriptrunner import get_script_run_ctx

from sizer.web.look import note_html, put
from sizer.web.state import mine
from sizer.web.work import begin

LOOKED_EVERY_S = 1.0


def start(name, *given, **more):
    """Begins a work as `sizer.web.work.begin`; this session knows it by its name."""
    forget(name)
    mine()[f"{name}_run"] = begin(*given, wanted=_looked_at(), **more)


def _looked_at():
    """What says whether this session has a browser. Streamlit drops the state of one that has none
    only when another comes or goes."""
    session = get_script_run_ctx().session_id
    return lambda: not runtime.exists() or runtime.get_instance().is_active_session(session)


def going(name):
    """Whether the work of this name is under way."""
    return f"{name}_run" in mine()


def found(name):
    """The record that the last work of this name came to, or None."""
    return mine().get(f"{name}_found")


def forget(name):
    """Stops the work of this name; what was wrong with the last one is no longer told."""
    if work := mine().pop(f"{name}_run", None):
        work.stop()
    mine().pop(f"{name}_faults", None)


def put_faults(name):
    """Tells what was wrong with the last work of this name."""
    for fault in mine().get(f"{name}_faults", ()):
        put(f'<div role="alert">{note_html(fault, "fail")}</div>')


@st.fragment(run_every=LOOKED_EVERY_S)
def put_going(name):
    """How far the work is; it goes on while other pages are looked at."""
    work = mine().get(f"{name}_run")
    if work is None or not work.going:
        if work is not None:
            _take(name, work.outcome())
        st.rerun()
    put(f'<p role="status">Working, {escape(work.progress() or "getting ready")}. You can look at '
        "other pages meanwhile.</p>")
    if st.button("Stop", key=f"{name}_stop"):
        forget(name)
        st.rerun()


def _take(name, outcome):
    del mine()[f"{name}_run"]
    if outcome.faults:
        mine()[f"{name}_faults"] = outcome.faults[-10:]
    else:
        mine()[f"{name}_found"] = outcome.record
