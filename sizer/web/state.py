"""A session's state, and the only place that touches it.

All of it stands in one dict of our own: Streamlit breaks off a run wherever its session state is
touched, in a callback too, as soon as the browser tells more, and a press or a figure of which half
was taken by then would be lost.

"history" the draft with its undo; "job" where the shop's book keeps it; "fields" what each drawn
widget stands for; "view" choices made in passing; "kept" what was worked out; "go" where a link
leads. A widget owns nothing: it is drawn where the draft or the view says, and whatever it is told
goes there, and into the book, before anything else happens.
"""

import time
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, replace
from math import inf
from threading import local
from typing import Any

import streamlit as st
from streamlit.runtime.scriptrunner import get_script_run_ctx

from sizer.book.forget import MARK
from sizer.book.refusals import BookRefused, Changed, NotInBook
from sizer.web.differences import differences
from sizer.web.history import PAUSE_S, History
from sizer.web.keeping import blank, keep, newer, opened, told


@dataclass(frozen=True)
class _Field:
    """What one widget stands for."""

    key: str
    told: Any  # what it said last, or was drawn at
    put: Callable[[Any], None]  # takes what it says next
    options: tuple | None = None  # among which that is, where it is one of several


def said():
    """What every widget says now, by its key: read without a chance to be broken off."""
    return st.session_state.to_dict()


_of_thread = local()  # each runs the pages of one session


def mine():
    """What this session keeps, by name: read off its state once in a thread, since that is all
    widgets' places together."""
    if not hasattr(_of_thread, "mine"):
        found = said().get("mine")
        if found is None:
            found = st.session_state["mine"] = {}
        _of_thread.mine = found
    return _of_thread.mine


def history():
    """This session's drafts: those of the job in the address, else the sample."""
    ours = mine()
    if "history" not in ours:
        key = st.query_params.get("job")
        if key is not None:
            open_job(key)
        ours.update(address=st.query_params.to_dict(), run=st.query_params.get("run"))
        ours.setdefault("history", History(blank().with_sample()))  # last: a run may be broken off
    return ours["history"]


def kept_job():
    """The Kept job of this session; None before anything was entered."""
    return mine().get("job")


def draft():
    return history().present


def open_job(key):
    """Takes a job of the book in place of the one at hand; without it, says why."""
    try:
        mine()["job"], mine()["history"] = opened(key)
    except (NotInBook, BookRefused) as error:
        mine()["job"] = None
        say(f"This job cannot be opened. {error}")


def put_anew(one):
    """Takes a Draft in place of the one at hand and of all before it: no undo brings them back."""
    _hold(History(one))


def begin_job(one, empty=False):
    """Begins a job of its own with a Draft; the one at hand stays in the book as it is.

    An `empty` one comes into the book with its first entry.
    """
    mine()["job"] = None
    mine()["history"] = History(one)
    if not empty:
        put_anew(one)


def tell_book(base, size, status):
    """What the list of jobs is to say of the fitted boat."""
    if kept_job() is not None:
        with suppress(NotInBook, BookRefused):  # it is said again at the next entry
            mine()["job"] = told(kept_job(), base, size, status)


def say(sentence, back=None):
    """What the page is to say of the job, until it is read; `back` a Kept job to go back to."""
    view()["job_says"] = (sentence, back)


def change(one, what=None, anew=False, pause_s=PAUSE_S):
    """Takes another Draft; what can be undone is a step.

    `what` names what is typed letter by letter or moved bit by bit, `anew` where it is not the last
    text going on, `pause_s` what ends it.
    """
    before = history()
    _hold(before.step(one, what, time.monotonic(), anew, pause_s) if one.differs(before.present)
          else before.amend(one))


def go_to(moved):
    """Takes a History with a step undone or redone, in the units of now."""
    if moved is history():  # nothing to undo is no entry
        return
    one = draft()
    _hold(moved.amend(moved.present.in_units(one.length_unit, one.mass_unit)))


def _hold(one):
    mine()["history"] = one
    try:
        mine()["job"] = keep(kept_job(), one)
    except Changed:
        _take_what_stands("Your last change came at the same moment and was not taken: please make "
                          "it again.")
    except NotInBook:
        mine()["job"] = None
        _hold(one)
        say("This job was taken out of the book elsewhere; it goes on as a new one.")
    except BookRefused as error:
        say(f"Not kept in the book. {error}")


def look_at_book():
    """Takes what another screen has written to this job since, and says what it was.

    Returns whether there was anything.
    """
    history()  # of the address, before anything leads away from it
    mine = kept_job()
    with suppress(NotInBook, BookRefused):  # said where something is to be kept
        if mine is not None and newer(mine):
            _take_what_stands()
            return True
    return False


def _take_what_stands(more=""):
    """The draft of the book in place of this screen's, with what is new in it."""
    before = draft()
    open_job(kept_job().key)
    if kept_job() is not None:
        said = ", ".join(differences(before, draft())) or "nothing that shows"
        say("This customer was forgotten." if kept_job().row.mark == MARK else
            f"Changed on another screen: {said}. {more}")


def view():
    """Choices made in passing, which are neither undone nor saved: a dict by name."""
    return mine().setdefault("view", {})


