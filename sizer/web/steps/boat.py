"""Step 3: the fitted boat, what it does, and sliders that move it."""

from html import escape

import streamlit as st

from sizer.export.fit_words import capital, value_words, window_words
from sizer.fit.facts import facts_of, padding
from sizer.hydro.drag import drag_curve, drag_sections, wetted
from sizer.units import KN_PER_MPS, MM_PER_M
from sizer.web.draft import length_text
from sizer.web.drawings.boat import plan_svg, profile_svg, sections_svg
from sizer.web.drawings.clearances import clearances_svg
from sizer.web.drawings.window_bar import window_svg
from sizer.web.look import note_html, put, put_picture, status_html, table_html
from sizer.web.session import base_boat, draft, job_for
from sizer.web.steps.sliders import LENGTHS, current_sizes, put_sliders
from sizer.web.steps.words import put_check
from sizer.web.strip import put_cautions, put_strip
from sizer.web.turning import put_turning

CLOSER = ("The body's room", "Turn it round", "Sections")


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
    st.subheader("Sizes, and what was sought")
    _sizes(job, base, unit)
    _sought(job, unit)
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


def _sought(job, unit):
    """What was sought, what was reached, what gave way; padding for what is left over."""
    def figure(value, kind):
        return (length_text(round(value * MM_PER_M, 3) + 0.0, unit) if kind == "mm"
                else f"{value:.2f}")

    rows = [[escape(one.aim.title), figure(one.wanted, one.aim.unit),
             f"<b>{figure(one.value, one.aim.unit)}</b>",
             "gave way" if abs(one.off) >= one.aim.scale else ""] for one in job.fitted.sought]
    put(table_html(("Sought", "as the base is to its own paddler", "reached", ""), rows,
                   numbers=(1, 2)))
    pads = padding(facts_of(job.fitted.assessed))
    put(f"<p>Room to pad: <b>{length_text(pads['hips_each_side'] * MM_PER_M, unit)}</b> each side "
        f"of the hips, {length_text(pads['thighs'] * MM_PER_M, unit)} over the thighs, "
        f"{length_text(pads['knees'] * MM_PER_M, unit)} over the knees, clothing allowed for.</p>")


def _checks(job, unit):
    """First what is wrong or tight, with what mends it; what passes is folded."""
    ordered = _worst_first(job)
    short = [check for check in ordered if check.status != "pass"]
    if short:
        put(_check_table(short, unit))
    with st.expander(f"{len(ordered) - len(short)} checks pass", expanded=False):
        put(_check_table([check for check in ordered if check.status == "pass"], unit))


def _check_table(checks, unit):
    return table_html(("Check", "status", "value", "wanted", "where it is", "what it means"),
                      [_check_row(check, unit) for check in checks], numbers=(2,), stack=True,
                      plain=(1, 4, 5))


def _explained(job):
    """One check with its picture: the first that does not pass, or the one that is picked."""
    titles = {check.key: check.name for check in _worst_first(job)}
    st.selectbox("Explain a check", list(titles), key="explained", format_func=titles.get)
    picture, sentence = st.columns([1, 2], gap="medium")
    put_check(st.session_state["explained"], picture, sentence)


def _worst_first(job):
    order = {"fail": 0, "caution": 1, "pass": 2}
    return sorted(job.fitted.checks, key=lambda check: order[check.status])


def _check_row(check, unit):
    def length(value_mm):
        return length_text(value_mm, unit)

    mends = (f"<b>Too {check.too}.</b> What mends it: {escape(check.remedy)}. " if check.remedy
             else "")
    return [
        f"<b>{escape(check.name)}</b>", status_html(check.status),
        escape(value_words(check, length)), escape(window_words(check, length)),
        f'<span class="sz-bar">{window_svg(check)}</span>',
        f'<span class="sz-why">{mends}{escape(capital(check.meaning))}. '
        f"<i>Source: {escape(check.source)}</i></span>"]
