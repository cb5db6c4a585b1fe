"""What a request holds: opening, factors and seat, each inside the limits of the base."""

import numpy as np

from sizer.errors import BadInput, Fault
from sizer.fit.sought import base_says, opening_wanted_m
from sizer.hull.boat import scaled_boat
from sizer.hull.scale import Scaling
from sizer.units import MM_PER_M

OPENING_KEYS = ("cockpit_length", "cockpit_width")
SEAT_KEY = "seat_shift_mm"
ROUNDING_M = 1e-9


def opening_of(lines, person, held):
    """Opening length and width, and why; BadInput with every held one outside the base's limits."""
    design = lines.design
    room = person.room_in(design.cockpit.entry)
    limits = (design.limits.cockpit_length_m, design.limits.cockpit_width_m)
    needed = (room.opening_length_m, room.opening_width_m)
    sizes, reasons, faults = {}, {}, []
    for key, size, need, (low, high) in zip(
            OPENING_KEYS, opening_wanted_m(base_says(lines), design, room,
                                           person.body.hip_sitting.plus_minus_m),
            needed, limits, strict=True):
        mm_key, reason = f"{key}_mm", "room to get in and out, as the base leaves"
        if mm_key in held:
            size, reason = held[mm_key] / MM_PER_M, "held by you"
            if not low - ROUNDING_M <= size <= high + ROUNDING_M:
                faults.append(_outside(mm_key, held[mm_key], low * MM_PER_M, high * MM_PER_M))
        elif need > high:
            reason = "largest the base allows; the body needs more to get in and out"
        elif size in (low, high):
            reason = "at the base's limit"
        sizes[f"{key}_m"], reasons[mm_key] = size, reason
    if faults:
        raise BadInput(faults)
    return sizes, reasons


def held_factors(lines, held):
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


def held_seat_m(design, held):
    """Where a held seat stands, aft of its own place; None where it may slide.

    Raises BadInput outside the slide of the base.
    """
    if SEAT_KEY not in held:
        return None
    forward, aft = (reach * MM_PER_M for reach in design.cockpit.seat_slide_m)
    if not -forward - 1e-6 <= held[SEAT_KEY] <= aft + 1e-6:
        raise BadInput([_outside(SEAT_KEY, held[SEAT_KEY], -forward, aft)])
    return held[SEAT_KEY] / MM_PER_M


def _outside(key, value, low, high):
    return Fault(f"fixed.{key}", f"{value:g} mm",
                 f"this base allows {np.ceil(low):.0f} to {np.floor(high):.0f} mm")
