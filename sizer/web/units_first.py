"""Figures that are told in both units, such as 60 mm (2 3/8 in): the reader's own first."""

import re
from functools import cache

_SIGNED = r"[-−]?\d[\d,.]*"
_FRACTIONS = r"[-−]?\d[\d/. ]*"


@cache
def _pairs(metric, others):
    """What finds a figure, or two with `to` between them, in one of some metric units and behind it
    in brackets the same in one of others; but no side of a sheet, 2440 x 1220 mm."""
    feet = rf"{_FRACTIONS}(?:ft {_FRACTIONS})?" if "in" in others else _FRACTIONS
    ends = "|".join(others)
    return re.compile(
        rf"(?<![x×] )(?<![\d.,/])({_SIGNED}(?: to {_SIGNED})? ?(?:{'|'.join(metric)})) "
        rf"\(({feet}(?:to {feet})? ?(?:{ends}))\)")


LENGTHS = _pairs(("mm", "cm", "m", "litres", "°C"),
                 ("in", '"', "&quot;", "ft", "US fl oz", "US qt", "US gal", "°F"))
MASSES = _pairs(("kg", "g", "N"), ("lb", "oz", "lbf"))


def units_first(text, length_unit, mass_unit):
    """A text, or HTML, for those who read lengths and masses in these units."""
    for pairs, swapped in ((LENGTHS, length_unit == "in"), (MASSES, mass_unit != "kg")):
        if swapped:
            text = pairs.sub(_swapped, text)
    return text


def _swapped(found):
    """The two the other way round, where both are one figure or both two."""
    metric, other = found.groups()
    return found[0] if (" to " in metric) != (" to " in other) else f"{other} ({metric})"
