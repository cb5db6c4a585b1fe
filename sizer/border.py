"""What stands at a border: records in SI inside, tables with the shop's units outside.

A name ends in its unit. One rule leads from a record's field to the table's key and back, with the
numbers in it: `x_m` is `x_mm` outside, `coating_kgpm2` is `coating_gpm2`, `gear_kg` stays. A tuple
of records, `frames`, is outside a list of tables under its singular, `frame`.
"""

import json
from collections import Counter
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from difflib import get_close_matches
from functools import cache
from typing import Annotated, get_args, get_origin, get_type_hints

import numpy as np

from sizer.as_typed import unit_spelled
from sizer.errors import Fault
from sizer.units import KG_PER_MASS_UNIT, MM_PER_LENGTH_UNIT, MM_PER_M

FAMILIAR = {"height": "stature_mm", "tall": "stature_mm", "hips": "hip_width_mm",
            "hip": "hip_width_mm", "weight": "weight_kg"}  # what people head a list with
OUTSIDE = {"_m": ("_mm", MM_PER_M), "_kgpm2": ("_gpm2", 1000.0)}
# Units in which a list may head a column instead, by how a key ends: what one of each is in that.
OTHER_UNITS = {"_mm": MM_PER_LENGTH_UNIT, "_kg": KG_PER_MASS_UNIT}
DECIMALS = 6  # of a number outside: undoes the rounding on its way in and out again
LIKE = 0.6  # share of letters from which a name may be meant, as difflib counts; our judgement
MOST_DIGITS = 400  # of a whole number; more is beyond every float
INSIDE = {"inside": True}  # metadata of a field that has no place outside


def outside(name):
    """A field's key outside, and how many are there one SI unit: `("x_mm", 1000.0)`; else None."""
    for ending, (outer, per) in OUTSIDE.items():
        if name.endswith(ending):
            return name.removesuffix(ending) + outer, per
    return name, None


def inside(key):
    """A key's field inside, and how many outside are one SI unit: `("x_m", 1000.0)`; else None."""
    for ending, (outer, per) in OUTSIDE.items():
        if key.endswith(outer):
            return key.removesuffix(outer) + ending, per
    return key, None


def of_other_unit(name, known):
    """The known key that a name in another unit means, and that unit: `("stature_mm", "in")` for
    `stature_in` or `stature_inches`; else None."""
    stem, _, word = name.rpartition("_")
    unit = unit_spelled(word)
    for ending, sizes in OTHER_UNITS.items():
        if unit in sizes and stem + ending in known:
            return stem + ending, unit
    return None


@cache
def border_fields(kind):
    """(field, its key outside, its type, numbers outside per SI number or None) of a record."""
    types, found = get_type_hints(kind, include_extras=True), []
    for one in fields(kind):
        if one.metadata != INSIDE:
            given, (key, per) = types[one.name], outside(one.name)
            if record_in(given) not in (None, bare(given)):
                key = key.removesuffix("s")
            found.append((one.name, key, given, per))
    return tuple(found)


def bare(kind):
    """A type without what is annotated to it."""
    return get_args(kind)[0] if get_origin(kind) is Annotated else kind


def record_in(kind):
    """The kind of record that a type holds, by itself or as a tuple of them; None for others."""
    return next((one for one in (bare(kind), *get_args(bare(kind))) if is_dataclass(one)), None)


def table_of(record, forms):
    """The table outside, a dict of plain values, of a record.

    Parameters
    ----------
    record : a dataclass instance
    forms : {kind: function}, how records that are written in a way of their own are written
    """
    return {key: _out(getattr(record, name), per, forms)
            for name, key, _, per in border_fields(type(record))}


def record_of(kind, table, forms):
    """The record of a table outside, which holds every key.

    Parameters
    ----------
    kind : a dataclass
    table : dict
    forms : {kind: function}, how records that are written in a way of their own are read
    """
    return kind(**{name: _in(table[key], per, given, forms)
                   for name, key, given, per in border_fields(kind)})


def typed_json(raw):
    """What JSON says that somebody wrote, as text or bytes.

    Raises ValueError, which says in words what is wrong: a key that stands twice too, since only
    one of its values could be heard.
    """
    try:
        return json.loads(raw, object_pairs_hook=_each_once, parse_int=_whole)
    except RecursionError as error:
        raise ValueError("brackets in brackets in brackets") from error


def _each_once(pairs):
    found = dict(pairs)
    if len(found) < len(pairs):
        (key, _), = Counter(key for key, _ in pairs).most_common(1)
        raise ValueError(f"{_shown(key)} stands twice")
    return found


def _whole(digits):
    return int(digits) if len(digits) < MOST_DIGITS else float(digits)


def unknown_keys(given, known, place=""):
    """A list of a Fault for each key that is not known; `place` goes before the key."""
    return [Fault(f"{place}{_shown(str(key))}", "unknown key", nearest(key, known))
            for key in given if key not in known]


def _shown(key):
    """The start of a key as one line that can be printed anywhere."""
    return key[:40] if key.isprintable() else repr(key)[1:-1][:40]


def nearest(name, known):
    """What to do about an unknown name, in words."""
    name = str(name).strip().lower()
    stem, _, word = name.rpartition("_")
    meant = FAMILIAR.get(stem)
    if meant in known and unit_spelled(word):  # such as height_in
        other = f"{meant.rpartition('_')[0]}_{unit_spelled(word)}"
        if of_other_unit(other, known):
            return f"did you mean {other}?"
    near = get_close_matches(FAMILIAR.get(name, name), known, 1, LIKE)
    return f"did you mean {near[0]}?" if near else "known are " + ", ".join(known)


def _out(value, per, forms):
    if type(value) in forms:
        return forms[type(value)](value)
    if is_dataclass(value):
        return table_of(value, forms)
    if isinstance(value, Mapping):
        return {key: _out(one, per, forms) for key, one in value.items()}
    if isinstance(value, (tuple, np.ndarray)):
        return [_out(one, per, forms) for one in value]
    return value if per is None else round(float(value) * per, DECIMALS)


def _in(value, per, kind, forms):
    kind = bare(kind)
    if kind in forms:
        return forms[kind](value)
    if is_dataclass(kind):
        return record_of(kind, value, forms)
    if kind is np.ndarray:
        return np.array(value) / per
    if isinstance(value, dict):
        return {key: _in(one, per, get_args(kind)[1], forms) for key, one in value.items()}
    if isinstance(value, list):
        return tuple(_in(one, per, get_args(kind)[0], forms) for one in value)
    return value if None in (value, per) else value / per
