"""One typed figure: its text, what it was understood as, and how it is written in another unit.

Lengths are kept in mm and masses in kg beside the text as typed, so that switching units rewrites
the texts and never rounds what was entered.
"""

from math import ceil, floor
from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field

from sizer import units
from sizer.as_typed import parse_length_mm, parse_mass_kg
from sizer.errors import BadInput, Fault

MOST = 1e5  # mm or kg of any figure
NOTHING = 1e-6  # of a step, which rounding in between may add
LONGEST, LONGEST_FAULT = 200, 400  # letters

Short = Annotated[str, Field(max_length=LONGEST)]
DesignText = Annotated[str, Field(max_length=2_100_000)]  # of a design's file
Amount = Annotated[float, Field(allow_inf_nan=False, ge=-MOST, le=MOST)]


class Part(BaseModel):
    """A frozen record that is checked whenever one is made, and read by the names of its fields."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    def __getitem__(self, name):
        return getattr(self, name)

    def but(self, **changes):
        """The same with some fields changed, checked again."""
        return type(self).model_validate(dict(self) | changes)


class Entry(Part):
    """One typed figure: the text, and what it was understood as (None: blank or at fault)."""

    text: Short = ""
    value: Amount | None = None  # mm or kg
    fault: Annotated[str, Field(max_length=LONGEST_FAULT)] = ""


def typed_entry(key, text, unit, allowed):
    """The Entry of what was typed; a text at fault is kept beside its fault.

    Parameters
    ----------
    key : says by its suffix what it is: _kg a mass, _deg an angle, all else a length
    text : str
    unit : "mm", "cm", "in", "kg", "lb", "st" or "deg", of a bare number
    allowed : lowest, highest, in mm, kg or degrees
    """
    value, fault = None, ""
    if text.strip():
        parse = _PARSED_BY.get(unit_kind(key), parse_length_mm)
        try:
            value = parse(text, unit, key)
            fault = out_of_range(text, unit, value, allowed, lambda other: parse(text, other, key))
            value = None if fault else value
        except BadInput as error:
            fault = f"{error.faults[0].value}: {error.faults[0].allowed}"[:LONGEST_FAULT]
    return Entry(text=text, value=value, fault=fault)


def unit_kind(key):
    """"mass", "angle" or "length": what a figure is by its key's suffix."""
    return {"kg": "mass", "deg": "angle"}.get(key.rpartition("_")[2], "length")


def parse_angle_deg(text, _unit, place):
    """A typed angle in degrees; raises BadInput naming `place`."""
    try:
        return float(text.replace("°", "").replace(",", ".").strip())
    except ValueError:
        raise BadInput([Fault(place, f"{text!r:.40}", "degrees, such as 2.5")]) from None


_PARSED_BY = {"mass": parse_mass_kg, "angle": parse_angle_deg}
_UNITS_OF = dict.fromkeys(("st", "lb", "kg"), units.KG_PER_MASS_UNIT) | {"deg": ()}


def out_of_range(text, own, value, allowed, in_unit):
    """What is wrong with a figure that cannot be; "" where nothing is.

    A bare number that would do in another unit is asked about.
    """
    low, high = allowed
    if low <= value <= high:
        return ""
    fault = f"{text:.30}: {limits_text(low, high, own)} is allowed"
    for unit in _UNITS_OF.get(own, units.MM_PER_LENGTH_UNIT):
        if unit != own and in_unit(unit) != value and low <= in_unit(unit) <= high:
            return f"{fault}; if you mean {text.strip():.30} {unit}, write the unit"
    return f"{fault}; measure again"


def meant(entries):
    """{key: what is understood, else the text} of pairs of key and Entry, whatever their unit."""
    return {key: entry.text if entry.value is None else entry.value for key, entry in entries}


def limits_text(low, high, unit):
    """Least and most that may be typed, with their unit; in inches as sizes are read there, rounded
    inwards, to what marks are read to where the least is under an inch."""
    if unit != "in":
        return f"{typed_text(low, unit)} to {typed_text(high, unit)}{f' {unit}' * (unit != 'st')}"
    parts = units.MARK_PARTS if 0.0 < low < units.MM_PER_IN else units.INCH_PARTS
    step, last = units.MM_PER_IN / parts, units.MM_PER_IN / units.INCH_PARTS
    least, most = ceil(low / step - NOTHING) * step, floor(high / last + NOTHING) * last
    first = (units.inches_text(least, parts) if least < units.MM_PER_IN else
             units.length_text(least, unit))
    return f"{first.removesuffix(f' {unit}')} to {units.length_text(most, unit)}"


def rewritten(entries, changed):
    """{key: Entry} of those understood figures, pairs of key and Entry, whose unit `changed`:
    {"mass" or "length": unit}."""
    return {key: entry.but(text=typed_text(entry.value, changed[unit_kind(key)]))
            for key, entry in entries if entry.value is not None and unit_kind(key) in changed}


def typed_text(value, unit):
    """How a figure is written in a field: plainly, an exact 1/32 in as a fraction."""
    if unit == "in":
        exact = abs(units.inches_error_mm(value, 32)) < 1e-6
        return units.inches_text(value, 32) if exact else f"{value / units.MM_PER_IN:.2f}"
    if unit == "st":
        return stone_text(value, 1)
    of_unit = {"cm": 10.0, "lb": units.KG_PER_LB}.get(unit, 1.0)
    return f"{value / of_unit:.{2 if unit == 'cm' else 1}f}".rstrip("0").removesuffix(".")


def signed_text(value, unit):
    """The same for a figure that may be under zero."""
    return ("-" if value < 0.0 else "") + typed_text(abs(value), unit)


def stone_text(value_kg, decimals):
    stone, pounds = divmod(round(value_kg / units.KG_PER_LB, decimals), units.LB_PER_STONE)
    return f"{stone:.0f} st {pounds:.{decimals}f}".removesuffix(".0")


def mass_text(value_kg, unit, tenths=False):
    """A mass for reading, with its unit; pounds whole, or to the tenth."""
    if unit == "st" and value_kg >= units.KG_PER_STONE:
        return stone_text(value_kg, int(tenths)) + " lb"
    if unit == "kg":
        return f"{value_kg:.1f} kg"
    return f"{value_kg / units.KG_PER_LB:.{int(tenths)}f} lb"


def most_text(value_kg, unit):
    """A mass that is not to be exceeded, to the tenth below it, with its unit."""
    per = 1.0 if unit == "kg" else units.KG_PER_LB
    return mass_text(floor(10.0 * value_kg / per + 1e-6) / 10.0 * per, unit, tenths=True)
