"""Saving a job to a file and opening one again, on whichever page it is wanted."""

from datetime import date

import streamlit as st

from sizer.web.draft import LONGEST_NOTES
from sizer.web.job_file import MOST_BYTES, job_name, job_text, opened_job
from sizer.web.look import put, put_download
from sizer.web.state import begin_job, draft, field, kept_job, say
from sizer.web.upload import put_upload


def put_notes():
    """The builder's own words on the job."""
    st.text_area("Notes", **field("notes", typed=True), max_chars=LONGEST_NOTES,
                 placeholder="Wishes, colours, agreed price, what the customer said")


def put_save_job(one):
    kept = kept_job()
    put_download("Save this job", lambda: job_text(one),
                 job_name(one, date.today(), kept.row.code if kept else ""), width="stretch")
    put("<p>One file with the measures, what is held, variants, notes and a copy of the base "
        "design. It stays on this machine: keep it as you keep other customers' papers.</p>")


def put_open_job():
    """Takes a saved job; a file at fault changes nothing."""
    put_upload("Open a saved job (.json)", "job", ("json",), MOST_BYTES // 1_000_000, _open)


def _open(name, data):
    """Takes the job of a file's bytes as a new one; the one at hand stays in the book."""
    opened, one = opened_job(data), draft()
    begin_job(one.taking(opened.wishes).but(**opened.beside()))
    say(" ".join(("The job of the file is open, as a new job of the book.", *opened.remarks)))
