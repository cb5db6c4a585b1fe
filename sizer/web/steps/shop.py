"""What the shop works with, and its rates and prices, settled once in the book.

That is every job's, with an undo of its own: what another screen settled meanwhile ends what could
be undone here.
"""

from dataclasses import dataclass, replace
from html import escape
from itertools import chain, islice

import streamlit as st

from sizer.book.refusals import BookRefused
from sizer.book.settings import keep_money, keep_shop
from sizer.border import table_of
from sizer.errors import BadInput
from sizer.export.quote import invented_words
from sizer.shop.money import CURRENCY, M2, METRE, Money, Per, money_of_table, money_table, own_money
from sizer.shop.plywood import sold_m, thicknesses_words, unused_words
from sizer.shop.settings import SHOP, Shop, shop_of_table, shop_words, without_slips
from sizer.shop.work import steps
from sizer.web import setting_fields as fields
from sizer.web.figures import LONGEST
from sizer.web.history import History
from sizer.web.keeping import money_now, shop_book, shop_now
from sizer.web.look import echo_html, note_html, press, put
from sizer.web.session import lines_of
from sizer.web.state import draft, go, say, standing, take_in_hand, view
from sizer.web.strip import Undoing

SETTLED = "settled"  # in the view
RATES = "rates"  # in the view, and the key of their container
TAKEN = "rates and prices that came with the program as your own"  # what undo says of them
LIKE = ("12 mm = 11.7 mm; 18 mm = 17.6 mm", "1/2 in = 15/32 in; 3/4 in = 23/32 in")
HOURS = "hours."  # how the keys of their fields begin
PERS = {"seam_m": METRE, "skin_m2": M2}  # of what hours grow with; of all else, of each
OF = {"seam_m": " of seam", "skin_m2": " of skin"}


@dataclass(frozen=True)
class Settled:
    """The shop as it works, and what was typed and not taken."""

    shop: Shop
    money: Money
    at_fault: tuple[tuple[str, str, str], ...] = ()  # key, text, what is wrong with it

    def fault_at(self, key):
        """(text, what is wrong with it) of what was typed and not taken; None where nothing was."""
        return next((tuple(found) for own, *found in self.at_fault if own == key), None)

    def with_fault(self, key, *found):
        """With the text and fault of one key; without any, with its fault gone."""
        others = tuple(one for one in self.at_fault if one[0] != key)
        return replace(self, at_fault=(*others, (key, *found)) if found else others)


def _settlings():
    shop, money = shop_now(), money_now()
    one = view().get(SETTLED)
    if one is None or (one.present.shop, one.present.money) != (shop, money):
        return History(Settled(shop, money))
    return one


def _settle(one):
    """Takes a History of Settled, and keeps in the book what it says now."""
    book, now = shop_book()[0], one.present
    try:
        if now.shop != shop_now():
            keep_shop(book, now.shop)
        if now.money != money_now():
            keep_money(book, now.money)
    except BookRefused as error:
        say(f"Not kept in the book. {error}")
        return
    view()[SETTLED] = one.amend(replace(now, shop=shop_now(), money=money_now()))


def page():
    unit, now = draft().length_unit, _settlings().present
    st.header("The shop")
    put("<p>Kept in the book, for every job that is printed from now on; a revision that was "
        "issued stays as it was made. More entries in one field stand between semicolons.</p>")
    design = _design()
    sold = sold_m(design)
    _put_fields(now, fields.setting_fields(now.shop, unit), 2, unit, _with_shop,
                {"plywood": f"This job's boat, {design.name}, is of plywood sold as "
                            f"{thicknesses_words(sold)}; entered like {LIKE[unit == 'in']}"})
    if unused := unused_words(now.shop.plywoods, sold):
        put(note_html(unused))
    put(f"<p>So the sheets of this boat will say: {escape(shop_words(now.shop, sold))}</p>")
    if now.shop != SHOP:
        press("All as they came with the program", _as_they_came)
    _put_money(now, unit)


def _design():
    """The base that the boat in hand is fitted from: its plywood is the boat's."""
    one = draft()
    return lines_of(one, one.base).design


def undoing():
    """What undo does on this page: the shop's settings are every job's, not the draft's."""
    return Undoing(lambda: _go_to(_settlings().undone()), lambda: _go_to(_settlings().redone()),
                   bool(_settlings().future))


