"""All that leads to one boat: what was typed, chosen and held, declared once and frozen.

The types below are what is checked, undone, compared and saved. Lengths are kept in mm and masses
in kg beside the text as typed, so that switching units rewrites the texts and never rounds what was
entered.
"""

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field, create_model, model_serializer

from sizer.design.library import shipped_names, shipped_text
from sizer.errors import BadInput, Fault
from sizer.fit.request import FIXED, MOST_GEAR_KG, WISHES
from sizer.fit.shop_bias import ALLOWED as SHOP_BIAS
from sizer.fit.uses import USES
from sizer.hydro.water import HIGHEST_C, KINDS, LOWEST_C
from sizer.paddler.body import PREDICTED_HIPS
from sizer.paddler.measures import HIP_POSTURES, HIPS, RANGES, REQUIRED
from sizer.units import (
    KG_PER_LB,
    KG_PER_MASS_UNIT,
    LB_PER_STONE,
    MM_PER_IN,
    MM_PER_LENGTH_UNIT,
    inches_error_mm,
    inches_text,
    parse_length_mm,
    parse_mass_kg,
)

PADDLER_FIELDS = tuple(RANGES)
FIELDS = (*PADDLER_FIELDS, "gear_kg")
ALLOWED = {**RANGES, "gear_kg": (0, MOST_GEAR_KG)}  # in mm and kg
LENGTH_UNITS = ("mm", "cm", "in")
MASS_UNITS = ("kg", "lb", "st")
MOST = 1e5  # mm or kg of any figure
LONGEST, LONGEST_FAULT = 200, 400  # letters
# A paddler of our own invention, to try the wizard with.
SAMPLE = {"weight_kg": 74.0, "stature_mm": 1715.0, "hip_width_mm": 392.0}

_Short = Annotated[str, Field(max_length=LONGEST)]
_Amount = Annotated[float, Field(allow_inf_nan=False, ge=-MOST, le=MOST)]


class Part(BaseModel):
    """A frozen record that is checked whenever one is made, and read by the names of its fields."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    def __getitem__(self, name):
        return getattr(self, name)

    def but(self, **changes):
        """The same with some fields changed, checked again."""
        return type(self).model_validate(dict(self) | changes)


class _Sparse(Part):
    """Saved without the fields that say nothing."""

    @model_serializer(mode="wrap")
    def _said(self, dump):
        return {name: value for name, value in dump(self).items()
                if value != type(self).model_fields[name].default}


class Entry(Part):
    """One typed figure: the text, and what it was understood as (None: blank or at fault)."""

    text: _Short = ""
    value: _Amount | None = None  # mm or kg
    fault: Annotated[str, Field(max_length=LONGEST_FAULT)] = ""


def typed_entry(key, text, unit, allowed):
    """The Entry of what was typed; a text at fault is kept beside its fault.

    Parameters
    ----------
    key : says by its suffix what it is: _kg a mass, _deg an angle, all else a length
    text : str
    unit : "mm", "cm", "in", "kg", "lb", "st" or "deg", of a bare number
    allowed : lowest, highest, in mm, kg or degrees
    """
    value, fault = None, ""
    if text.strip():
        parse = _PARSED_BY.get(unit_kind(key), parse_length_mm)
        try:
            value = parse(text, unit, key)
            fault = _out_of_range(text, unit, value, allowed, lambda other: parse(text, other, key))
            value = None if fault else value
        except BadInput as error:
            fault = f"{error.faults[0].value}: {error.faults[0].allowed}"[:LONGEST_FAULT]
    return Entry(text=text, value=value, fault=fault)


def unit_kind(key):
    """"mass", "angle" or "length": what a figure is by its key's suffix."""
    return {"kg": "mass", "deg": "angle"}.get(key.rpartition("_")[2], "length")


def parse_angle_deg(text, _unit, place):
    """A typed angle in degrees; raises BadInput naming `place`."""
    try:
        return float(text.replace("°", "").replace(",", ".").strip())
    except ValueError:
        raise BadInput([Fault(place, f"{text!r:.40}", "degrees, such as 2.5")]) from None


_PARSED_BY = {"mass": parse_mass_kg, "angle": parse_angle_deg}
_UNITS_OF = {"st": KG_PER_MASS_UNIT, "lb": KG_PER_MASS_UNIT, "kg": KG_PER_MASS_UNIT, "deg": ()}


def _out_of_range(text, own, value, allowed, in_unit):
    """What is wrong with a figure that cannot be; "" where nothing is.

    A bare number that would do in another unit is asked about.
    """
    low, high = allowed
    if low <= value <= high:
        return ""
    fault = (f"{text:.30}: {typed_text(low, own)} to {typed_text(high, own)}"
             f"{'' if own == 'st' else f' {own}'} is allowed")
    for unit in _UNITS_OF.get(own, MM_PER_LENGTH_UNIT):
        if unit != own and in_unit(unit) != value and low <= in_unit(unit) <= high:
            return f"{fault}; if you mean {text.strip():.30} {unit}, write the unit"
    return f"{fault}; measure again"


def _within(low, high, kind=float):
    return Annotated[kind, Field(ge=low, le=high)]


Entries = create_model("Entries", __base__=Part, **{key: (Entry, Entry()) for key in FIELDS})
Held = create_model("Held", __base__=_Sparse, **{  # sizes by key of a request's `fixed`
    key: (_within(low, high) | None, None) for key, (low, high, _) in FIXED.items()})
Wished = create_model("Wished", __base__=_Sparse, **{  # by key of a request's `wishes`
    key: (_within(low, high), 0.0) for key, (low, high, _) in WISHES.items()})


