"""What is typed at the bench and at the launch: kept beside the boat, as typed."""

from typing import Annotated, Literal

from pydantic import Field

from sizer.built.asked import words_of
from sizer.built.trial import AFLOAT, FELT, SWAMPED
from sizer.units import MM_PER_M
from sizer.web.figures import Entry, Part, rewritten, typed_entry

MOST_FIGURES = 600
MOST_READINGS = 8  # of heel
ZERO = "heel0_deg"  # before any weight is aboard: where the paddler sits sideways
_Key = Annotated[str, Field(max_length=120)]


class Figures(Part):
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

    def in_units(self, units):
        """With every understood text rewritten in units that changed, as `rewritten`."""
        return self.but(entries={**self.entries, **rewritten(self.entries.items(), units)})

    def values(self):
        return {key: entry.value for key, entry in self.entries.items() if entry.value is not None}

    def faults(self):
        return {key: entry.fault for key, entry in self.entries.items() if entry.fault}


class DryFitEntered(Figures):
    """A dry fit as typed; keys are those of `sizer.built.asked`."""

    tape_mm: Annotated[float, Field(ge=0.2, le=20.0)] = 2.0
    accepted: bool = False  # whether the boat as it stands is the boat from then on
    # keys of what is far off its design, and read the same a second time
    read_again: Annotated[tuple[_Key, ...], Field(max_length=MOST_FIGURES)] = ()

    words = staticmethod(words_of)

    def enter(self, key, text, unit, allowed):
        """As of Figures; what is measured anew has to be accepted anew, and read twice anew."""
        return super().enter(key, text, unit, allowed).but(
            accepted=False, read_again=tuple(one for one in self.read_again if one != key))

    def again(self, *keys):
        """With some measures read a second time, the same."""
        return self.but(read_again=(*(one for one in self.read_again if one not in keys), *keys))


class LaunchEntered(Figures):
    water_kind: Literal["as fitted", "fresh", "salt"] = "as fitted"
    swamped: Literal[tuple(key for key, _ in SWAMPED)] = "not"
    readings: Annotated[int, Field(ge=3, le=MOST_READINGS)] = 3  # of heel, that the page asks for
    felt: Annotated[tuple[Literal[tuple(key for key, _ in FELT)], ...],
                    Field(max_length=len(FELT))] = ()
    # keys of figures that were read again and are so, however unlikely
    confirmed: Annotated[tuple[_Key, ...], Field(max_length=MOST_FIGURES)] = ()

    def enter(self, key, text, unit, allowed):
        """As of Figures; a reading that is typed anew has to be confirmed anew."""
        return super().enter(key, text, unit, allowed).but(confirmed=tuple(
            one for one in self.confirmed if _reading_of(one) != _reading_of(key)))

    def confirm(self, so, *keys):
        """With the readings of some keys confirmed, or no longer."""
        others = tuple(one for one in self.confirmed if one not in keys)
        return self.but(confirmed=(*others, *keys) if so else others)

    @staticmethod
    def words(key):
        """A figure's key as a person would name it."""
        return LAUNCH_WORDS.get(key, key)

    def trial(self, height_m, temperature_c):
        """What is typed whole as `sizer.built.trial.read_trial` takes it.

        First comes the heel without a weight. Weights go to starboard first, then to port, and so
        on by turns; `height_m` is where they stand over the baseline.
        """
        typed = self.values()
        given = {key: typed[key] for key in ("boat_kg", "load_kg") if key in typed}
        boards = {key: typed[f"afloat_{key}"] for key in AFLOAT if f"afloat_{key}" in typed}
        if boards:
            given["afloat"] = [boards]
        if self.water_kind != "as fitted":
            given["water"] = {"kind": self.water_kind, "temperature_c": temperature_c}
        still = [{"kg": 0.0, "off_centre_mm": 0.0, "height_mm": height_m * MM_PER_M,
                  "heel_deg": typed[ZERO]}] if ZERO in typed else []
        given["heel"] = still + [
            {"kg": kg, "off_centre_mm": side * off, "height_mm": height_m * MM_PER_M,
             "heel_deg": side * heel}
            for number in self.whole_readings()
            for kg, off, heel in [[typed[key] for key in heel_keys(number)]]
            for side in [1.0 if number % 2 else -1.0]]
        given["confirmed"] = [name for name, key in self.reading_keys().items()
                              if key in self.confirmed]
        return given

    def reading_keys(self):
        """{name of a reading of `trial`, as a Trial's outside: the key of its figure}."""
        typed = self.values()
        boat = {"boat_kg": "boat_kg"} if "boat_kg" in typed else {}
        boards = {f"afloat[1].{key}": f"afloat_{key}" for key in AFLOAT
                  if f"afloat_{key}" in typed}
        heels = [ZERO] * (ZERO in typed) + [heel_keys(number)[-1]
                                            for number in self.whole_readings()]
        return {**boat, **boards, **{f"heel[{number}].arm_mm": key
                                     for number, key in enumerate(heels, start=1)}}

    def whole_readings(self):
        """Numbers of the readings of which every figure is understood; others are left out."""
        typed = self.values()
        return [number for number in range(1, self.readings + 1)
                if all(key in typed for key in heel_keys(number))]


def heel_keys(number):
    """Keys of one reading's weight, distance off the centre and heel."""
    return f"heel{number}_kg", f"heel{number}_off_mm", f"heel{number}_deg"


def _reading_of(key):
    """What the figure of a key is read with: a heel with its weight and distance."""
    return key.partition("_")[0] if key.startswith("heel") else key


LAUNCH_WORDS = {
    "boat_kg": "the boat's weight", "load_kg": "paddler and gear",
    **{f"afloat_{key}": f"freeboard at the {key.removesuffix('_mm')}" for key in AFLOAT},
    ZERO: "heel without a weight",
    **{key: f"{what} of reading {number}" for number in range(1, MOST_READINGS + 1)
       for key, what in zip(heel_keys(number), ("weight", "distance", "heel"), strict=True)}}
