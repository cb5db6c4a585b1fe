"""Saving a job to a file and opening one again, on whichever page it is wanted."""

from datetime import date

import streamlit as st

from sizer.errors import BadInput
from sizer.web.job_file import MOST_BYTES, job_name, job_text, opened_job
from sizer.web.look import note_html, put
from sizer.web.strip import show_entries


def put_notes(one):
    """The builder's own words on the job."""
    st.session_state.setdefault("pick_notes", one.notes)
    one.notes = st.text_area("Notes", key="pick_notes", max_chars=20_000,
                             placeholder="Wishes, colours, agreed price, what the customer said")


def put_save_job(one):
    """Offers the whole job as one file."""
    st.download_button("Save this job", lambda: job_text(one), job_name(one, date.today()),
                       "application/json", on_click="ignore", width="stretch")
    put("<p>One file with the measures, what is held, variants, notes and a copy of the base "
        "design. It stays on this machine: keep it as you keep other customers' papers.</p>")


def put_open_job(one):
    """Takes a saved job; a file at fault changes nothing."""
    turn = st.session_state.setdefault("open_turn", 0)
    st.file_uploader("Open a saved job (.json)", type=["json"], key=f"open_job_{turn}",
                     max_upload_size=MOST_BYTES // 1_000_000, on_change=_open, args=(one,))
    for fault in st.session_state.get("open_faults", ()):
        put(f'<div role="alert">{note_html(fault, "fail")}</div>')
    for remark in st.session_state.get("open_remarks", ()):
        put(note_html(remark))


def _open(one):
    """Reads the file that was just given, before the page is drawn."""
    given = st.session_state[f"open_job_{st.session_state['open_turn']}"]
    st.session_state["open_faults"] = st.session_state["open_remarks"] = ()
    if given is None:
        return
    try:
        opened = opened_job(given.getvalue())
    except BadInput as error:
        st.session_state["open_faults"] = tuple(str(fault) for fault in error.faults)
        return
    one.take(opened.wishes)
    one.variants, one.notes = opened.variants, opened.notes
    one.own_file = ""
    show_entries()
    st.session_state["open_remarks"] = ("The job is open.", *opened.remarks)
    st.session_state["open_turn"] += 1  # an emptied uploader, so that the file can be given again
