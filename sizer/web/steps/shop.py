"""What the shop works with, and its rates and prices, settled once in the book."""

from html import escape
from itertools import islice

import streamlit as st

from sizer.book.refusals import BookRefused
from sizer.book.settings import keep_money, keep_shop
from sizer.border import table_of
from sizer.errors import BadInput
from sizer.export.quote import invented_words
from sizer.shop.money import money_of_table, money_table
from sizer.shop.settings import SHOP, shop_of_table, shop_words
from sizer.shop.work import steps
from sizer.web.figures import LONGEST
from sizer.web.keeping import money_now, shop_book, shop_now
from sizer.web.look import echo_html, note_html, put
from sizer.web.setting_fields import SettingField, setting_fields, typed_number, typed_value
from sizer.web.state import act, draft, say, standing, view

AT_FAULT = "shop_at_fault"  # in the view: {key: (text, fault)} of what was typed and not taken
ONE_OF = {"seam_m": "metre of seam", "skin_m2": "square metre of skin", "bag": "float bag"}


def page():
    """Draws the page."""
    unit, shop = draft().length_unit, shop_now()
    st.header("The shop")
    put("<p>Kept in the book, for every job that is printed from now on; a revision that was "
        "issued stays as it was made. More entries in one field stand between semicolons.</p>")
    _put_fields(setting_fields(shop, unit), 2, unit, _take_shop)
    put(f"<p>So the sheets will say: {escape(shop_words(shop))}</p>")
    if shop != SHOP:
        st.button("All as they came with the program", on_click=act, args=(keep_shop_now, SHOP))
    _put_money(unit)


def _put_money(unit):
    money = money_now()
    with st.expander("Rates and prices, for quotes alone"):
        put("<p>None of these goes to the bench.</p>")
        if invented := invented_words(money):
            put(note_html(invented))
        _put_fields(setting_fields(money, unit), 3, unit, _take_money)
        st.subheader("Hours")
        _put_fields([SettingField(
            f"hours.{step.key}", f"{step.title}, h a {ONE_OF.get(step.hours, step.hours)}", (),
            f"{money.hours[step.key]:.10g}", False) for step in steps()], 3, unit, _take_hours)


def _put_fields(ones, count, unit, take):
    """SettingFields so many to a row; `take(key, text, unit)` keeps what is typed."""
    left = iter(ones)
    while some := tuple(islice(left, count)):
        for column, one in zip(st.columns(count, gap="small"), some, strict=False):
            with column:
                _put_field(one, unit, take)


def _put_field(one, unit, take):
    text, fault = view().get(AT_FAULT, {}).get(one.key, (one.text, ""))
    place = standing(f"shop_{one.key}", text, lambda said: _taken(one.key, said, unit, take),
                     one.choices or "value")
    if one.choices:
        st.selectbox(one.title, one.choices, **place)
    else:
        st.text_input(f"{one.title}, {unit}" if one.lengths else one.title, max_chars=LONGEST,
                      placeholder="none", **place)
    put(echo_html("&nbsp;", fault))


def _taken(key, text, unit, take):
    """Keeps what was typed, or holds it beside what is wrong with it."""
    at_fault = view().setdefault(AT_FAULT, {})
    try:
        take(key, text, unit)
        at_fault.pop(key, None)
    except BadInput as error:
        fault = error.faults[0]
        at_fault[key] = text, f"{fault.value}: {fault.allowed}"
    except BookRefused as error:
        say(f"Not kept in the book. {error}")


def _take_shop(key, text, unit):
    shop = shop_now()
    table = table_of(shop, {}) | {key: typed_value(shop, key, text, unit)}
    keep_shop(shop_book()[0], shop_of_table(table))


def _take_money(key, text, unit):
    money = money_now()
    table = money_table(money) | {key: typed_value(money, key, text, unit)}
    keep_money(shop_book()[0], money_of_table(table))


def _take_hours(key, text, _unit):
    table = money_table(money_now())
    hours = table.get("hours", {}) | {key.removeprefix("hours."): typed_number(text, key)}
    keep_money(shop_book()[0], money_of_table(table | {"hours": hours}))


def keep_shop_now(shop):
    """Settles a Shop, and lets go of what was typed and not taken."""
    view().pop(AT_FAULT, None)
    try:
        keep_shop(shop_book()[0], shop)
    except BookRefused as error:
        say(f"Not kept in the book. {error}")
