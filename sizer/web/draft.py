"""The one state of a wizard session, frozen: what leads to the boat, and what is beside it.

Also how its figures are read on the screen.
"""

from typing import Annotated

from pydantic import Field

from sizer.units import (
    KG_PER_LB,
    KG_PER_MASS_UNIT,
    KG_PER_STONE,
    MM_PER_LENGTH_UNIT,
    inches_text,
)
from sizer.web.entered import LONGEST, Entered, Entries, Part, stone_text

MOST_VARIANTS = 4
LONGEST_NOTES = 20_000  # letters


class Variant(Part):
    """A boat kept beside the present one: its name, and what leads to it."""

    name: Annotated[str, Field(max_length=LONGEST)]
    wishes: Entered


class Draft(Entered):
    """Everything a session holds about one customer; what is beside the boat is never undone."""

    variants: Annotated[tuple[Variant, ...], Field(max_length=MOST_VARIANTS)] = ()
    notes: Annotated[str, Field(max_length=LONGEST_NOTES)] = ""  # the builder's own
    customer: int = 0  # counts up with each new one

    def wishes(self):
        """What leads to the boat, without what is beside it."""
        return Entered.model_validate({name: self[name] for name in Entered.model_fields})

    def taking(self, wishes):
        """With other wishes, in the units of now."""
        other = self.but(**{name: wishes[name] for name in Entered.model_fields})
        return other.in_units(self.length_unit, self.mass_unit)

    def new_customer(self):
        """An empty form; only the units and a design of the builder's own stay."""
        return Draft(length_unit=self.length_unit, mass_unit=self.mass_unit,
                     own_design=self.own_design, own_name=self.own_name,
                     customer=self.customer + 1)

    def going_back_to(self, past):
        """A draft of before, in the units of now; a customer keeps variants and notes."""
        if past.customer != self.customer:
            return past.in_units(self.length_unit, self.mass_unit)
        return self.taking(past)

    def differs(self, other):
        """Whether what is entered differs, which units and a figure's writing do not."""
        return self.customer != other.customer or self._content() != other._content()

    def _content(self):
        figures = [entry.text if entry.value is None else entry.value for _, entry in self.entries]
        return figures, self.wishes().but(entries=Entries(), length_unit="mm", mass_unit="kg")


def in_unit(value, unit):
    """A length in mm or a mass in kg, in a unit of the screen."""
    return value / (MM_PER_LENGTH_UNIT | KG_PER_MASS_UNIT)[unit]


def length_text(value_mm, unit):
    """A length for reading, with its unit."""
    if unit == "in":
        return f"{inches_text(value_mm, 16)} in"
    of_unit, digits = (10.0, 1) if unit == "cm" else (1.0, 0)
    return f"{round(value_mm / of_unit, digits) + 0.0:.{digits}f} {unit}"  # + 0.0: no -0


def bare_length(value_mm, unit):
    """A length as `length_text`, its unit left out, for where that stands at the head."""
    return length_text(value_mm, unit).removesuffix(f" {unit}")


def mass_text(value_kg, unit):
    """A mass for reading, with its unit."""
    if unit == "st" and value_kg >= KG_PER_STONE:
        return stone_text(value_kg, 0) + " lb"
    return f"{value_kg:.1f} kg" if unit == "kg" else f"{value_kg / KG_PER_LB:.0f} lb"
