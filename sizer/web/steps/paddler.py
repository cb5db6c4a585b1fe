"""Step 1: measure the paddler."""

from html import escape

import streamlit as st

from sizer.errors import BadInput
from sizer.paddler.body import predict
from sizer.paddler.measures import read_paddler
from sizer.scenes.measuring import how_to_measure_all
from sizer.scenes.side_view import side_view
from sizer.units import MM_PER_M
from sizer.web.draft import MASS_UNITS, length_text, mass_text
from sizer.web.job_box import put_open_job
from sizer.web.look import note_html, put, put_picture, table_html
from sizer.web.session import base_boat, draft, job_for
from sizer.web.strip import show_entries

NEEDED = (("weight_kg", "Weight", "in light clothes, without kit"),
          ("stature_mm", "Height", "barefoot, back against a wall"),
          ("hip_width_mm", "Hip width", "at the widest, between two books"))
OPTIONAL = (("inseam_mm", "Inseam", "crotch to floor, barefoot"),
            ("sitting_height_mm", "Sitting height", "bench to top of head, sitting upright"),
            ("foot_length_mm", "Foot length", "heel to longest toe"),
            ("shoe_length_mm", "Paddling shoe length", "outside, heel to toe"),
            ("shoulder_width_mm", "Shoulder width", "outside the upper arms"))
LIKE = {"mm": "like 1780, 178 cm or 5 ft 10", "cm": "like 178 or 5 ft 10",
        "in": "like 70 1/2 or 5'10\"", "kg": "like 82 or 180 lb", "lb": "like 180 or 82 kg",
        "st": "like 13 st 4 or 84 kg"}
PREDICTED = (("sitting_height", "sitting height"), ("inseam", "inseam"),
             ("buttock_knee", "back of buttocks to knee"), ("knee_height", "knee height"),
             ("foot_length", "foot length"), ("thigh_clearance", "thigh thickness, sitting"),
             ("shoulder_width", "shoulder width"))


def page():
    """Draws the step."""
    one = draft()
    picture, form = st.columns([5, 6], gap="large")
    with form:
        st.header("Measure the paddler")
        if one.sample:
            put(note_html("This is a sample, a paddler of our own invention. Type a customer's "
                          "weight and the sample clears itself."))
        for key, label, how in NEEDED:
            _field(one, key, label, how)
            if key == "hip_width_mm":
                _hips(one)
        optional = any(one.entries[key].text for key, _, _ in OPTIONAL)
        with st.expander("More measures, if you have them", expanded=optional):
            for key, label, how in OPTIONAL:
                _field(one, key, label, how)
        _faults(one)
        left, right = st.columns(2)
        if any(entry.text for entry in one.entries.values()):
            left.button("Clear for a new customer", on_click=_clear, args=(one,), width="stretch")
        else:
            left.button("Fill in the sample paddler", on_click=_sample, args=(one,),
                        width="stretch")
        if right.button("Next: use and base", type="primary", disabled=not one.ready(),
                        width="stretch"):
            st.switch_page(st.session_state["pages"]["base"])
        put_picture(how_to_measure_all(narrow=True), "narrow")
        with st.expander("Open a saved job"):
            put_open_job(one)
    with picture:
        _boat_so_far(one)
        put_picture(how_to_measure_all(), "wide")
    _predicted(one)


def _boat_so_far(one):
    """The boat as it fits now, small: what all the measuring is for."""
    job, _ = job_for(one)
    if job is not None:
        assessed = job.fitted.assessed
        put_picture(side_view(
            assessed.boat, base_boat(one, one.base), assessed.particulars, job.person.body,
            lambda value_m: length_text(value_m * MM_PER_M, one.length_unit), narrow=True))


def _field(one, key, label, how):
    """One figure: typed in any usual form, shown as understood, its fault beside it."""
    unit, entry = one.unit_of(key), one.entries[key]
    st.session_state.setdefault(f"typed_{key}", entry.text)
    st.text_input(f"{label}, {unit} — {how}", key=f"typed_{key}",
                  on_change=_typed, args=(one, key),
                  placeholder=LIKE[unit])
    if entry.fault:
        put(f'<div class="sz-fault" role="alert">✕ {escape(entry.fault)}</div>')
    elif entry.value is not None:
        both = (f"{length_text(entry.value, 'mm')} = {length_text(entry.value, 'in')}"
                if key.endswith("_mm") else " = ".join(
                    mass_text(entry.value, unit) for unit in MASS_UNITS))
        put(f'<div class="sz-understood">understood as {both}</div>')


def _hips(one):
    st.session_state.setdefault("pick_hips", one.hip_measured)
    st.radio("Hips were measured", ("sitting", "standing"), horizontal=True, key="pick_hips",
             on_change=lambda: setattr(one, "hip_measured", st.session_state["pick_hips"]),
             help="Sitting hips are 35 to 45 mm wider. Sitting is the better measure.")


def _typed(one, key):
    text = st.session_state.get(f"typed_{key}")
    if text is None:  # told by a browser that has not yet drawn what an undo put back
        return
    was_sample = one.sample
    one.enter(key, text)
    if was_sample:  # the sample's other figures are gone
        show_entries()


def _sample(one):
    one.load_sample()
    show_entries()


def _clear(one):
    one.clear_paddler()
    show_entries()


def _faults(one):
    """What the engine says of the measures together."""
    if one.ready():
        try:
            read_paddler(one.request()["paddler"])
        except BadInput as error:
            for fault in error.faults:
                put(note_html(str(fault), "fail"))


def _predicted(one):
    """What was not measured, as predicted from what was."""
    if not one.ready():
        return
    try:
        body = predict(read_paddler(one.request()["paddler"]))
    except BadInput:
        return
    unit = one.length_unit
    rows = [[label, length_text(measure.value_m * MM_PER_M, unit),
             "measured" if measure.measured
             else f"± {length_text(measure.plus_minus_m * MM_PER_M, unit)}"]
            for name, label in PREDICTED for measure in (getattr(body, name),)]
    st.subheader("The rest of the body")
    put("<p>Predicted from the ANSUR II survey where not measured. Nine people in ten are below "
        "the upper end of the ±, and the fit uses that end.</p>")
    put(table_html(("Measure", "value", "±"), rows, numbers=(1, 2)))
    for caution in body.cautions:
        put(note_html(caution))
