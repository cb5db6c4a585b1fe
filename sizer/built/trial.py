"""What a launch measured: weight, freeboards, heel under a known weight. Read with every fault.

And the inclining experiment in one line, each way.
"""

from dataclasses import dataclass, replace

import numpy as np

from sizer.border import outside, unknown_keys
from sizer.errors import BadInput, Fault
from sizer.hydro.water import HIGHEST_C, KINDS, LOWEST_C, Water, water_at
from sizer.units import MM_PER_M, plain_number

MOST_HEEL_DEG = 15.0  # beyond it a hull's side is no longer the upright one's; our judgement
KEYS = ("boat_kg", "load_kg", "water", "afloat", "heel", "confirmed")
AFLOAT = ("bow_mm", "stern_mm", "side_mm")
RANGES = {"boat_kg": (3.0, 100.0), "load_kg": (1.0, 400.0), "bow_mm": (-200.0, 1500.0),
          "stern_mm": (-200.0, 1500.0), "side_mm": (-200.0, 800.0), "kg": (0.0, 60.0),
          "off_centre_mm": (-600.0, 600.0), "height_mm": (-200.0, 1500.0),
          "heel_deg": (-MOST_HEEL_DEG, MOST_HEEL_DEG), "temperature_c": (LOWEST_C, HIGHEST_C)}
MOST_ROWS = 50
SIDES = ("starboard", "port")  # that the weights go to, by turns
FELT = (  # what a paddler may have felt, by key; our own list
    ("stiff", "too stiff: hard to lean"),
    ("tippy", "tippy: you sit still, and it goes over farther by itself"),
    ("knees", "knees tight"), ("hips_loose", "hips loose"), ("hips_tight", "hips tight"),
    ("feet", "feet do not reach"),
    ("wind", "wind turns it"), ("straight", "will not turn"), ("turns", "will not run straight"),
    ("wet", "wet in waves"), ("back", "back aches"), ("good", "felt right"),
)
FELT_STOPS = ("tippy", "knees", "hips_tight", "feet")  # so felt, it is not paddled; our judgement
SITTING = (*FELT_STOPS, "stiff", "hips_loose")  # felt before it is paddled
SWAMPED = (("not", "not tried"), ("out", "stayed up with nobody in"),
           ("rolled", "turned over with nobody in"),
           ("in", "stayed up with the paddler in"),
           ("over", "turned over with the paddler in"), ("sank", "went under"))
SWAMPED_STOPS = ("not", "rolled", "sank")  # so, or not, swamped, it is not paddled; our judgement


# Each reading of Freeboards: what it is compared with, of Particulars
HEIGHTS = {"bow_m": "bow_freeboard_m", "stern_m": "stern_freeboard_m", "side_m": "freeboard_m"}


@dataclass(frozen=True)
class Freeboards:
    """From the water to the sheer at bow, stern, and its lowest; None where not read."""

    bow_m: float | None
    stern_m: float | None
    side_m: float | None


@dataclass(frozen=True)
class Heeled:
    """One reading of the steadiness trial; distance and heel positive to starboard."""

    kg: float
    off_centre_m: float
    height_m: float  # of the weight over the baseline
    heel_deg: float


@dataclass(frozen=True)
class Trial:
    """A launch as measured; None where it was not."""

    boat_kg: float | None
    load_kg: float | None  # paddler, clothes and gear together
    water: Water | None
    afloat: tuple[Freeboards, ...]
    heel: tuple[Heeled, ...]
    confirmed: tuple[str, ...] = ()  # readings, as `reading_names`, that count however unlikely


def reading_names(trial):
    """Names of a Trial's readings, in the order in which they are compared."""
    return (*(["boat_kg"] if trial.boat_kg is not None else []),
            *(f"afloat[{number}].{key}" for number, one in enumerate(trial.afloat, start=1)
              for key in HEIGHTS if getattr(one, key) is not None),
            *(f"heel[{number}].arm_m" for number, _ in enumerate(trial.heel, start=1)))


