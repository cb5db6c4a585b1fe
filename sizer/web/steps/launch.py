"""The launch: weighed, floated, heeled with small weights, swamped; and what all that teaches."""

from html import escape

import streamlit as st

from sizer.built.departures import expected
from sizer.built.learnt import lesson
from sizer.built.trial import FELT, RANGES, SWAMPED, read_trial
from sizer.built.trial_weights import trial_weights
from sizer.errors import SizerError
from sizer.export.launch_answer import TRIAL_CAUTIONS
from sizer.scenes.trial_view import trial_view
from sizer.units import MM_PER_M, length_text
from sizer.web.bench_entered import ZERO, heel_keys
from sizer.web.draft import mass_text
from sizer.web.entered import LONGEST
from sizer.web.issued import issued, moved_on, stands
from sizer.web.look import note_html, put, put_scene, table_html
from sizer.web.session import job_for
from sizer.web.state import act, change, draft, field, kept
from sizer.web.steps.by_hand import put_sheet
from sizer.web.steps.dry_fit import found_for
from sizer.web.steps.launch_kept import put_bias
from sizer.web.steps.launch_told import put_lesson
from sizer.web.steps.patterns import shop_now
from sizer.web.strip import put_cautions, put_way_back

SIDES = ("starboard", "port")  # by turns
WATERS = ("as fitted", "fresh", "salt")
AFLOAT = (("afloat_bow_mm", "Freeboard at the bow"), ("afloat_stern_mm", "Freeboard at the stern"),
          ("afloat_side_mm", "Least freeboard at the side"))
TOO_MUCH = "That is more than is safe by what is known now: do not put it aboard."
LEVEL_GOOD = "a level or a phone laid across; to a tenth of a degree if it tells that"
ALLOWED = {"boat_kg": RANGES["boat_kg"], "load_kg": RANGES["load_kg"],
           **{f"afloat_{key}": RANGES[key] for key in ("bow_mm", "stern_mm", "side_mm")}}
HEEL_ALLOWED = ((0.05, RANGES["kg"][1]), (20.0, RANGES["off_centre_mm"][1]), RANGES["heel_deg"])


def page():
    """Draws the step."""
    one = draft()
    job, faults = job_for(one)
    if job is None:
        put_way_back(faults)
        return
    st.header("Launch")
    for caution in TRIAL_CAUTIONS:
        put(note_html(caution, "fail"))
    assessed, whose = _boat(one, job)
    trial, found = _learnt(one, assessed)
    if trial is not None:
        moved_on("built")
    put(f"<p>{escape(whose)}</p>")
    put_sheet(one, job, "launch", stands(one, shop_now(), issued()))
    asks, told = st.columns([2, 3], gap="large")
    with asks:
        _ashore(one)
        _afloat(one)
        _steady(one, assessed, found)
        _felt()
    with told:
        put_lesson(one, job, trial, found)
        put_bias(job)
    put_cautions(job.cautions)


def _boat(one, job):
    """The Assessed boat that the launch is compared with, and which that is, in words."""
    found = found_for(one, job) if one.dry_fit.accepted else None
    if found is None or isinstance(found, str):
        return job.fitted.assessed, "Compared with the boat as designed."
    return found.built.assessed, "Compared with the boat as it stood at the dry fit."


def _learnt(one, assessed):
    """(Trial or None, Lesson, a sentence, or None) of what is typed whole."""
    given = one.launch.trial(deck_height_m(assessed), one.water_c)
    if not (given.get("boat_kg") or given.get("afloat") or given.get("heel")):
        return None, None

    def worked():
        try:
            trial = read_trial(given)
            return trial, lesson(assessed, trial)
        except SizerError as error:
            return None, str(error)

    return kept("lesson", (assessed, repr(given)), worked)


def deck_height_m(assessed):
    """Of the side deck beside the seat, where the weights stand, over the baseline."""
    return _weights(assessed, None, 0.0).height_m


def _weights(assessed, found, still_deg):
    """The TrialWeights by what is known now of GM and of how the boat lies without a weight."""
    if found is None or isinstance(found, str):
        gm = kept("expected", assessed, lambda: expected(assessed)["gm_m"])
    else:
        learnt = found.of("gm_m")
        gm = learnt.after, learnt.after_plus_minus
    return kept("weights", (assessed, gm, still_deg),
                lambda: trial_weights(assessed, *gm, still_deg), most=2)


def _figure(one, key, label, allowed, placeholder=""):
    """One figure as typed, with its fault beside it."""
    unit = "degrees" if key.endswith("_deg") else one.unit_of(key)
    st.text_input(f"{label}, {unit}", max_chars=LONGEST, live=True, placeholder=placeholder,
                  **field(f"launch_{key}", one.launch.text(key), lambda one, text: one.but(
                      launch=one.launch.enter(key, text, "deg" if unit == "degrees" else unit,
                                              allowed)), typed=True))
    if fault := one.launch.faults().get(key):
        put(f'<div class="sz-echo sz-fault" role="alert">✕ {escape(fault)}</div>')


