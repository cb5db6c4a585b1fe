"""The figure typed beside a slider: in any usual form, with its fault under it."""

import streamlit as st

from sizer.as_typed import parse_length_mm, parse_mass_kg, parse_speed_mps
from sizer.errors import BadInput
from sizer.units import KG_PER_MASS_UNIT, MM_PER_LENGTH_UNIT, MM_PER_M
from sizer.web.figures import LONGEST
from sizer.web.state import field, view

LIKE = {"%": "such as 95", "knots": "such as 3.5, 4 mph or 6 km/h", "kg": "such as 5 or 11 lb"}


def read_amount(text, unit):
    """A typed amount in SI: m, kg, a share of 1 for "%", m/s for "knots".

    `unit` is meant by a bare number; a sign may stand before it. Raises BadInput.
    """
    bare = text.strip().replace("−", "-").lstrip("+")
    if unit in MM_PER_LENGTH_UNIT:
        return parse_length_mm(bare, unit, "amount") / MM_PER_M
    sign, bare = (-1.0, bare[1:]) if bare.startswith("-") else (1.0, bare)
    if unit in KG_PER_MASS_UNIT:
        return sign * parse_mass_kg(bare, unit, "amount")
    if unit == "knots":
        return sign * parse_speed_mps(bare, "knots", "amount")
    return sign * parse_length_mm(bare.removesuffix("%"), "mm", "amount") / 100.0  # a bare number


def put_typed(name, label, unit, written, now, bounds, moved):
    """The field; what cannot be read or is not allowed stays in it and moves nothing.

    Parameters
    ----------
    name : of the slider's field
    label : of the slider
    unit : of `read_amount`
    written : how the field says where the slider stands
    now : that figure in SI
    bounds : least and most in SI, both in words, and what these lose by being written, in SI
    moved : (Draft, figure in SI) to a Draft
    """
    texts = view().setdefault("typed", {})
    text, value, fault = texts.get(name, ("", None, ""))
    if not fault and (value is None or abs(value - now) > 1e-9):
        text = written  # moved by something else since
    st.text_input(f"{label}, typed in {unit}", max_chars=LONGEST, label_visibility="collapsed",
                  **field(f"typed.{name}", text,
                          lambda one, text: _taken(one, name, text, unit, bounds, moved)))
    return fault


def forget_typed(name):
    view().get("typed", {}).pop(name, None)


def forget_all_typed():
    """Drops what was typed beside every slider, refused texts too: after undo it is of no boat."""
    view().pop("typed", None)


def _taken(one, name, text, unit, bounds, moved):
    """The Draft with what was typed; a blank field puts nothing."""
    texts = view().setdefault("typed", {})
    texts.pop(name, None)
    if not text.strip():
        return one
    low, high, allowed, lost = bounds
    try:
        value = read_amount(text, unit)
    except BadInput as error:
        texts[name] = (text, None, f"{text:.30}: {error.faults[0].allowed}")
        return one
    if not low - lost <= value <= high + lost:
        texts[name] = (text, None, f"{text:.30}: {allowed} is allowed here")
        return one
    value = min(max(value, low), high)
    texts[name] = (text, value, "")
    return moved(one, value)
