"""The steadiness trial on the launch page: what is safe to put aboard, and the readings."""

from html import escape

import streamlit as st

from sizer.border import outside
from sizer.built.departures import expected
from sizer.built.trial import RANGES, SIDES
from sizer.built.trial_weights import trial_weights
from sizer.export.launch_answer import GAUGE, disagree
from sizer.scenes.trial_view import trial_view
from sizer.shop.stations import setting_up
from sizer.shop.work_room import helper_at
from sizer.units import MM_PER_M
from sizer.web.bench_entered import MOST_READINGS, ZERO, heel_keys
from sizer.web.figures import LONGEST, most_text
from sizer.web.look import note_html, place, press, put, put_alert, put_fault, put_scene, table_html
from sizer.web.state import change, draft, field, kept

READ = ("Weight", "Distance off the centre line", "Heel")  # of one reading, as `heel_keys`
TOO_MUCH = "That is more than is safe by what is known now: do not put it aboard."
DISAGREE = ("What was read disagrees with itself or with the weights: put nothing more aboard "
            "before it is measured again and agrees.")
MINUS = ("Minus is a heel to {other}, away from the weight. Did it heel to {side}? Then type it "
         "without the minus.")
CONFIRM = "I read it again, and it is so: let it count"
HEEL_ALLOWED = ((0.05, RANGES["kg"][1]), (20.0, RANGES["off_centre_mm"][1]), RANGES["heel_deg"])


def weights_of(assessed, found, still_deg):
    """The TrialWeights by what is known now of GM and of how the boat lies without a weight."""
    if found is None or isinstance(found, str):
        gm = kept("expected", assessed, lambda: expected(assessed)["gm_m"])
    else:
        learnt = found.of("gm_m")
        gm = learnt.after, learnt.after_plus_minus
    return kept("weights", (assessed, gm, still_deg),
                lambda: trial_weights(assessed, *gm, still_deg), most=2)


def put_figure(one, key, label, allowed, placeholder=""):
    """One figure as typed, with its fault beside it."""
    unit = "degrees" if key.endswith("_deg") else one.unit_of(key)
    st.text_input(f"{label}, {unit}", max_chars=LONGEST, live=True, placeholder=placeholder,
                  **field(f"launch_{key}", one.launch.text(key), lambda one, text: one.but(
                      launch=one.launch.enter(key, text, "deg" if unit == "degrees" else unit,
                                              allowed)), typed=True))
    put_fault(one.launch.faults().get(key))


def put_doubt(one, found, key):
    """What is said of the reading of a key that is out of all likelihood, and its confirmation."""
    with place():
        if found is None or isinstance(found, str):
            return
        for name, words in found.doubts:
            if one.launch.reading_keys().get(outside(name)[0]) == key:
                put_alert(words, "fail" if name in found.left_out else "caution")
                st.checkbox(CONFIRM, **field(
                    f"launch_sure_{key}", key in one.launch.confirmed,
                    lambda one, so: one.but(launch=one.launch.confirm(so, key))))


def put_steadiness(one, assessed, found):
    st.subheader("Steadiness trial")
    still = one.launch.values().get(ZERO)
    weights = weights_of(assessed, found, still or 0.0)
    said = one.said
    hold = helper_at(assessed.boat, setting_up(assessed.boat).stations)
    put_scene(trial_view, assessed.boat, hold, weights.place, said)
    put_figure(one, ZERO, "First without a weight: heel to starboard, minus to port",
               RANGES["heel_deg"], "0 where it lies level")
    put_doubt(one, found, ZERO)
    with place():
        if isinstance(found, str) or (found is not None and disagree(found)):
            put(note_html(DISAGREE, "fail"))
        else:
            _put_weights(one, weights, still, said)
    typed = any(one.launch.text(key) for number in range(1, one.launch.readings + 1)
                for key in heel_keys(number))  # to be mended, whatever it says
    if still is None or (weights.safest_kg <= 0.0 and not typed):
        return
    most = (f"{most_text(weights.safest_kg, one.mass_unit)} at most"
            if weights.safest_kg > 0.0 else "")
    put("<p>The paddler sits stiff, hands in the lap, a helper's hands under both gunwales "
        f"through every reading. A lath lies square across the rim, {escape(GAUGE)}; read to a "
        "tenth of a degree. Heel counts towards the weight. A grey figure "
        "is an example and is not filled in: a reading counts once all three of its figures are "
        "typed.</p>")
    for number in range(1, one.launch.readings + 1):
        side = SIDES[(number - 1) % 2]
        put(f"<b>Reading {number}: the weight to {side}</b>")
        for key, label, allowed, hint in zip(
                heel_keys(number), (*READ[:2], f"Heel to {side}"), HEEL_ALLOWED,
                (most, f"such as {said(weights.off_centre_m)}", ""), strict=True):
            put_figure(one, key, label, allowed, hint)
        put_doubt(one, found, heel_keys(number)[-1])
        with place():
            if one.launch.values().get(heel_keys(number)[-1], 0.0) < 0.0:
                put_alert(MINUS.format(side=side, other=SIDES[number % 2]))
            if left := left_out(one.launch.values(), number):
                put(note_html(left, "caution"))
            if too_much(one.launch.values(), number, weights):
                put_alert(TOO_MUCH, "fail")
    press("One more reading", _more, disabled=one.launch.readings >= MOST_READINGS)


def left_out(typed, number):
    """What is said of a reading of which not all is typed; "" where all of it is, or nothing."""
    lacks = [name.lower() for key, name in zip(heel_keys(number), READ, strict=True)
             if key not in typed]
    if len(lacks) in (0, len(READ)):
        return ""
    return (f"Reading {number} is left out until its {' and '.join(lacks)} "
            f"{'is' if len(lacks) == 1 else 'are'} typed.")


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
    most, (heel, kg) = most_text(weights.safest_kg, unit), weights.first
    now = (f"Put aboard at most {most}" if one.launch.whole_readings() else
           f"Begin with {most_text(kg, unit)} ({heel:.1f}° as calculated)")
    put(note_html(f"{now}, {at} off the centre, on the deck at {weights.place.frame}, tied so that "
                  f"it cannot slide, never on rim or lip. {most} is the most by what is known now, "
                  "half of what would turn over the boat with the paddler sitting higher than "
                  "reckoned, as may be. After each reading this page says what is safe then.",
                  "fail"))
    rows = [[f"{heel:g}°", most_text(kg, unit) if kg else "less than can be weighed",
             "safe" if 0.0 < kg <= weights.safest_kg else "not yet: over what is safe now"]
            for heel, kg in weights.steps]
    rows.append(["turns over", most_text(weights.turns_over_kg, unit), "never"])
    put(table_html((f"Heel, {at} off", "weight", "put aboard"), rows, numbers=(1,)))


def _more():
    change(draft().but(launch=draft().launch.but(readings=draft().launch.readings + 1)))
