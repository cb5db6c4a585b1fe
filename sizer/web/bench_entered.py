"""What is typed at the bench and at the launch: kept beside the boat, as typed, never undone."""

from typing import Annotated, Literal

from pydantic import Field

from sizer.web.entered import Entry, Part, typed_entry, typed_text, unit_kind

MOST_FIGURES = 600
FELT = (  # what a paddler may have felt, by key; our own list
    ("stiff", "too stiff: hard to lean"), ("tippy", "tippy"), ("knees", "knees tight"),
    ("hips_loose", "hips loose"), ("hips_tight", "hips tight"), ("feet", "feet do not reach"),
    ("wind", "wind turns it"), ("straight", "will not turn"), ("turns", "will not run straight"),
    ("wet", "wet in waves"), ("back", "back aches"), ("good", "felt right"),
)
SWAMPED = (("not", "not tried"), ("in", "stayed up with the paddler in"),
           ("over", "turned over with the paddler in"), ("sank", "went under"))
_Key = Annotated[str, Field(max_length=120)]


class Figures(Part):
    """Typed figures by key."""

    entries: Annotated[dict[_Key, Entry], Field(max_length=MOST_FIGURES,
                                                default_factory=dict)]

    def text(self, key):
        """What was typed; "" where nothing was."""
        return self.entries[key].text if key in self.entries else ""

    def enter(self, key, text, unit, allowed):
        """With what was typed in a unit; a blank is no entry."""
        others = {name: entry for name, entry in self.entries.items() if name != key}
        new = {key: typed_entry(key, text, unit, allowed)} if text.strip() else {}
        return self.but(entries={**others, **new})

    def in_units(self, length_unit, mass_unit):
        """With every understood text rewritten in other units; what was entered stays exact."""
        unit = {"length": length_unit, "mass": mass_unit}
        return self.but(entries={
            key: entry.but(text=typed_text(entry.value, unit[unit_kind(key)]))
            if entry.value is not None and unit_kind(key) in unit else entry
            for key, entry in self.entries.items()})

    def values(self):
        """{key: mm, kg or degrees} of what is understood."""
        return {key: entry.value for key, entry in self.entries.items() if entry.value is not None}

    def faults(self):
        """{key: what is wrong} of what is not."""
        return {key: entry.fault for key, entry in self.entries.items() if entry.fault}


class DryFitEntered(Figures):
    """A dry fit as typed; keys are those of `sizer.built.asked`."""

    tape_mm: Annotated[float, Field(ge=0.2, le=20.0)] = 2.0
    accepted: bool = False  # whether the boat as it stands is the boat from then on


class LaunchEntered(Figures):
    """A launch as typed."""

    water_kind: Literal["as fitted", "fresh", "salt"] = "as fitted"
    swamped: Literal[tuple(key for key, _ in SWAMPED)] = "not"
    felt: Annotated[tuple[Literal[tuple(key for key, _ in FELT)], ...],
                    Field(max_length=len(FELT))] = ()