def _ashore(one):
    st.subheader("Ashore")
    _figure(one, "boat_kg", "The boat alone on a scale, with its seat and bags", ALLOWED["boat_kg"])
    _figure(one, "load_kg", "Paddler as dressed, with all gear, on a scale", ALLOWED["load_kg"])
    st.radio("Water", WATERS, horizontal=True, **_of_launch("water_kind"))


def _afloat(one):
    st.subheader("Afloat, sitting still")
    put("<p>From the water up to the sheer, a helper measuring.</p>")
    for key, label in AFLOAT:
        _figure(one, key, label, ALLOWED[key])


def _steady(one, assessed, found):
    """The steadiness trial, the weights first."""
    st.subheader("Steadiness trial")
    still = one.launch.values().get(ZERO)
    weights, unit = _weights(assessed, found, still or 0.0), one.length_unit

    def said(value_m):
        return length_text(value_m * MM_PER_M, unit)

    put_scene(trial_view, assessed.boat, float(assessed.start[0]), weights.off_centre_m, 1.0, said)
    _figure(one, ZERO, "First without a weight: heel to starboard, minus to port",
            RANGES["heel_deg"], "0 where it lies level")
    _put_weights(one, weights, still, said)
    if weights.safest_kg <= 0.0 or still is None:
        return
    put("<p>The paddler sits stiff, hands in the lap, a helper's hands under both gunwales until "
        f"the boat lies still. Read {LEVEL_GOOD}. Heel counts towards the weight.</p>")
    for number in range(1, one.launch.readings + 1):
        side = SIDES[(number - 1) % 2]
        put(f"<b>Reading {number}: the weight to {side}</b>")
        kg, off, heel = heel_keys(number)
        for key, label, allowed, hint in zip(
                (kg, off, heel), ("Weight", "Off the centre line", f"Heel to {side}"),
                HEEL_ALLOWED, (mass_text(weights.safest_kg, one.mass_unit) + " at most",
                               said(weights.off_centre_m), ""), strict=True):
            _figure(one, key, label, allowed, hint)
        if too_much(one.launch.values(), number, weights):
            put(f'<div role="alert">{note_html(TOO_MUCH, "fail")}</div>')
    st.button("One more reading", on_click=act, args=(_more,),
              disabled=one.launch.readings >= 8)


def too_much(typed, number, weights):
    """Whether a weight that is not read yet is more than is safe by what is known now."""
    kg, off, heel = (typed.get(key) for key in heel_keys(number))
    if kg is None or heel is not None:
        return False
    off_m = weights.off_centre_m if off is None else off / MM_PER_M
    return kg * off_m > weights.safest_kg * weights.off_centre_m + 1e-9


def _put_weights(one, weights, still, said):
    """How much to put where; never more than is safe by what is known now, and nothing before it
    is known how the boat lies without a weight."""
    unit = one.mass_unit
    at = said(weights.off_centre_m)
    if weights.safest_kg <= 0.0:
        put(note_html("By what is known now this boat may not stand up by itself with this paddler "
                      "held stiff, or lies over too far for a weight: make no trial with weights. "
                      "Sit in the middle, lower, or carry ballast low first.", "fail"))
        return
    if still is None:
        put(note_html("Read first how the boat lies without a weight, a helper holding it: then "
                      "this page says how much may go aboard.", "fail"))
        return
    first = one.launch.values().get(heel_keys(1)[2]) is None
    now = "Begin with at most" if first else "Put aboard at most"
    put(note_html(f"{now} {mass_text(weights.safest_kg, unit)}, {at} off the centre: "
                  "that is the most by what is known now, half of what would turn over the boat "
                  "with the paddler sitting as high as he may. After each reading this page says "
                  "what is safe then.", "fail"))
    rows = [[f"{heel:g}°", mass_text(kg, unit) if kg else "less than can be weighed",
             "safe" if 0.0 < kg <= weights.safest_kg else "not yet: over what is safe now"]
            for heel, kg in weights.steps]
    rows.append(["turns over", mass_text(weights.turns_over_kg, unit), "never"])
    put(table_html((f"Heel, {at} off", "weight", "put aboard"), rows, numbers=(1,)))


def _felt():
    st.subheader("Swamped, and felt")
    put("<p>Only within reach of the bottom, with bags tied in, a helper beside the boat.</p>")
    st.selectbox("Swamped on purpose", [key for key, _ in SWAMPED],
                 format_func=dict(SWAMPED).get, **_of_launch("swamped"))
    st.multiselect("What the paddler felt", [key for key, _ in FELT], format_func=dict(FELT).get,
                   **_of_launch("felt", list, tuple))


def _of_launch(name, out=lambda value: value, back=lambda value: value):
    """`key` and `on_change` of the widget of one field of the launch."""
    return field(f"launch_{name}", out(draft().launch[name]), lambda one, value: one.but(
        launch=one.launch.but(**{name: back(value)})))


def _more():
    change(draft().but(launch=draft().launch.but(readings=draft().launch.readings + 1)))
