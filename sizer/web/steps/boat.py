"""Step 3: the fitted boat, what it does, and sliders that move it."""

from html import escape

import streamlit as st

from sizer.export.fit_words import capital, gave_way, in_a_hundred, odds_sentence, worst_words
from sizer.fit.matters import gm_sd_m, matters, with_care, worth_measuring
from sizer.fit.what_if import drag_N
from sizer.scenes.clearances import clearances
from sizer.scenes.odds_dots import odds_dots
from sizer.scenes.plan_view import plan_view
from sizer.scenes.sections import sections
from sizer.scenes.side_view import side_view
from sizer.shop.skin_relief import skin_under_water
from sizer.units import both_force
from sizer.web.look import note_html, put, put_picture, put_scene
from sizer.web.session import base_boat, job_for, lacking
from sizer.web.state import choice, draft, kept
from sizer.web.steps.boat_tables import put_passing, put_seat, put_sought, put_wrong
from sizer.web.steps.mend import put_remedies
from sizer.web.steps.sliders import put_let_go_of_all, put_sliders
from sizer.web.strip import put_cautions, put_next, put_way_back
from sizer.web.trade_words import every_speed_text
from sizer.web.turning import put_turning

SURE = 0.95  # odds from which a check is not told by itself
CLOSER = ("The body's room", "Turn it round", "Sections")


def page():
    if not draft().ready():
        put_way_back(lacking(draft()))
        return
    _boat()
    put_next("Next: trade-offs", "trade")


def _boat():
    one = draft()
    job, faults = job_for(one)
    if job is None:
        for fault in faults:
            put(note_html(fault, "fail"))
        put_let_go_of_all(one)
        put_remedies(one, None)
        return
    base, unit = base_boat(one, one.base), one.length_unit
    assessed = job.fitted.assessed
    drawn = assessed.boat, base, assessed.particulars, job.person.body, one.said
    with st.container(key="boat"):  # laid out by look.py: on a phone one below the other
        with st.container(key="boat_whole"):
            put_scene(side_view, *drawn)
            put_scene(plan_view, *drawn)
        with st.container(key="boat_moves"):
            put_sliders(one, job, base)
            put(f"<p>At {every_speed_text(one.speed_mps)} about "
                f"<b>{both_force(drag_N(assessed, one.speed_mps))}</b> of drag: an estimate, "
                "without wind and waves.</p>")
        with st.container(key="wrong"):  # under what is in hand, which it would push away
            put_wrong(job, unit)
            mends = st.container(key="mends")  # filled last: it takes longest
        with st.container(key="boat_closer"):
            _closer(one, job, base, drawn)
    with st.container(key="folds"):
        _put_odds(one, job)
        _put_folded(one, job)
        put_cautions(job.cautions)
    with mends:
        put_remedies(one, job)


def _put_folded(one, job):
    """What is no fault, one tap away; each title says what is inside."""
    passing = [check for check in job.fitted.checks if check.status == "pass"]
    with st.expander(f"{len(passing)} checks pass"):
        put_passing(passing, one.length_unit, one.weighed(job.request.trip.gear_kg))
    gave = len(gave_way(job.fitted))
    with st.expander("What was sought and reached: " + (
            f"{gave} of {len(job.fitted.sought)} gave way" if gave else "nothing gave way")):
        put_sought(one, job)
    with st.expander("The seat, and the room left"):
        put_seat(one, job)
    skin = kept("skin", job, lambda: skin_under_water(
        job.fitted.assessed.boat, job.fitted.assessed.particulars, job.person.water))
    touched = len(skin.touches)
    with st.expander("The skin under water: " + (
            f"slack, it touches the frames in {touched} places" if touched
            else "it stays clear of every frame")):
        put(f"<p>{escape(skin.says)}</p>")


def _put_odds(one, job):
    """The odds in a fold's title; in it a hundred dots, the checks least sure, what makes surer."""
    fitted = job.fitted
    said = capital(odds_sentence(fitted.odds_all_hard))
    least = sorted((check for check in fitted.checks if check.is_hard and check.sd_si
                    and check.odds < SURE), key=lambda check: check.odds)
    with st.expander(said.partition(":")[0]):
        dots, words = st.columns([2, 3], gap="medium")
        with dots, st.container(key="odds"):
            put_picture(odds_dots(in_a_hundred(fitted.odds_all_hard), said.rstrip(".")))
        with words:
            put("".join(f"<p>{escape(text)}</p>" for text in (
                said, *(worst_words(check, one.length_unit) for check in least))))
            _put_surer(one, job)


def _put_surer(one, job):
    fitted = job.fitted
    found = kept("matters", job, lambda: matters(fitted.checks, fitted.sure, job.person.body))
    now = one.said(gm_sd_m(fitted.sure)), in_a_hundred(fitted.odds_all_hard)
    measured = [(each.what, (one.said(each.gm_sd_m), in_a_hundred(each.odds)))
                for each in worth_measuring(found)]
    more = [f"<li>{escape(capital(what))}: " + (
            f"steadiness known to {then[0]} instead of {now[0]}, " * (then[0] != now[0])) +
            f"odds {then[1]} of 100 where it turns out as predicted.</li>"
            for what, then in measured if then[0] != now[0] or then[1] > now[1]]
    if more:
        put(f"<p>Measuring more narrows it:</p><ul>{''.join(more)}</ul>")
    put("<p>What matters most for this boat, in order:</p><ol>" + "".join(
        f"<li>{escape(capital(each.what))}.</li>" for each in with_care(found)) + "</ol>")


def _closer(one, job, base, drawn):
    look = st.segmented_control("A closer look", CLOSER, required=True,
                                **choice("closer", CLOSER[0], among="default"))
    if look == "The body's room":
        put_scene(clearances, job.fitted.assessed, job.person.body, one.said)
    elif look == "Turn it round":
        put_turning(job.fitted.assessed.boat, base)
    else:
        put_scene(sections, *drawn, job.fitted.assessed.space.hip_width_m)
