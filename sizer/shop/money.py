"""The shop's rates and prices: declared once, kept apart from all that goes to the bench.

Ours are invented, in no currency: each that the shop has not set itself stands in `ours` and is
named wherever a sum is told.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Annotated

from pydantic import Field

from sizer.border import INSIDE, table_of, unknown_keys
from sizer.design.allowed import between
from sizer.design.read import plain_text
from sizer.errors import BadInput, Fault
from sizer.shop.settings import SHOP, keys_of, settings_table, settled, shop_of_table
from sizer.shop.work import steps
from sizer.units import KG_PER_LB, L_PER_US_GAL, M2_PER_SQ_YD, MM_PER_FT, MM_PER_IN, MM_PER_M

CURRENCY = "currency"  # a key of it
RETIRED = ("footbrace_each",)  # keys of older settings that nothing is priced by any more
MONEY = "money"  # the table of a settings file that holds them
MOST = 1e7  # of any price; our judgement
MOST_HOURS = 100.0  # of one step, for one of what it grows with; our judgement
OUR_HOURS = {  # for one of what each step grows with; invented
    "read": 2.0, "stock": 0.4, "plywood": 0.6, "coaming-bend": 0.25, "scarfs": 0.5, "shape": 0.4,
    "strongback": 2.0, "risers": 0.4, "frames": 0.25, "gunwales": 0.15, "keel": 0.05,
    "chines": 0.15, "deck": 0.1, "dry-fit": 2.0, "sit": 0.5, "fair": 0.15, "trim": 0.2, "oil": 0.2,
    "reassemble": 0.15, "lash": 0.08, "coaming-fit": 3.0, "outfit-glue": 1.5, "outfit": 2.5,
    "lift-off": 0.5, "skin": 0.5, "sew": 0.5, "coat": 0.5, "foam": 1.5, "lines": 2.0,
    "bags": 1.0, "weigh": 0.5, "wet-exit": 0.5, "leaks": 1.5, "aboard": 0.5, "boarding": 1.0,
    "launch": 1.5, "wet-exit-afloat": 1.0}


@dataclass(frozen=True)
class Per:
    """What a price is asked for, as a metric shop and as one that works in inches buys it."""

    metric: str
    inch: str
    metric_in_inch: float  # how much of the first makes one of the second


M3 = Per("a cubic metre", "a board foot", MM_PER_FT**2 * MM_PER_IN / MM_PER_M**3)
SHEET = Per("a square metre of 12 mm", "a sheet of 4 by 8 ft, 12 mm (1/2 in)",
            32.0 * (MM_PER_FT / MM_PER_M)**2)
M2 = Per("a square metre", "a square yard", M2_PER_SQ_YD)
KG = Per("a kilogram", "a pound", KG_PER_LB)
LITRE = Per("a litre", "a US gallon", L_PER_US_GAL)
BAG_LITRE = Per("a litre", "a litre", 1.0)  # both trades name bags by it
METRE = Per("a metre", "a foot", MM_PER_FT / MM_PER_M)


def _price(title, per=None):
    plain = between(0.0, MOST, title=title)
    return Annotated[plain, per] if per else plain


def _percent(title):
    return between(0.0, 200.0, title=title)


def _words(title, most=300):
    return Annotated[str, Field(max_length=most, title=title)]


@dataclass(frozen=True)
class Money:
    """What work and materials cost this shop, and what it asks."""

    currency: _words("Your currency, in your own word", 20) = "units of money"
    shop_name: _words("Your shop's name and address on a quote") = ""
    hour: _price("An hour of work") = 40.0
    timber_per_m3: _price("Timber for sticks", M3) = 2500.0
    hardwood_per_m3: _price("Hardwood for the coaming", M3) = 3000.0
    plywood12_per_m2: _price("Plywood", SHEET) = 40.0
    cloth_per_m2: _price("Cloth of the skin", M2) = 15.0
    coating_per_kg: _price("Coating", KG) = 35.0
    epoxy_per_kg: _price("Epoxy", KG) = 30.0
    oil_per_litre: _price("Oil or varnish", LITRE) = 25.0
    cord_per_metre: _price("Waxed cord", METRE) = 0.3
    line_per_metre: _price("Deck line", METRE) = 1.2
    webbing_per_metre: _price("Webbing of the seat", METRE) = 3.0
    bag_per_litre: _price("Float bags", BAG_LITRE) = 0.8
    backband_each: _price("Backband, each") = 50.0
    sundries_percent: _percent("Small things, % of the materials above") = 10.0
    overhead_percent: _percent("Rent, tools, waste, % of work and materials") = 20.0
    profit_percent: _percent("Profit, % of what it costs") = 10.0
    tax_percent: _percent("Tax on the price, %") = 0.0
    valid_days: between(1.0, 3650.0, title="A quote holds for so many days") = 30.0
    hours: Mapping[str, between(0.0, MOST_HOURS)] = field(default_factory=lambda: dict(OUR_HOURS))
    ours: tuple[str, ...] = field(default=(), metadata=INSIDE)  # keys that the shop has not set


def money_of_table(table, source=MONEY):
    """The Money of a settings file's table; what it leaves out is ours, and stands in `ours`.
    BadInput with every fault: place, value found, what is allowed."""
    if not isinstance(table, dict):
        raise BadInput([Fault(source, repr(table), "a table, name = value")])
    known = keys_of(Money)
    table = {key: value for key, value in table.items() if key not in RETIRED}
    given = table.get("hours", {})
    faults = unknown_keys(table, known, f"{source}: ")
    if isinstance(given, dict):
        faults += unknown_keys(given, OUR_HOURS, f"{source}: hours.")
    if faults:
        raise BadInput(faults)
    hours = {"hours": OUR_HOURS | given} if isinstance(given, dict) else {}
    money = settled(Money(), table | hours, source)
    ours = (*(key for key in known if key not in (*table, "hours")),
            *(f"hours.{step.key}" for step in steps() if step.key not in given))
    return replace(money, ours=ours)


def own_money(money):
    """The Money as it stands as the shop's own, but for its currency, which nobody can share."""
    return replace(money, ours=tuple(key for key in money.ours if key == CURRENCY))


def money_table(money):
    """The table of what the shop has set itself."""
    whole = table_of(money, {})
    hours = {key: value for key, value in whole.pop("hours").items()
             if f"hours.{key}" not in money.ours}
    table = {key: value for key, value in whole.items() if key not in money.ours}
    return table | ({"hours": hours} if hours else {})


def read_settings(text, source="shop"):
    """(Shop, Money) of a settings file, whose table `money` holds rates and prices.

    Parameters and errors as `sizer.shop.settings.read_shop`.
    """
    table = settings_table(plain_text(text, source, "a shop's settings"), source)
    money, faults, made = table.pop(MONEY, {}), [], []
    for read, own, place in ((shop_of_table, table, source),
                             (money_of_table, money, f"{source}: {MONEY}")):
        try:
            made.append(read(own, place))
        except BadInput as error:
            faults += error.faults
    if faults:
        raise BadInput(faults)
    return tuple(made)


USUAL = SHOP, money_of_table({})
