"""An own design taken as the base of the job at hand, and undo on its page."""

from dataclasses import replace

import streamlit as st

from sizer.book.form import STATES
from sizer.book.jobs import job as job_of
from sizer.errors import SizerError
from sizer.fit.request import drawn_request
from sizer.hull.fairness import worst_status
from sizer.job import run
from sizer.web.keeping import shop_book, shop_now
from sizer.web.look import note_html, press, put
from sizer.web.session import OWN
from sizer.web.state import begin_job, change, draft, kept_job, say, view
from sizer.web.strip import first_caution, of_the_job

USED = "own_used"  # in the view: the Draft after a design was taken


def put_use(bench):
    """The button that makes the design the job's base; it asks where that boat is in hand."""
    unfair = worst_status(bench.sheet.drawn.unfair) == "fail"
    chosen = st.button("Use as base design" + ", though it does not pass" * unfair,
                       type="primary", disabled=not bench.good,
                       help=None if bench.good else "Mend the faults first.")
    if chosen and not _in_hand():
        _use(bench)
        st.rerun()
    if chosen:
        view()["own_asks"] = kept_job().key


def put_asked(bench):
    """What else may be done with the design where the job's boat is in hand."""
    if not _in_hand() or view().get("own_asks") != kept_job().key:
        return
    put(note_html(f"{kept_job().row.code} is {_in_hand()}: on another base its papers, dry fit and "
                  "launch are of a boat that it no longer is.", "fail"))
    with st.container(horizontal=True, gap="small"):
        for label, verb in (("A new job on it, for the same paddler", _use_anew),
                            ("Use it in this job all the same", _use),
                            ("Leave this job as it is", _leave)):
            press(label, verb, bench, disabled=verb is not _leave and not bench.good)


def undoing():
    """What undo does there: the job's last entry goes, with what was said of a base just taken."""
    plain = of_the_job()

    def undone():
        if view().get(USED) is draft():
            view().pop("job_says", None)
        return plain.undo()

    return replace(plain, undo=undone)


def _in_hand():
    """How far the job is, once somebody may be at work on its boat; "" before that."""
    state = job_of(shop_book()[0], kept_job().key).state if kept_job() else STATES[0]
    return state if state in STATES[STATES.index("issued"):] else ""


def _use(bench, anew=False):
    drawn = bench.sheet.drawn
    base = {"own_design": bench.toml(), "own_name": drawn.design.name}
    if anew:
        begin_job(draft().new_boat().on(OWN, **base))
    else:
        change(draft().on(OWN, **base))
    _leave(bench)
    view()[USED] = draft()
    say(f"{drawn.design.name} is the base design now. "
        + _verdict(drawn.boat.lines, draft().length_unit))


def _use_anew(bench):
    _use(bench, anew=True)


def _leave(_bench):
    view().pop("own_asks", None)


def _verdict(lines, unit):
    """What every check says of a design as drawn, with whom it was drawn for."""
    try:
        job = run(drawn_request(OWN, lines), lines, shop=shop_now())
    except SizerError as error:
        return f"As drawn it cannot be checked: {error}"
    words = {"pass": "it passes every check", "caution": "it has a caution",
             "fail": "it does not pass"}[job.fitted.status]
    why = "" if job.fitted.status == "pass" else f": {first_caution(job.fitted.checks, job, unit)}"
    return f"As drawn, with whom it was drawn for, {words}{why}."
