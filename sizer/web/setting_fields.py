"""A record of settings as texts to type, and back: derived from its declaration, field by field."""

import re
from dataclasses import dataclass, fields, is_dataclass, replace
from typing import Literal, get_args, get_origin
from unicodedata import category

from pydantic.fields import FieldInfo

from sizer.as_typed import parse_length_mm
from sizer.border import bare, border_fields, record_in
from sizer.errors import BadInput, Fault
from sizer.shop.money import Per
from sizer.units import MM_PER_LENGTH_UNIT, MM_PER_M, inches_text
from sizer.web.figures import out_of_range, typed_text

BETWEEN = re.compile(r";|,\s|[x×]")  # entries of a list: a comma without a space may be a decimal's
PAIR = "="
PAIRS = f"12 mm {PAIR} 11.7 mm"
DECIMALS = 4  # of a length in its field, at most; more are shown in the unit that needs fewer
FINEST_PARTS = 64  # of an inch, that a length is typed to
READ_AS_MM = 1e-6  # two lengths that differ by less are one: they are kept so fine
PRICE_DIGITS = 6  # of a price in its field
THOUSANDS = re.compile(r"0*[1-9]\d{0,2}(,\d{3})+")
PERCENT, CURRENCY = "_percent", "Sc"  # how a share's key ends; what Unicode calls a currency's sign
MORE = "; more entries stand between semicolons"


@dataclass(frozen=True)
class SettingField:
    key: str  # outside
    title: str
    choices: tuple[str, ...]  # empty where it is typed
    text: str  # what it is now
    lengths: bool  # whether it is in the unit of lengths


def setting_fields(record, unit):
    """The SettingField of each titled field of a record; lengths in "mm", "cm" or "in"."""
    for name, key, kind, per in border_fields(type(record)):
        if _title(kind) is None:
            continue
        plain, value, priced = bare(kind), getattr(record, name), _priced(kind)
        choices = get_args(plain) if get_origin(plain) is Literal else ()
        title = f"{_title(kind)}, {asked_for(priced, unit)[0]}" if priced else _title(kind)
        text = priced_text(value, priced, unit) if priced else _text(value, per, unit)
        yield SettingField(key, title, choices, text,
                           per is not None or record_in(kind) is not None)


def setting_changes(was, now, unit):
    """What of a record is settled otherwise than it was, in words, such as "Cloth comes in widths
    of, mm: 1500 → 1600"."""
    return tuple(f"{labelled(new, unit)}: {old.text or 'none'} → {new.text or 'none'}"
                 for old, new in zip(setting_fields(was, unit), setting_fields(now, unit),
                                     strict=True) if old.text != new.text)


def labelled(field, unit):
    return f"{field.title}, {unit}" if field.lengths else field.title


def _title(kind):
    return next((one.title for one in get_args(kind) if isinstance(one, FieldInfo) and one.title),
                None)


def _priced(kind):
    return next((one for one in get_args(kind) if isinstance(one, Per)), None)


def asked_for(priced, unit):
    """What a Per's price is for where lengths are in this unit, and how much that is of it."""
    return (priced.inch, priced.metric_in_inch) if unit == "in" else (priced.metric, 1.0)


def priced_text(value, priced, unit):
    """A price, or hours, for one of a Per's metric, as it is asked for in this unit of lengths."""
    return f"{value * asked_for(priced, unit)[1]:.{PRICE_DIGITS}g}"


def _text(value, per, unit):
    if is_dataclass(value):
        return f" {PAIR} ".join(_text(getattr(value, one.name), MM_PER_M, unit)
                                for one in fields(value))
    if isinstance(value, tuple):
        return "; ".join(_text(one, per, unit) for one in value)
    if isinstance(value, str):
        return value
    return f"{value:.10g}" if per is None else exact_text(value * per, unit)