def read_trial(given):
    """A Trial from a JSON-like dict; raises BadInput with every fault."""
    if not isinstance(given, dict):
        raise BadInput([Fault("trial", f"{given!r:.60}", "a JSON object; see launch --help")])
    faults = unknown_keys(given, KEYS)
    boat, load = (_number(given, key, key, faults, False) for key in KEYS[:2])
    water = _water(given.get("water"), faults)
    afloat = [Freeboards(*(_m(one, key, place, faults, False) for key in AFLOAT))
              for place, one in _rows(given, "afloat", AFLOAT, faults)]
    heel = [Heeled(_number(one, "kg", f"{place}.kg", faults),
                   _m(one, "off_centre_mm", place, faults), _m(one, "height_mm", place, faults),
                   _number(one, "heel_deg", f"{place}.heel_deg", faults))
            for place, one in _rows(given, "heel", ("kg", "off_centre_mm", "height_mm",
                                                    "heel_deg"), faults)]
    if not faults and boat is None and not afloat and not heel:
        faults.append(Fault("trial", "nothing", "at least one of boat_kg, afloat, heel"))
    trial = Trial(boat, load, water, tuple(afloat), tuple(heel))
    confirmed = _confirmed(given.get("confirmed"), trial, faults)
    if faults:
        raise BadInput(faults)
    return replace(trial, confirmed=confirmed)


def _confirmed(given, trial, faults):
    """Names of the readings that are said to be so."""
    if given is None or faults:
        return ()
    names = {outside(name)[0]: name for name in reading_names(trial)}
    if not isinstance(given, list) or not all(
            isinstance(one, str) and one in names for one in given):
        faults.append(Fault("confirmed", f"{given!r:.60}", "a list of " + ", ".join(names)))
        return ()
    return tuple(names[one] for one in given)


def _rows(given, name, keys, faults):
    rows = given.get(name, [])
    if not isinstance(rows, list) or len(rows) > MOST_ROWS:
        faults.append(Fault(name, f"{rows!r:.40}", f"a list of up to {MOST_ROWS} readings"))
        return []
    found = []
    for number, row in enumerate(rows, start=1):
        place = f"{name}[{number}]"
        if isinstance(row, dict) and any(value is not None for value in row.values()):
            faults += unknown_keys(row, keys, f"{place}.")
            found.append((place, row))
        else:
            faults.append(Fault(place, f"{row!r:.40}", "an object with " + ", ".join(keys)))
    return found


def _m(row, key, place, faults, must=True):
    value = _number(row, key, f"{place}.{key}", faults, must)
    return None if value is None else value / MM_PER_M


def _number(row, key, place, faults, must=True):
    if row.get(key) is None and not must:
        return None
    (low, high), value = RANGES[key], plain_number(row.get(key))
    if value is None or not low <= value <= high:
        faults.append(Fault(place, f"{row.get(key)!r:.40}", f"a number from {low:g} to {high:g}"))
        return None
    return value


def _water(given, faults):
    if given is None:
        return None
    if not isinstance(given, dict) or given.get("kind") not in KINDS:
        faults.append(Fault("water", f"{given!r:.60}", "an object with kind fresh or salt"))
        return None
    temperature = _number(given, "temperature_c", "water.temperature_c", faults)
    return None if temperature is None else water_at(given["kind"], temperature)


def gm_of_reading_m(weight_kg, off_centre_m, displacement_kg, heel_deg):
    """GM = w d / (W tan heel), W with the trial weight in it; arrays.

    Raises
    ------
    BadInput outside 0 < |heel| <= 15 degrees.

    Source: Barrass and Derrett, Ship Stability for Students and Mates, the inclining experiment.
    """
    heel = np.asarray(heel_deg, float)
    if not np.all((np.abs(heel) > 0.0) & (np.abs(heel) <= MOST_HEEL_DEG)):
        raise BadInput([Fault("heel_deg", str(heel_deg),
                              f"above 0 and to {MOST_HEEL_DEG:g} degrees to either side")])
    return weight_kg * off_centre_m / (displacement_kg * np.tan(np.radians(heel)))


def heel_of_gm_deg(weight_kg, off_centre_m, displacement_kg, gm_m):
    """The heel at which `gm_of_reading_m` is this GM, above 0; deg."""
    return float(np.degrees(np.arctan(weight_kg * off_centre_m / (displacement_kg * gm_m))))
