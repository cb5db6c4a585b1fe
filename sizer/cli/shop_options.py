"""The shop's settings on the command line: a file, and options that go before it."""

from dataclasses import replace

from sizer.cli.inputs import file_bytes
from sizer.cli.options import Option, number, numbers, one_of
from sizer.errors import BadInput, Fault
from sizer.shop import settings
from sizer.shop.money import USUAL, read_settings
from sizer.shop.plywood import PLYWOOD_MM, Plywood
from sizer.shop.risers import KINDS
from sizer.units import MM_PER_M


def _file(path, place, _given):
    return read_settings(file_bytes(path, place), place)


def _plywoods(text, place, given):
    """Pairs such as 12:11.7,18:17.6 as a tuple of Plywood."""
    one, found = number(*PLYWOOD_MM, "mm"), []
    for pair in text.split(","):
        sides = pair.split(":")
        if len(sides) != 2:
            raise BadInput([Fault(place, repr(pair), "sold as and true, such as 12:11.7")])
        found.append(Plywood(*(one(side, place, given) / MM_PER_M for side in sides)))
    return tuple(found)


SHOP_OPTIONS = (
    Option("--shop", "a file of the shop's settings, TOML or JSON, with its rates and prices in a "
           "table `money`; the options below go before it",
           _file, {"metavar": "FILE"}),
    Option("--cutter-mm", "diameter of the router's cutter (default: "
           f"{settings.SHOP.cutter_m * 1000:g})", number(*settings.CUTTER_MM, "mm")),
    Option("--relief", f"of inner corners: {', '.join(settings.RELIEFS)} (default: "
           f"{settings.SHOP.relief})",
           one_of(settings.RELIEFS, "one of " + ", ".join(settings.RELIEFS))),
    Option("--plywood-mm", "what plywood truly measures, such as 12:11.7,18:17.6 (default: as "
           "sold)", _plywoods),
    Option("--sheet-mm", "sides of a plywood sheet (default: 2440,1220)",
           numbers(*settings.SHEET_MM, "mm", 2, "two lengths such as 2440,1220")),
    Option("--stock-mm", "lengths of the stock the sticks are cut from (default: 3600)",
           numbers(*settings.STOCK_MM, "mm")),
    Option("--cloth-width-mm", "widths of the skin's cloth that can be had (default: 1500)",
           numbers(*settings.CLOTH_MM, "mm")),
    Option("--risers", f"what holds the frames up: {', '.join(KINDS)} (default: "
           f"{settings.SHOP.risers})", one_of(KINDS, "one of " + ", ".join(KINDS))),
    Option("--patterns", "frames on the pages to join: whole, or one half to turn over "
           f"(default: {settings.SHOP.patterns})", one_of(settings.PATTERNS, "whole or half")),
)


def shop_of(given, usual=settings.SHOP):
    """The Shop of the options SHOP_OPTIONS; `usual` is what they leave open without a file."""
    said = {
        "cutter_m": given.cutter_mm and given.cutter_mm / MM_PER_M, "relief": given.relief,
        "plywoods": given.plywood_mm, "patterns": given.patterns, "risers": given.risers,
        **{field: values and tuple(value / MM_PER_M for value in values) for field, values in (
            ("sheet_m", given.sheet_mm), ("stock_lengths_m", given.stock_mm),
            ("cloth_widths_m", given.cloth_width_mm))}}
    return settings.without_slips(settings.tidy(replace(given.shop[0] if given.shop else usual, **{
        field: value for field, value in said.items() if value is not None})))


def money_of(given):
    """The Money of the file that --shop names; ours, invented, without one."""
    return (given.shop or USUAL)[1]
