"""A session's state, and the only place that touches it.

"history" the draft with its undo; "fields" what each drawn widget stands for; "view" choices made
in passing; "kept" what was worked out; "go" where a link leads. A widget owns nothing: it is drawn
where the draft or the view says, and whatever it is told goes there before anything else happens.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

import streamlit as st

from sizer.web.draft import Draft
from sizer.web.history import History


@dataclass(frozen=True)
class _Field:
    """What one widget stands for."""

    key: str
    told: Any  # what it said last, or was drawn at
    put: Callable[[Any], None]  # takes what it says next


def history():
    """This session's drafts; a first visit finds the sample in the present one."""
    if "history" not in st.session_state:
        st.session_state["history"] = History(Draft().with_sample())
    return st.session_state["history"]


def draft():
    """This session's Draft as it is now."""
    return history().present


def change(one):
    """Takes another Draft; what can be undone is a step."""
    before = history()
    step = before.step if one.differs(before.present) else before.amend
    st.session_state["history"] = step(one)


def undo():
    """Goes one step back; what is beside the boat stays."""
    _go_back_to(history().undone())


def redo():
    """Goes one undone step forward."""
    _go_back_to(history().redone())


def _go_back_to(moved):
    st.session_state["history"] = moved.amend(draft().going_back_to(moved.present))


def view():
    """Choices made in passing, which are neither undone nor saved: a dict by name."""
    return st.session_state.setdefault("view", {})


def kept(name, of, work=None, most=1):
    """What `work()` gives, worked out once in this session for the last few `of`.

    Parameters
    ----------
    of : hashable, what it is worked out from; a record without `==` counts as itself
    work : None asks only whether it is there; None where it is not
    """
    lot = st.session_state.setdefault("kept", {}).setdefault(name, {})
    if of in lot:
        lot[of] = lot.pop(of)  # the one used last goes last
    elif work is not None:
        found = work()
        while len(lot) >= most:
            lot.pop(next(iter(lot)))
        lot[of] = found
    return lot.get(of)


def field(name, shown=None, put=None):
    """`key` and `on_change` of the widget of one field of the draft.

    Parameters
    ----------
    name : the field's, or a name of its own where `shown` and `put` are given
    shown : what the widget says now
    put : (Draft, what it says next) to a Draft
    """
    if put is None:
        shown = draft()[name]

        def put(one, value):
            return one.but(**{name: value})

    return _standing(name, shown, lambda value: change(put(draft(), value)))


def choice(name, first, put=None):
    """`key` and `on_change` of a widget whose value is kept in the view, by `put` where given."""
    return _standing(name, view().setdefault(name, first),
                     put or (lambda value: view().__setitem__(name, value)))


def _standing(name, shown, put):
    """A widget that stands elsewhere than it should is drawn anew under another key, never set:
    a browser may still be telling its old place, and what an old key tells counts for nothing."""
    fields = st.session_state.setdefault("fields", {})
    number = 0
    if name in fields:
        number = int(fields[name].key.rpartition(":")[2]) + (fields[name].told != shown)
    key = f"{name}:{number}"
    fields[name] = _Field(key, shown, put)
    st.session_state.setdefault(key, shown)
    return {"key": key, "on_change": read_fields}


def read_fields():
    """Takes what every widget says. Every run and every callback begins with it, so that a figure
    typed and left open is there before the link, button or switch that was touched next acts."""
    fields = st.session_state.setdefault("fields", {})
    for name in sorted(fields, key=lambda name: name.endswith("_unit")):
        one = fields[name]  # units last: a figure is read in those it was typed in
        told = st.session_state.get(one.key, one.told)
        if told != one.told:
            fields[name] = replace(one, told=told)
            one.put(told)


def act(verb, *given):
    """The callback of a button: reads the page, then does `verb(*given)`."""
    read_fields()
    verb(*given)


def go(path):
    """The callback of a link to a page of this session: reads the page, then leaves it."""
    read_fields()
    st.session_state["go"] = path


def leave(pages, current):
    """Goes where a link asked to; `pages` are st.Page by path."""
    path = st.session_state.pop("go", current)
    if path != current:
        st.switch_page(pages[path])
