"""Do the measures of one row belong together: swapped columns, and what no such body has."""

from functools import cache

from sizer.border import inside
from sizer.design.allowed import BODY_MASS_INDEX_KGPM2
from sizer.paddler.body import FIELDS, HIP_SPREAD_M, MEAN, regression
from sizer.paddler.measures import RANGES
from sizer.units import KG_PER_LB, MM_PER_IN, MM_PER_M, plain_number

# Our judgement: off what weight and stature predict by more standard deviations than that.
REFUSED_SD = 6.0
CAUTION_SD = 4.0
# Columns predicted from weight and stature, with their field of the survey's table.
PREDICTED = {"hip_width_mm": "hip_sitting", "inseam_mm": "inseam",
             "sitting_height_mm": "sitting_height", "foot_length_mm": "foot_length",
             "shoulder_width_mm": "shoulder_width"}


def swapped(paddler):
    """A list of one sentence where weight and stature are in pounds and inches or stand in each
    other's place, or of none.

    The stature under weight may be in mm, cm or m. Hips in inches tell the one from the other.
    """
    weight, stature, hips = (plain_number(paddler.get(key))
                             for key in ("weight_kg", "stature_mm", "hip_width_mm"))
    if weight is None or stature is None or _in_range("stature_mm", stature):
        return []
    low, high = BODY_MASS_INDEX_KGPM2
    own_kg, own_mm = weight * KG_PER_LB, stature * MM_PER_IN
    if (_in_range("weight_kg", own_kg) and _in_range("stature_mm", own_mm)
            and low <= own_kg / (own_mm / MM_PER_M) ** 2 <= high
            and (hips is None or _in_range("hip_width_mm", hips * MM_PER_IN))):
        return [f"weight_kg {weight:g} and stature_mm {stature:g} look like pounds and inches, "
                f"{own_kg:.1f} kg and {own_mm:.0f} mm: head the columns weight_lb, stature_in and "
                "hip_width_in"]
    for mm_per_unit in (1.0, 10.0, MM_PER_M):
        stature_mm = weight * mm_per_unit
        if (_in_range("stature_mm", stature_mm) and _in_range("weight_kg", stature)
                and low <= stature / (stature_mm / MM_PER_M) ** 2 <= high):
            return [f"weight_kg {weight:g} and stature_mm {stature:g} look swapped"]
    return []


def _in_range(key, value):
    low, high = RANGES[key]
    return low <= value <= high


def odd_measures(measured):
    """(refusals, cautions), sentences, of what of a Measured is off what weight and stature predict
    beyond REFUSED_SD, or beyond CAUTION_SD."""
    refused, cautions = [], []
    for key, (mean_m, per_kg, per_m, sd_m) in _predictions().items():
        value_m = getattr(measured, inside(key)[0])
        if value_m is None:
            continue
        expected_m = mean_m + per_kg * measured.weight_kg + per_m * measured.stature_m
        if key == "hip_width_mm" and measured.hip_measured == "standing":
            expected_m -= sum(HIP_SPREAD_M) / 2.0
        off = abs(value_m - expected_m) / sd_m
        if off > CAUTION_SD:
            words = (f"{key} {value_m * MM_PER_M:.0f} is {off:.1f} standard deviations from the "
                     f"{expected_m * MM_PER_M:.0f} that weight and stature predict")
            if off > REFUSED_SD:
                refused.append(f"{words}: no such body was surveyed, so measure all three again")
            else:
                cautions.append(f"{words}: measure all three again.")
    return tuple(refused), tuple(cautions)


@cache
def _predictions():
    """By column: mean at no weight and stature, gains per kg and per m, and residual SD.

    The conditional normal on the pooled survey, as `sizer.paddler.body.predict`.
    """
    known = (FIELDS.index("weight_kg"), FIELDS.index("stature"))
    found = {}
    for key, field in PREDICTED.items():
        one = FIELDS.index(field)
        gain, residual_sd = regression(known).of(one)
        found[key] = tuple(map(float, (MEAN[one] - gain @ MEAN[[*known]], *gain, residual_sd)))
    return found
