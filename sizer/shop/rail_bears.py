"""Whether a footbrace's rail bears the push of its paddler's feet between its two frames.

The push comes in at a pedal's two pins, beside the rail's inner face and at the height of the balls
of the feet; the stop beside its outer face holds it against the after frame. So the rail is pulled
lengthwise, and bent both ways by what pins and stop stand off its middle, as a beam that both
frames hold at its ends. Taken at its worst: wet wood, the section that a pin's hole leaves. The
bar of plates and strap is of plywood, whose strength we have no figure for: the trial proves it.
"""

import numpy as np

from sizer.hull.seat_bears import SURE_TO_BEAR, broken_pa
from sizer.shop.outfit import PIN_M, PINS_AFT_M
from sizer.units import STANDARD_GRAVITY_MPS2

# The whole body's weight on one rail: as one stands on one foot beside it, or as both feet stop the
# body, which pushes twice its weight, where the bow runs on sand: our judgement, on the safe side
PUSH = 1.0


def rail_bears_ratio(wood, size_m, beside_m, over_m, ahead_m, span_m, body_kg):
    """Strength of a rail over the stress in it; the least of some places of its pedal; NaN of wood
    whose strength is not known.

    With the push F, A = (h - d) t, and the pins' middle a from the fore frame of a span l, sideways
    the greatest of F (e1 + e2) a / l, F e1 less that and F e2 bends (h - d) t^2 / 6, e1 and e2 from
    the rail's middle to cheek's and stop's; upward F e max(a, l - a) / l bends t (h^3 - d^3) / 6 h:
    statics of a beam on two supports, any handbook of strength of materials.

    Parameters
    ----------
    size_m : thickness t and height h of the rail
    beside_m : thicknesses of cheek and stop, on its inner and its outer face
    over_m : from the balls of the feet up to the rail's middle
    ahead_m : (n,) from the fore frame aft to the middle of a pedal's pins
    span_m : clear between the frames"""
    thick, high = size_m
    push = PUSH * body_kg * STANDARD_GRAVITY_MPS2
    at = np.asarray(ahead_m) / span_m
    inner, outer = (0.5 * (thick + one) for one in beside_m)
    sideways = np.maximum.reduce([(inner + outer) * at, np.abs((inner + outer) * at - inner),
                                  np.full_like(at, outer)])
    upward = abs(over_m) * np.maximum(at, 1.0 - at)
    left = high - PIN_M
    stress = push * (1.0 / (left * thick) + 6.0 * sideways / (left * thick**2)
                     + 6.0 * upward * high / (thick * (high**3 - PIN_M**3)))
    return float(broken_pa(wood) / stress.max())


def stout_enough_m(thicks_m, ratio):
    """The first of some thicknesses whose `ratio` bears as well as is wanted, or the last."""
    return next((one for one in thicks_m if ratio(one) >= SURE_TO_BEAR), thicks_m[-1])


def pins_ahead_m(soles_m, fore_after_m):
    """From the fore frame's after face to the middle of a pedal's pins at some places of its sole,
    all from a rail's forward end."""
    return np.asarray(soles_m) + float(np.mean(PINS_AFT_M)) - fore_after_m
