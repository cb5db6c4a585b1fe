"""The paddler as measured: reading what was given and refusing what no body can be."""

from collections.abc import Mapping
from dataclasses import MISSING, dataclass, fields
from typing import Annotated, get_origin

from sizer.border import border_fields, inside, outside, unknown_keys
from sizer.design.allowed import BODY_MASS_INDEX_KGPM2, HIP_WIDTH_MM, STATURE_MM, WEIGHT_KG
from sizer.errors import BadInput, Fault
from sizer.paddler.body import FIELDS, MEASURED_AS, PREDICTED_HIPS, predicted_hip
from sizer.units import (
    KG_PER_LB,
    KG_PER_MASS_UNIT,
    MM_PER_LENGTH_UNIT,
    MM_PER_M,
    both_text,
    length_text,
    plain_number,
)

HIP_POSTURES = ("sitting", "standing", *PREDICTED_HIPS)


@dataclass(frozen=True)
class Measured:
    """What the tape and the scale say; None is not measured.

    With each stand the lowest and highest that we take for a grown paddler, as requests and lists
    give them: in kg and mm. Our judgement, as for `sizer.design.allowed`.
    """

    weight_kg: Annotated[float, WEIGHT_KG]
    stature_m: Annotated[float, STATURE_MM]
    hip_width_m: Annotated[float, HIP_WIDTH_MM]
    hip_measured: str = "sitting"  # as asked for; others are told to be measured again
    inseam_m: Annotated[float | None, (500, 1100)] = None
    sitting_height_m: Annotated[float | None, (600, 1150)] = None
    foot_length_m: Annotated[float | None, (180, 360)] = None
    shoe_length_m: Annotated[float | None, (190, 400)] = None
    shoulder_width_m: Annotated[float | None, (300, 700)] = None


RANGES = {key: given.__metadata__[0] for _, key, given, _ in border_fields(Measured)
          if get_origin(given) is Annotated}
REQUIRED = tuple(outside(one.name)[0] for one in fields(Measured) if one.default is MISSING)
# Measure over stature; surveyed means are 0.48 and 0.52-0.53 (ANSUR II), the width our judgement.
# So are a foot's, of 0.15, and a shoe's: what is typed of it may be a shoe's size.
STATURE_RATIOS = {"inseam_mm": (0.40, 0.57), "sitting_height_mm": (0.42, 0.62),
                  "foot_length_mm": (0.13, 0.19), "shoe_length_mm": (0.135, 0.25)}
SIZE_OF_SHOE = "; the size in a shoe is no length: measure it outside, heel to toe"

HIPS = "hip_width_mm"
_UNIT_WORDS = {
    "m": "metres", "cm": "centimetres", "in": "inches", "ft": "feet",
    "g": "grams", "lb": "pounds", "st": "stone",
}  # fmt: skip


def read_paddler(mapping):
    """The Measured paddler from a JSON-like mapping of weight in kg and lengths in mm.

    Keys are those of RANGES, the REQUIRED ones always, and `hip_measured`, one of HIP_POSTURES
    ("sitting" unless given); null is not measured. Hips that are to be predicted are not given.
    Raises BadInput with every fault found, at "paddler" or "paddler.KEY".
    """
    if not isinstance(mapping, Mapping):
        raise BadInput([Fault("paddler", _shown(mapping), "give the measures by name")])
    faults = unknown_keys(mapping, (*RANGES, "hip_measured"), "paddler.")
    posture = "sitting" if mapping.get("hip_measured") is None else mapping["hip_measured"]
    predicted = isinstance(posture, str) and posture in PREDICTED_HIPS
    numbers = {}
    for key in RANGES:
        if key == HIPS and predicted and mapping.get(key) is None:
            continue
        fault = _fault_in(key, mapping.get(key))
        if fault:
            faults.append(fault)
        elif mapping.get(key) is not None:
            numbers[key] = plain_number(mapping[key])
    if posture not in HIP_POSTURES:
        allowed = ("write sitting or standing, as the tape was held, or, not measured, "
                   + ", ".join(PREDICTED_HIPS))
        faults.append(Fault("paddler.hip_measured", _shown(posture), allowed))
    if predicted and HIPS in numbers:
        faults.append(Fault(f"paddler.{HIPS}", f"{numbers[HIPS]:g} mm", "leave it out where the "
                            "hips are to be predicted, or say that they were measured sitting"))
    faults += _faults_between(numbers)
    if faults:
        raise BadInput(faults)
    measures = {}
    for key, number in numbers.items():
        name, per = inside(key)
        measures[name] = number if per is None else number / per
    if predicted:
        measures["hip_width_m"] = _hips_not_measured(posture, measures)
    return Measured(hip_measured=posture, **measures)


