"""The fit: the smallest change of the base that passes every check.

Bounded least squares over the length, beam, depth and crown factors. Each factor's change counts
squared; each check that is short of its limit adds its shortfall, squared and steep. So the answer
is the least changed boat that passes where one exists, and otherwise the boat that is short by
least, the hard checks first. The opening follows from the body, the seat slides to level the boat
inside each evaluation. Nothing is random: the same request gives the same boat.
"""

from dataclasses import dataclass

import numpy as np

from sizer.errors import BadInput, Fault, WillNotFloat
from sizer.fit.assess import Assessed, assess
from sizer.fit.checks import Check, all_checks, overall
from sizer.fit.person import legs_stretch
from sizer.fit.reasons import set_by, unmet
from sizer.fit.search import Search
from sizer.hull.boat import SECTION_COUNT, scaled_boat
from sizer.hull.scale import Scaling
from sizer.paddler.room import room_needed
from sizer.units import MM_PER_M


@dataclass(frozen=True, eq=False)
class Fitted:
    """The fitted boat, its checks, and what set each dimension."""

    assessed: Assessed
    checks: tuple[Check, ...]
    status: str
    set_by: dict[str, str]
    unmet: tuple[str, ...]  # sentences: what could not be met and what would have to give


def fit(lines, person, fixed=(), explained=True):
    """Fits a base to a person.

    Parameters
    ----------
    lines : Lines of the base design
    person : Person
    fixed : pairs of a key of `request.FIXED` and its value, held where they are
    explained : whether to find what set each dimension, a fifth of the work; else that is empty

    Raises
    ------
    BadInput, where a held dimension lies outside the base's limits.
    WillNotFloat, where even the largest boat within the limits cannot carry the load.
    """
    held = dict(fixed)
    opening, opening_reason = _opening(lines.design, person, held)
    fixed_factors = _fixed_factors(lines, held)
    seat_shift_m = _seat_shift_m(lines.design, held)
    search = Search(lines, person, Scaling(legs=legs_stretch(lines.design, person.body),
                                            seat_shift_m=seat_shift_m or 0.0, **opening),
                    fixed_factors, seat_shift_m is not None)
    try:
        logs = search.best()
    except WillNotFloat as error:
        raise WillNotFloat(_too_heavy(lines, person.body.weight_kg + person.gear_kg)) from error
    assessed = assess(lines, search.scaling(logs), person, SECTION_COUNT, search.start,
                      search.seat_held)
    rim = assessed.particulars.rim_freeboard_m
    if rim <= 0.0:
        raise WillNotFloat(_too_heavy(lines, assessed.loading.load.mass_kg))
    checks = all_checks(assessed)
    why = {}
    if explained:
        why = set_by(search, logs, opening_reason) | _seat_reason(search, assessed)
    return Fitted(assessed, checks, overall(checks), why, unmet(checks, search, logs))


def _seat_reason(search, assessed):
    if search.seat_held:
        reason = "held by you"
    elif assessed.boat.scaling.seat_shift_m:
        reason = "slid towards level trim"
    else:
        reason = "unchanged: level enough"
    return {"seat_shift_mm": reason}


def _too_heavy(lines, mass_kg):
    return (f"will not float this: {mass_kg:.1f} kg puts the cockpit rim of {lines.design.name} "
            "under water even at its largest; take less, or a larger base design")


def _opening(design, person, held):
    """Opening length and width: the base's own unless the body needs more, within its limits."""
    room = room_needed(person.body, design.cockpit.entry)
    sizes, reasons, faults = {}, {}, []
    for key, needed, own, (low, high) in (
        ("cockpit_length", room.opening_length_m, design.cockpit.length_m,
         design.limits.cockpit_length_m),
        ("cockpit_width", room.opening_width_m, design.cockpit.width_m,
         design.limits.cockpit_width_m),
    ):
        mm_key = f"{key}_mm"
        if mm_key in held:
            size, reason = held[mm_key] / MM_PER_M, "held by you"
            if not low - 1e-9 <= size <= high + 1e-9:
                faults.append(_outside(mm_key, held[mm_key], low * MM_PER_M, high * MM_PER_M))
        elif needed <= own:
            size, reason = own, "unchanged: the base's opening is large enough"
        else:
            size, reason = min(needed + 0.0005, high), "room to get in and out"
            if needed > high:
                reason = "largest the base allows; the body needs more to get in and out"
        sizes[f"{key}_m"], reasons[mm_key] = size, reason
    if faults:
        raise BadInput(faults)
    return sizes, reasons


def _fixed_factors(lines, held):
    """Held length, beam, depth and crown as factors of the base.

    Raises BadInput with every one that is outside the base's limits.
    """
    if not held:
        return {}
    base = scaled_boat(lines, Scaling())
    limits = lines.design.limits
    factors, faults = {}, []
    for key, own_m, (low, high) in (("length", base.length_m, limits.length),
                                    ("beam", base.beam_m, limits.beam),
                                    ("depth", base.depth_m, limits.depth)):
        mm_key = f"{key}_mm"
        if mm_key in held:
            factors[key] = held[mm_key] / MM_PER_M / own_m
            if not low - 1e-6 <= factors[key] <= high + 1e-6:
                faults.append(_outside(mm_key, held[mm_key], low * own_m * MM_PER_M,
                                       high * own_m * MM_PER_M))
    if "deck_crown" in held:
        factors["crown"] = held["deck_crown"]
        low, high = limits.crown
        if not low - 1e-6 <= factors["crown"] <= high + 1e-6:
            faults.append(Fault("fixed.deck_crown", f"{factors['crown']:g}",
                                f"this base allows {low:g} to {high:g} of its own"))
    if faults:
        raise BadInput(faults)
    return factors


def _seat_shift_m(design, held):
    """Where a held seat stands, aft of its own place; None where it may slide.

    Raises BadInput outside the slide of the base.
    """
    if "seat_shift_mm" not in held:
        return None
    forward, aft = (reach * MM_PER_M for reach in design.cockpit.seat_slide_m)
    if not -forward - 1e-6 <= held["seat_shift_mm"] <= aft + 1e-6:
        raise BadInput([_outside("seat_shift_mm", held["seat_shift_mm"], -forward, aft)])
    return held["seat_shift_mm"] / MM_PER_M


def _outside(key, value, low, high):
    return Fault(f"fixed.{key}", f"{value:g} mm",
                 f"this base allows {np.ceil(low):.0f} to {np.floor(high):.0f} mm")
