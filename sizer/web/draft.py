"""The one state of a wizard session: what was typed, chosen and held. Nothing else is kept.

Lengths are kept in mm and masses in kg beside the text as typed, so that switching units rewrites
the texts and never rounds what was entered.
"""

from dataclasses import asdict, dataclass, field

from sizer.errors import BadInput
from sizer.fit.uses import USES
from sizer.paddler.measures import REQUIRED
from sizer.units import (
    KG_PER_LB,
    KG_PER_MASS_UNIT,
    KG_PER_STONE,
    LB_PER_STONE,
    MM_PER_IN,
    MM_PER_LENGTH_UNIT,
    inches_error_mm,
    inches_text,
    parse_length_mm,
    parse_mass_kg,
)

PADDLER_FIELDS = ("weight_kg", "stature_mm", "hip_width_mm", "inseam_mm", "sitting_height_mm",
                  "foot_length_mm", "shoe_length_mm", "shoulder_width_mm")
FIELDS = (*PADDLER_FIELDS, "gear_kg")
LENGTH_UNITS = ("mm", "cm", "in")
MASS_UNITS = ("kg", "lb", "st")
MOST_VARIANTS = 4
# A paddler of our own invention, to try the wizard with.
SAMPLE = {"weight_kg": 74.0, "stature_mm": 1715.0, "hip_width_mm": 392.0}


@dataclass
class Entry:
    """One typed figure: the text, and what it was understood as (None: blank or at fault)."""

    text: str = ""
    value: float | None = None  # mm or kg
    fault: str = ""


@dataclass(frozen=True)
class Variant:
    """A boat kept beside the present one: its name, and the wishes that lead to it."""

    name: str
    wishes: dict


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
    speed_mps: float = 1.8  # at which drag is told
    held: dict[str, float] = field(default_factory=dict)  # by key of a request's `fixed`
    follow: bool = False  # whether the sizes that are not held follow those that are
    wished: dict[str, float] = field(default_factory=dict)  # by key of a request's `wishes`
    own_design: str | bytes | None = None  # text of an uploaded base, read without fault
    own_name: str = ""
    own_file: str = ""  # which upload it was, so that it is read once
    sample: bool = False
    variants: list[Variant] = field(default_factory=list)
    notes: str = ""  # the builder's own, kept with the job

    def unit_of(self, key):
        """The unit a figure is typed in now."""
        return self.mass_unit if key.endswith("_kg") else self.length_unit

    def enter(self, key, text):
        """Takes what was typed; a text at fault is kept beside its fault.

        The first figure of a customer clears the sample's, so that the two are never mixed.
        """
        if self.sample and key in PADDLER_FIELDS:
            self.entries |= {name: Entry() for name in PADDLER_FIELDS}
            self.sample = False
        entry = Entry(text)
        if text.strip():
            parse = parse_mass_kg if key.endswith("_kg") else parse_length_mm
            try:
                entry.value = parse(text, self.unit_of(key), key)
            except BadInput as error:
                entry.fault = f"{error.faults[0].value}: {error.faults[0].allowed}"
        self.entries[key] = entry

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

    def wish(self, key, value):
        """Takes one wish; none is left where it is as drawn."""
        self.wished = {name: one for name, one in {**self.wished, key: value}.items() if one}

    def clear_paddler(self):
        """An empty form for the next customer; use, base and water stay."""
        self.entries |= {key: Entry() for key in FIELDS}
        self.held, self.wished, self.follow = {}, {}, False
        self.bags_l, self.sample = None, False

    def wishes(self):
        """Everything that was entered, as plain JSON values; variants and notes are beside it."""
        kept = asdict(self)
        for beside in ("variants", "notes", "own_file"):
            del kept[beside]
        return kept

    def take(self, wishes):
        """Puts kept wishes back, in the units of now."""
        units = self.length_unit, self.mass_unit
        for key, value in wishes.items():
            setattr(self, key, value)
        self.entries = {key: Entry(**wishes["entries"][key]) for key in FIELDS}
        self.held, self.wished = dict(wishes["held"]), dict(wishes["wished"])
        self.bags_l = tuple(wishes["bags_l"]) if wishes["bags_l"] else None
        self.switch_units(*units)

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
        if self.held:
            request["fixed"] = dict(self.held)
        if self.held and self.follow:
            request["follow"] = True
        if self.wished:
            request["wishes"] = dict(self.wished)
        return request


def typed_text(value, unit):
    """How a figure is written in a field: plainly, an exact 1/32 in as a fraction."""
    if unit == "in":
        exact = abs(inches_error_mm(value, 32)) < 1e-6
        return inches_text(value, 32) if exact else f"{value / MM_PER_IN:.2f}"
    if unit == "st":
        return _stone_text(value, 1)
    of_unit = {"cm": 10.0, "lb": KG_PER_LB}.get(unit, 1.0)
    return f"{value / of_unit:.{2 if unit == 'cm' else 1}f}".rstrip("0").removesuffix(".")


def in_unit(value, unit):
    """A length in mm or a mass in kg, in a unit of the screen."""
    return value / (MM_PER_LENGTH_UNIT | KG_PER_MASS_UNIT)[unit]


def length_text(value_mm, unit):
    """A length for reading, with its unit."""
    if unit == "in":
        return f"{inches_text(value_mm, 16)} in"
    of_unit, digits = (10.0, 1) if unit == "cm" else (1.0, 0)
    return f"{round(value_mm / of_unit, digits) + 0.0:.{digits}f} {unit}"  # + 0.0: no -0


def mass_text(value_kg, unit):
    """A mass for reading, with its unit."""
    if unit == "st" and value_kg >= KG_PER_STONE:
        return _stone_text(value_kg, 0) + " lb"
    return f"{value_kg:.1f} kg" if unit == "kg" else f"{value_kg / KG_PER_LB:.0f} lb"


def _stone_text(value_kg, decimals):
    """Stone and pounds, such as 11 st 9."""
    stone, pounds = divmod(round(value_kg / KG_PER_LB, decimals), LB_PER_STONE)
    return f"{stone:.0f} st {pounds:.{decimals}f}".removesuffix(".0")
