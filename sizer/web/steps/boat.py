"""Step 3: the fitted boat, what it does, and sliders that hold a dimension."""

from html import escape

import streamlit as st

from sizer.units import MM_PER_IN, MM_PER_M
from sizer.web.draft import length_text
from sizer.web.drawings.boat import plan_svg, profile_svg, sections_svg
from sizer.web.look import note_html, put, put_picture, status_html, table_html
from sizer.web.session import base_boat, draft, job_for
from sizer.web.strip import put_cautions, put_strip

SLIDERS = (("length_mm", "Length"), ("beam_mm", "Beam"), ("depth_mm", "Depth"),
           ("cockpit_length_mm", "Cockpit length"), ("cockpit_width_mm", "Cockpit width"))
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
    base = base_boat(one, one.base)
    if job is None:
        for fault in faults:
            put(note_html(fault, "fail"))
        if one.held_mm and st.button("Let go of every held dimension"):
            one.held_mm.clear()
            st.rerun(scope="fragment")
        return
    assessed, unit = job.fitted.assessed, one.length_unit
    drawn = (assessed.boat, base, assessed.particulars, job.person.body, _labels(unit))
    pictures, sliders = st.columns([7, 3], gap="medium")
    with pictures:
        _picture(profile_svg, drawn)
        _picture(plan_svg, drawn)
    with sliders:
        put(f"<p>{status_html(job.fitted.status)} &nbsp; {_verdict(job)}</p>")
        _sliders(one, job, base)
    for sentence in job.fitted.unmet:
        put(note_html(sentence, "fail"))
    _sizes(job, base, unit)
    _picture(sections_svg, drawn)
    st.subheader("Checks")
    _checks(job, unit)
    put_cautions(job.cautions)
    if st.button("Next: the water", type="primary"):
        st.switch_page(st.session_state["pages"]["water"])


def _picture(draw, what):
    put_picture(draw(*what), draw(*what, narrow=True))


def _labels(unit):
    return lambda value_m: length_text(value_m * MM_PER_M, unit)


def _verdict(job):
    count = sum(check.status != "pass" for check in job.fitted.checks)
    total = len(job.fitted.checks)
    return f"{total} checks, all pass" if not count else f"{count} of {total} checks need a look"


def current_sizes_mm(job):
    """The boat's sizes by slider key."""
    boat = job.fitted.assessed.boat
    return {"length_mm": boat.length_m * MM_PER_M, "beam_mm": boat.beam_m * MM_PER_M,
            "depth_mm": boat.depth_m * MM_PER_M,
            "cockpit_length_mm": boat.opening.length_m * MM_PER_M,
            "cockpit_width_mm": boat.opening.width_m * MM_PER_M}


def ranges_mm(base):
    """What the base allows, by slider key."""
    limits = base.design.limits
    factored = (("length_mm", base.length_m, limits.length), ("beam_mm", base.beam_m, limits.beam),
                ("depth_mm", base.depth_m, limits.depth))
    ranges = {key: (own * low * MM_PER_M, own * high * MM_PER_M)
              for key, own, (low, high) in factored}
    ranges["cockpit_length_mm"] = tuple(v * MM_PER_M for v in limits.cockpit_length_m)
    ranges["cockpit_width_mm"] = tuple(v * MM_PER_M for v in limits.cockpit_width_m)
    return ranges


def _sliders(one, job, base):
    """Sliders stand where the fit put them; moving one holds it there."""
    sizes, ranges = current_sizes_mm(job), ranges_mm(base)
    inches = one.length_unit == "in"
    scale, step = (MM_PER_IN, 0.0625) if inches else (1.0, 1.0)
    for key, label in SLIDERS:
        low, high = (bound / scale for bound in ranges[key])
        low, high = -(-low // step) * step, high // step * step
        place = f"slide_{key}_{one.length_unit}"
        if key not in one.held_mm or place not in st.session_state:  # else it is in your hand
            st.session_state[place] = min(max(round(sizes[key] / scale / step) * step, low), high)
        held = " — held" if key in one.held_mm else ""
        st.slider(f"{label}, {one.length_unit}{held}", low, high, step=step, key=place,
                  format="%.2f" if inches else "%.0f",
                  on_change=_hold, args=(one, key, place, scale))
    if one.held_mm:
        st.button("Let go of held dimensions", on_click=one.held_mm.clear)


def _hold(one, key, place, scale):
    one.held_mm[key] = st.session_state[place] * scale


def _sizes(job, base, unit):
    """Base against fitted, and what set each dimension."""
    boat, reasons = job.fitted.assessed.boat, job.fitted.set_by
    own = {"length_mm": base.length_m, "beam_mm": base.beam_m, "depth_mm": base.depth_m,
           "cockpit_length_mm": base.opening.length_m, "cockpit_width_mm": base.opening.width_m}
    sizes = current_sizes_mm(job)
    rows = [[label, length_text(own[key] * MM_PER_M, unit),
             f"<b>{length_text(sizes[key], unit)}</b>",
             f'<span class="sz-why">{escape(reasons[key])}</span>'] for key, label in SLIDERS]
    rows.append(["Foredeck crown", "100 %", f"<b>{boat.scaling.crown:.0%}</b>",
                 f'<span class="sz-why">{escape(reasons["deck_crown"])}</span>'])
    put(table_html(("Size", "base", "fitted", "set by"), rows, numbers=(1, 2)))


def _checks(job, unit):
    order = {"fail": 0, "caution": 1, "pass": 2}
    checks = sorted(job.fitted.checks, key=lambda check: order[check.status])
    put(table_html(("Check", "status", "value", "limit", "margin", "what it means"),
                   [_check_row(check, unit) for check in checks],
                   numbers=(2, 3, 4), stack=True, plain=(1, 5)))


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
