"""The sheets to fill in by hand, where they are wanted."""

import streamlit as st

from sizer.web.issued import stamp_now
from sizer.web.look import put_papers


def put_sheet(one, job, which, last):
    """The "dry-fit" or "launch" sheet to fill in by hand, of the revision `last` that stands."""
    printed = job.stamped(stamp_now(one, last))

    def made(paper):  # the writers load only where they are wanted
        if which == "launch":
            from sizer.export.launch_sheet import launch_pdf

            return launch_pdf(printed, paper)
        from sizer.export.dry_fit_sheet import dry_fit_pdf

        return dry_fit_pdf(printed, one.length_unit, paper)

    with st.container(horizontal=True):
        put_papers("Sheet to fill in by hand", made, printed.stamp, which)
