"""The body that the survey expects of a weight and one measure more."""

import numpy as np

from sizer.errors import BadInput
from sizer.paddler.body import FIELDS, MEAN, regression
from sizer.paddler.measures import read_paddler
from sizer.units import MM_PER_M


def likely_body(measure, at_m, weight_kg):
    """The Measured of a weight and a stature or hip width, the third as the survey expects it.

    Mean of the conditional normal of `sizer.paddler.body`. None outside what we take for a body.
    """
    one, other = map(FIELDS.index, ("stature", "hip_sitting") if measure == "stature" else
                     ("hip_sitting", "stature"))
    gain, _ = regression((0, one)).of(other)
    expected = float(MEAN[other] + gain @ (np.array([weight_kg, at_m]) - MEAN[[0, one]]))
    stature, hips = (at_m, expected) if measure == "stature" else (expected, at_m)
    try:
        return read_paddler({"weight_kg": weight_kg, "stature_mm": stature * MM_PER_M,
                             "hip_width_mm": hips * MM_PER_M})
    except BadInput:
        return None
