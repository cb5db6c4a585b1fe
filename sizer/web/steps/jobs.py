"""The shop's book: every job, found by typing; opened, copied, put away, forgotten."""

import tempfile
from datetime import date, datetime
from html import escape
from pathlib import Path

import streamlit as st

from sizer.book.copies import backup
from sizer.book.exchange import export_jobs, import_jobs
from sizer.book.forget import forget
from sizer.book.form import STATES
from sizer.book.jobs import copy_job, jobs, put_away, set_state
from sizer.book.summary import size_in
from sizer.errors import BadInput
from sizer.web import state
from sizer.web.job_box import put_open_job
from sizer.web.keeping import shop_book
from sizer.web.look import note_html, press, put, put_download, status_html
from sizer.web.steps.going import clear_shelf
from sizer.web.steps.launch_kept import as_the_shop_fits
from sizer.web.upload import put_upload

SHOWN = 12  # more are found by typing
MOST_UPLOAD_MB = 50


def page():
    st.header("Jobs")
    with st.container(horizontal=True, gap="small"):
        press("New customer", _begin, False, type="primary")
        press("Try it with the sample paddler", _begin, True)
    _list()
    with st.expander("A job from a file, copies of the book"):
        put_open_job()
        _whole_book()


def _list():
    """The jobs, the one touched last first; as many as one looks through."""
    with st.container(horizontal=True, vertical_alignment="bottom", gap="small"):
        find = st.text_input("Find a job", type="search", live=True, max_chars=100,
                             placeholder="code, mark, base, size, state, passes", key="find_job")
        away = st.toggle("Those put away", **state.choice("put_away", False))
    found = jobs(shop_book()[0], find or "", away, SHOWN + 1)
    if not found:
        put("<p>No such job here.</p>" if find or away else
            "<p>No job yet: each customer's work is kept here from the first entry.</p>")
    for row in found[:SHOWN]:
        _row(row)
    if len(found) > SHOWN:
        put("<p>There are more: type a part of a code, a mark, a base or a size.</p>")


def _row(row):
    """One job in a line, what can be done with it, and more where that is asked for."""
    with st.container(border=True, key=f"job_{row.code}"):
        with st.container(horizontal=True, vertical_alignment="center", gap="small"):
            put(_row_html(row))
            press("Open", _open, row.key, key=f"open_{row.key}", type="primary")
            press("More", _more, row.key, key=f"more_{row.key}")
        if state.view().get("job_more") == row.key:
            _row_more(row)


def _row_html(row):
    sizes = escape(size_in(row.size, state.draft().length_unit))
    boat = f"{escape(row.base)} {sizes}" if row.size else "no boat yet"
    status = status_html(row.status) if row.status else ""
    at_hand = " — at hand" if state.kept_job() and state.kept_job().key == row.key else ""
    return (f'<div class="sz-job"><b>{row.code}</b> {escape(row.mark) or "<i>no mark</i>"}{at_hand}'
            f'<br><span class="sz-why">{boat} {status} · {row.state} · {_when(row.touched)}</span>'
            "</div>")


def _when(moment):
    """A moment of the book in the clock of this machine."""
    then = datetime.fromisoformat(moment).astimezone()
    day = "today" if then.date() == date.today() else f"{then:%Y-%m-%d}"
    return f"{day} {then:%H:%M}"


def _row_more(row):
    with st.container(horizontal=True, vertical_alignment="bottom", gap="small"):
        st.selectbox("State", STATES, width=160, **state.choice(
            f"state_{row.key}_{row.state}", row.state, lambda named: _done(set_state, row, named),
            among=STATES))
        press("Copy for a sister boat", _copy, row, key="copy")
        press("Bring back" if row.put_away else "Put away", _done, put_away, row,
              not row.put_away, key="away")
        st.checkbox("Yes, forget this customer's measures for good", **state.choice("sure", False))
        press("Forget", _forget, row, key="forget", disabled=not state.view().get("sure"))
    put(note_html("Forgetting takes the body measures out of the drafts, revisions and kept copies "
                  "of this customer's jobs. The boats' figures stay. It cannot be undone."))


def _begin(sample):
    """A blank form, or the sample; the job at hand stays in the book."""
    one = as_the_shop_fits(state.draft().new_customer())
    state.begin_job(one.with_sample() if sample else one, empty=True)
    state.go("paddler")


def _open(key):
    state.view().clear()
    state.open_job(key)
    state.go("paddler" if not state.draft().ready() else "boat")


def _more(key):
    shut = state.view().pop("job_more", None) == key
    state.view().pop("sure", None)
    if not shut:
        state.view()["job_more"] = key


def _done(verb, row, *given):
    """Does something to a job; what the book refuses is said."""
    try:
        return verb(shop_book()[0], row.key, *given)
    except BadInput as error:
        state.say(str(error))
        return None


def _copy(row):
    copied = _done(copy_job, row)
    if copied is not None:
        _open(copied.key)
        state.put_anew(state.draft().new_boat())
        state.say(f"{copied.code} is a copy of {row.code}, for a sister boat.")


def _forget(row):
    forgotten = _done(forget, row)
    _more(row.key)
    if forgotten is not None:
        state.look_at_book()
        clear_shelf(lambda asked: asked.named)  # lists of people, who may be this customer too
        state.say(f"Forgotten: the measures in {', '.join(forgotten.codes)}.")


def _whole_book():
    book = shop_book()[0]
    put("<p>" + (f"The book is the file {escape(str(book.path))}; the last copies are kept beside "
                 "it. " if book.path else "") + "Body measures are in these files: keep them as "
        "you keep other customers' papers.</p>")
    with st.container(horizontal=True, gap="small"):
        put_download("Copy of the whole book", lambda: _copy_of(book),
                     f"book-{date.today()}.sqlite3")
        put_download("All jobs as one file", lambda: export_jobs(book),
                     f"jobs-{date.today()}.json")
    put_upload("Take in jobs from another book (.json)", "jobs", ("json",), MOST_UPLOAD_MB, _import)


def _copy_of(book):
    with tempfile.TemporaryDirectory(prefix="sizer-") as folder:
        return backup(book, Path(folder) / "book.sqlite3").read_bytes()


def _import(name, data):
    """Takes in the jobs of a file; what is here already is never overwritten."""
    taken = import_jobs(shop_book()[0], data.decode("utf-8", "replace"))
    said = [f"{len(taken.came)} came in, {len(taken.same)} were here already."]
    said += [f"{here.code} is here with other content: what came is beside it as {beside.code}."
             for here, beside in taken.clashes]
    said += [f"{code} is another job's code here: it is now {row.code}."
             for code, row in taken.recoded]
    state.say(" ".join(said))
