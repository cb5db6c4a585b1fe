"""Boats kept side by side on the trade-offs step: up to four, against the present one."""

from html import escape

import streamlit as st

from sizer.fit.sizes import SIZES, size_title
from sizer.fit.uses import USES
from sizer.fit.what_if import drag_N
from sizer.scenes.long_views import glance
from sizer.web.draft import MOST_VARIANTS, Variant
from sizer.web.look import note_html, press, put, put_drawn, status_html, table_html, whole
from sizer.web.session import job_for
from sizer.web.state import change, draft, field
from sizer.web.trade_words import change_text, quantity_text, seat_text, speed_text

LONGEST_NAME = 40
SEAT = "Seat"


def put_variants(one, job):
    """The table of variants, what can be done with each, and the button that keeps this boat."""
    jobs = [job_for(variant.wishes) for variant in one.variants]
    if one.variants:
        _put_pictures(one, job, [found for found, _ in jobs])
        _put_table(one, job, [found for found, _ in jobs])
    else:
        put("<p>Keep a boat, change something, and compare. Up to four are kept.</p>")
    for variant, (_, faults) in zip(one.variants, jobs, strict=True):
        for fault in faults:
            put(note_html(f"{variant.name}: {fault}", "fail"))
    full = len(one.variants) >= MOST_VARIANTS
    press("Keep this boat", _keep, type="primary", disabled=full)
    if full:
        put("<p>Four are kept: delete one to keep another.</p>")
    for index, variant in enumerate(one.variants):
        _controls(index, variant)


def _put_pictures(one, job, others):
    boats = [("Now", job), *((variant.name, found) for variant, found in
                             zip(one.variants, others, strict=True) if found)]
    longest = max(found.fitted.assessed.boat.length_m for _, found in boats)
    for column, (name, found) in zip(st.columns(max(len(boats), 3)), boats, strict=False):
        with column:
            put_drawn(glance, found.fitted.assessed.boat, longest, one.said)
            put(f"<b>{escape(name)}</b>")


def _put_table(one, job, others):
    """All beside the present boat; on a phone, one after the other."""
    rows = _rows(one, job, others)
    names = [variant.name for variant in one.variants]
    wide = table_html(("Size or result", "Now", *names), rows, numbers=range(1, len(names) + 2))
    narrow = "".join(
        table_html(("Size or result", "Now", name), [[*row[:2], row[index]] for row in rows])
        for index, name in enumerate(names, start=2))
    put(f'<div class="sz-wide">{wide}</div><div class="sz-narrow">{narrow}</div>')


def _controls(index, variant):
    with st.container(horizontal=True, vertical_alignment="bottom", gap="small"):
        st.text_input(f"Name of variant {index + 1}", max_chars=LONGEST_NAME, width=260, **field(
            f"variants.{index}", variant.name, lambda one, name: _renamed(one, index, name)))
        press("Go back to this one", _go_back, index, key=f"back_{index}")
        press("Delete", _delete, index, key=f"delete_{index}")


def _keep():
    one = draft()
    names = {variant.name for variant in one.variants}
    name = next(name for number in range(1, MOST_VARIANTS + 2)
                if (name := f"Variant {number}") not in names)
    change(one.but(variants=(*one.variants, Variant(name=name, wishes=one.wishes()))))


def _renamed(one, index, name):
    """A blank name is no name: the old one stays."""
    variants = list(one.variants)
    variants[index] = variants[index].but(name=name.strip() or variants[index].name)
    return one.but(variants=tuple(variants))


def _go_back(index):
    one = draft()
    change(one.taking(one.variants[index].wishes))


def _delete(index):
    one = draft()
    change(one.but(variants=one.variants[:index] + one.variants[index + 1:]))


def _rows(one, job, others):
    """A row for each figure; a cell is the figure and its difference from the present boat."""
    now, figures = _figures(one, job), [_figures(one, other) for other in others]
    jobs = (job, *others)
    rows = [["<b>Base design</b>", *(escape(found.lines.design.name) if found else "–"
                                     for found in jobs)],
            ["<b>Use</b>", *(escape(USES[found.request.trip.use].words) if found else "–"
                             for found in jobs)]]
    for index, (label, value, unit) in enumerate(now):
        rows.append([f"<b>{escape(label)}</b>", _text(one, value, unit, label),
                     *(_cell(one, label, unit, own[index][1] if own else None, value)
                       for own in figures)])
    rows.append(["<b>Checks</b>", *(status_html(found.fitted.status) if found else "–"
                                    for found in jobs)])
    return rows


def _cell(one, label, unit, value, now):
    if value is None:
        return "–"
    figure, change = _text(one, value, unit, label), whole(change_text(one, now, value, unit))
    return f'{figure} <span class="sz-why">({change})</span>'  # a phone breaks the line before it


def _text(one, value, unit, label):
    return seat_text(one, value) if label == SEAT else quantity_text(one, value, unit)


def _figures(one, job):
    """(label, figure in SI, unit) of a job's boat; None where there is no boat."""
    if job is None:
        return None
    assessed = job.fitted.assessed
    boat, water = assessed.boat, assessed.particulars
    reach = job.fitted.check("range").value
    return (
        *((size_title(key), size_m(boat), "m") for key, size_m in SIZES.items()),
        ("Deck crown", boat.scaling.crown, "of the base"),
        (SEAT, boat.scaling.seat_shift_m, "m"),
        ("Boat weight", assessed.weight.mass_kg, "kg"),
        ("Load: paddler dressed, all gear", assessed.loading.carried_kg, "kg"),
        ("Side-deck freeboard", water.freeboard_m, "m"),
        ("Steadiness (GM)", water.gm_m, "m"),
        ("Range of stability", reach, "deg"),
        (f"Drag at {speed_text(one.speed_mps)}, estimate", drag_N(assessed, one.speed_mps), "N"),
        ("Hip room", assessed.space.hip_width_m, "m"),
    )