def _go_to(moved):
    """Takes an earlier or a later state; what that changed, in words."""
    before = _settlings().present
    _settle(moved)
    unit, after = draft().length_unit, moved.present
    mine, were_mine = (own_money(one.money) == one.money for one in (after, before))
    said = [f"{TAKEN}{'' if mine else ': no longer'}"] if mine != were_mine else []
    return said + [f"{old.title}, {_shown(before, old)[0] or 'none'} → "
                   f"{_shown(after, new)[0] or 'none'}" for old, new in zip(
                       _all_fields(before, unit), _all_fields(after, unit), strict=True)
                   if _shown(before, old) != _shown(after, new)]


def _all_fields(now, unit):
    return chain(fields.setting_fields(now.shop, unit), fields.setting_fields(now.money, unit),
                 _hours_fields(now.money, unit))


def _hours_fields(money, unit):
    return [fields.SettingField(
        f"{HOURS}{step.key}", f"{step.title}, h {fields.asked_for(_per(step), unit)[0]}"
        f"{OF.get(step.hours, '')}", (),
        fields.priced_text(money.hours[step.key], _per(step), unit), False) for step in steps()]


def _per(step):
    return PERS.get(step.hours) or Per(f"a {step.hours}", f"a {step.hours}", 1.0)


def _put_money(now, unit):
    with (st.expander("Rates and prices, for quotes alone", expanded=bool(view().get(RATES))),
          st.container(key=RATES)):
        put("<p>None of these goes to the bench.</p>")
        if invented := invented_words(now.money):
            put(note_html(invented))
        if set(now.money.ours) - {CURRENCY}:
            press("These are mine as they stand", _as_they_stand)
        _put_fields(now, fields.setting_fields(now.money, unit), 3, unit, _with_money)
        st.subheader("Hours")
        _put_fields(now, _hours_fields(now.money, unit), 3, unit, _with_hours)


def _put_fields(now, ones, count, unit, taking, helps=None):
    """SettingFields so many to a row; `taking(Settled, key, text, unit)` is with what is typed, and
    `helps` {key: what is told under its field}."""
    left = iter(ones)
    while some := tuple(islice(left, count)):
        for column, one in zip(st.columns(count, gap="small"), some, strict=False):
            with column:
                _put_field(now, one, unit, taking, (helps or {}).get(one.key, ""))


def _shown(now, one):
    """(text, fault) of a field: what was typed and not taken, else what is settled."""
    return now.fault_at(one.key) or (one.text, "")


def _put_field(now, one, unit, taking, told):
    text, fault = _shown(now, one)
    place = standing(f"shop_{one.key}", text, lambda said: _taken(one.key, said, unit, taking),
                     one.choices or "value")
    if one.choices:
        st.selectbox(one.title, one.choices, **place)
    else:
        st.text_input(fields.labelled(one, unit), max_chars=LONGEST, placeholder="none", **place)
    put(echo_html(escape(told) or "&nbsp;", fault))


def _taken(key, text, unit, taking):
    """Settles what was typed, or holds it beside what is wrong with it."""
    before = _settlings()
    try:
        after = taking(before.present, key, text, unit).with_fault(key)
    except BadInput as error:
        fault = error.faults[0]  # of the table's figures otherwise, which nobody typed
        told = fault.value if fault.place == key else text
        after = before.present.with_fault(key, text, f"{told}: {fault.allowed}")
    _settle(before.step(after))


def _with_shop(now, key, text, unit):
    table = table_of(now.shop, {}) | {key: fields.typed_value(now.shop, key, text, unit)}
    return replace(now, shop=without_slips(shop_of_table(table)))


def _with_money(now, key, text, unit):
    table = money_table(now.money) | {key: fields.typed_value(now.money, key, text, unit)}
    return replace(now, money=money_of_table(table))


def _with_hours(now, key, text, unit):
    table, step = money_table(now.money), key.removeprefix(HOURS)
    one_of = fields.asked_for(_per(next(one for one in steps() if one.key == step)), unit)[1]
    hours = table.get("hours", {}) | {step: fields.typed_number(text, key) / one_of}
    return replace(now, money=money_of_table(table | {"hours": hours}))


def to_rates():
    view()[RATES] = True
    take_in_hand(RATES)
    go("shop")


def _as_they_stand():
    """Takes every rate and price that the shop has not set itself as its own."""
    before = _settlings()
    _settle(before.step(replace(before.present, money=own_money(before.present.money))))


def _as_they_came():
    """The settings of the program, and lets go of what was typed and not taken."""
    before = _settlings()
    _settle(before.step(replace(before.present, shop=SHOP, at_fault=())))
