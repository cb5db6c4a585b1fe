"""Step 1: measure the paddler."""

import streamlit as st

from sizer.book.records import LONGEST_MARK
from sizer.errors import BadInput
from sizer.paddler.body import HIP_SPREAD_M, STANDING_HIP_M, predict
from sizer.paddler.measures import HIPS, read_paddler
from sizer.scenes.measuring import how_to_measure_all
from sizer.scenes.side_view import side_view
from sizer.units import length_text
from sizer.web.entered import LABELS, MASS_UNITS
from sizer.web.figures import LONGEST, mass_text, typed_text
from sizer.web.job_box import put_open_job
from sizer.web.look import echo_html, note_html, place, put, put_alert, put_drawn, table_html
from sizer.web.session import base_boat, fault_text, job_for
from sizer.web.state import act, begin_job, change, draft, field, go, kept_job, say, view
from sizer.web.steps.launch_kept import as_the_shop_fits
from sizer.web.steps.own_along import put_own_along

PROMISE = ("Type three measures of a paddler: this scales a skin-on-frame kayak to that body, "
           "checks it afloat, and gives the marks, patterns and sheets to build it from.")
NEEDED = (("weight_kg", "in light clothes, without kit"),
          ("stature_mm", "barefoot, back against a wall"),
          ("hip_width_mm", "sitting, at the widest, between two books"))
OPTIONAL = (("inseam_mm", "crotch to floor, barefoot"),
            ("sitting_height_mm", "bench to top of head, sitting upright"),
            ("foot_length_mm", "heel to longest toe"),
            ("shoe_length_mm", "outside, heel to toe"),
            ("shoulder_width_mm", "outside the upper arms"))
LIKE_KG = {"kg": "like 82 or 180 lb", "lb": "like 180 or 82 kg", "st": "like 13 st 4 or 84 kg"}
LIKE_MM = {"stature_mm": 1600.0, "hip_width_mm": 390.0, "inseam_mm": 750.0,  # of our own invention
           "sitting_height_mm": 850.0, "foot_length_mm": 250.0, "shoe_length_mm": 270.0,
           "shoulder_width_mm": 450.0}
PREDICTED = (("hip_sitting", "hip width, sitting"), ("sitting_height", "sitting height"),
             ("inseam", "inseam"), ("buttock_knee", "back of buttocks to knee"),
             ("knee_height", "knee height"),
             ("foot_length", "foot length"), ("thigh_clearance", "thigh thickness, sitting"),
             ("shoulder_width", "shoulder width"))


def page():
    one = draft()
    put(f'<p class="sz-promise">{PROMISE}</p>')
    together = _faults_together(one)
    form, picture = st.columns([6, 5], gap="large")
    with form, st.container(key="measures"):
        st.header("Measure the paddler")
        with place():
            if one.sample:
                put(note_html("This is a sample, a paddler of our own invention. Type a customer's "
                              "weight and the sample clears itself."))
        put_own_along(one)
        st.text_input("Customer's name, or a mark of yours", max_chars=LONGEST_MARK, live=True,
                      placeholder="on every sheet and in the list of jobs",
                      **field("mark", typed=True))
        with st.container(key="needed"):  # a whole form is corrected, and Enter stays there
            for key, how in NEEDED:
                _field(one, key, how, together)
        _hips(one)
        optional = any(one.entries[key].text for key, _ in OPTIONAL)
        with st.expander("More measures, if you have them", expanded=optional):
            for key, how in OPTIONAL:
                _field(one, key, how, together)
        with place():
            for key, text in together.items():
                if key not in LABELS:
                    put(note_html(text, "fail"))
        left, right = st.columns(2)
        if any(entry.text for _, entry in one.entries):
            left.button("Clear for a new customer", on_click=act, args=(_clear,), width="stretch")
        else:
            left.button("Fill in the sample paddler", on_click=act, args=(_sample,),
                        width="stretch")
        right.button("Next: use and base", type="primary", key="next_measured",
                     on_click=act, args=(_next,), width="stretch")
        _still_needed(one, together)
        put_drawn(how_to_measure_all, on="narrow", narrow=True)
        with st.expander("Open a saved job"):
            put_open_job()
    with picture:
        _boat_so_far(one)
        put_drawn(how_to_measure_all, on="wide")
    _predicted(one)


def _hips(one):
    """How the hips were measured; where they were not, for whom they are predicted."""
    ways = {"sitting": "sitting", "standing": "standing", "predicted": "not measured"}
    now = "predicted" if one.hips_predicted() else one.hip_measured
    st.radio("Hips were measured", tuple(ways), horizontal=True, format_func=ways.get,
             captions=("the better measure", _standing_words(one), "predicted, with a caution"),
             **field("hip_way", now, lambda one, way: one.but(hip_measured=way), among=ways))
    with place():
        if one.hips_predicted():
            whose = {"predicted-woman": "a woman", "predicted-man": "a man",
                     "predicted": "not said"}
            st.radio("Predict them for", tuple(whose), horizontal=True, format_func=whose.get,
                     **field("hip_measured", among=whose))


