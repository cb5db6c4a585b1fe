"""Step 6: how the frames are set up, and what is cut."""

from html import escape

import streamlit as st

from sizer.units import MM_PER_M, mark_text
from sizer.web.look import note_html, put, table_html
from sizer.web.session import job_for
from sizer.web.state import draft
from sizer.web.steps.patterns import put_strongback, put_workshop
from sizer.web.strip import put_cautions, put_next, put_way_back


def page():
    """Draws the step."""
    one = draft()
    job, faults = job_for(one)
    if job is None:
        put_way_back(faults)
        return
    st.header("Set up the frames")
    if job.fitted.status == "fail":
        put(note_html("This boat does not pass: see the boat page before you cut anything.",
                      "fail"))
    unit, up = one.length_unit, job.setting_up

    def shown(value_m):
        return mark_text(value_m * MM_PER_M, unit)

    put_strongback(job)
    put(f"<p>Hook the tape on the strongback's forward end, {shown(up.strongback_start_x_m)} aft "
        f"of the bow, and mark every frame from there in one pull. Strongback length "
        f"{shown(up.strongback_length_m)}. Heights are over its top.</p>")
    rows = [[f"<b>{escape(s.name)}</b>", s.kind, shown(s.strongback_m), shown(s.spacing_m),
             f"{s.reference_face} face, plywood {s.plywood_lies} of the mark",
             shown(s.keel_height_m), shown(s.gunwale_height_m)] for s in up.stations]
    put(table_html(("Frame", "kind", "mark", "spacing", "reference face", "keel height",
                    "gunwale height"), rows, numbers=(2, 3, 5, 6), stack=True,
                   plain=(1, 4)))
    names = [stringer.name for stringer in job.lines.design.stringers]
    st.subheader("Half-breadths and heights")
    put(table_html(("Frame", *names), [
        [f"<b>{escape(s.name)}</b>",
         *(f"{shown(s.points_m[name][0])} out<br> {shown(s.points_m[name][1])} up"
           if name in s.points_m else "–" for name in names)] for s in up.stations],
        numbers=range(1, len(names) + 1), stack=True))
    put_workshop(one, job)
    put_cautions(job.cautions)
    put_next("Next: the files", "files")
