"""How deep the water is where one gets in, and where the boat may turn over, in m and in words.

Where it may turn over a head must not meet the bottom: taken as if the boat lay upside down with
its keel no higher than the water, the paddler hanging straight from the seat.
"""

import math

from sizer.hydro.water import BOTTOM, WARM_C
from sizer.shop.said import at_least
from sizer.units import MM_PER_IN, MM_PER_M, both_text, length_text, temperature_text

UNDER_KEEL_M = 0.100  # of water where one gets in, in reach of feet; our judgement
EDGE_STEP_M = 0.01  # as fine as water is measured there; our judgement
UNDER_HEAD_M = 0.150  # of water under the head, for hands and a helmet; our judgement
STEP_M = 0.1  # that the depth is told to, upwards: no body measure
# Height of the breastbone's lower end over the floor, of one's stature: no source, our judgement.
BREAST_SHARE = 0.69
TALL_STEP_M = 0.01  # that a helper's least stature is told to, upwards


def edge_m(afloat):
    """Depth where one gets in, of the laden boat: a whole number of EDGE_STEP_M, upwards."""
    return math.ceil((afloat.draft_m + UNDER_KEEL_M) / EDGE_STEP_M - 1e-9) * EDGE_STEP_M


def clear_m(assessed):
    """Least depth wherever an Assessed boat may turn over with its paddler in it."""
    need = (float(assessed.boat.seat_z_m) + assessed.person.body.sitting_height.value_m
            + UNDER_HEAD_M)
    return math.ceil(need / STEP_M - 1e-9) * STEP_M


def helpers_tall_m(assessed):
    """How tall helpers are at the least: the water no higher than the breastbone's lower end."""
    return math.ceil(clear_m(assessed) / BREAST_SHARE / TALL_STEP_M - 1e-9) * TALL_STEP_M


def clear_words(assessed):
    """Where an Assessed boat may be let turn over: depth, bottom and helpers."""
    tall = helpers_tall_m(assessed) * MM_PER_M
    inches = math.ceil(tall / MM_PER_IN)
    return (f"water no less than {at_least(clear_m(assessed))} deep, so that a head that hangs "
            "upside down keeps clear of the bottom, and no higher than the lower end of the "
            f"breastbone of the shorter helper, who is then no shorter than {tall:.0f} mm "
            f"({length_text(inches * MM_PER_IN, 'in')}): never less for shorter ones; over "
            f"{BOTTOM}")


def edge_words(afloat):
    """Where one gets in and out."""
    deep, draws = (both_text(one * MM_PER_M) for one in (edge_m(afloat), afloat.draft_m))
    return (f"at the edge, in calm water about {deep} deep, over {BOTTOM}: the boat floats free "
            f"with you in it (it draws {draws} laden) and your feet stand flat on the bottom "
            "beside it, standing, and with knees bent once you sit. Stand beside it first; where "
            "they do not, it is too deep. Until the launch has found it tight and steady, and to "
            f"learn it, in warm water alone, {temperature_text(WARM_C)} or more; on trips in "
            "colder water the same way, dressed for it")
