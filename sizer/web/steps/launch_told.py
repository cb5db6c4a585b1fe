"""What a launch teaches: measured beside predicted, and what weights and centres must have been."""

from html import escape

import streamlit as st

from sizer.border import outside
from sizer.built.launch_odds import gm_odds, odds_after
from sizer.built.learnt import READINGS, gm_spread_m, moved_by_weights, reading_words, still_deg
from sizer.built.steadiness import LESS, STEADY, STOPPED, UNTOLD, steadiness
from sizer.export.fit_words import odds_words
from sizer.export.launch_answer import UNSTEADY, disagree, judged_words, unsteady
from sizer.web.look import note_html, place, press, put, table_html
from sizer.web.state import change, draft
from sizer.web.steps.launch_kept import put_keep

ROUGH_M = 0.010  # of a ±, from which a length is told in whole mm; our judgement
KINDS = {STEADY: "pass", UNTOLD: "caution", LESS: "fail", STOPPED: "fail"}  # of notes
LEARNT = {"boat_kg": "The boat's own weight", "load_kg": "Paddler and gear",
          "seated_height_m": "Paddler's centre over the seat",
          "seated_ahead_m": "Paddler's centre ahead of the seat's back",
          "vcg_m": "All aboard: centre over the baseline",
          "lcg_m": "All aboard: centre from the bow", "gm_m": "GM",
          "gear_from_bow_m": "Gear's centre from the bow",
          "gear_up_m": "Gear's centre over the baseline"}


def put_lesson(one, job, assessed, trial, found):
    st.subheader("What it teaches")
    if found is None:
        put("<p>Nothing measured yet: the boat's weight, a freeboard or one whole reading is "
            "compared with what was calculated.</p>")
        return
    if isinstance(found, str):
        put(note_html(found, "fail"))
        return

    def said(key, value, text=one.marked):
        return one.weighed(value, tenths=True) if key.endswith("_kg") else text(value)

    with place():
        before, now = _put_said(job, assessed, trial, found)
        _put_together(one, trial, found, said)
        _readings(one, found, trial, said)

    def with_band(key, figure, band):
        rough = band >= ROUGH_M and one.length_unit != "in"  # tenths of a mm would say too much
        middle, wide = (said(key, value, one.said if rough else one.marked)
                        for value in (figure, band))
        return f"{middle.removesuffix(wide.rpartition(' ')[2]).strip()} ± {wide}"

    rows = [[escape(LEARNT[this.key]),
             with_band(this.key, this.before, this.before_plus_minus),
             f"<b>{with_band(this.key, this.after, this.after_plus_minus)}</b>"]
            for this in found.learnt]
    put(table_html(("Learnt", "calculated", "learnt"), rows, numbers=(1, 2), stack=True))
    put("<p>Nine in ten lie within ±. Odds that GM is above what this use asks at least: "
        f"{odds_words(before)} before, {_now(now)}. Every limit that can fail is met by "
        f"{odds_words(job.fitted.odds_all_hard)} such paddlers in such boats before, "
        f"{_now(odds_after(job.fitted, found))}.</p>")
    put_keep(job, trial, found)


def _put_said(job, assessed, trial, found):
    """What is wrong or to be known of a Lesson; returns the odds of `gm_odds`."""
    before, now = gm_odds(job.fitted, found)
    if unsteady(now):
        put(note_html(UNSTEADY, "fail"))
    judged = steadiness(job.fitted, assessed, trial)
    for sentence in judged_words(judged, found):
        put(note_html(sentence, KINDS[judged[0]]))
    if found.doubts:
        names = ", ".join(reading_words(name, trial) for name, _ in found.doubts)
        put(note_html(f"Out of all likelihood, as said at its field: {names}.", "fail"))
    for sentence in found.says:
        if sentence not in dict(found.doubts).values():
            put(note_html(sentence, "fail" if disagree(found) else "caution"))
    return before, now


def _put_together(one, trial, found, said):
    """One press that confirms all that is out of all likelihood, each named with its figure, where
    it is more than one."""
    if len(found.left_out) < 2:
        return
    measured = {name: value for name, _, value, _ in found.readings}
    keys = one.launch.reading_keys()
    told = []
    for name in found.left_out:
        key = name.rpartition(".")[2]
        figure = f", {said(key, measured[name])}" if key in READINGS else ""  # a heel has its own
        told.append(f"<li>{escape(reading_words(name, trial))}{escape(figure)}</li>")
    put(f"<p>Left out until confirmed:</p><ul>{''.join(told)}</ul>")
    press(f"I read all {len(told)} again, and they are so: let them count", _confirm,
          tuple(keys[outside(name)[0]] for name in found.left_out))


def _confirm(keys):
    change(draft().but(launch=draft().launch.confirm(True, *keys)))


def _now(odds):
    return "not told now" if odds is None else f"{odds_words(odds)} now"


def _readings(one, found, trial, said):
    rows = []
    for name, predicted, measured, spread in found.readings:
        key = name.rpartition(".")[2]
        if key in READINGS:
            rows.append([READINGS[key], said(key, predicted), said(key, measured),
                         said(key, spread)])
    before, moved = found.of("gm_m").before, moved_by_weights(trial)
    weighted = (heel for heel in trial.heel if heel.kg)  # as the page asked for them
    numbers = [number for number, heel in zip(one.launch.whole_readings(), weighted, strict=True)
               if heel in moved]
    rows += [[f"GM by reading {number}, heel {abs(heel.heel_deg):g}°", said("gm_m", before),
              said("gm_m", gm), said("gm_m", gm_spread_m(gm, heel, still_deg(trial)))]
             for number, gm, heel in zip(numbers, found.gm_readings_m, moved, strict=True)]
    if rows:
        put(table_html(("Measured", "predicted", "measured", "reading good to ±"), rows,
                       numbers=(1, 2, 3), stack=True))