def exact_text(value_mm, unit):
    """A length as its field has it: read again it is the same length, whatever it was typed in.

    In the unit of the screen where few decimals or a fraction say it, else in the unit they do in.
    """
    other = "in" if unit == "mm" else "mm"
    plain = f"{value_mm / MM_PER_LENGTH_UNIT[unit]:.{DECIMALS}f}".rstrip("0").removesuffix(".")
    tried = (typed_text(value_mm, unit), plain, f"{typed_text(value_mm, 'in')} in",
             f"{inches_text(value_mm, FINEST_PARTS)} in", f"{typed_text(value_mm, other)} {other}")
    return next((text for text in tried if _says(text, unit, value_mm)), f"{value_mm:.6f} mm")


def _says(text, unit, value_mm):
    return abs(parse_length_mm(text, unit, "") - value_mm) < READ_AS_MM


def typed_value(record, key, text, unit):
    """What was typed for one setting, as a table holds it; raises BadInput."""
    name, kind, per = next((name, kind, per) for name, own, kind, per in border_fields(type(record))
                           if own == key)
    if get_origin(bare(kind)) is not tuple:
        return _value(text, kind, per, unit, key)
    found = [_value(one, get_args(bare(kind))[0], per, unit, key, MORE)
             for one in BETWEEN.split(text) if one.strip()]
    least, most = _bounds(kind, "min_length", "max_length")
    if not least <= len(found) <= most:
        usual = next(one.default for one in fields(record) if one.name == name)
        many = f"{least}" if least == most else f"{least} to {most}"
        raise BadInput([Fault(key, text or "blank", f"{many} entries with a semicolon between "
                              f"them, such as {_text(usual, per, unit) or PAIRS}")])
    return found


def typed_number(text, key):
    """A number without a unit, with a point or a comma; raises BadInput."""
    bare_text = text.strip()
    if THOUSANDS.fullmatch(bare_text):
        raise BadInput([Fault(key, repr(text), "the comma could mark thousands or decimals: leave "
                              "it out")])
    try:
        return float(bare_text.replace(",", "."))
    except ValueError as error:
        raise BadInput([Fault(key, repr(text), "a number alone, such as 12.5: what it is for "
                              "stands over the field")]) from error


def typed_sum(text, key):
    """A price or a share: a number as `typed_number`, with the sign of a currency or of percent
    beside it or without; raises BadInput."""
    left = text.strip()
    if key.endswith(PERCENT):
        left = left.removesuffix("%")
    elif left and category(left[0]) == CURRENCY:
        left = left[1:]
    elif left and category(left[-1]) == CURRENCY:
        left = left[:-1]
    return typed_number(left, key)


def _value(text, kind, per, unit, key, more=""):
    """What a text says, as a table holds it; `more` is what may also be wrong with a length."""
    plain = bare(kind)
    if is_dataclass(plain):
        parts, sides = border_fields(plain), text.split(PAIR)
        if len(sides) != len(parts):
            raise BadInput([Fault(key, text.strip(), f"two lengths such as {PAIRS}{more}")])
        return {own: _value(side, its, MM_PER_M, unit, key)
                for (_, own, its, _), side in zip(parts, sides, strict=True)}
    if plain is not float:
        return text
    if per is not None:
        return _length_mm(text, kind, unit, key, more)
    priced, value = _priced(kind), typed_sum(text, key)
    return value / asked_for(priced, unit)[1] if priced else value


def _length_mm(text, kind, unit, key, more):
    try:
        value = parse_length_mm(text, unit, key)
    except BadInput as error:
        (fault,) = error.faults
        raise BadInput([replace(fault, allowed=fault.allowed + more)]) from error
    fault = out_of_range(text.strip(), unit, value, _bounds(kind, "ge", "le"),
                         lambda other: parse_length_mm(text, other, key))
    if fault:
        raise BadInput([Fault(key, *fault.split(": ", 1))])
    return value


def _bounds(kind, *names):
    """What is annotated to a type under these names, such as its least and its most."""
    said = [one for more in get_args(kind)[1:] for one in more.metadata]
    return tuple(next(getattr(one, name) for one in said if hasattr(one, name)) for name in names)
