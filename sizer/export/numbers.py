"""Numbers and text of JSON answers: finite, rounded far below what any figure is worth."""

import json
from dataclasses import fields

import numpy as np

from sizer.border import outside
from sizer.units import MM_PER_M

DIGITS = 4  # after the point: a tenth of a micrometre in mm


def json_text(answer, indent=None):
    """One JSON object on one line, or indented by so many; a NaN or infinity is a bug and raises
    ValueError."""
    return json.dumps(answer, ensure_ascii=False, allow_nan=False, indent=indent)


def number(value, digits=DIGITS):
    """A rounded float; None stays None."""
    return None if value is None else round(float(value), digits) + 0.0  # + 0.0: no -0.0


def named(record, *names):
    """Some fields of a record, or all, by their keys outside: `x_m` in mm as `x_mm`, rounded."""
    return {key: _outside(getattr(record, name), per or 1.0)
            for name in names or (one.name for one in fields(record))
            for key, per in (outside(name),)}


def _outside(value, per):
    if isinstance(value, (tuple, np.ndarray)):
        return [_outside(one, per) for one in value]
    value = value.item() if isinstance(value, np.generic) else value
    return number(value * per) if isinstance(value, float) else value


def mm(value_m):
    """Metres as rounded millimetres; None stays None."""
    return None if value_m is None else number(value_m * MM_PER_M)
