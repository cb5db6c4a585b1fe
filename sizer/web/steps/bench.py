"""Step 6: how the frames are set up, and what is cut."""

from html import escape

import streamlit as st

from sizer.units import MM_PER_M, mark_figure, marks_apart, of_metres
from sizer.web.look import note_html, put, put_both, table_html
from sizer.web.steps.patterns import put_strongback, put_workshop
from sizer.web.strip import put_cautions, put_next


def page(one, job):
    st.header("Set up the frames")
    if job.fitted.status == "fail":
        put(note_html("This boat does not pass: see the boat page before you cut anything.",
                      "fail"))
    unit, up, shown = one.length_unit, job.setting_up, one.marked
    put_strongback(one, job)
    put(f"<p>Hook the tape on the strongback's forward end, {shown(up.strongback_start_x_m)} aft "
        f"of the bow, and mark every frame from there in one pull. Strongback length "
        f"{shown(up.strongback_length_m)}. Heights are over its top.</p>")
    _put_marks(up.stations, unit)
    st.subheader("Half-breadths and heights")
    _put_offsets(up.stations, [one.name for one in job.lines.design.stringers], unit)
    put_workshop(one, job)
    put_cautions(job.cautions)
    put_next("Next: the files", "files")


def _put_marks(stations, unit):
    """Where every frame stands; on a phone its face under its name."""
    apart = dict(zip((s.name for s in stations), marks_apart(
        [s.strongback_m * MM_PER_M for s in stations], unit), strict=True))

    def figures(station):
        mark, keel, gunwale = map(of_metres(mark_figure, unit), (
            station.strongback_m, station.keel_height_m, station.gunwale_height_m))
        return mark, apart[station.name], keel, gunwale

    wide = [[f"<b>{escape(s.name)}</b>", s.kind,
             f"{s.reference_face} face, plywood {s.plywood_lies} of the mark", *figures(s)]
            for s in stations]
    narrow = [[f'<b>{escape(s.name)}</b> {s.kind}<br><span class="sz-why">{s.reference_face} face, '
               f"plywood {s.plywood_lies}</span>", *figures(s)] for s in stations]
    put_both(
        table_html(("Frame", "kind", "reference face", *(f"{name}, {unit}" for name in (
            "mark", "spacing", "keel height", "gunwale height"))), wide, numbers=(3, 4, 5, 6)),
        table_html((f"Frame, {unit}", "mark", "spacing", "keel", "gunwale"), narrow,
                   numbers=(1, 2, 3, 4)))


def _put_offsets(stations, names, unit):
    """How far out and how high every stringer lies; on a phone frame by frame."""
    def pair(station, name):
        return map(of_metres(mark_figure, unit), station.points_m[name])

    wide = [[f"<b>{escape(s.name)}</b>",
             *("<br>".join(f"{size} {way}" for size, way in zip(
                 pair(s, name), ("out", "up"), strict=True)) if name in s.points_m else "–"
               for name in names)] for s in stations]
    narrow = [["" if index else f"<b>{escape(s.name)}</b>", escape(name), *pair(s, name)]
              for s in stations
              for index, name in enumerate(name for name in names if name in s.points_m)]
    put_both(
        table_html((f"Frame, {unit}", *names), wide, numbers=range(1, len(names) + 1)),
        table_html((f"Frame, {unit}", "stringer", "out", "up"), narrow, numbers=(2, 3)))
