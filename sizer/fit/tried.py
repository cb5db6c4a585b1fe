"""One boat tried beside the fitted one: some dimensions moved, all else as it is, checked in full.

The other dimensions stay where the fit put them and are not fitted anew; the seat slides to level
trim as it does in a fit, unless it is held or is itself what moves.
"""

from dataclasses import dataclass, replace

import numpy as np

from sizer.errors import NotSolved, WillNotFloat
from sizer.fit.assess import Assessed, assess
from sizer.fit.checks import Check, all_checks
from sizer.fit.mishaps import aboard_of, mishap_checks, upper_body_moment
from sizer.fit.search import FACTORS
from sizer.hull.boat import SECTION_COUNT
from sizer.hydro.bags import RIM_MARGIN_M, smallest_bags
from sizer.hydro.ends import End, end_zones
from sizer.hydro.flooded import Flooded, flooded
from sizer.hydro.mover import MOVER_TO_DEG, upright_mover
from sizer.hydro.stability import (
    HEELS_DEG,
    StabilityParticulars,
    righting_curve,
    stability_particulars,
)

MOST_GEAR_KG = 60.0  # at the end of the gear's axis: a laden camping boat; our judgement
UPRIGHT_HALF_DEG = tuple(heel for heel in HEELS_DEG if heel <= MOVER_TO_DEG)


@dataclass(frozen=True)
class Dimension:
    """What can be moved."""

    key: str
    words: str
    unit: str  # "m", "kg" or "of the base"


DIMENSIONS = {one.key: one for one in (
    Dimension("length", "length", "m"), Dimension("beam", "beam", "m"),
    Dimension("depth", "depth", "m"), Dimension("crown", "deck crown", "of the base"),
    Dimension("seat", "seat place", "m"), Dimension("gear", "gear", "kg"))}


@dataclass(frozen=True, eq=False)
class Tried:
    """One boat tried, and its checks."""

    assessed: Assessed
    checks: tuple[Check, ...]


@dataclass(frozen=True, eq=False)
class _Kept:
    """What `mishap_checks` reads of Bags."""

    kept: Flooded
    margin_m: float
    says: str


@dataclass(frozen=True, eq=False)
class _Found:
    """What `mishap_checks` reads of Mishaps."""

    mover_sums: StabilityParticulars
    bags: _Kept


def today_setting(assessed, key):
    """Where today's boat stands: a factor of the base, m of seat shift or kg of gear."""
    if key == "gear":
        return assessed.person.gear_kg
    return getattr(assessed.boat.scaling, "seat_shift_m" if key == "seat" else key)


def settings_of(assessed, key, count):
    """Evenly spaced settings between the base's limits; the gear's end is our own."""
    if key == "gear":
        low, high = 0.0, max(MOST_GEAR_KG, assessed.person.gear_kg)
    elif key == "seat":
        forward, high = assessed.boat.design.cockpit.seat_slide_m
        low = -forward
    else:
        low, high = getattr(assessed.boat.design.limits, key)
    return np.unique(np.linspace(low, high, count))


def unit_size(assessed, key):
    """What one of a setting is in the dimension's unit: the base's own size for a factor."""
    if DIMENSIONS[key].unit == "m" and key in FACTORS:
        return getattr(assessed.boat, f"{key}_m") / getattr(assessed.boat.scaling, key)
    return 1.0


def attempt_with(assessed, seat_held):
    """A function from moved settings to Tried, or None where the boat does not float."""
    own, person = assessed.boat.scaling, assessed.person
    if not seat_held:  # assess slides it from the base's own place
        own = replace(own, seat_shift_m=0.0)
    near = righting_curve(assessed.boat.sections, assessed.loading.load, person.water,
                          UPRIGHT_HALF_DEG)

    def attempt(moved):
        if all(value == today_setting(assessed, key) for key, value in moved.items()):
            moved = {}  # today's boat itself: a slid seat's own weight stays where it was drawn
        factors = {key: value for key, value in moved.items() if key in FACTORS}
        scaling = replace(own, seat_shift_m=moved.get("seat", own.seat_shift_m), **factors)
        who = replace(person, gear_kg=moved.get("gear", person.gear_kg))
        try:
            found = assess(assessed.boat.lines, scaling, who, SECTION_COUNT, assessed.start,
                           seat_held or "seat" in moved)
            if found.particulars.rim_freeboard_m <= 0.0:  # as the fit refuses it
                return None
            return Tried(found, (*all_checks(found), *_late_checks(found, near)))
        except (WillNotFloat, NotSolved):
            return None

    return attempt


def _late_checks(found, near):
    """The mishap checks, with the same statuses as a job's in a quarter of the time.

    Where the largest bags keep the rim clear, the smallest that do are not looked for.
    """
    boat, water, aboard = found.boat, found.person.water, aboard_of(found)
    rigid = righting_curve(boat.sections, found.loading.load, water, UPRIGHT_HALF_DEG, near)
    fits = end_zones(boat, aboard.gear)
    largest = [End(float(np.floor(zone.bag_l))) for zone in (fits.bow, fits.stern)]
    with_largest = flooded(boat, found.weight, aboard, *largest, water)
    clear = with_largest.rim_clearance_m
    if clear is not None and clear >= RIM_MARGIN_M:
        bags = _Kept(with_largest, RIM_MARGIN_M, with_largest.says)
    else:  # smaller ones may float it more level
        bags = smallest_bags(boat, found.weight, aboard, water)
    mover = upright_mover(rigid, upper_body_moment(found))
    return mishap_checks(found, _Found(stability_particulars(mover), bags))
