"""The swamped boat with its ends filled by float bags, told whole: in it, out of it, climbing on.

Bags that fill the ends are what we recommend; the least that keep rim and side deck clear stand in
`sizer.hydro.bags`. Whether it stays upright is read off GM with the inside open to the sea
(`sizer.hydro.flooded`); how little water is enough to tip it, off `sizer.hydro.free_water`.
"""

import math
from dataclasses import dataclass, replace

import numpy as np

from sizer.errors import NotSolved
from sizer.hydro.ends import End, zones_of_one
from sizer.hydro.flooded import Aboard, Flooded, flooded
from sizer.hydro.flotation import Load
from sizer.hydro.free_water import FreeWater, free_water
from sizer.hydro.left_inside import LeftInside, left_inside
from sizer.units import MM_PER_M, both_text

# Lying face down along the back deck with a leg to each side: the body's centre aft of the
# opening and over the deck. Nothing of the body is taken to hang in the water, where it would weigh
# less and steady the boat. Our judgement, on the careful side.
LYING_AFT_M = 0.35
LYING_OVER_DECK_M = 0.11
CLIMBING_MOST_SHARE = 0.95  # of the hull's length
NOT_KNOWN_LEFT = ("A wet exit leaves more water than that inside; how much could not be worked "
                  "out: count on a boat full to its rim.")
WATER_IN = ("When water comes in, go ashore and empty the boat. A spray deck keeps water out: wear "
            "one only once you have practised wet exits in it, with an instructor.")


@dataclass(frozen=True, eq=False)
class Swamped:
    """The boat full of water, with bags that fill both ends."""

    bow_l: float  # whole litres, the most that fit: what we recommend
    stern_l: float
    seated: Flooded
    out: Flooded  # the paddler in the water beside it
    climbing: Flooded  # the paddler lying on the back deck
    larger_lost: Flooded  # seated, the larger bag gone
    larger_lost_out: Flooded
    left: LeftInside | None  # by a wet exit, nobody in it; as `left_inside`
    larger_lost_left: LeftInside | None
    rising: FreeWater | None  # seated, from dry to swamped; None where it sinks, or is not known
    says: tuple[str, ...]

    @property
    def can_be_paddled(self):
        """Whether one could stay in it and paddle on."""
        return self.seated.can_be_paddled


def filling_ends(boat, gear=()):
    """Bow and stern End with the largest bags that fit, in whole litres."""
    zones = zones_of_one(boat, gear)
    return tuple(End(float(zone.whole_l)) for zone in (zones.bow, zones.stern))


def lying_aft(boat, mass_kg):
    """The Load of a paddler who lies on the back deck."""
    x = min(boat.opening.back_x_m + LYING_AFT_M, CLIMBING_MOST_SHARE * boat.length_m)
    deck = float(np.interp(x, boat.sections.x_m, boat.sections.z_m[:, -1]))
    return Load(mass_kg, x, deck + LYING_OVER_DECK_M)


def swamped(boat, weight, aboard, water):
    """The Swamped boat.

    Parameters
    ----------
    boat : Boat
    weight : OwnWeight
    aboard : Aboard, the paddler seated
    water : Water

    Raises
    ------
    NotSolved as `sizer.hydro.flooded.flooded`.
    """
    ends = filling_ends(boat, aboard.gear)
    left = (End(), ends[1]) if ends[0].bag_l > ends[1].bag_l else (ends[0], End())
    out = replace(aboard, paddler=None, body=None)
    climbing = Aboard(aboard.gear, lying_aft(boat, aboard.paddler.mass_kg), on_deck=True)

    def with_ends(who, bags=ends):
        return flooded(boat, weight, who, *bags, water)

    def by_wet_exit(seated, bags):
        return left_by_wet_exit(boat, weight, aboard, bags, water, seated)

    seated, lost = with_ends(aboard), with_ends(aboard, left)
    found = Swamped(
        ends[0].bag_l, ends[1].bag_l, seated, with_ends(out), with_ends(climbing),
        lost, with_ends(out, left), by_wet_exit(seated, ends), by_wet_exit(lost, left),
        _rising(boat, weight, aboard, ends, water, seated), ())
    return replace(found, says=tuple(_says(found)))


def left_by_wet_exit(boat, weight, aboard, ends, water, seated):
    """The LeftInside of a boat whose Flooded with the paddler in the seat is `seated`; None where
    it is not known, or the boat goes under. Others as `swamped`."""
    ran_in_l = seated.water_inside_l if seated.state == "rim clear" else None
    out = replace(aboard, paddler=None, body=None)
    return left_inside(boat, weight, out, ends, water, ran_in_l)


def wet_exit_says(out, left):
    """What is told of a boat with nobody in it, of its Flooded, as a trial makes it, and its
    LeftInside; of a boat that goes under the Flooded tells enough."""
    if left is not None:
        return f"{out.says} {left.says}"
    return f"{out.says} {NOT_KNOWN_LEFT}" if out.state == "rim clear" else out.says


def _rising(boat, weight, aboard, ends, water, seated):
    if seated.state != "rim clear":
        return None
    try:
        return free_water(boat, weight, aboard, ends, water, seated.sinkage_m)
    except NotSolved:
        return None


def _says(found):
    yield (f"Fill both ends with float bags, {found.bow_l:.0f} litres in the bow and "
           f"{found.stern_l:.0f} in the stern. {found.seated.says}")
    yield wet_exit_says(found.out, found.left)
    yield found.climbing.says
    if found.rising is not None:
        yield _rising_says(found.rising)


def _rising_says(rising):
    tips, dry = rising.tips_at_l, both_text(rising.gm_m[0] * MM_PER_M)
    if tips is None:
        return f"Water in the cockpit leaves it upright with you in it, at worst {_least(rising)}."
    if tips < 1.0:
        return (f"With you in it, it does not stay upright by itself even dry, its GM {dry}: "
                f"less than a litre loose in the cockpit is enough. {WATER_IN}")
    return (f"About {math.floor(tips)} litres loose in the cockpit are enough that it no longer "
            f"stays upright by itself with you in it; dry, its GM is {dry}. {WATER_IN} "
            "Once the boat is full, get out; pump it out from beside while a helper steadies it, "
            "until the pump sucks air, sponge up the rest, and get in only then.")


def _least(rising):
    return f"GM {both_text(rising.gm_m.min() * MM_PER_M)}"
