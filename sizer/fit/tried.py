"""One boat tried beside the fitted one: some dimensions moved, all else as it is, checked in full.

The other dimensions stay where the fit put them and are not fitted anew; the seat slides to level
trim as it does in a fit, unless it is held or is itself what moves.
"""

from dataclasses import dataclass, replace

import numpy as np

from sizer.errors import BadInput, NotSolved, WillNotFloat
from sizer.fit.assess import Assessed, assess
from sizer.fit.checks import Check, checks_of
from sizer.fit.facts import facts_of
from sizer.fit.mishaps import mishap_facts, quick_righting
from sizer.fit.sought import FACTORS
from sizer.hull.boat import SECTION_COUNT

NOT_AFLOAT = "does not float with its rim clear"
UNKNOWN = "could not be worked out"
MOST_GEAR_KG = 60.0  # at the end of the gear's axis: a laden camping boat; our judgement


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
    """One boat tried, and its checks; neither where `why_not` says why it has none."""

    assessed: Assessed | None
    checks: tuple[Check, ...]
    why_not: str = ""  # NOT_AFLOAT or UNKNOWN


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
    """A function from moved settings to Tried."""
    own, person = assessed.boat.scaling, assessed.person
    if not seat_held:  # assess slides it from the base's own place
        own = replace(own, seat_shift_m=0.0)
    near = quick_righting(assessed)

    def attempt(moved):
        factors = {key: value for key, value in moved.items() if key in FACTORS}
        scaling = replace(own, seat_shift_m=moved.get("seat", own.seat_shift_m), **factors)
        who = replace(person, gear_kg=moved.get("gear", person.gear_kg))
        try:
            found = assess(assessed.boat.lines, scaling, who, SECTION_COUNT, assessed.start,
                           seat_held or "seat" in moved)
            if found.particulars.rim_freeboard_m <= 0.0:  # as the fit refuses it
                return Tried(None, (), NOT_AFLOAT)
            facts = replace(facts_of(found), mishap=mishap_facts(found, near))
            return Tried(found, checks_of(facts))
        except WillNotFloat:
            return Tried(None, (), NOT_AFLOAT)
        except (NotSolved, BadInput):
            return Tried(None, (), UNKNOWN)

    return attempt
