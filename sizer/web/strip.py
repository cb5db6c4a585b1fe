"""What every page shows: the steps, undo, units, the boat in a line, the cautions at the foot."""

from html import escape

import streamlit as st

from sizer.export.fit_words import value_words
from sizer.fit.sizes import main_sizes_mm
from sizer.units import MM_PER_M
from sizer.web.draft import LENGTH_UNITS, MASS_UNITS, length_text
from sizer.web.history import History
from sizer.web.look import note_html, put, status_html
from sizer.web.session import job_for


def put_steps(one, steps, asides, current):
    """The steps in order, the pages beside them, and the units.

    Parameters
    ----------
    steps, asides : lists of st.Page, the walk and what can be opened at any time
    """
    with st.container(key="steps"):
        with st.container(horizontal=True, vertical_alignment="center", gap="xsmall", key="links"):
            for number, page in enumerate(steps, start=1):
                _page_link(page, f"{number} {page.title}", current)
            for page in asides:
                _page_link(page, page.title, current)
        _put_units(one)


def _page_link(page, label, current):
    st.page_link(page, label=f"**{label}**" if page.title == current.title else label)


def _history():
    return st.session_state.setdefault("history", History())


def _put_undo(one):
    history = _history()
    with st.container(horizontal=True, gap="small", key="undo"):
        # never greyed out: a slider in a fragment may have moved since the strip was drawn
        back = st.button("Undo", on_click=_step_back, args=(one,))
        forward = st.button("Redo", on_click=_step_forward, args=(one,),
                            disabled=not history.future)
    if back or forward:
        st.rerun()  # the whole page, not just the fragment that the strip stands in


def _step_back(one):
    _history().note(one.wishes())
    if _history().past:
        one.take(_history().undone())
        show_entries()


def _step_forward(one):
    if _history().future:
        one.take(_history().redone())
        show_entries()


def _put_units(one):
    """The switch between units."""
    st.session_state.setdefault("length_unit", one.length_unit)
    st.session_state.setdefault("mass_unit", one.mass_unit)
    with st.container(horizontal=True, gap="small", key="units"):
        st.segmented_control("Lengths in", LENGTH_UNITS, key="length_unit", required=True,
                             label_visibility="collapsed", on_change=_switch, args=(one,))
        st.segmented_control("Weights in", MASS_UNITS, key="mass_unit", required=True,
                             label_visibility="collapsed", on_change=_switch, args=(one,))


def _switch(one):
    one.switch_units(st.session_state["length_unit"], st.session_state["mass_unit"])
    show_entries()


def show_entries():
    """Lets every widget stand again where the draft says; only callbacks may, before they are
    drawn. A value put in here would not reach a field that another page draws."""
    for key in list(st.session_state):
        if str(key).startswith(("typed_", "slide_", "pick_")):
            del st.session_state[key]


def put_strip(one, undo=True):
    """The boat in a line that stays in sight: size, freeboard, status, first caution.

    `undo` is left out where the page has an undo of its own.
    """
    _history().note(one.wishes())
    with st.container(horizontal=True, vertical_alignment="center", gap="small", key="strip"):
        put(_strip_html(one))
        if undo:
            _put_undo(one)


def _strip_html(one):
    if not one.ready():
        return '<div class="sz-strip" role="status">No boat yet: measure the paddler first.</div>'
    job, faults = job_for(one)
    if job is None:
        return f'<div class="sz-strip sz-fail" role="status">{escape(faults[0])}</div>'
    boat, water = job.fitted.assessed.boat, job.fitted.assessed.particulars
    unit = one.length_unit
    size = " × ".join(length_text(value, unit) for value in main_sizes_mm(boat))
    sample = '<span class="sz-sample">Sample paddler</span>' if one.sample else ""
    return (f'<div class="sz-strip" role="status">{sample}'
            f"<span>{escape(boat.design.name)}</span><span>{size}</span>"
            f"<span>freeboard {length_text(water.freeboard_m * MM_PER_M, unit)}</span>"
            f"{status_html(job.fitted.status)}"
            f'<span class="sz-first">{escape(first_caution(job, unit))}</span></div>')


def first_caution(job, unit):
    """The one thing to know first of a fitted boat, in a few words."""
    for status in ("fail", "caution"):
        for check in job.fitted.checks:
            if check.status == status:
                return (f"{check.name}: "
                        f"{value_words(check, lambda value_mm: length_text(value_mm, unit))}, "
                        f"too {check.too}" if check.unit != "of 1" else f"{check.name}: no")
    return "float bags at both ends, tied in"


def put_way_back(faults):
    """Says why there is no boat, and leads to where that is mended."""
    for fault in faults:
        put(note_html(fault, "fail"))
    if st.button("Go to the paddler", type="primary"):
        st.switch_page(st.session_state["pages"]["paddler"])


def put_foot(one):
    """The cautions that are never out of sight."""
    put('<div class="sz-foot" role="note"><b>Calculated, not a trial.</b> '
        f"Water {one.water_c:g} °C: dress for the water. PFD on and fastened. Float bags tied in "
        "at both ends. Practise wet exits. Local rules and instructed practice come first.</div>")


def put_cautions(cautions):
    """Every caution of a result, in one list."""
    st.subheader("Before you build and before you launch")
    put('<ul class="sz-note sz-caution">'
        + "".join(f"<li>{escape(caution)}</li>" for caution in cautions) + "</ul>")