def _hips_not_measured(posture, measures):
    """The hip width as predicted, in m; refused where the survey predicts what no body has."""
    known = {FIELDS.index(name): measures[field] for name, field in MEASURED_AS.items()
             if field in measures}
    found = predicted_hip(posture, known)
    low, high = RANGES[HIPS]
    if not low <= found.low_m * MM_PER_M <= found.high_m * MM_PER_M <= high:
        raise BadInput([Fault(f"paddler.{HIPS}", "not measured", f"for this weight and height it "
                              f"would be {found.low_m * MM_PER_M:.0f} to "
                              f"{found.high_m * MM_PER_M:.0f} mm, which no survey covers: measure "
                              "it, sitting")])
    return found.value_m


def _fault_in(key, value):
    """What is wrong with one value, or None."""
    place, unit = f"paddler.{key}", key.rsplit("_", 1)[1]
    low, high = RANGES[key]
    number = plain_number(value)
    if value is None and key not in REQUIRED:
        return None
    if number is not None and low <= number <= high:
        return None
    allowed = _range_text(low, high, unit)
    if value is None:
        instead = f", or hip_measured: {', '.join(PREDICTED_HIPS)}" * (key == HIPS)
        return Fault(place, "missing", f"measure it and give {allowed}{instead}")
    if number is None:
        return Fault(place, _shown(value), f"give a plain number, {allowed}")
    meant = _looks_like(number, unit, low, high) or "measure again"
    return Fault(place, f"{number:g} {unit}", f"allowed is {allowed}; {meant}")


def _range_text(low, high, unit):
    """A range in mm or kg, and the same in inches or pounds: who counts in those typed them."""
    if unit == "kg":
        also = f"{low / KG_PER_LB:.0f} to {high / KG_PER_LB:.0f} lb"
    else:
        also = " to ".join((length_text(low, "in").removesuffix(" in"), length_text(high, "in")))
    return f"{low:g} to {high:g} {unit} ({also})"


def _looks_like(number, unit, low, high):
    """The other units in which the number would be allowed, as a question; "" if none."""
    sizes = KG_PER_MASS_UNIT if unit == "kg" else MM_PER_LENGTH_UNIT
    fitting = [
        f"{_UNIT_WORDS[other]}: {number * size:.4g} {unit}?"
        for other, size in sizes.items()
        if other != unit and low <= number * size <= high
    ]
    return "looks like " + " or ".join(fitting) if fitting else ""


def _faults_between(numbers):
    """Measures that are each possible but cannot belong to one body."""
    faults = []
    stature = numbers.get("stature_mm")
    for key, (low, high) in STATURE_RATIOS.items():
        if stature and key in numbers and not low <= numbers[key] / stature <= high:
            allowed = (f"with stature {both_text(stature)} allowed is "
                       f"{_range_text(round(low * stature), round(high * stature), 'mm')}; "
                       "measure both again" + SIZE_OF_SHOE * (key == "shoe_length_mm"))
            faults.append(Fault(f"paddler.{key}", both_text(numbers[key]), allowed))
    if stature and "weight_kg" in numbers:
        faults += _weight_faults(numbers["weight_kg"], stature)
    if numbers.get("shoe_length_mm", 1000) < numbers.get("foot_length_mm", 0):
        allowed = (f"a shoe is longer than its foot, {both_text(numbers['foot_length_mm'])}; "
                   f"measure again{SIZE_OF_SHOE}")
        faults.append(Fault("paddler.shoe_length_mm", both_text(numbers["shoe_length_mm"]),
                            allowed))
    return faults


def _weight_faults(weight_kg, stature_mm):
    low, high = (index * (stature_mm / MM_PER_M) ** 2 for index in BODY_MASS_INDEX_KGPM2)
    if low <= weight_kg <= high:
        return []
    meant = _looks_like(weight_kg, "kg", low, high) or "measure both again"
    allowed = (f"with stature {both_text(stature_mm)} allowed is "
               f"{_range_text(round(low), round(high), 'kg')}; {meant}")
    return [Fault("paddler.weight_kg", f"{weight_kg:g} kg", allowed)]


def _shown(value):
    return f"{value!r:.40}"
