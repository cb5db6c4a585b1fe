"""All that leads to one boat: what was typed, chosen and held, declared once and frozen.

The types below are what is checked, undone, compared and saved.
"""

from typing import Annotated, Literal

from pydantic import Field, create_model, model_serializer

from sizer.as_typed import parse_temperature_c
from sizer.design.library import shipped_names, shipped_text
from sizer.errors import BadInput
from sizer.fit.request import FIXED, MOST_GEAR_KG, WISHES
from sizer.fit.shop_bias import ALLOWED as SHOP_BIAS
from sizer.fit.uses import USES
from sizer.hydro.water import HIGHEST_C, KINDS, LOWEST_C
from sizer.paddler.body import PREDICTED_HIPS
from sizer.paddler.measures import HIP_POSTURES, HIPS, RANGES, REQUIRED
from sizer.units import LENGTH_UNITS, length_text, mark_text, of_metres, temperature_figure
from sizer.web import figures

PADDLER_FIELDS = tuple(RANGES)
FIELDS = (*PADDLER_FIELDS, "gear_kg")
ALLOWED = {**RANGES, "gear_kg": (0, MOST_GEAR_KG)}  # in mm and kg
LABELS = {  # as the pages name them
    "weight_kg": "Weight", "stature_mm": "Height", "hip_width_mm": "Hip width",
    "inseam_mm": "Inseam", "sitting_height_mm": "Sitting height", "foot_length_mm": "Foot length",
    "shoe_length_mm": "Paddling shoe length", "shoulder_width_mm": "Shoulder width",
    "gear_kg": "Gear", "water_c": "Water temperature"}
WISH_WORDS = {  # by key of a request's `wishes`: label, what it is called from -1 to 1
    "room": ("Room inside", ("snug", "snugger", "as drawn", "roomier", "roomy")),
    "steadiness": ("Steadiness", ("lively", "livelier", "as drawn", "steadier", "steady")),
    "length": ("Length for the load", ("handy", "handier", "as drawn", "faster", "fast"))}
MASS_UNITS = ("kg", "lb", "st")
# A paddler of our own invention, to try the wizard with.
SAMPLE = {"weight_kg": 74.0, "stature_mm": 1715.0, "hip_width_mm": 392.0}

class _Sparse(figures.Part):
    """Saved without the fields that say nothing."""

    @model_serializer(mode="wrap")
    def _said(self, dump):
        return {name: value for name, value in dump(self).items()
                if value != type(self).model_fields[name].default}


def _within(low, high, kind=float):
    return Annotated[kind, Field(ge=low, le=high)]


Entries = create_model("Entries", __base__=figures.Part, **{
    key: (figures.Entry, figures.Entry()) for key in FIELDS})
Held = create_model("Held", __base__=_Sparse, **{  # sizes by key of a request's `fixed`
    key: (_within(low, high) | None, None) for key, (low, high, _) in FIXED.items()})
Wished = create_model("Wished", __base__=_Sparse, **{  # by key of a request's `wishes`
    key: (_within(low, high), 0.0) for key, (low, high, _) in WISHES.items()})


OwnBias = create_model("OwnBias", __base__=_Sparse, **{  # by key of a request's `shop_bias`
    key: (_within(*((0.0, high) if key == "boats" else (low, high))), 0.0)
    for key, (low, high, _) in SHOP_BIAS.items()})


def temperature_units(length_unit):
    """Those a temperature is typed in, by the unit of lengths, the one of a bare number first."""
    return ("°F", "°C") if length_unit == "in" else ("°C", "°F")


def water_fault(text, length_unit):
    """(what is wrong with a water temperature as typed or "", the °C it says; None where blank)."""
    if not text.strip():
        return "", None
    units = temperature_units(length_unit)
    first, other = (" to ".join(temperature_figure(end, unit) for end in (LOWEST_C, HIGHEST_C))
                    + f" {unit}" for unit in units)
    try:
        value = parse_temperature_c(text, units[0], "water_c")
    except BadInput as error:
        return f"{text:.30}: {error.faults[0].allowed}", None
    if not LOWEST_C <= value <= HIGHEST_C:
        return (f"{text:.30}: {first}, or {other} with its unit, is allowed; for warmer water "
                f"{temperature_figure(HIGHEST_C, units[0])} will do"), None
    return "", value


def wish_word(key, value):
    """What a wish from -1 to 1 is called."""
    return WISH_WORDS[key][1][round(2.0 * value) + 2]


