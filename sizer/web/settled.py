"""What the shop has settled in its book, as its page shows it, with an undo of its own.

It is every job's: what another screen settled meanwhile ends what could be undone here.
"""

from dataclasses import dataclass, replace

from sizer.book.refusals import BookRefused
from sizer.book.settings import keep_money, keep_shop
from sizer.shop.money import Money
from sizer.shop.settings import Shop
from sizer.web.history import History
from sizer.web.keeping import money_now, shop_book, shop_now
from sizer.web.state import say, view

SETTLED = "settled"  # in the view


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


def settlings():
    shop, money = shop_now(), money_now()
    one = view().get(SETTLED)
    if one is None or (one.present.shop, one.present.money) != (shop, money):
        return History(Settled(shop, money))
    return one


def settle(one):
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
