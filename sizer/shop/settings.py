"""What a shop works with: cutter, plywood, sheets, timber, cloth. Declared once, read from a file.

The file is TOML or JSON with the record's names by the rule of `sizer.border`, in millimetres; what
it leaves out is as in SHOP. Such as `cutter_mm = 6`, or `[[plywood]]` with `nominal_mm = 12` and
`true_mm = 11.7`.
"""

import tomllib
from dataclasses import dataclass, replace
from typing import Annotated, Literal

from pydantic import Field, ValidationError

from sizer.border import border_fields, record_of, table_of, typed_json, unknown_keys
from sizer.design.allowed import between
from sizer.design.read import plain_faults, plain_text
from sizer.design.schema import part
from sizer.errors import BadInput, Fault
from sizer.shop.plywood import Plywood, true_words
from sizer.shop.risers import DEFAULT_KIND, KINDS
from sizer.units import MM_PER_M

RELIEFS = ("dog-bone", "t-bone", "none")
PATTERNS = ("whole", "half")
CUTTER_MM = (1.0, 25.0)  # diameters of router cutters, generously; our judgement
TRUE_SHARE = (0.75, 1.15)  # of its nominal that plywood measures; our judgement
SHEET_MM = (300.0, 5000.0)  # sides of a sheet of plywood, generously; our judgement
STOCK_MM = (1800.0, 12_000.0)  # lengths of stock that are taken; our judgement
CLOTH_MM = (500.0, 5000.0)  # widths of cloth that are woven, generously; our judgement
MOST = 12  # entries of a list; our judgement
CUTTER_SPARE_M = 0.002  # between two cuts, over the cutter's diameter; our judgement


def _each(kind, most, title, least=1):
    """The type of a tuple of so many at most, with the title it has on a page."""
    return Annotated[tuple[kind, ...], Field(min_length=least, max_length=most, title=title)]


def _choice(words, title):
    return Annotated[Literal[words], Field(title=title)]


@dataclass(frozen=True)
class Shop:
    """The shop's settings; the defaults are common sizes (common practice, no source)."""

    cutter_m: between(*CUTTER_MM, title="Router's cutter, diameter") = 0.006
    relief: _choice(RELIEFS, "Relief of inner corners that a square part must reach") = "dog-bone"
    plywoods: _each(Plywood, MOST, "What plywood truly measures, sold as = true",
                    0) = ()  # a thickness that is not listed is true
    sheet_m: _each(between(*SHEET_MM), 2, "Sheet of plywood, length; width", 2) = (2.440, 1.220)
    stock_lengths_m: _each(between(*STOCK_MM), MOST, "Timber comes in lengths of") = (3.6,)
    cloth_widths_m: _each(between(*CLOTH_MM), MOST, "Cloth comes in widths of") = (1.5,)
    risers: _choice(KINDS, "What holds the frames up on the strongback") = DEFAULT_KIND
    patterns: _choice(PATTERNS, "Frames on the pages to join: whole, or one half to turn "
                      "over") = "whole"

    @property
    def relief_words(self):
        return "no relief" if self.relief == "none" else f"{self.relief} relief"

    @property
    def gap_m(self):
        """Least between two parts on a sheet, and from a part to its edge."""
        return self.cutter_m + CUTTER_SPARE_M


SHOP = Shop()


def read_shop(text, source="shop"):
    """The Shop of a settings file, TOML or JSON; its name, `source`, starts each fault. BadInput
    with every fault: place, value found, what is allowed."""
    table = settings_table(plain_text(text, source, "a shop's settings"), source)
    return shop_of_table(table, source)


def shop_of_table(table, source="shop"):
    """The Shop of a settings file's table; what it leaves out is as in SHOP. Errors: `read_shop`"""
    if faults := unknown_keys(table, keys_of(Shop), f"{source}: "):
        raise BadInput(faults)
    return tidy(settled(SHOP, table, source))


def keys_of(kind):
    """Keys of a settings file's table of a record."""
    return [key for _, key, _, _ in border_fields(kind)]


def settled(usual, table, source):
    """A record of settings with what a table says in it; errors as `read_shop`."""
    whole = table_of(usual, {}) | table
    try:
        part(type(usual)).model_validate(whole)
    except ValidationError as error:
        raise BadInput(plain_faults(error, whole, source)) from error
    return record_of(type(usual), whole, {})


def shop_words(shop, sold_m=None):
    """A Shop in a line, as the sheets made for it say.

    `sold_m` are the thicknesses that the boat's plywood is sold as: which of them the shop's true
    ones are for is told then.
    """
    sheet = " x ".join(f"{side * MM_PER_M:g}" for side in shop.sheet_m)
    timber, cloth = (", ".join(f"{one * MM_PER_M:g}" for one in lengths)
                     for lengths in (shop.stock_lengths_m, shop.cloth_widths_m))
    true = true_words(shop.plywoods, sold_m)
    return (f"cutter {shop.cutter_m * MM_PER_M:g} mm, {shop.relief_words}; plywood{true}, sheets "
            f"{sheet} mm; timber in lengths of {timber} mm; cloth {cloth} mm wide; "
            f"{shop.risers} risers; {shop.patterns} frames on the pages to join.")


def tidy(shop):
    """The same Shop: a sheet's longer side first, lengths and widths rising, none twice."""
    return replace(shop, sheet_m=tuple(sorted(shop.sheet_m, reverse=True)),
                   stock_lengths_m=tuple(sorted(set(shop.stock_lengths_m))),
                   cloth_widths_m=tuple(sorted(set(shop.cloth_widths_m))))


def without_slips(shop):
    """The same Shop as it is entered; what was kept or issued before is taken as it stands.
    BadInput where a plywood measures quite another thickness than it is sold under."""
    slips = [Fault("plywood", f"{one.nominal_m * MM_PER_M:g} = {one.true_m * MM_PER_M:g}",
                   "a true thickness of {:g} to {:g} mm; measure a sheet, or name what it is sold "
                   "under".format(*(share * one.nominal_m * MM_PER_M for share in TRUE_SHARE)))
             for one in shop.plywoods
             if not TRUE_SHARE[0] <= one.true_m / one.nominal_m <= TRUE_SHARE[1]]
    if slips:
        raise BadInput(slips)
    return shop


def settings_table(text, source):
    """The table of a JSON text where it begins as one, else of a TOML text."""
    is_json = text.lstrip().startswith("{")
    try:
        table = typed_json(text) if is_json else tomllib.loads(text)
    except (ValueError, RecursionError) as error:
        kind = "JSON" if is_json else "TOML"
        raise BadInput([Fault(source, f"not readable as {kind}: {error}", "mend that line")
                        ]) from error
    return table
