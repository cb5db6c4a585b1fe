"""The sheets to fill in by hand, where they are wanted."""

import streamlit as st

from sizer.web.issued import stamp_now


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
        for paper in ("A4", "Letter"):
            st.download_button(f"Sheet to fill in by hand, {paper} (PDF)",
                               lambda paper=paper: made(paper),
                               printed.stamp.named(f"{which}-{paper}.pdf"), "application/pdf",
                               on_click="ignore")
