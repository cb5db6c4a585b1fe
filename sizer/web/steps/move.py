"""One size moved by any amount, read in one line before anything is held."""

from functools import partial
from html import escape

import streamlit as st

from sizer.errors import BadInput
from sizer.export.move_words import move_line, move_words
from sizer.fit.moves import allowed, moves
from sizer.fit.tried import DIMENSIONS, today_setting, unit_size
from sizer.scenes.long_views import glance
from sizer.units import KG_PER_LB, KG_PER_MASS_UNIT, MM_PER_IN, MM_PER_LENGTH_UNIT, MM_PER_M
from sizer.web.figures import limits_text, signed_text, typed_text
from sizer.web.look import note_html, press, put, put_drawn, put_fault, status_html
from sizer.web.state import change, choice, draft, kept, view
from sizer.web.steps.typed import read_amount
from sizer.web.trade_words import quantity_text

HELD_AS = {"length": "length_mm", "beam": "beam_mm", "depth": "depth_mm",
           "cockpit-length": "cockpit_length_mm", "cockpit-width": "cockpit_width_mm",
           "crown": "deck_crown", "seat": "seat_shift_mm"}
STEPS_M = {"mm": 0.005, "cm": 0.005, "in": 0.25 * MM_PER_IN / MM_PER_M}
FIRST_STEPS = {"in": -4}  # at first so many steps are moved: an inch
MOST_KEPT = 40


def put_move(one, job):
    """The size, the amount, the line, both boats, and the button that holds it."""
    picture, controls = st.columns([7, 3], gap="medium")
    assessed = job.fitted.assessed
    with controls:
        key = st.selectbox("Move", tuple(DIMENSIONS),
                           **choice("move_size", "beam", among=DIMENSIONS),
                           format_func=lambda one: DIMENSIONS[one].words)
        low, high = _room(assessed, key)
        by = min(max(view().get(("by", key), FIRST_STEPS.get(one.length_unit, -5)
                                * _step(one, key)), low), high)
        _amount(one, key, by, low, high)
    with picture:
        found = kept("moves", (job, key, by, one.speed_mps), most=MOST_KEPT, work=lambda: moves(
            assessed, job.fitted.seat_held, key, [by], one.speed_mps)[0])
        _put_found(one, job, found)
    with controls:
        if by and found.assessed is not None:
            press(f"Hold this: {_size_text(one, found, found.after)}", _hold, key, found.after,
                  type="primary", key="hold_move")


def _put_found(one, job, found):
    if found.after == found.before:
        put("<p>Nothing is moved: type an amount, or step it.</p>")
        return
    line = move_line(found, partial(quantity_text, one))
    put(f'<p class="sz-move-says"><b>{escape(line)}</b></p>')
    if found.assessed is None:
        return
    boats = (("Now", found.before, job.fitted.assessed.boat, found.status[0]),
             (move_words(found).capitalize(), found.after, found.assessed.boat, found.status[1]))
    longest = max(boat.length_m for _, _, boat, _ in boats)
    for column, (name, size, boat, status) in zip(st.columns(2), boats, strict=True):
        with column:
            put_drawn(glance, boat, longest, one.said)
            put(f"<p><b>{escape(name)}</b>: {escape(_size_text(one, found, size))} "
                f"{status_html(status)}</p>")
    put('<p class="sz-why">Tried alone: the job keeps its boat until this is held. All other sizes '
        "stay where they are. Whether every frame comes out sound as sawn is known once it is held."
        "</p>")
    if one.follow and found.dimension.key in HELD_AS:
        put(note_html("“Let the other sizes follow” is on: once held, the other sizes are fitted "
                      "anew and the boat differs from this line."))


def _size_text(one, found, size):
    return f"{found.dimension.words} {quantity_text(one, size, found.dimension.unit)}"


def _room(assessed, key):
    now = today_setting(assessed, key) * unit_size(assessed, key)
    low, high = allowed(assessed, key)
    return float(min(low - now, 0.0)), float(max(high - now, 0.0))


def _step(one, key):
    unit = DIMENSIONS[key].unit
    if unit == "m":
        return STEPS_M[one.length_unit]
    return {"kg": 1.0 if one.mass_unit == "kg" else KG_PER_LB}.get(unit, 0.05)


def _amount(one, key, by, low, high):
    """The typed amount with minus and plus; what is not understood or allowed moves nothing."""
    unit = {"m": one.length_unit, "kg": one.mass_unit}.get(DIMENSIONS[key].unit, "%")
    st.text_input(f"By, {unit} — minus is less", **choice(
        f"by_{key}_{unit}", "", lambda text: _typed(key, unit, text, low, high)),
        placeholder=_written(by, unit))
    with st.container(horizontal=True, gap="small"):
        for label, sign in (("−", -1.0), ("+", 1.0)):
            press(label, _put_by, key, min(max(by + sign * _step(one, key), low), high),
                  key=f"move_{sign:+.0f}", help=f"{label} one step")
    put_fault(view().get("move_fault"))
    put(f'<p class="sz-why">This base allows {escape(_allowed(low, high, unit))} from here.</p>')


def _written(by, unit):
    if unit == "%":
        return f"{100.0 * by:.0f}"
    return signed_text(by * (1.0 if unit in KG_PER_MASS_UNIT else MM_PER_M), unit)


def _allowed(low, high, unit):
    if unit in MM_PER_LENGTH_UNIT:
        return limits_text(low * MM_PER_M, high * MM_PER_M, unit).replace(" to ", " to +")
    return f"{_written(low, unit)} to +{_written(high, unit)} {unit}"


def _typed(key, unit, text, low, high):
    """Takes the typed amount, and leaves the field empty: it shows what is moved."""
    view()[f"by_{key}_{unit}"] = text
    if not text.strip():
        view().pop("move_fault", None)
        return
    try:
        by = read_amount(text, unit)
    except BadInput:
        view()["move_fault"] = f"{text:.30}: write an amount such as -20, or -1 1/2 in"
        return
    slack = 1e-4  # what the ends lose in being written
    if low - slack <= by <= high + slack:
        by = min(max(by, low), high)
    else:
        view()["move_fault"] = (f"{text:.30}: this base allows {_allowed(low, high, unit)} from "
                                "here")
        return
    _put_by(key, by)
    view()[f"by_{key}_{unit}"] = text


def _put_by(key, by):
    """Moves by this much; a field that says otherwise is emptied."""
    view().pop("move_fault", None)
    view()[("by", key)] = by
    for name in [name for name in view() if str(name).startswith(f"by_{key}_")]:
        view()[name] = ""


def _hold(key, after):
    one = draft()
    view().pop(("by", key), None)
    _put_by(key, 0.0)
    if key == "gear":
        change(one.enter("gear_kg", typed_text(after, one.mass_unit)))
        return
    change(one.hold(HELD_AS[key], after if key == "crown" else after * MM_PER_M))