class Entered(figures.Part):
    """All that leads to one boat: what is undone, kept as a variant and saved."""

    entries: Entries = Entries()
    hip_measured: Literal[HIP_POSTURES] = "sitting"
    length_unit: Literal[LENGTH_UNITS] = "mm"
    mass_unit: Literal[MASS_UNITS] = "kg"
    use: Literal[tuple(USES)] = next(iter(USES))
    base: figures.Short = "day-boat"
    water_kind: Literal[KINDS] = "fresh"
    water_c: _within(LOWEST_C, HIGHEST_C) = 10.0
    water_unread: figures.Short = ""  # a temperature as typed, where it cannot be: no boat then
    bags_l: tuple[figures.Amount, figures.Amount] | None = None  # bow, stern; None: they fill them
    speed_mps: _within(0.3, 5) = 1.8  # at which drag is told
    held: Held = Held()
    follow: bool = False  # whether the sizes that are not held follow those that are
    wished: Wished = Wished()
    shop_bias: OwnBias = OwnBias()  # of this shop's launches, as it was when switched on
    own_design: figures.DesignText | None = None  # read without fault
    own_name: figures.Short = ""
    sample: bool = False

    def unit_of(self, key):
        """The unit a figure is typed in now."""
        kind = figures.unit_kind(key)
        return {"mass": self.mass_unit, "angle": "°"}.get(kind, self.length_unit)

    @property
    def said(self):
        """What says a length of metres for reading, with its unit; for all Drafts of a unit."""
        return of_metres(length_text, self.length_unit)

    def said_mm(self, value_mm):
        """The same of one in mm."""
        return length_text(value_mm, self.length_unit)

    @property
    def marked(self):
        """What says it as it is marked off at the bench; the same."""
        return of_metres(mark_text, self.length_unit)

    def weighed(self, value_kg, tenths=False):
        """A mass for reading, as `mass_text`."""
        return figures.mass_text(value_kg, self.mass_unit, tenths)

    def enter(self, key, text):
        """With what was typed, as `typed_entry`.

        The first figure of a customer clears the sample's, so that the two are never mixed.
        """
        entries, sample = self.entries, self.sample and key not in PADDLER_FIELDS
        if sample != self.sample:
            entries = Entries(gear_kg=entries.gear_kg)
        entry = figures.typed_entry(key, text, self.unit_of(key), ALLOWED[key])
        return self.but(entries=entries.but(**{key: entry}), sample=sample)

    def in_units(self, length_unit, mass_unit):
        """With every understood text rewritten in other units; what was entered stays exact."""
        texts = figures.rewritten(self.entries, self.changed_units(length_unit, mass_unit))
        unread, was, then = self.water_unread, *(
            temperature_units(unit)[0] for unit in (self.length_unit, length_unit))
        if was != then and unread and unread.strip()[-1].isdigit():
            unread = f"{unread} {was}"  # it was a bare number
        return self.but(length_unit=length_unit, mass_unit=mass_unit, water_unread=unread,
                        entries=self.entries.but(**texts))

    def changed_units(self, length_unit, mass_unit):
        """{"length" or "mass": unit} of those that differ from the units of now."""
        return {kind: unit for kind, unit, now in (
            ("length", length_unit, self.length_unit), ("mass", mass_unit, self.mass_unit))
            if unit != now}

    def with_sample(self):
        """With the sample paddler filled in: the same to the last digit in any units."""
        plain = Entered()
        for key, value in SAMPLE.items():
            plain = plain.enter(key, figures.typed_text(value, plain.unit_of(key)))
        entries = plain.in_units(self.length_unit, self.mass_unit).entries
        return self.but(sample=True, hip_measured="sitting",
                        entries=entries.but(gear_kg=self.entries.gear_kg))

    def hold(self, key, value):
        return self.but(held=self.held.but(**{key: value}))

    def letting_go(self, keys):
        """With some sizes held no longer; where none is left, none is there to follow."""
        held = self.held.but(**dict.fromkeys(keys))
        return self.but(held=held, follow=self.follow and held != Held())

    def wish(self, key, value):
        """With one wish; 0 leaves it where it is as drawn."""
        return self.but(wished=self.wished.but(**{key: value}))

    def on(self, base, **design):
        """On another base, where nothing is held yet."""
        return self.but(base=base, held=Held(), **design)

    def ready(self):
        """Whether the needed measures are there and nothing typed is at fault."""
        return not self.missing() and not self.at_fault()

    def in_water(self, text):
        """With a water temperature as it was typed; a blank leaves it as it was."""
        fault, value = water_fault(text, self.length_unit)
        if fault:
            return self.but(water_unread=text)
        return self.but(water_unread="", **({} if value is None else {"water_c": value}))

    def at_fault(self):
        """{key of a figure that cannot be read, of those that count: what is wrong with it}."""
        faults = {key: entry.fault for key, entry in self.entries
                  if entry.fault and not (key == HIPS and self.hips_predicted())}
        if self.water_unread:
            faults["water_c"] = water_fault(self.water_unread, self.length_unit)[0]
        return faults

    def missing(self):
        return tuple(key for key in REQUIRED if self.entries[key].value is None
                     and not (key == HIPS and self.hips_predicted()))

    def hips_predicted(self):
        """Whether the hips count as not measured, whatever stands in their field."""
        return self.hip_measured in PREDICTED_HIPS

    def base_text(self):
        return shipped_text(self.base) if self.base in shipped_names() else self.own_design

    def request(self):
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