OwnBias = create_model("OwnBias", __base__=_Sparse, **{  # by key of a request's `shop_bias`
    key: (_within(*((0.0, high) if key == "boats" else (low, high))), 0.0)
    for key, (low, high, _) in SHOP_BIAS.items()})


class Entered(Part):
    """All that leads to one boat: what is undone, kept as a variant and saved."""

    entries: Entries = Entries()
    hip_measured: Literal[HIP_POSTURES] = "sitting"
    length_unit: Literal[LENGTH_UNITS] = "mm"
    mass_unit: Literal[MASS_UNITS] = "kg"
    use: Literal[tuple(USES)] = next(iter(USES))
    base: _Short = "day-boat"
    water_kind: Literal[KINDS] = "fresh"
    water_c: _within(LOWEST_C, HIGHEST_C) = 10.0
    bags_l: tuple[_Amount, _Amount] | None = None  # bow and stern; None: those that fill the ends
    speed_mps: _within(0.3, 5) = 1.8  # at which drag is told
    held: Held = Held()
    follow: bool = False  # whether the sizes that are not held follow those that are
    wished: Wished = Wished()
    shop_bias: OwnBias = OwnBias()  # of this shop's launches, as it was when switched on
    own_design: Annotated[str, Field(max_length=2_100_000)] | None = None  # read without fault
    own_name: _Short = ""
    sample: bool = False

    def unit_of(self, key):
        """The unit a figure is typed in now."""
        return self.mass_unit if key.endswith("_kg") else self.length_unit

    def enter(self, key, text):
        """With what was typed, as `typed_entry`.

        The first figure of a customer clears the sample's, so that the two are never mixed.
        """
        entries, sample = self.entries, self.sample and key not in PADDLER_FIELDS
        if sample != self.sample:
            entries = Entries(gear_kg=entries.gear_kg)
        entry = typed_entry(key, text, self.unit_of(key), ALLOWED[key])
        return self.but(entries=entries.but(**{key: entry}), sample=sample)

    def in_units(self, length_unit, mass_unit):
        """With every understood text rewritten in other units; what was entered stays exact."""
        other = self.but(length_unit=length_unit, mass_unit=mass_unit)
        texts = {key: entry.but(text=typed_text(entry.value, other.unit_of(key)))
                 for key, entry in self.entries
                 if entry.value is not None and other.unit_of(key) != self.unit_of(key)}
        return other.but(entries=self.entries.but(**texts))

    def with_sample(self):
        """With the sample paddler filled in."""
        blank = self.but(sample=False, hip_measured="sitting",
                         entries=Entries(gear_kg=self.entries.gear_kg))
        for key, value in SAMPLE.items():
            blank = blank.enter(key, typed_text(value, self.unit_of(key)))
        return blank.but(sample=True)

    def hold(self, key, value):
        """With one size held; None lets go of it."""
        return self.but(held=self.held.but(**{key: value}))

    def wish(self, key, value):
        """With one wish; 0 leaves it where it is as drawn."""
        return self.but(wished=self.wished.but(**{key: value}))

    def on(self, base, **design):
        """On another base, where nothing is held yet."""
        return self.but(base=base, held=Held(), **design)

    def ready(self):
        """Whether the needed measures are there and nothing typed is at fault."""
        return not self.missing() and not self.at_fault()

    def at_fault(self):
        """Keys of the figures that cannot be read, of those that count."""
        return tuple(key for key, entry in self.entries
                     if entry.fault and not (key == HIPS and self.hips_predicted()))

    def missing(self):
        """Keys of the needed measures that are not there."""
        return tuple(key for key in REQUIRED if self.entries[key].value is None
                     and not (key == HIPS and self.hips_predicted()))

    def hips_predicted(self):
        """Whether the hips count as not measured, whatever stands in their field."""
        return self.hip_measured in PREDICTED_HIPS

    def base_text(self):
        """The text of the base design's file."""
        return shipped_text(self.base) if self.base in shipped_names() else self.own_design

    def request(self):
        """The request as the engine reads it."""
        paddler = {key: self.entries[key].value for key in PADDLER_FIELDS
                   if self.entries[key].value is not None
                   and not (key == HIPS and self.hips_predicted())}
        paddler["hip_measured"] = self.hip_measured
        request = {"base": self.base, "use": self.use, "paddler": paddler,
                   "water": {"kind": self.water_kind, "temperature_c": self.water_c}}
        if self.entries.gear_kg.value is not None:
            request["gear_kg"] = self.entries.gear_kg.value
        if self.held != Held():
            request |= {"fixed": self.held.model_dump()} | ({"follow": True} if self.follow else {})
        if self.wished != Wished():
            request["wishes"] = self.wished.model_dump()
        if self.shop_bias != OwnBias():
            request["shop_bias"] = self.shop_bias.model_dump()
        return request


def typed_text(value, unit):
    """How a figure is written in a field: plainly, an exact 1/32 in as a fraction."""
    if unit == "in":
        exact = abs(inches_error_mm(value, 32)) < 1e-6
        return inches_text(value, 32) if exact else f"{value / MM_PER_IN:.2f}"
    if unit == "st":
        return stone_text(value, 1)
    of_unit = {"cm": 10.0, "lb": KG_PER_LB}.get(unit, 1.0)
    return f"{value / of_unit:.{2 if unit == 'cm' else 1}f}".rstrip("0").removesuffix(".")


def signed_text(value, unit):
    """The same for a figure that may be under zero."""
    return ("-" if value < 0.0 else "") + typed_text(abs(value), unit)


def stone_text(value_kg, decimals):
    """Stone and pounds, such as 11 st 9."""
    stone, pounds = divmod(round(value_kg / KG_PER_LB, decimals), LB_PER_STONE)
    return f"{stone:.0f} st {pounds:.{decimals}f}".removesuffix(".0")
