"""One line of what a boat takes: declared once, listed in the tables, the sheets and the answer."""

from dataclasses import dataclass, replace

from sizer.shop.lashing import CORD_MM
from sizer.shop.said import both_sides
from sizer.shop.trade_sizes import bit_text, fine_text, plywood_inches
from sizer.units import KG_PER_LB, MM_PER_FT, MM_PER_M, caliper_text, us_volume

CORD_PER_LASHING_M = 1.0  # common practice, no source
CORD_SPARE_SHARE = 0.15  # our judgement
OUTFIT_SCREW_MM = 3.5  # thickness of those of pedals, stops and boards; our drawing
# For a screw's thread, by its thickness; common practice, no source
BORED_MM = {OUTFIT_SCREW_MM: 2.5, 4: 2.5, 5: 3.0}
MILL_M = 0.004  # more each way in rough stock, which is planed off; common practice, no source
SAW_M = 0.010  # of stock for each short piece beyond its length; our judgement
SHEETS = "okoume plywood"  # what is of it is bought in sheets; pieces of it are sawn from them
M_PER_FT = MM_PER_FT / MM_PER_M
ONE_OF = {"pieces": "piece", "sheets": "sheet"}  # what is counted, and the word for one
UNITS = (*ONE_OF, "m", "kg", "l")
# Where inches are wanted: the unit, and how many a one
IN_FEET = {"m": ("ft", 1.0 / M_PER_FT), "kg": ("lb", 1.0 / KG_PER_LB)}


@dataclass(frozen=True)
class Item:
    """One line of the shopping list; sizes are told in the order the words name them."""

    group: str
    what: str
    quantity: float
    unit: str  # one of UNITS
    size_m: tuple[float, ...]  # of one piece, empty where it has none
    allowance: str
    stock_m: float = 0.0  # of the rails' stock that it takes, with the saw's cuts
    sides: int = 0  # how many of its sizes, the first ones, are finished sides, which fit a notch

    @property
    def sawn(self):
        """Whether it is a piece that is sawn from sheets that are bought."""
        return self.unit == "pieces" and self.what.startswith(SHEETS)

    def inches(self, written, sign=""):
        """Its sizes in inches as texts, each followed by `sign`, else `written` of its mm: a
        thickness of plywood as it is sold, finished sides never more than they are."""
        for place, size in enumerate(self.size_m):
            mm = float(size) * MM_PER_M
            if place == 0 and self.what.startswith(SHEETS):
                yield plywood_inches(size) + sign
            else:
                yield caliper_text(mm) + sign if place < self.sides else written(mm)

    def bought(self, unit):
        """(figure, unit) of the quantity as texts: ("1", "sheet"), ("10.33", "m").

        `unit` is that of lengths: "in" buys by the foot, the pound and the gallon.
        """
        if self.unit in ONE_OF:
            figure = f"{self.quantity:.0f}"
            return figure, ONE_OF[self.unit] if figure == "1" else self.unit
        if unit == "in" and self.unit == "l":
            figure, name = us_volume(self.quantity)
            return f"{figure:.2f}", name
        name, each = IN_FEET.get(self.unit, (self.unit, 1.0)) if unit == "in" else (self.unit, 1.0)
        return f"{self.quantity * each:.2f}", name


def more_text(share):
    return f"{100.0 * share:.0f} % more"


def rough_text(*sides_m):
    """What a finished section is milled from, in words."""
    return f"rough {both_sides(*(side + MILL_M for side in sides_m))}"


def outfit_bored_text():
    """What is bored for an outfit's screw, in words."""
    return f"bored {bit_text(BORED_MM[OUTFIT_SCREW_MM] / MM_PER_M)} first"


def bored_text(size_mm):
    return f"{bit_text(BORED_MM[size_mm[0]] / MM_PER_M)} for those {size_mm[0]} thick"


def tallied(items):
    """The Items, those of one thing as one line to buy: quantities summed, notes side by side."""
    lines = {}
    for one in items:
        key = one.group, one.what, one.unit, one.size_m
        before = lines.get(key)
        if before is None:
            lines[key] = one
            continue
        notes = dict.fromkeys([*before.allowance.split("; "), *one.allowance.split("; ")])
        lines[key] = replace(before, quantity=before.quantity + one.quantity,
                             allowance="; ".join(notes))
    return tuple(lines.values())


def waxed_cord(lashings, of, long_m=None):
    """The Item of waxed cord for some lashings, so long with the spare, else CORD_PER_LASHING_M
    each; all of a boat's are one line to buy."""
    bare = lashings * CORD_PER_LASHING_M
    return Item("lashing", "waxed cord", bare * (1.0 + CORD_SPARE_SHARE) if long_m is None
                else long_m, "m", (), f"{lashings} lashings of {of}; "
                f"{fine_text(*CORD_MM)} thick; {more_text(CORD_SPARE_SHARE)}")
