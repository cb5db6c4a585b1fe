"""A long work that was begun on a page: how far it is, and a way to stop it.

A reload of the browser begins a session of its own. A work that is to outlast that is shelved, in
the memory of this server and nowhere else, and its token put into the address: the new session
takes it up, and nobody else's finds it.
"""

from collections import deque
from dataclasses import dataclass
from html import escape

import streamlit as st
from streamlit import runtime
from streamlit.runtime.scriptrunner import get_script_run_ctx

from sizer.web.look import press, put, put_alert
from sizer.web.state import mine
from sizer.web.work import Work, begin

MOST_SHELVED = 4  # of all screens together, since each may hold tens of MB of files; our choice


@dataclass(frozen=True, eq=False)
class _Shelved:
    """A work that outlasts a reload, under way or done."""

    work: Work
    sessions: set  # those that know it


@st.cache_resource(show_spinner=False)
def _shelf():
    return deque(maxlen=MOST_SHELVED)


def start(name, *given, asked=None, **more):
    """Begins a work as `sizer.web.work.begin`; this session knows it by its name. One that says
    what it was `asked` is shelved."""
    forget(name)
    sessions = {get_script_run_ctx().session_id}
    work = begin(*given, wanted=_looked_at(sessions), asked=asked, **more)
    mine().update({f"{name}_run": work, f"{name}_taken_up": True})
    if asked is not None:
        mine()["run"] = work.token
        _shelf().append(_Shelved(work, sessions))


def _looked_at(sessions):
    """What says whether any of some sessions has a browser. Streamlit drops the state of one that
    has none only when another comes or goes."""
    return lambda: not runtime.exists() or any(
        map(runtime.get_instance().is_active_session, tuple(sessions)))


def take_up(name):
    """Takes up, once in a session that has begun nothing of this name, the shelved work of the
    token in the address. Returns what that was asked; None where there is nothing."""
    if mine().get(f"{name}_taken_up"):
        return None
    mine()[f"{name}_taken_up"] = True
    token = st.query_params.get("run")
    shelved = next((one for one in _shelf() if one.work.token == token), None)
    if shelved is None:
        return None
    shelved.sessions.add(get_script_run_ctx().session_id)
    mine().update({f"{name}_run": shelved.work, "run": token})
    return shelved.work.asked


def clear_shelf(of=lambda asked: True):
    """Shelves no longer what was asked something that `of` is true of."""
    for one in tuple(_shelf()):
        if of(one.work.asked):
            _shelf().remove(one)


def going(name):
    """The Work of this name while it is under way, else None; what it came to is taken then."""
    work = mine().get(f"{name}_run")
    if work is not None and not work.going:
        _take(name, work)
        return None
    return work


def under_way():
    """{name: token} of the works of this session that are under way."""
    names = [key.removesuffix("_run") for key in mine() if key.endswith("_run")]
    return {name: work.token for name in names if (work := going(name))}


def found(name):
    return mine().get(f"{name}_found")


def asked_of(name):
    """What the last work of this name was asked when it was begun, or None."""
    return mine().get(f"{name}_asked")


def forget(name):
    """Stops the work of this name; what was wrong with the last one is no longer told."""
    if work := mine().pop(f"{name}_run", None):
        work.stop()
        clear_shelf(lambda asked: asked is not None and asked is work.asked)
    mine().pop(f"{name}_faults", None)


def put_faults(name):
    for fault in mine().get(f"{name}_faults", ()):
        put_alert(fault, "fail")


def put_going(name, work):
    """How far the work is, kept up to date by the page's news."""
    put(f'<p role="status">Working, <span class="sz-work-{name}">'
        f'{escape(work.progress() or "getting ready")}</span>. You can look at other pages '
        "meanwhile.</p>")
    press("Stop", forget, name, key=f"{name}_stop")


def _take(name, work):
    outcome = work.outcome()
    mine().pop(f"{name}_run", None)
    if outcome.faults:
        mine()[f"{name}_faults"] = outcome.faults[-10:]
    else:
        mine().update({f"{name}_found": outcome.record, f"{name}_asked": work.asked})
