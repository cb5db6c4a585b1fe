"""A record of settings as texts to type, and back: derived from its declaration, field by field."""

import re
from dataclasses import dataclass, fields, is_dataclass
from typing import Literal, get_args, get_origin

from pydantic.fields import FieldInfo

from sizer.border import bare, border_fields, record_in
from sizer.errors import BadInput, Fault
from sizer.units import MM_PER_M, parse_length_mm
from sizer.web.figures import typed_text

BETWEEN = re.compile(r";|,\s")  # entries of a list: a comma without a space may be a decimal's
PAIR = "="


@dataclass(frozen=True)
class SettingField:
    """One setting as it is shown."""

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
        plain = bare(kind)
        choices = get_args(plain) if get_origin(plain) is Literal else ()
        yield SettingField(key, _title(kind), choices, _text(getattr(record, name), per, unit),
                           per is not None or record_in(kind) is not None)


def _title(kind):
    return next((one.title for one in get_args(kind) if isinstance(one, FieldInfo) and one.title),
                None)


def _text(value, per, unit):
    if is_dataclass(value):
        return f" {PAIR} ".join(_text(getattr(value, one.name), MM_PER_M, unit)
                                for one in fields(value))
    if isinstance(value, tuple):
        return "; ".join(_text(one, per, unit) for one in value)
    if isinstance(value, str):
        return value
    return f"{value:.10g}" if per is None else typed_text(value * per, unit)


def typed_value(record, key, text, unit):
    """What was typed for one setting, as a table holds it; raises BadInput."""
    kind, per = next((kind, per) for _, own, kind, per in border_fields(type(record)) if own == key)
    return _value(text, bare(kind), per, unit, key)


def typed_number(text, key):
    """A number without a unit, with a point or a comma; raises BadInput."""
    try:
        return float(text.strip().replace(",", "."))
    except ValueError as error:
        raise BadInput([Fault(key, repr(text), "a number such as 12.5")]) from error


def _value(text, kind, per, unit, key):
    """What a text says, as a table holds it."""
    if is_dataclass(kind):
        keys, sides = [own for _, own, _, _ in border_fields(kind)], text.split(PAIR)
        if len(sides) != len(keys):
            raise BadInput([Fault(key, repr(text), f"two lengths such as 12 {PAIR} 11.7")])
        return {own: _value(side, float, MM_PER_M, unit, key)
                for own, side in zip(keys, sides, strict=True)}
    if get_origin(kind) is tuple:
        return [_value(one, bare(get_args(kind)[0]), per, unit, key)
                for one in BETWEEN.split(text) if one.strip()]
    if kind is not float:
        return text
    return typed_number(text, key) if per is None else parse_length_mm(text, unit, key)
