"""Where the job's gear is tied: loops round the sticks beside it, and a line rove through them.

A heap of gear lies at the bottom between two frames. At each of the two a loop stands round the
same chine on either side, beside the lashing that holds it, and one line goes crosswise through all
four, over the gear: so nothing hangs on skin or lashing, and nothing shifts when the boat lies on
its side. They are tied before the skin, where a hand still gets there. Our judgement throughout.
"""

from dataclasses import dataclass

import numpy as np

from sizer.hydro.ends import L_PER_M3
from sizer.hydro.solids import GEAR_KGPM3
from sizer.shop.bag_ties import CORD_SPARE_M, LOOP_M

SIDES = 2  # of the boat, with a loop at each of both frames


@dataclass(frozen=True)
class GearTie:
    """One heap of gear and what holds it; places from the boat's foremost point."""

    mass_kg: float
    x_m: float  # of its middle
    end: str  # "bow" or "stern" where it lies beside that end's float bag, else ""
    frames: tuple[str, str]  # between which it lies
    near: str  # of them, the one nearer to the paddler
    stick: str  # that the loops go round
    cord_m: float  # of loops and line

    @property
    def most_l(self):
        """Of all its bags together: as much as the float bag's litres leave for it."""
        return self.mass_kg / GEAR_KGPM3 * L_PER_M3


def gear_ties(boat, heaps, zones, stations):
    """A GearTie for each heap, a Load, of a boat's gear; the EndZones and Stations as of
    `sizer.shop.bag_ties.bag_ties`."""
    return tuple(_tie(boat, heap, zones, stations) for heap in heaps)


def _tie(boat, heap, zones, stations):
    x = float(heap.lcg_m)
    row = int(np.clip(np.searchsorted([one.x_m for one in stations], x), 1, len(stations) - 1))
    fore, aft = pair = stations[row - 1], stations[row]
    stick = [one.name for one in boat.design.stringers if one.role in ("chine", "gunwale")
             and all(one.name in station.points_m for station in pair)]
    chine = max(stick[:-1] or stick, key=stick.index)  # the gunwale, the last, where there is none
    wide = [2.0 * station.points_m[chine][0] for station in pair]
    over = 2.0 * np.hypot(aft.x_m - fore.x_m, np.mean(wide)) + sum(wide)
    end = next((name for name, zone in (("bow", zones.bow), ("stern", zones.stern))
                if zone.front_x_m <= x <= zone.back_x_m), "")
    near = min(pair, key=lambda one: abs(one.x_m - boat.seat_x_m))
    return GearTie(float(heap.mass_kg), x, end, (fore.name, aft.name), near.name, chine,
                   float(over) + CORD_SPARE_M + SIDES * len(pair) * LOOP_M)


def gear_loops_words(ties):
    """What is tied for GearTies before the skin; nothing where there is no gear."""
    return "".join(
        f"For the gear{f' in the {one.end}' * bool(one.end)} loops round the {one.stick} at "
        f"{one.frames[0]} and {one.frames[1]}, a line through all four. " for one in ties)
