"""Step 2: what the boat is for, on what water, and from which base design."""

from html import escape

import streamlit as st

from sizer.errors import BadInput
from sizer.fit.request import MOST_GEAR_KG
from sizer.fit.sizes import main_sizes_mm
from sizer.fit.uses import USES
from sizer.scenes.long_views import glance
from sizer.units import MM_PER_M
from sizer.web.draft import length_text, mass_text
from sizer.web.look import put, put_picture, status_html
from sizer.web.session import OWN, base_boat, base_keys, draft, job_for, lines_of
from sizer.web.upload import KINDS, read_upload

MOST_UPLOAD_MB = 2


def page():
    """Draws the step."""
    one = draft()
    wishes, bases = st.columns([2, 5], gap="large")
    with wishes:
        _wishes(one)
    with bases:
        st.header("Which base design?")
        _cards(one)
        _upload(one)
    if st.button("Next: the boat", type="primary", disabled=not one.ready()):
        st.switch_page(st.session_state["pages"]["boat"])


def _wishes(one):
    """Use, gear and water."""
    st.header("What for?")
    for key, value in (("use", one.use), ("water_kind", one.water_kind), ("water_c", one.water_c)):
        st.session_state.setdefault(f"pick_{key}", value)
    st.radio("Intended use", tuple(USES), key="pick_use", on_change=_picked, args=(one, "use"),
             format_func=lambda key: USES[key].words)
    _gear(one)
    st.radio("Water", ("fresh", "salt"), key="pick_water_kind", horizontal=True,
             on_change=_picked, args=(one, "water_kind"))
    st.slider("Water temperature, °C", 0.0, 30.0, step=1.0, key="pick_water_c", format="%.0f",
              on_change=_picked, args=(one, "water_c"), help="The water's own, not the air's.")


def _picked(one, key):
    setattr(one, key, st.session_state[f"pick_{key}"])
    if key == "use":
        one.held.clear()


def _cards(one):
    """The bases drawn side by side, each with what it does for this paddler."""
    keys = base_keys(one)
    longest = max(base_boat(one, key).length_m for key in keys)
    for start in range(0, len(keys), 2):
        for key, column in zip(keys[start:start + 2], st.columns(2, gap="large"), strict=False):
            with column, st.container(border=True):
                _card(one, key, longest)


def _card(one, key, longest):
    design = lines_of(one, key).design
    put_picture(glance(base_boat(one, key), longest))
    drawn = design.drawn_for
    unit = one.length_unit
    put(f"<b>{escape(design.name)}</b> — {escape(design.character)}. Drawn for "
        f"{mass_text(drawn.weight_kg, one.mass_unit)}, "
        f"{length_text(drawn.stature_m * MM_PER_M, unit)} tall. Suits "
        + escape(", ".join(USES[use].words if use in USES else use for use in design.suits)) + ".")
    if one.ready():
        job, faults = job_for(one, key)
        put(_for_this_paddler(job, one) if job else
            f'<span class="sz-fail">{escape(faults[0])}</span>')
    chosen = one.base == key
    if st.button("Chosen" if chosen else f"Choose {design.name}", key=f"choose_{key}",
                 disabled=chosen):
        one.base = key
        one.held.clear()
        st.rerun()


def _for_this_paddler(job, one):
    """Status, fitted size and weight, and the first thing that is short."""
    boat, unit = job.fitted.assessed.boat, one.length_unit
    size = " × ".join(length_text(value, unit) for value in main_sizes_mm(boat))
    short = next((check for check in job.fitted.checks if check.status == job.fitted.status), None)
    why = ""
    if job.fitted.status != "pass":
        said = short.row.title if short.key != "suits" else (
            f"not drawn for this use: {job.lines.design.lacks.get(job.request.use, 'not named')}")
        why = f'<br><span class="sz-why">{escape(said)}</span>'
    return (f"For this paddler: {status_html(job.fitted.status)}<br>{size}, "
            f"{mass_text(job.fitted.assessed.weight.mass_kg, one.mass_unit)}{why}")


def _gear(one):
    entry = one.entries["gear_kg"]
    usual = mass_text(USES[one.use].gear_kg, one.mass_unit)
    st.session_state.setdefault("typed_gear_kg", entry.text)
    st.text_input(f"Gear, {one.mass_unit} — blank is {usual} for this use",
                  key="typed_gear_kg", on_change=lambda: one.enter(
                      "gear_kg", st.session_state["typed_gear_kg"]))
    if entry.fault:
        put(f'<div class="sz-fault" role="alert">✕ {escape(entry.fault)}</div>')
    elif entry.value is not None and not 0 <= entry.value <= MOST_GEAR_KG:
        put(f'<div class="sz-fault" role="alert">✕ {mass_text(entry.value, one.mass_unit)}: '
            f"0 to {mass_text(MOST_GEAR_KG, one.mass_unit)} is allowed</div>")


def _upload(one):
    """A design of the builder's own; a faulty one replaces nothing."""
    given = st.file_uploader(
        "Or a base design of your own (.toml), or offsets for the chosen base (.csv)",
        type=list(KINDS), max_upload_size=MOST_UPLOAD_MB,
        help="Both formats are explained in baselines/README.md.")
    if given is None or given.file_id == one.own_file:
        return
    try:
        text, design = read_upload(given.name, given.getvalue(), lines_of(one, one.base).design)
    except BadInput as error:
        put('<div class="sz-fault" role="alert">✕ This file was not used, and nothing was '
            "changed:</div>")
        for fault in error.faults:
            put(f'<div class="sz-fault">✕ {escape(str(fault))}</div>')
        return
    one.own_design, one.own_name, one.base = text, given.name, OWN
    one.own_file = given.file_id
    one.held.clear()
    st.toast(f"{design.name} is read without fault and is chosen.")
    st.rerun()
