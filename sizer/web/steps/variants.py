"""Boats kept side by side on the trade-offs step: up to four, against the present one."""

from dataclasses import replace
from html import escape

import streamlit as st

from sizer.fit.sizes import SIZES, size_title
from sizer.fit.uses import USES
from sizer.fit.what_if import drag_N
from sizer.scenes.long_views import glance
from sizer.web.draft import MOST_VARIANTS, Variant
from sizer.web.look import note_html, put, put_picture, status_html, table_html, whole
from sizer.web.session import job_of_wishes
from sizer.web.strip import show_entries
from sizer.web.trade_words import change_text, quantity_text, seat_text, speed_text

LONGEST_NAME = 40
SEAT = "Seat"


def put_variants(one, job):
    """The table of variants, what can be done with each, and the button that keeps this boat."""
    jobs = [job_of_wishes(one, variant.wishes) for variant in one.variants]
    if one.variants:
        _put_pictures(one, job, [found for found, _ in jobs])
        _put_table(one, job, [found for found, _ in jobs])
    else:
        put("<p>Keep a boat, change something, and compare. Up to four are kept.</p>")
    for variant, (_, faults) in zip(one.variants, jobs, strict=True):
        for fault in faults:
            put(note_html(f"{variant.name}: {fault}", "fail"))
    full = len(one.variants) >= MOST_VARIANTS
    st.button("Keep this boat", type="primary", on_click=_keep, args=(one,), disabled=full)
    if full:
        put("<p>Four are kept: delete one to keep another.</p>")
    for index, variant in enumerate(one.variants):
        _controls(one, index, variant)


def _put_pictures(one, job, others):
    """Every boat from the side and from above, all to one scale."""
    boats = [("Now", job), *((variant.name, found) for variant, found in
                             zip(one.variants, others, strict=True) if found)]
    longest = max(found.fitted.assessed.boat.length_m for _, found in boats)
    for column, (name, found) in zip(st.columns(max(len(boats), 3)), boats, strict=False):
        with column:
            put_picture(glance(found.fitted.assessed.boat, longest))
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


def _controls(one, index, variant):
    key = f"pick_variant_{index}"  # dropped when wishes are taken back or a job is opened
    st.session_state.setdefault(key, variant.name)
    with st.container(horizontal=True, vertical_alignment="bottom", gap="small"):
        st.text_input(f"Name of variant {index + 1}", key=key, max_chars=LONGEST_NAME,
                      on_change=_rename, args=(one, index, key), width=260)
        st.button("Go back to this one", key=f"back_{index}", on_click=_go_back,
                  args=(one, index))
        st.button("Delete", key=f"delete_{index}", on_click=_delete, args=(one, index))


def _keep(one):
    names = {variant.name for variant in one.variants}
    name = next(name for number in range(1, MOST_VARIANTS + 2)
                if (name := f"Variant {number}") not in names)
    one.variants.append(Variant(name, one.wishes()))


def _rename(one, index, key):
    """A blank name is no name: the old one stays."""
    name = st.session_state[key].strip()
    if name:
        one.variants[index] = replace(one.variants[index], name=name)
    st.session_state[key] = one.variants[index].name


def _go_back(one, index):
    one.take(one.variants[index].wishes)
    show_entries()


def _delete(one, index):
    del one.variants[index]
    show_entries()  # the fields of the names move up


def _rows(one, job, others):
    """A row for each figure; a cell is the figure and its difference from the present boat."""
    now, figures = _figures(one, job), [_figures(one, other) for other in others]
    rows = [["<b>Base design</b>", *(escape(_base(found)) for found in (job, *others))],
            ["<b>Use</b>", *(escape(_use(found)) for found in (job, *others))]]
    for index, (label, value, unit) in enumerate(now):
        rows.append([f"<b>{escape(label)}</b>", _text(one, value, unit, label),
                     *(_cell(one, label, unit, own[index][1] if own else None, value)
                       for own in figures)])
    rows.append(["<b>Checks</b>", *(status_html(found.fitted.status) if found else "–"
                                    for found in (job, *others))])
    return rows


def _base(job):
    return job.lines.design.name if job else "–"


def _use(job):
    return USES[job.request.use].words if job else "–"


def _cell(one, label, unit, value, now):
    if value is None:
        return "–"
    figure, change = _text(one, value, unit, label), whole(change_text(one, value - now, unit))
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
        ("Load in all", assessed.loading.load.mass_kg, "kg"),
        ("Side-deck freeboard", water.freeboard_m, "m"),
        ("Steadiness (GM)", water.gm_m, "m"),
        ("Range of stability", reach, "deg"),
        (f"Drag at {speed_text(one.speed_mps)}, estimate", drag_N(assessed, one.speed_mps), "N"),
        ("Hip room", assessed.space.hip_width_m, "m"),
    )
