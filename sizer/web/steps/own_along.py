"""An own design that goes along to a new customer: which base is chosen, and the way to another."""

import streamlit as st

from sizer.design.library import shipped_names
from sizer.web.entered import Entered
from sizer.web.look import note_html, place, press, put
from sizer.web.session import OWN, lines_of
from sizer.web.state import change, draft

GIVEN = Entered().base  # that a new customer begins on


def put_own_along(one):
    """Says it while nothing is measured yet; what is pressed here, undo brings back."""
    begun = not one.sample and any(entry.text for _, entry in one.entries)
    with place():
        if begun or not (one.own_design or one.own_table):
            return
        put(note_html(_said(one)))
        with st.container(horizontal=True, gap="small"):
            if one.base == OWN:
                press(f"Back to the given base {_name(one, GIVEN)}", _on, GIVEN, key="own_given")
            elif one.own_design:
                press(f"Take your own design {_name(one, OWN)} as the base", _on, OWN,
                      key="own_taken")
            press("Leave your own design out", _leave, key="own_left")


def _said(one):
    base = f"your own design, {_name(one, OWN)}" if one.base == OWN else (
        f"{_name(one, one.base)}, a given one")
    along = []
    if one.own_design and one.base != OWN:
        along.append(f"your own design, {_name(one, OWN)}, is among the bases to choose from")
    if one.own_table:
        along.append(f"the page Own design has {one.own_table.name()} as you left it")
    also = f" From before, {' and '.join(along)}." if along else ""
    return f"The base design is {base}.{also}"


def _name(one, base):
    return lines_of(one, base).design.name


def _on(base):
    change(draft().on(base))


def _leave():
    """Off both the bases and the page Own design."""
    one = draft()
    base = one.base if one.base in shipped_names() else GIVEN
    change(one.on(base, own_design=None, own_name="", own_table=None))
