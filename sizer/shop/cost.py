"""Hours and cost of one boat, from what it takes: hours by step, materials by price, the price."""

from dataclasses import dataclass
from math import prod

from sizer.shop.items import SHEETS
from sizer.shop.sundries import PADDLER
from sizer.shop.work import counted, steps

PLYWOOD12_M = 0.012  # the thickness that plywood is priced at
# (group of an item, what it begins with, field of Money or None: not asked for, how it is measured)
PRICED = (
    ("timber", "", "timber_per_m3", "volume"),
    ("plywood", "okoume plywood spacer", None, ""),
    ("plywood", "", "plywood12_per_m2", "sheets"),
    ("coaming", "clamp", None, ""),
    ("coaming", "board", None, ""),
    ("coaming", "varnish", "oil_per_litre", "quantity"),
    ("coaming", "", "hardwood_per_m3", "volume"),
    ("skin", "cloth", "cloth_per_m2", "width"),
    ("skin", "", "coating_per_kg", "quantity"),
    ("finish", "", "oil_per_litre", "quantity"),
    ("lashing", "waxed cord", "cord_per_metre", "quantity"),
    ("lashing", "deck line", "line_per_metre", "quantity"),
    ("seat", "cord", "cord_per_metre", "quantity"),
    ("seat", "elastic cord", "cord_per_metre", "quantity"),
    ("seat", SHEETS, None, ""),
    ("seat", "western red cedar", "timber_per_m3", "volume"),
    ("seat", "white ash", "hardwood_per_m3", "volume"),
    ("seat", "webbing", "webbing_per_metre", "length"),
    ("seat", "backband", "backband_each", "quantity"),
    ("fittings", "float bag", "bag_per_litre", "quantity"),
    ("fittings", "cord 4 mm", "line_per_metre", "quantity"),
    ("fittings", "elastic cord", "cord_per_metre", "quantity"),
    ("glue", "", "epoxy_per_kg", "quantity"),
    ("strongback", "", None, ""),  # the shop's own, used again
    ("tools", "", None, ""),
    (PADDLER, "", None, ""),  # not the boat's
)
MEASURES = {
    "quantity": lambda item: item.quantity,
    "volume": lambda item: item.quantity * prod(item.size_m),
    "sheets": lambda item: item.quantity * prod(item.size_m) / PLYWOOD12_M,
    "width": lambda item: item.quantity * item.size_m[0],
    "length": lambda item: item.quantity * item.size_m[-1],
}


@dataclass(frozen=True)
class StepHours:
    """The hours of one step of the work."""

    key: str
    title: str
    grows_with: str
    count: float
    hours: float


@dataclass(frozen=True)
class Bought:
    """What one line of the shopping list costs."""

    what: str
    quantity: float  # in the unit that it is priced by
    price: str  # the field of Money
    cost: float


@dataclass(frozen=True)
class Cost:
    """What a boat costs the shop, and what it asks; money in the shop's currency."""

    hours: tuple[StepHours, ...]
    bought: tuple[Bought, ...]
    small: tuple[str, ...]  # items that are not priced singly: the sundries' share is for them
    sundries: float
    work: float
    overhead: float
    profit: float
    tax: float

    @property
    def total_h(self):
        return sum(one.hours for one in self.hours)

    @property
    def materials(self):
        """All that is bought, small things included."""
        return sum(one.cost for one in self.bought) + self.sundries

    @property
    def price(self):
        """What the customer is asked, tax included."""
        return self.work + self.materials + self.overhead + self.profit + self.tax


def cost_of(bench, money):
    """The Cost of a Bench at a shop's Money."""
    count = counted(bench)
    hours = tuple(StepHours(step.key, step.title, step.hours, float(count[step.hours]),
                            float(count[step.hours]) * money.hours[step.key]) for step in steps())
    bought, small = [], []
    for item in bench.materials.items:
        row = next((row for row in PRICED
                    if item.group == row[0] and item.what.startswith(row[1])), None)
        if row is None:
            small.append(item.what)
        elif row[2] is not None:
            quantity = float(MEASURES[row[3]](item))
            bought.append(Bought(item.what, quantity, row[2], quantity * getattr(money, row[2])))
    materials = sum(one.cost for one in bought)
    sundries = _of(materials, money.sundries_percent)
    work = sum(one.hours for one in hours) * money.hour
    overhead = _of(work + materials + sundries, money.overhead_percent)
    profit = _of(work + materials + sundries + overhead, money.profit_percent)
    net = work + materials + sundries + overhead + profit
    return Cost(hours, tuple(bought), tuple(small), sundries, work, overhead, profit,
                _of(net, money.tax_percent))


def _of(value, percent):
    return value * percent / 100.0
