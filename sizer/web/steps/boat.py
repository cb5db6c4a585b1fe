"""Step 3: the fitted boat, what it does, and sliders that move it."""

from html import escape

import streamlit as st

from sizer.hydro.drag import drag_curve, drag_sections, wetted
from sizer.units import KN_PER_MPS, MM_PER_M
from sizer.web.draft import length_text
from sizer.web.drawings.boat import plan_svg, profile_svg, sections_svg
from sizer.web.drawings.clearances import clearances_svg
from sizer.web.look import note_html, put, put_picture, status_html, table_html
from sizer.web.session import base_boat, draft, job_for
from sizer.web.steps.sliders import LENGTHS, current_sizes, put_sliders
from sizer.web.steps.words import put_check
from sizer.web.strip import put_cautions, put_strip
from sizer.web.turning import put_turning

CLOSER = ("The body's room", "Turn it round", "Sections")
FIGURE_DIGITS = {"deg": 2, "of the base": 2}
UNIT_SIGNS = {"deg": "°", "of the base": "× base", "radius/thickness": ""}


def page():
    """Draws the step."""
    one = draft()
    if not one.ready():
        put(note_html("Measure the paddler first: weight, height and hip width are needed."))
        if st.button("Go to the paddler", type="primary"):
            st.switch_page(st.session_state["pages"]["paddler"])
        return
    _boat(one)


@st.fragment
def _boat(one):
    put_strip(one)
    job, faults = job_for(one)
    if job is None:
        for fault in faults:
            put(note_html(fault, "fail"))
        if one.held and st.button("Let go of every held size"):
            one.held.clear()
            st.rerun(scope="fragment")
        return
    base, unit = base_boat(one, one.base), one.length_unit
    assessed = job.fitted.assessed
    drawn = (assessed.boat, base, assessed.particulars, job.person.body, _labels(unit))
    pictures, sliders = st.columns([7, 3], gap="medium")
    with pictures:
        _picture(profile_svg, drawn)
        _picture(plan_svg, drawn)
        _closer(job, base, drawn, unit)
    with sliders:
        put(f"<p>{status_html(job.fitted.status)} &nbsp; {_verdict(job)}</p>")
        put_sliders(one, job, base)
        put(f"<p>{_drag_words(one, assessed)}</p>")
    for sentence in job.fitted.unmet:
        put(note_html(sentence, "fail"))
    st.subheader("Checks")
    _checks(job, unit)
    _explained(job)
    _sizes(job, base, unit)
    put_cautions(job.cautions)
    if st.button("Next: trade-offs", type="primary"):
        st.switch_page(st.session_state["pages"]["trade"])


def _closer(job, base, drawn, unit):
    """One closer look of three, as the person picks."""
    st.session_state.setdefault("closer", CLOSER[0])
    look = st.segmented_control("A closer look", CLOSER, key="closer", required=True)
    if look == "The body's room":
        what = (job.fitted.assessed, job.person.body, _labels(unit))
        put_picture(clearances_svg(*what), clearances_svg(*what, narrow=True))
    elif look == "Turn it round":
        put_turning(job.fitted.assessed.boat, base)
    else:
        _picture(sections_svg, drawn)


def _drag_words(one, assessed):
    """Drag at the speed of the slider, in a sentence."""
    hull = wetted(drag_sections(assessed.boat), assessed.particulars, assessed.person.water)
    drag_N = float(drag_curve(hull, [one.speed_mps]).total_N[0])
    return (f"At {one.speed_mps * KN_PER_MPS:.1f} knots ({one.speed_mps:.2f} m/s) about "
            f"<b>{drag_N:.1f} N</b> of drag: an estimate, without wind and waves.")


def _picture(draw, what):
    put_picture(draw(*what), draw(*what, narrow=True))


def _labels(unit):
    return lambda value_m: length_text(value_m * MM_PER_M, unit)


def _verdict(job):
    count = sum(check.status != "pass" for check in job.fitted.checks)
    total = len(job.fitted.checks)
    return f"{total} checks, all pass" if not count else f"{count} of {total} checks need a look"


def _sizes(job, base, unit):
    """Base against fitted, and what set each dimension."""
    boat, reasons = job.fitted.assessed.boat, job.fitted.set_by
    own = {"length_mm": base.length_m, "beam_mm": base.beam_m, "depth_mm": base.depth_m,
           "cockpit_length_mm": base.opening.length_m, "cockpit_width_mm": base.opening.width_m}
    sizes = current_sizes(job)
    rows = [[label, length_text(own[key] * MM_PER_M, unit),
             f"<b>{length_text(sizes[key], unit)}</b>",
             f'<span class="sz-why">{escape(reasons[key])}</span>'] for key, label in LENGTHS]
    rows.append(["Foredeck crown", "100 %", f"<b>{boat.scaling.crown:.0%}</b>",
                 f'<span class="sz-why">{escape(reasons["deck_crown"])}</span>'])
    rows.append(["Seat, aft of its place", length_text(0.0, unit),
                 f"<b>{length_text(sizes['seat_shift_mm'], unit)}</b>",
                 f'<span class="sz-why">{escape(reasons["seat_shift_mm"])}</span>'])
    put(table_html(("Size", "base", "fitted", "set by"), rows, numbers=(1, 2)))


def _checks(job, unit):
    put(table_html(("Check", "status", "value", "limit", "margin", "what it means"),
                   [_check_row(check, unit) for check in _worst_first(job)],
                   numbers=(2, 3, 4), stack=True, plain=(1, 5)))


def _explained(job):
    """One check with its picture: the first that does not pass, or the one that is picked."""
    names = [check.name for check in _worst_first(job)]
    st.selectbox("Explain a check", names, key="explained")
    picture, sentence = st.columns([1, 2], gap="medium")
    put_check(st.session_state["explained"], picture, sentence)


def _worst_first(job):
    order = {"fail": 0, "caution": 1, "pass": 2}
    return sorted(job.fitted.checks, key=lambda check: order[check.status])


def _check_row(check, unit):
    return [
        f"<b>{escape(check.name)}</b>", status_html(check.status),
        _figure(check.value, check.unit, unit),
        f"{check.sense} {_figure(check.limit, check.unit, unit)}",
        ("+" if check.margin >= 0 else "") + _figure(check.margin, check.unit, unit),
        f'<span class="sz-why">{escape(check.meaning)}. <i>Source: {escape(check.source)}</i>'
        "</span>"]


def _figure(value, unit, length_unit):
    """A check's figure in the units of the screen."""
    if unit == "mm":
        return length_text(value, length_unit)
    return f"{value:.{FIGURE_DIGITS.get(unit, 0)}f} {UNIT_SIGNS.get(unit, unit)}".strip()
