"""The one state of a wizard session: what was typed, chosen and held. Nothing else is kept.

Lengths are kept in mm and masses in kg beside the text as typed, so that switching units rewrites
the texts and never rounds what was entered.
"""

from dataclasses import dataclass, field

from sizer.errors import BadInput
from sizer.fit.uses import USES
from sizer.paddler.measures import REQUIRED
from sizer.units import (
    KG_PER_LB,
    MM_PER_IN,
    inches_error_mm,
    inches_text,
    parse_length_mm,
    parse_mass_kg,
)

PADDLER_FIELDS = ("weight_kg", "stature_mm", "hip_width_mm", "inseam_mm", "sitting_height_mm",
                  "foot_length_mm", "shoe_length_mm", "shoulder_width_mm")
FIELDS = (*PADDLER_FIELDS, "gear_kg")
# A paddler of our own invention, to try the wizard with.
SAMPLE = {"weight_kg": 74.0, "stature_mm": 1715.0, "hip_width_mm": 392.0}


@dataclass
class Entry:
    """One typed figure: the text, and what it was understood as (None: blank or at fault)."""

    text: str = ""
    value: float | None = None  # mm or kg
    fault: str = ""


@dataclass
class Draft:
    """Everything a session holds about one customer."""

    entries: dict[str, Entry] = field(default_factory=lambda: {key: Entry() for key in FIELDS})
    hip_measured: str = "sitting"
    length_unit: str = "mm"
    mass_unit: str = "kg"
    use: str = next(iter(USES))
    base: str = "day-boat"
    water_kind: str = "fresh"
    water_c: float = 10.0
    bags_l: tuple[float, float] | None = None  # bow and stern; None: the smallest that do
    held_mm: dict[str, float] = field(default_factory=dict)
    own_design: str | bytes | None = None  # text of an uploaded base, read without fault
    own_name: str = ""
    own_file: str = ""  # which upload it was, so that it is read once
    sample: bool = False

    def unit_of(self, key):
        """The unit a figure is typed in now."""
        return self.mass_unit if key.endswith("_kg") else self.length_unit

    def enter(self, key, text):
        """Takes what was typed; a text at fault is kept beside its fault."""
        entry = Entry(text)
        if text.strip():
            parse = parse_mass_kg if key.endswith("_kg") else parse_length_mm
            try:
                entry.value = parse(text, self.unit_of(key), key)
            except BadInput as error:
                entry.fault = f"{error.faults[0].value}: {error.faults[0].allowed}"
        self.entries[key] = entry
        self.sample = False

    def switch_units(self, length_unit, mass_unit):
        """Rewrites every understood text in the new units; what was entered stays exact."""
        changed = {"_mm": length_unit != self.length_unit, "_kg": mass_unit != self.mass_unit}
        self.length_unit, self.mass_unit = length_unit, mass_unit
        for key, entry in self.entries.items():
            if entry.value is not None and changed[key[-3:]]:
                entry.text = typed_text(entry.value, self.unit_of(key))

    def load_sample(self):
        """Fills in the sample paddler."""
        for key in PADDLER_FIELDS:
            value = SAMPLE.get(key)
            text = "" if value is None else typed_text(value, self.unit_of(key))
            self.entries[key] = Entry(text, value)
        self.hip_measured, self.sample = "sitting", True

    def ready(self):
        """Whether the needed measures are there and nothing typed is at fault."""
        return (all(self.entries[key].value is not None for key in REQUIRED)
                and not any(entry.fault for entry in self.entries.values()))

    def request(self):
        """The request as the engine reads it."""
        paddler = {key: self.entries[key].value for key in PADDLER_FIELDS
                   if self.entries[key].value is not None}
        paddler["hip_measured"] = self.hip_measured
        request = {"base": self.base, "use": self.use, "paddler": paddler,
                   "water": {"kind": self.water_kind, "temperature_c": self.water_c}}
        if self.entries["gear_kg"].value is not None:
            request["gear_kg"] = self.entries["gear_kg"].value
        if self.held_mm:
            request["fixed"] = dict(self.held_mm)
        return request


def typed_text(value, unit):
    """How a figure is written in a field: plainly, an exact 1/32 in as a fraction."""
    if unit == "in":
        exact = abs(inches_error_mm(value, 32)) < 1e-6
        return inches_text(value, 32) if exact else f"{value / MM_PER_IN:.2f}"
    if unit == "lb":
        return f"{value / KG_PER_LB:.1f}".removesuffix(".0")
    return f"{value:.1f}".removesuffix(".0")


def length_text(value_mm, unit):
    """A length for reading, with its unit."""
    return f"{inches_text(value_mm, 16)} in" if unit == "in" else f"{value_mm:.0f} mm"


def mass_text(value_kg, unit):
    """A mass for reading, with its unit."""
    return f"{value_kg / KG_PER_LB:.0f} lb" if unit == "lb" else f"{value_kg:.1f} kg"
