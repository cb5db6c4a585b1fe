"""Where a heap of gear lies so that it can be tied: in packs, each between two frames.

The figures afloat count a heap by its middle. Where a pack of a usable length lies with its middle
there between the two frames beside it, it does so. Where a frame is too near, two packs lie each in
the middle of its bay, on either side of that frame, so heavy that their common middle is the
heap's. Our judgement.
"""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from sizer.hydro.ends import end_zones
from sizer.shop.stations import setting_up

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
