"""What every page shows: the steps, the boat in a line, the cautions at the foot."""

from html import escape

import streamlit as st

from sizer.units import MM_PER_M
from sizer.web.draft import length_text, mass_text
from sizer.web.look import put, status_html
from sizer.web.session import job_for


def put_steps(one, pages, current):
    """The steps in order, and the units, which can be switched at any time."""
    with st.container(horizontal=True, vertical_alignment="center", gap="small", key="steps"):
        _page_links(pages, current)
        _put_units(one)


def _page_links(pages, current):
    with st.container(horizontal=True, vertical_alignment="center", gap="small", key="links"):
        for number, page in enumerate(pages, start=1):
            label = f"{number} {page.title}"
            st.page_link(page, label=f"**{label}**" if page.title == current.title else label)


def _put_units(one):
    """The switch between units."""
    st.session_state.setdefault("length_unit", one.length_unit)
    st.session_state.setdefault("mass_unit", one.mass_unit)
    with st.container(horizontal=True, gap="small", key="units"):
        st.segmented_control("Lengths in", ("mm", "in"), key="length_unit", required=True,
                             label_visibility="collapsed", on_change=_switch, args=(one,))
        st.segmented_control("Weights in", ("kg", "lb"), key="mass_unit", required=True,
                             label_visibility="collapsed", on_change=_switch, args=(one,))


def _switch(one):
    one.switch_units(st.session_state["length_unit"], st.session_state["mass_unit"])
    show_entries(one)


def show_entries(one):
    """Puts the draft's texts into the fields; only callbacks may, before the fields are drawn."""
    for key, entry in one.entries.items():
        st.session_state[f"typed_{key}"] = entry.text


def put_strip(one):
    """The boat in a line: size, freeboard, status, first caution."""
    if not one.ready():
        put('<div class="sz-strip" role="status">No boat yet: measure the paddler first.</div>')
        return
    job, faults = job_for(one)
    if job is None:
        put(f'<div class="sz-strip sz-fail" role="status">{escape(faults[0])}</div>')
        return
    boat, water = job.fitted.assessed.boat, job.fitted.assessed.particulars
    unit = one.length_unit
    size = " × ".join(length_text(value * MM_PER_M, unit)
                      for value in (boat.length_m, boat.beam_m, boat.depth_m))
    sample = "<span><b>Sample paddler</b></span>" if one.sample else ""
    put(f'<div class="sz-strip" role="status">{sample}<span>{escape(boat.design.name)}</span>'
        f"<span>{size}</span>"
        f"<span>freeboard {length_text(water.freeboard_m * MM_PER_M, unit)}</span>"
        f"<span>load {mass_text(job.fitted.assessed.loading.load.mass_kg, one.mass_unit)}</span>"
        f"{status_html(job.fitted.status)}</div>")


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
