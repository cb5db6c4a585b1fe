"""The one state of a wizard session, frozen: what leads to the boat, and what is beside it.

Also how its figures are read on the screen.
"""

from typing import Annotated

from pydantic import Field

from sizer.book.records import LONGEST_MARK
from sizer.units import KG_PER_MASS_UNIT, MM_PER_LENGTH_UNIT
from sizer.web.bench_entered import DryFitEntered, LaunchEntered
from sizer.web.entered import Entered, Entries
from sizer.web.figures import LONGEST, Part, meant
from sizer.web.own_table import OwnTable

MOST_VARIANTS = 4
LONGEST_NOTES = 20_000  # letters


class Variant(Part):
    """A boat kept beside the present one: its name, and what leads to it."""

    name: Annotated[str, Field(max_length=LONGEST)]
    wishes: Entered


class Draft(Entered):
    """Everything a session holds about one customer: what is undone, and kept in the book."""

    variants: Annotated[tuple[Variant, ...], Field(max_length=MOST_VARIANTS)] = ()
    notes: Annotated[str, Field(max_length=LONGEST_NOTES)] = ""  # the builder's own
    mark: Annotated[str, Field(max_length=LONGEST_MARK)] = ""  # the customer's name, or any mark
    dry_fit: DryFitEntered = DryFitEntered()
    launch: LaunchEntered = LaunchEntered()
    own_table: OwnTable | None = None  # of the page Own design; None: as the base is drawn

    def wishes(self):
        """What leads to the boat, without what is beside it."""
        return Entered.model_validate({name: self[name] for name in Entered.model_fields})

    def taking(self, wishes):
        """With other wishes, in the units of now; all that is beside the boat stays."""
        other = self.but(**{name: wishes[name] for name in Entered.model_fields})
        return other.in_units(self.length_unit, self.mass_unit)

    def in_units(self, length_unit, mass_unit):
        """As of Entered; what was typed at the bench is rewritten too."""
        changed = self.changed_units(length_unit, mass_unit)
        return super().in_units(length_unit, mass_unit).but(
            **{name: self[name].in_units(changed) for name in AT_BENCH})

    def new_boat(self):
        """The same without what was measured of a boat that stands: for a sister."""
        return self.but(dry_fit=DryFitEntered(), launch=LaunchEntered())

    def new_customer(self):
        """An empty form; only the units and a design of the builder's own stay."""
        return Draft(length_unit=self.length_unit, mass_unit=self.mass_unit,
                     own_design=self.own_design, own_name=self.own_name,
                     own_table=self.own_table)

    def differs(self, other):
        """Whether what is entered differs, which units and a figure's writing do not."""
        return self._content() != other._content()

    def _content(self):
        figures = [meant(self.entries), *(meant(self[name].entries.items()) for name in AT_BENCH)]
        return figures, self.but(entries=Entries(), length_unit="mm", mass_unit="kg",
                                 **{name: self[name].but(entries={}) for name in AT_BENCH})


AT_BENCH = ("dry_fit", "launch")
BESIDE = tuple(name for name in Draft.model_fields if name not in Entered.model_fields)


def in_unit(value, unit):
    """A length in mm or a mass in kg, in a unit of the screen."""
    return value / (MM_PER_LENGTH_UNIT | KG_PER_MASS_UNIT)[unit]