def take_in_hand(key):
    """Asks the page to take in hand what the container of this key holds, as `put_reach`.

    It is asked with its number until something else is: a run may be cut short before it is drawn.
    """
    view()["in_hand"] = key, view().get("in_hand", ("", 0))[1] + 1


def kept(name, of, work=None, most=1):
    """What `work()` gives, worked out once in this session for the last few `of`.

    Parameters
    ----------
    of : hashable, what it is worked out from; a record without `==` counts as itself
    work : None asks only whether it is there; None where it is not
    """
    lot = mine().setdefault("kept", {}).setdefault(name, {})
    if of in lot:
        lot[of] = lot.pop(of)  # the one used last goes last
    elif work is not None:
        found = work()
        while len(lot) >= most:
            lot.pop(next(iter(lot)))
        lot[of] = found
    return lot.get(of)


def field(name, shown=None, put=None, typed=False, among="value", moved=False):
    """`key`, `on_change` and place of the widget of one field of the draft.

    Parameters
    ----------
    name : the field's, or a name of its own where `shown` and `put` are given
    shown : what the widget says now
    put : (Draft, what it says next) to a Draft
    typed : whether it is told letter by letter
    among : as of `standing`
    moved : whether it is moved bit by bit, which is one step until something else is entered
    """
    if put is None:
        shown = draft()[name]

        def put(one, value):
            return one.but(**{name: value})

    def take(value):
        anew = typed and not (value.startswith(shown) or shown.startswith(value))
        change(put(draft(), value), name if typed or moved else None, anew,
               inf if moved else PAUSE_S)

    return standing(name, shown, take, among)


def choice(name, first, put=None, among="value"):
    """As `field`, of a widget whose value is kept in the view, by `put` where given."""
    return standing(name, view().setdefault(name, first),
                    put or (lambda value: view().__setitem__(name, value)), among)


def standing(name, shown, put, among="value"):
    """`key`, `on_change` and place of a widget that shows `shown`; `put` takes what it says next.

    One that stands elsewhere than it should is drawn anew under another key, never set: a browser
    may still be telling its old place, and what an old key tells counts for nothing. Each drawing
    tells the place anew: told once, by the session's state, it is lost with a run that is broken
    off, and the browser puts the widget at its least, and tells that.

    Parameters
    ----------
    among : the options of which the widget takes the index, else the name by which it takes `shown`
    """
    fields = mine().setdefault("fields", {})
    number = 0
    if name in fields:
        number = int(fields[name].key.rpartition(":")[2]) + (fields[name].told != shown)
    key = f"{name}:{number}"
    options = None if isinstance(among, str) else tuple(among)
    fields[name] = _Field(key, shown, put, options)
    place = {among: shown} if options is None else {"index": options.index(shown)}
    return {"key": key, "on_change": read_fields, **place}


def read_fields():
    """Takes what every widget says. Every run and every callback begins with it, so that a figure
    typed and left open is there before the link, button or switch that was touched next acts.
    What another screen changed comes first, so that neither undoes the other. A field counts as
    read once it is taken: a run may be broken off between, and the next one takes it again."""
    look_at_book()
    fields, now = mine().setdefault("fields", {}), said()
    for name in sorted(fields, key=lambda name: name.endswith("_unit")):
        one = fields[name]  # units last: a figure is read in those it was typed in
        told = now.get(one.key, one.told)
        if told != one.told:
            if one.options is None or told in one.options:  # else it tells an option's old name
                one.put(told)
            fields[name] = replace(one, told=told)


def act(verb, *given):
    """The callback of a button: reads the page, then does `verb(*given)`."""
    read_fields()
    verb(*given)


def go(path):
    """The callback of a link to a page of this session: reads the page, then leaves it."""
    read_fields()
    if view().get("job_says", ("", None))[1] is not None:  # the way back was not wanted
        view().pop("job_says")
    mine()["go"] = path


def leave(pages, current, unless):
    """Goes where a link asked to, else to the page `unless`; `pages` are st.Page by path.

    The address takes the job along: one step of the browser's history, not two. Who touches the
    page they are leaving, before the next one is there, is not led back by that.
    """
    path = mine().get("go")  # until it is reached: the step there may be broken off
    if path is None:
        back = getattr(get_script_run_ctx(), "is_history_navigation", True)
        path = unless if back else mine().get("page", unless)
    mine()["page"] = path
    if path != current:
        mine().update(go=path, address=_address())
        st.switch_page(pages[path], query_params=_address())
    mine().pop("go", None)


def _address():
    """What of this session stands in the address, so that a reload or a link finds it: the key of
    its job, the token of its run on a crowd; never anything else."""
    key = kept_job() and kept_job().key
    return {name: value for name, value in (("job", key), ("run", mine().get("run"))) if value}


def put_address():
    """Puts it there. Where the browser went back, it stays: to another job, which is opened, or to
    before there was one."""
    at, put = st.query_params.to_dict(), mine().get("address", {})
    if at.get("job") not in (None, _address().get("job"), put.get("job")):
        open_job(at["job"])
    elif at != _address() != put:
        st.query_params.from_dict(_address())
    mine()["address"] = _address()
