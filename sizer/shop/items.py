"""One line of what a boat takes: declared once, listed in the tables, the sheets and the answer."""

from dataclasses import dataclass

UNITS = ("pieces", "sheets", "m", "m2", "kg", "l")


@dataclass(frozen=True)
class Item:
    """One line of the shopping list; sizes are told in the order the words name them."""

    group: str
    what: str
    quantity: float
    unit: str  # one of UNITS
    size_m: tuple[float, ...]  # of one piece, empty where it has none
    allowance: str
