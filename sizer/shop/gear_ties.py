"""Where the job's gear is tied: loops round the sticks beside it, and a line rove through them.

A pack of gear lies at the bottom between two frames. At each of the two a loop stands round the
same chine on either side, beside the lashing that holds it, and one line goes crosswise through all
four, over the gear: so nothing hangs on skin or lashing, and nothing shifts when the boat lies on
its side. They are tied before the skin, where a hand still gets there. Our judgement throughout.
"""

from dataclasses import dataclass

import numpy as np

from sizer.hydro.ends import L_PER_M3
from sizer.hydro.solids import GEAR_KGPM3
from sizer.shop.bag_ties import CORD_SPARE_M, LOOP_M

REACH_M = 0.65  # of an arm from the opening's end into the boat; our judgement
SIDES = 2  # of the boat, with a loop at each of both frames


@dataclass(frozen=True)
class GearTie:
    """One pack of gear and what holds it; places from the boat's foremost point."""

    heap: int  # of the job's heaps, which it is of
    mass_kg: float
    x_m: float  # of its middle
    long_m: float  # at the most
    end: str  # "bow" or "stern" where it lies beside that end's float bag, else ""
    frames: tuple[str, str]  # between which it lies
    near: str  # of them, the one nearer to the paddler
    stick: str  # that the loops go round
    led_to: str  # frame where the line's ends are tied off, within an arm's reach of the opening
    cord_m: float  # of loops and line

    @property
    def most_l(self):
        """Of all its bags together: as much as the float bag's litres leave for it."""
        return self.mass_kg / GEAR_KGPM3 * L_PER_M3


def gear_ties(boat, packs, stations):
    """A GearTie for each of a boat's GearPacks, its Stations as of `sizer.shop.bag_ties.bag_ties`.
    """
    return tuple(_tie(boat, pack, stations) for pack in packs)


def _tie(boat, pack, stations):
    fore, aft = pair = [one for one in stations if one.name in pack.frames]
    stick = [one.name for one in boat.design.stringers if one.role in ("chine", "gunwale")
             and all(one.name in station.points_m for station in pair)]
    chine = max(stick[:-1] or stick, key=stick.index)  # the gunwale, the last, where there is none
    wide = [2.0 * station.points_m[chine][0] for station in pair]
    over = 2.0 * np.hypot(aft.x_m - fore.x_m, np.mean(wide)) + sum(wide)
    near = min(pair, key=lambda one: abs(one.x_m - boat.seat_x_m))
    reached = _reached(boat, near, stations)
    led = SIDES * abs(reached.x_m - near.x_m)
    return GearTie(pack.heap, pack.mass_kg, pack.x_m, pack.long_m, pack.end, pack.frames,
                   near.name, chine, reached.name,
                   float(over + led) + CORD_SPARE_M + SIDES * len(pair) * LOOP_M)


def _reached(boat, near, stations):
    """The Station nearest to `near`, or itself, that a hand reaches from the opening."""
    opening = boat.opening

    def away_m(one):
        return max(opening.front_x_m - one.x_m, one.x_m - opening.back_x_m)

    between = [one for one in stations if min(near.x_m, boat.seat_x_m) <= one.x_m
               <= max(near.x_m, boat.seat_x_m) and away_m(one) <= REACH_M]
    return min(between, key=lambda one: abs(one.x_m - near.x_m), default=near)


def gear_loops_words(ties):
    """What is tied for GearTies before the skin; nothing where there is no gear."""
    return "".join(
        f"For the gear{f' in the {one.end}' * bool(one.end)} loops round the {one.stick} at "
        f"{one.frames[0]} and {one.frames[1]}, a line through all four, its ends led to "
        f"{one.led_to}. " for one in ties)
