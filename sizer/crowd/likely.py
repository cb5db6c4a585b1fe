"""The body that the survey expects of a weight and one measure more, or one built like somebody.

Built like somebody: what is not fixed is off what the survey expects by as much as theirs is.
"""

from dataclasses import replace

import numpy as np

from sizer.border import outside
from sizer.errors import BadInput
from sizer.paddler.body import FIELDS, MEAN, MEASURED_AS, predict, regression
from sizer.paddler.measures import Measured, read_paddler
from sizer.units import MM_PER_M

SHOE = "shoe_length"
FURTHER = {name: field for name, field in {**MEASURED_AS, SHOE: "shoe_length_m"}.items()
           if name not in ("weight_kg", "stature", "hip_sitting")}  # that may be measured


def likely_body(measure, at_m, weight_kg, like=None):
    """The Measured of a weight and a stature or hip width, as `measure` says, the rest as the
    survey expects it: the mean of the conditional normal of `sizer.paddler.body`, built `like` a
    Measured where one is given. None outside what we take for a body."""
    stature, hips = _both(measure, at_m, weight_kg)
    if like is not None:
        own = sitting(like)
        at = own.stature_m if measure == "stature" else own.hip_width_m
        expected = _both(measure, at, own.weight_kg)
        stature += own.stature_m - expected[0]
        hips += own.hip_width_m - expected[1]
    try:
        found = _read(weight_kg, stature, hips)
        more = {} if like is None else _further(found, own)
        return _read(weight_kg, stature, hips, **more) if more else found
    except BadInput:
        return None


def sitting(measured):
    """A Measured whose hip width is the sitting one, however it was come by."""
    return replace(measured, hip_width_m=predict(measured).hip_sitting.value_m,
                   hip_measured="sitting")


def _both(measure, at_m, weight_kg):
    """Stature and hip width in m, one given and the other expected."""
    one, other = map(FIELDS.index, ("stature", "hip_sitting") if measure == "stature" else
                     ("hip_sitting", "stature"))
    gain, _ = regression((0, one)).of(other)
    expected = float(MEAN[other] + gain @ (np.array([weight_kg, at_m]) - MEAN[[0, one]]))
    return (at_m, expected) if measure == "stature" else (expected, at_m)


def _further(found, own):
    """{field of a Measured: m} of what else was measured, off what is predicted as it is there."""
    taken = [name for name, field in FURTHER.items() if getattr(own, field) is not None]
    if not taken:
        return {}
    here, there = (predict(Measured(one.weight_kg, one.stature_m, one.hip_width_m))
                   for one in (found, own))
    return {FURTHER[name]: getattr(here, name).value_m + getattr(own, FURTHER[name])
            - getattr(there, name).value_m for name in taken}


def _read(weight_kg, stature_m, hip_width_m, **more):
    given = {"stature_m": stature_m, "hip_width_m": hip_width_m, **more}
    return read_paddler({"weight_kg": weight_kg, **{
        outside(name)[0]: value * MM_PER_M for name, value in given.items()}})
