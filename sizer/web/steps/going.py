"""A long work that was begun on a page: how far it is, and a way to stop it."""

from html import escape

import streamlit as st
from streamlit import runtime
from streamlit.runtime.scriptrunner import get_script_run_ctx

from sizer.web.look import put, put_alert
from sizer.web.state import act, mine
from sizer.web.work import begin


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
    """The Work of this name while it is under way, else None; what it came to is taken then."""
    work = mine().get(f"{name}_run")
    if work is not None and not work.going:
        _take(name, work.outcome())
        return None
    return work


def under_way():
    """{name: token} of the works of this session that are under way."""
    names = [key.removesuffix("_run") for key in mine() if key.endswith("_run")]
    return {name: work.token for name in names if (work := going(name))}


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
        put_alert(fault, "fail")


def put_going(name, work):
    """How far the work is, kept up to date by the page's news."""
    put(f'<p role="status">Working, <span class="sz-work-{name}">'
        f'{escape(work.progress() or "getting ready")}</span>. You can look at other pages '
        "meanwhile.</p>")
    st.button("Stop", key=f"{name}_stop", on_click=act, args=(forget, name))


def _take(name, outcome):
    del mine()[f"{name}_run"]
    if outcome.faults:
        mine()[f"{name}_faults"] = outcome.faults[-10:]
    else:
        mine()[f"{name}_found"] = outcome.record
