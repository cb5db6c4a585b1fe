"""Where the job's gear lies, in packs each between two frames, and where it is tied: loops round
the sticks beside it, and a line rove through them.

The figures afloat count a heap by its middle. Where a pack of a usable length lies with its middle
there between the two frames beside it, it does so. Where a frame is too near, two packs lie each in
the middle of its bay, on either side of that frame, so heavy that their common middle is the
heap's.

At each of a pack's two frames a loop stands round the same chine on either side, beside the lashing
that holds it, and one line goes crosswise through all four, over the gear: so nothing hangs on skin
or lashing, and nothing shifts when the boat lies on its side. They are tied before the skin, where
a hand still gets there. Our judgement throughout.
"""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from sizer.hydro.ends import L_PER_M3, end_zones
from sizer.hydro.solids import GEAR_KGPM3
from sizer.shop.bag_ties import CORD_SPARE_M
from sizer.shop.stations import setting_up

REACH_M = 0.65  # of an arm from the opening's end into the boat; our judgement
SIDES = 2  # of the boat, with a loop at each of both frames
LEAST_LONG_M = 0.300  # of a pack, so that bags of that litres go between sticks and deck; ours
CM_PER_M = 100.0  # a pack's length is told in whole cm, never more than there is room for


@dataclass(frozen=True)
class GearPack:
    """One pack of a heap; places from the boat's foremost point."""

    heap: int  # of the heaps, which it is of
    mass_kg: float
    x_m: float  # of its middle
    z_m: float  # of that over the baseline
    long_m: float  # at the most
    end: str  # "bow" or "stern" where it lies beside that end's float bag, else ""
    frames: tuple[str, str]  # between which it lies


def gear_packs(boat, heaps):
    """The GearPacks of a boat's heaps, each a Load, as the heaps are told."""
    bays, zones = tuple(_bays(boat)), end_zones(boat)
    return tuple(pack for row, heap in enumerate(heaps)
                 for pack in _packs(bays, zones, row, heap))


def _packs(bays, zones, row, heap):
    x, mass, z = float(heap.lcg_m), float(heap.mass_kg), float(heap.vcg_m)
    end = _end(zones, x)
    at = min(range(len(bays)), key=lambda one: abs(x - np.clip(x, *bays[one][1])))
    names, (fore, aft) = bays[at]
    middle, room = 0.5 * (fore + aft), 2.0 * min(x - fore, aft - x)
    beside = at + (1 if x > middle else -1)
    other = 0.5 * sum(bays[beside][1]) if 0 <= beside < len(bays) else None
    if room >= LEAST_LONG_M or other is None or _end(zones, other) != end:
        return (GearPack(row, mass, x, z, _whole_cm(max(room, 0.0)), end, names),)
    share = (x - middle) / (other - middle)
    packs = [GearPack(row, part * mass, place, z, _whole_cm(bay[1][1] - bay[1][0]), end, bay[0])
             for part, place, bay in ((1.0 - share, middle, bays[at]),
                                      (share, other, bays[beside]))]
    return tuple(sorted(packs, key=lambda one: one.x_m))


def _whole_cm(long_m):
    return float(np.floor(long_m * CM_PER_M)) / CM_PER_M


def _end(zones, x_m):
    """Beside which end's float bag a place lies, or ""."""
    return next((name for name, zone in (("bow", zones.bow), ("stern", zones.stern))
                 if zone.front_x_m <= x_m <= zone.back_x_m), "")


def _bays(boat):
    """(names of its frames, its ends between their plywood) of every bay of a boat from the bow."""
    for fore, aft in pairwise(setting_up(boat).stations):
        yield (fore.name, aft.name), (float(fore.faces_x_m[1]), float(aft.faces_x_m[0]))


@dataclass(frozen=True)
class GearTie(GearPack):
    """One pack of gear and what holds it."""

    near: str  # of them, the one nearer to the paddler
    stick: str  # that the loops go round
    led_to: str  # frame where the line's ends are tied off, within an arm's reach of the opening
    cord_m: float  # of the line
    loops: int  # round sticks, that it goes through

    @property
    def most_l(self):
        """Of all its bags together: as much as the float bag's litres leave for it."""
        return self.mass_kg / GEAR_KGPM3 * L_PER_M3


def gear_ties(boat, heaps):
    return tuple(_tie(boat, pack) for pack in gear_packs(boat, heaps))


def _tie(boat, pack):
    fore, aft = pair = [one for one in setting_up(boat).stations if one.name in pack.frames]
    stick = [one.name for one in boat.design.stringers if one.role in ("chine", "gunwale")
             and all(one.name in station.points_m for station in pair)]
    chine = max(stick[:-1] or stick, key=stick.index)  # the gunwale, the last, where there is none
    wide = [2.0 * station.points_m[chine][0] for station in pair]
    over = 2.0 * np.hypot(aft.x_m - fore.x_m, np.mean(wide)) + sum(wide)
    near = min(pair, key=lambda one: abs(one.x_m - boat.seat_x_m))
    reached = _reached(boat, near)
    led = SIDES * abs(reached.x_m - near.x_m)
    return GearTie(**vars(pack), near=near.name, stick=chine, led_to=reached.name,
                   cord_m=float(over + led) + CORD_SPARE_M, loops=SIDES * len(pair))


def _reached(boat, near):
    """The Station nearest to `near`, or itself, that a hand reaches from the opening."""
    opening, way = boat.opening, sorted((near.x_m, boat.seat_x_m))
    between = [one for one in setting_up(boat).stations if way[0] <= one.x_m <= way[1] and max(
        opening.front_x_m - one.x_m, one.x_m - opening.back_x_m) <= REACH_M]
    return min(between, key=lambda one: abs(one.x_m - near.x_m), default=near)


def gear_loops_words(ties):
    """What is tied for GearTies before the skin; nothing where there is no gear."""
    if not ties:
        return ""
    return ("For the gear such loops, a line through each four: " + "; ".join(
        f"{f'in the {one.end} ' * bool(one.end)}round the {one.stick} at {one.frames[0]} and "
        f"{one.frames[1]}, its ends led to {one.led_to}" for one in ties) + ". ")
