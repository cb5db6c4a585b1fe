"""What the shop works with, settled once in the book for every job that is printed."""

from html import escape

import streamlit as st

from sizer.book.refusals import BookRefused
from sizer.book.settings import keep_shop
from sizer.errors import BadInput
from sizer.shop.settings import SHOP, shop_of_table, shop_words
from sizer.web.entered import LONGEST
from sizer.web.keeping import shop_book, shop_now
from sizer.web.look import put
from sizer.web.setting_fields import setting_fields, typed_table
from sizer.web.state import act, draft, say, standing, view

AT_FAULT = "shop_at_fault"  # in the view: {key: (text, fault)} of what was typed and not taken


def page():
    """Draws the page."""
    unit, shop = draft().length_unit, shop_now()
    st.header("The shop")
    put("<p>Kept in the book, for every job that is printed from now on; a revision that was "
        "issued stays as it was made. More entries in one field stand between semicolons.</p>")
    left, right = st.columns(2, gap="large")
    ones = tuple(setting_fields(shop, unit))
    for column, some in ((left, ones[0::2]), (right, ones[1::2])):
        with column:
            for one in some:
                _put_field(one, unit)
    put(f"<p>So the sheets will say: {escape(shop_words(shop))}</p>")
    if shop != SHOP:
        st.button("All as they came with the program", on_click=act, args=(_keep, SHOP))


def _put_field(one, unit):
    text, fault = view().get(AT_FAULT, {}).get(one.key, (one.text, ""))
    place = standing(f"shop_{one.key}", text, lambda said: _take(one, said, unit))
    if one.choices:
        st.selectbox(one.title, one.choices, **place)
    else:
        st.text_input(f"{one.title}, {unit}" if one.lengths else one.title, max_chars=LONGEST,
                      placeholder="none", **place)
    put(f'<div class="sz-echo sz-fault" role="alert">\u2715 {escape(fault)}</div>' if fault
        else '<div class="sz-echo">&nbsp;</div>')


def _take(one, text, unit):
    """Keeps what was typed, or holds it beside what is wrong with it."""
    at_fault = view().setdefault(AT_FAULT, {})
    try:
        _keep(shop_of_table(typed_table(shop_now(), one.key, text, unit)))
        at_fault.pop(one.key, None)
    except BadInput as error:
        fault = error.faults[0]
        at_fault[one.key] = text, f"{fault.value}: {fault.allowed}"


def _keep(shop):
    try:
        keep_shop(shop_book()[0], shop)
    except BookRefused as error:
        say(f"Not kept in the book. {error}")