def _boat_so_far(one):
    """The boat as it fits now, small: what all the measuring is for."""
    job, _ = job_for(one)
    if job is not None:
        assessed = job.fitted.assessed
        put_drawn(side_view, assessed.boat, base_boat(one, one.base), assessed.particulars,
                  job.person.body, one.said, narrow=True)


def _field(one, key, how, together):
    """One figure: typed in any usual form, shown as understood; beside it its fault, or what is
    wrong with it `together` with others."""
    unit, entry = one.unit_of(key), one.entries[key]
    unused = key == HIPS and one.hips_predicted()
    # the sample stands behind the fields, so that typing in one never moves another
    st.text_input(f"{LABELS[key]}, {unit} — {how}", max_chars=LONGEST, live=True, disabled=unused,
                  placeholder=(
                      f"sample: {entry.text}" if one.sample and entry.text else _like(key, unit)),
                  **field(key, "" if one.sample else entry.text,
                          lambda one, text: one.enter(key, text), typed=True))
    # its line is always there, so that what is below stays under the finger
    put(echo_html(_hips_so_far(one)) if unused else
        echo_html(_understood(one, key, entry.value), entry.fault or together.get(key, "")))


def _like(key, unit):
    if unit in LIKE_KG:
        return LIKE_KG[unit]
    plain, cm = typed_text(LIKE_MM[key], unit), typed_text(LIKE_MM[key], "cm")
    inches = length_text(LIKE_MM[key], "in")
    return {"mm": f"like {plain}, {cm} cm or {inches}", "cm": f"like {plain} or {inches}",
            "in": f"like {inches} or {cm} cm"}[unit]


def _hips_so_far(one):
    """What the hips are predicted at, where weight and height are known."""
    if not one.ready():
        return "predicted once weight and height are there"
    try:
        hip = predict(read_paddler(one.request()["paddler"])).hip_sitting
    except BadInput:
        return "&nbsp;"
    value, off, most = map(one.said, (hip.value_m, hip.plus_minus_m, hip.high_m))
    return (f"predicted at {value} ± {off}; the opening is made for hips of {most}. Measure before "
            "you build")


def _understood(one, key, value):
    """A figure in every unit, the reader's own first."""
    if value is None:
        return "&nbsp;"
    text, units = ((length_text, ("mm", "in")) if key.endswith("_mm") else (mass_text, MASS_UNITS))
    own = sorted(units, key=lambda unit: unit != one.unit_of(key))
    return "understood as " + " = ".join(text(value, unit) for unit in own)


def _standing_words(one):
    """What standing hips lack; beside the choice, where a tip would cover what was typed."""
    least, most, good_to = map(one.said, (*HIP_SPREAD_M, STANDING_HIP_M))
    return (f"{least} to {most} narrower: tells sitting hips to {good_to} either way, for eight "
            "in ten only")


def _sample():
    change(draft().with_sample())


def _clear():
    """A new customer; the one at hand stays in the book."""
    left = kept_job()
    begin_job(as_the_shop_fits(draft().new_customer()), empty=True)
    if left is not None:
        say(f"{left.row.code} stays in the book: see Jobs.", left)


def _next():
    view()["asked_for_more"] = True
    if draft().ready() and not _faults_together(draft()):
        go("base")


def _still_needed(one, together):
    missing = [LABELS[key].lower() for key in one.missing() if not one.entries[key].fault]
    at_fault = [LABELS[key].lower() for key in (*one.at_fault(), *together) if key in LABELS]
    if not missing and not at_fault:
        view()["asked_for_more"] = False
    if not view().get("asked_for_more"):
        return
    said = [f"{words}: {', '.join(names)}." for words, names in (
        ("Still to measure", missing), ("Cannot be right, see there", at_fault)) if names]
    put_alert(" ".join(said))


def _faults_together(one):
    """{key of the figure, or else the place: what the engine says of the measures together}."""
    if one.ready():
        try:
            read_paddler(one.request()["paddler"])
        except BadInput as error:
            return {fault.place.removeprefix("paddler."): fault_text(fault)
                    for fault in error.faults}
    return {}


def _predicted(one):
    if not one.ready():
        return
    try:
        body = predict(read_paddler(one.request()["paddler"]))
    except BadInput:
        return
    rows = [[label, one.said(measure.value_m),
             "measured" if measure.measured else f"± {one.said(measure.plus_minus_m)}"]
            for name, label in PREDICTED for measure in (getattr(body, name),)]
    st.subheader("The rest of the body")
    put("<p>Predicted from the ANSUR II survey where not measured. Nine people in ten are below "
        "the upper end of the ±, and the fit uses that end.</p>")
    put(table_html(("Measure", "value", "±"), rows, numbers=(1, 2)))
    for caution in body.cautions:
        put(note_html(caution))
