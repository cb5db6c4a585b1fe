"""Quantities as people type them, read into millimetres, kilograms and SI.

Each reader takes what was typed and a place to name in the fault, and raises BadInput. Spaces may
be of any kind.
"""

import re
from fractions import Fraction

from sizer.errors import BadInput, Fault
from sizer.units import (
    F_AT_0_C,
    F_PER_C,
    KG_PER_MASS_UNIT,
    KMH_PER_MPS,
    KN_PER_MPS,
    MM_PER_IN,
    MM_PER_LENGTH_UNIT,
    MPH_PER_MPS,
    NO_BREAK,
)

_SPELLINGS = {
    "millimetres": "mm", "millimeters": "mm", "mm": "mm",
    "centimetres": "cm", "centimeters": "cm", "cm": "cm",
    "metres": "m", "meters": "m", "metre": "m", "meter": "m", "m": "m",
    "inches": "in", "inch": "in", "ins": "in", "in": "in", '"': "in",
    "feet": "ft", "foot": "ft", "ft": "ft", "'": "ft",
    "kilograms": "kg", "kilos": "kg", "kg": "kg", "grams": "g", "g": "g",
    "pounds": "lb", "pound": "lb", "lbs": "lb", "lb": "lb", "#": "lb", "stone": "st", "st": "st",
}  # fmt: skip
_TYPED_SIGNS = str.maketrans(
    {NO_BREAK: " ", "\N{NARROW NO-BREAK SPACE}": " "}
    | {"″": '"', "”": '"', "“": '"', "′": "'", "’": "'", "‘": "'", "−": "-", "⁄": "/"}
    | {"¼": " 1/4", "½": " 1/2", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8"}
)
_SPEED_UNITS = {"knots": KN_PER_MPS, "knot": KN_PER_MPS, "kn": KN_PER_MPS, "kt": KN_PER_MPS,
                "m/s": 1.0, "km/h": KMH_PER_MPS, "kmh": KMH_PER_MPS, "kph": KMH_PER_MPS,
                "mph": MPH_PER_MPS}
_SPEED = re.compile(r"(\d+(?:[.,]\d*)?|[.,]\d+)\s*([a-z/]*)", re.ASCII)
_TEMPERATURE = re.compile(
    r"(-?\d+(?:[.,]\d*)?|-?[.,]\d+)\s*°?\s*(?:([cf])(?:elsius|ahrenheit)?)?", re.ASCII)
_NUMBER = r"\d+(?: +|-)\d+/\d+|\d+/\d+|\d+(?:[.,]\d*)?|[.,]\d+"
_QUANTITY = re.compile(rf"({_NUMBER})\s*([a-z]+\.?|\"|''|'|#)?\s*", re.ASCII)
_LENGTH_AFTER = {"ft": "in", "m": "cm"}  # the smaller unit that may follow one
_MASS_AFTER = {"st": "lb"}
_LONGEST = 40  # characters; our judgement, no typed size needs more
_OFFSET = re.compile(r"(\d{1,3})-(\d{1,2})-(\d)(\+?)", re.ASCII)

LENGTH_ALLOWED = "a length such as 1780 mm, 178 cm, 1.78 m, 5 ft 10 1/2 in or 15 1/4 in"
INCHES_ALLOWED = "a length such as 5 ft 10 1/2 in, 15 1/4 in, 1780 mm or 178 cm"
_FEET_FIRST = re.compile(r"(\d{1,2})[ -](\d|1[01])((?: \d+/\d+)?)", re.ASCII)
MASS_ALLOWED = "a mass such as 85 kg, 187 lb or 13 st 4 lb"
SPEED_ALLOWED = "a speed such as 3.5 knots, 6.5 km/h, 4 mph or 1.8 m/s"
TEMPERATURE_ALLOWED = "a temperature such as 8.9 °C or 48 °F"
OFFSET_ALLOWED = "feet-inches-eighths such as 1-3-5 (inches to 11, eighths to 7, + is 1/16 more)"


class _UnreadableError(ValueError):
    """The typed text is no quantity; says why, and never leaves this module."""


def parse_length_mm(text, default_unit, place):
    """A typed length in mm; a leading minus applies to the whole of it.

    `default_unit` ("mm", "cm", "m", "in" or "ft") is meant by a bare number. After feet, a bare
    number is inches, after metres it is centimetres. A decimal comma is read as a point; "1,780"
    could mean two things and is refused. Raises BadInput naming `place`.
    """
    typed = _tidy(text)
    sign = -1.0 if typed.startswith("-") else 1.0
    try:
        parts = _quantities(typed.removeprefix("-").lstrip(), default_unit, _LENGTH_AFTER)
        return sign * _total(parts, MM_PER_LENGTH_UNIT, _LENGTH_AFTER)
    except _UnreadableError as why:
        allowed = INCHES_ALLOWED if default_unit in ("in", "ft") else LENGTH_ALLOWED
        feet = _FEET_FIRST.fullmatch(typed)
        meant = f"if you mean {feet[1]} ft {feet[2]}{feet[3]}, write so; else " if feet else ""
        raise BadInput([Fault(place, _shown(text), f"{why}; {meant}write {allowed}")]) from None


def parse_mass_kg(text, default_unit, place):
    """A typed mass in kg, not negative.

    `default_unit` ("kg", "g", "lb" or "st") is meant by a bare number; after stone, a bare number
    is pounds. Raises BadInput naming `place`.
    """
    try:
        typed = _tidy(text)
        if typed.startswith("-"):
            raise _UnreadableError("nothing weighs less than 0")
        parts = _quantities(typed, default_unit, _MASS_AFTER)
        return _total(parts, KG_PER_MASS_UNIT, _MASS_AFTER)
    except _UnreadableError as why:
        raise BadInput([Fault(place, _shown(text), f"{why}; write {MASS_ALLOWED}")]) from None


def parse_speed_mps(text, default_unit, place):
    """A typed speed in m/s, not negative; raises BadInput naming `place`.

    `default_unit` ("knots", "m/s", "km/h" or "mph") is meant by a bare number.
    """
    match = _SPEED.fullmatch(_tidy(text))
    unit = match and _SPEED_UNITS.get(match.group(2) or default_unit)
    if not unit:
        raise BadInput([Fault(place, _shown(text), f"write {SPEED_ALLOWED}")])
    return float(match.group(1).replace(",", ".")) / unit


def parse_temperature_c(text, default_unit, place):
    """A typed temperature in °C; raises BadInput naming `place`.

    `default_unit` ("°C" or "°F") is meant by a bare number.
    """
    match = _TEMPERATURE.fullmatch(_tidy(text))
    if not match:
        raise BadInput([Fault(place, _shown(text), f"write {TEMPERATURE_ALLOWED}")])
    degrees = float(match.group(1).replace(",", "."))
    in_f = (match.group(2) or default_unit[-1].lower()) == "f"
    return (degrees - F_AT_0_C) / F_PER_C if in_f else degrees


def parse_offset_mm(text, place):
    """A length in mm from the feet-inches-eighths of an offset table: 1-3-5+ is 1 ft 3 11/16 in.

    Never negative. Raises BadInput naming `place`.
    """
    match = _OFFSET.fullmatch(str(text).strip())
    feet, inches, eighths = (int(part) for part in match.groups()[:3]) if match else (0, 12, 8)
    if inches > 11 or eighths > 7:
        raise BadInput([Fault(place, _shown(text), f"write {OFFSET_ALLOWED}")])
    sixteenths = (feet * 12 + inches) * 16 + eighths * 2 + len(match.group(4))
    return sixteenths * MM_PER_IN / 16


def unit_spelled(word):
    """The unit that a word means, such as "in" for "inches"; None for others."""
    return _SPELLINGS.get(word)


def _tidy(text):
    return str(text).translate(_TYPED_SIGNS).strip().lower()


def _shown(text):
    return repr(str(text)[:_LONGEST])


def _quantities(typed, default_unit, unit_after):
    """[(number, unit), ...] of the whole text; `unit_after` names the bare second unit."""
    if len(typed) > _LONGEST:
        raise _UnreadableError("this is too long")
    parts, at = [], 0
    while at < len(typed):
        match = _QUANTITY.match(typed, at)
        if not match:
            raise _UnreadableError("this cannot be read")
        number, word = match.groups()
        bare = unit_after.get(parts[0][1]) if parts else default_unit
        spelled = {None: bare, "''": "in"}.get(word) or _SPELLINGS.get((word or "").rstrip("."))
        parts.append((_number(number), spelled))
        at = match.end()
    if not parts:
        raise _UnreadableError("nothing is given")
    return parts


def _number(text):
    """A decimal, a fraction or a mixed number as a Fraction."""
    if "/" in text:
        *whole, fraction = text.replace("-", " ").split()
        top, bottom = (int(part) for part in fraction.split("/"))
        if top >= bottom:
            raise _UnreadableError("a fraction must be less than one")
        return Fraction(top, bottom) + sum(int(part) for part in whole)
    if re.fullmatch(r"0*[1-9]\d*,\d{3}", text):
        raise _UnreadableError("the comma could mark thousands or decimals, so leave it out")
    return Fraction(text.replace(",", ".").rstrip("."))


def _total(parts, size_of, unit_after):
    """The sum of one quantity, or of two of which `unit_after` says that they go together."""
    units = [unit for _, unit in parts]
    if None in units[1:]:
        raise _UnreadableError("a number here is without its unit")
    if any(unit not in size_of for unit in units):
        raise _UnreadableError("this unit is not known here")
    if len(parts) > 1:
        large, small = units[0], unit_after.get(units[0])
        if units[1:] != [small]:
            raise _UnreadableError("these units do not go together")
        limit = round(size_of[large] / size_of[small])
        if parts[0][0].denominator != 1 or parts[1][0] >= limit:
            raise _UnreadableError(f"give whole {large}, and {small} less than {limit}")
    # Fractions of the printed sizes: 5 ft 10 in is 1778 mm, not a hair less.
    return float(sum(number * Fraction(repr(size_of[unit])) for number, unit in parts))
