"""What a wet exit leaves in a boat: the water that ran in stays, once its rim is over the sea.

As much as stands inside with the paddler in the seat, none of which runs out once nobody sits there
and the rim is higher; at the most as much as it holds, to the lowest place of its rim: a boat that
is rolled upright scoops, how much is not worked out. In between the water is a loose load with a
free surface of its own (`sizer.hydro.free_water`), higher inside than the sea. As full inside as
outside, which `sizer.hydro.flooded` tells, is the boat of a trial, and holds less.
"""

from dataclasses import dataclass

import numpy as np

from sizer.errors import NotSolved
from sizer.hydro.flooded import KEEP_HOLD
from sizer.hydro.free_water import FreeWater, free_water
from sizer.hydro.immersion import planes_at
from sizer.hydro.rim import rim_clearance_m
from sizer.units import MM_PER_M, both_text

PUMP_LPM = 30.0  # a hand pump, at first: common practice, no source; the figure is our judgement
AT_FIRST = f"(of {PUMP_LPM:.0f} litres a minute while arms are fresh, our judgement)"
# GM under it is none to count on: lost buoyancy tells up to 8 mm less; our judgement.
SURE_M = 0.010
UNSTEADY = "it may not stay upright by itself:"
HELD = ("a helper holds both gunwales until it is empty; do not climb on alone, and "
        f"{KEEP_HOLD}.")
# Heights of the water inside, to its rim and as much higher as trim may lift that; beside eight
# times as many GM is told up to 6 mm lower, or 3 higher where the boat falls over anyway.
LEVELS = 49
OVER_RIM_M = 0.01
MOST_ROUNDS = 5


@dataclass(frozen=True)
class LeftInside:
    """A boat with its gear and nobody in it, the water of a wet exit loose inside."""

    litres: float  # what ran in while the paddler sat there, or `most_l`
    most_l: float  # full to the lowest place of its rim
    gm_m: float  # the least while `litres` are pumped out, free surface taken off
    most_gm_m: float  # the least while `most_l` are
    says: str

    @property
    def pump_minutes(self):
        """What pumping `litres` out takes at first."""
        return _minutes(self.litres)

    @property
    def most_pump_minutes(self):
        """What pumping `most_l` out takes at first."""
        return _minutes(self.most_l)


def left_inside(boat, weight, out, ends, water, ran_in_l):
    """The LeftInside of a boat; None where its rim is under water even so, or it is not known.

    Parameters
    ----------
    boat : Boat
    weight : OwnWeight
    out : Aboard, nobody in it
    ends : (bow, stern), End each
    water : Water
    ran_in_l : litres inside with the paddler in the seat; None where it sinks under the paddler or
        its rim is under water
    """
    try:
        found = _to_its_rim(boat, weight, out, ends, water)
    except NotSolved:
        return None
    if found is None or found.over_inside_m[-1] >= 0.0:
        return None  # it goes under before it is full: the sea runs in
    most = float(found.litres[-1])
    litres = most if ran_in_l is None else min(ran_in_l, most)
    least = _least_gm_m(found, litres), _least_gm_m(found, most)
    return LeftInside(litres, most, *least, _says(litres, most, *least))


def _to_its_rim(boat, weight, out, ends, water):
    """The FreeWater up to the lowest place of the rim in the trim that it gives the boat; None
    where it does not float so full."""
    sections = boat.sections
    above_m = OVER_RIM_M + _rim_over_m(sections, np.zeros(1), np.zeros(1))[0]
    for _ in range(MOST_ROUNDS):
        found = free_water(boat, weight, out, ends, water, above_m, LEVELS)
        spare = _rim_over_m(sections, found.inside_m, found.trim_deg)
        if (spare <= 0.0).any():
            return _cut_at(found, int(np.argmax(spare <= 0.0)), spare)
        if found.inside_m[-1] < above_m:
            return None
        above_m += OVER_RIM_M + spare[-1]
    raise NotSolved("the water inside did not come to rest at the rim")


def _rim_over_m(sections, inside_m, trim_deg):
    """How far the lowest place of the rim is over water inside, heights and trims (n,)."""
    up, level = planes_at(inside_m, trim_deg, sections.mid_x_m)
    return rim_clearance_m(sections, up, level) / up[:, 2]


def _cut_at(found, last, spare):
    """A FreeWater whose last row is where nothing is left to spare, straight between two."""
    share = spare[last - 1] / (spare[last - 1] - spare[last])
    return FreeWater(*(np.append(one[:last], one[last - 1] + share * (one[last] - one[last - 1]))
                       for one in vars(found).values()))


def _least_gm_m(found, litres):
    """The least GM of a FreeWater from so many litres, or a height more, down to none: it falls
    steeply where the water comes to a bag."""
    return float(found.gm_m[:np.searchsorted(found.litres, litres) + 1].min())


def _says(litres, most, gm_m, most_gm_m):
    if litres == most:
        return ("A wet exit leaves it filled, as may be, to the lowest place of its rim as it then "
                f"lies: {_pumped(most)} {AT_FIRST}. {_full_says(most_gm_m)}")
    return (f"A wet exit leaves water inside: rolled over, count on {_pumped(most)} {AT_FIRST}, "
            f"filled to the lowest place of its rim; at the least {_pumped(litres)}, what runs in "
            f"while you sit there. {_steady_says(gm_m, most_gm_m)}")


def _steady_says(gm_m, most_gm_m):
    if _falls(gm_m):
        return f"While it is pumped out {UNSTEADY} {HELD}"
    return (f"{_full_says(most_gm_m)} With the least its GM, nobody in it, is "
            f"{both_text(gm_m * MM_PER_M)} or more.")


def _full_says(gm_m):
    """How steady a boat full to its rim is, and what to do where it is not."""
    if _falls(gm_m):
        return f"Filled to the rim {UNSTEADY} {HELD}"
    return f"Filled to the rim its GM is {both_text(gm_m * MM_PER_M)} or more."


def _falls(gm_m):
    """Whether a boat may fall over to one side."""
    return gm_m < SURE_M


def _minutes(litres):
    return litres / PUMP_LPM


def _pumped(litres):
    return f"{litres:.0f} litres, {_minutes(litres):.1f} minutes at a hand pump"
