"""What a shop settles once: texts by key, and among them what it works with."""

import json

from sizer.border import table_of
from sizer.shop.money import money_of_table, money_table
from sizer.shop.settings import SHOP, read_shop

SHOP_KEY, MONEY_KEY = "shop", "money"


def setting(book, key, usual=""):
    """The text of a setting; `usual` where it was never set."""
    with book.reading() as db:
        row = db.execute("SELECT value FROM settings WHERE key = ?", (key,)).fetchone()
    return row["value"] if row else usual


def set_setting(book, key, value):
    with book.writing() as db:
        db.execute("INSERT INTO settings VALUES (?, ?) ON CONFLICT DO UPDATE SET value = excluded."
                   "value", (key, value))


def shop_of(book):
    """The Shop that a book's jobs are printed for; SHOP where nothing was settled. Raises BadInput,
    where a later program wrote what this one does not know."""
    text = setting(book, SHOP_KEY)
    return read_shop(text, "the book's shop") if text else SHOP


def keep_shop(book, shop):
    """Settles the Shop for every job of a book that is printed from now on."""
    set_setting(book, SHOP_KEY, shop_text(shop))


def money_of(book):
    """The Money of a book's shop; ours, invented, where it has set none. Raises BadInput."""
    return money_of_table(json.loads(setting(book, MONEY_KEY, "{}")), "the book's money")


def keep_money(book, money):
    set_setting(book, MONEY_KEY, json.dumps(money_table(money), ensure_ascii=False))


def shop_text(shop):
    """The Shop as a book and its revisions hold it: JSON, as a settings file may be."""
    return json.dumps(table_of(shop, {}), ensure_ascii=False)
