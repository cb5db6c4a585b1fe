"""The ends of a boat beyond the paddler: open to the cockpit, filled by a bag, or shut off."""

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from sizer.errors import BadInput, Fault
from sizer.hull.sections import half_areas_m2, half_section_at
from sizer.hydro.solids import GEAR_KGPM3
from sizer.hydro.watertight import Chamber, chamber_outline
from sizer.units import MM_PER_M

# Of a cross-section that a bag fills: frames, sticks, folds and its own roundness keep it from the
# rest. Our judgement.
BAG_SHARE = 0.80
FEET_ROOM_M = 0.05  # from the footbrace's farthest place to a bag or bulkhead; our judgement
BACK_ROOM_M = 0.05  # from the seat's back and the opening to a bag or bulkhead; our judgement
L_PER_M3 = 1000.0
BAG_TOLERANCE_M3 = 1e-12
MOST_BAG_STEPS = 60


@dataclass(frozen=True)
class End:
    """One end: open with neither, or with a bag in it, or watertight behind a bulkhead."""

    bag_l: float = 0.0
    bulkhead_x_m: float | None = None


@dataclass(frozen=True)
class EndZone:
    """From where to where an end reaches, and the largest bag that fits."""

    front_x_m: float
    back_x_m: float
    bag_l: float

    @property
    def whole_l(self):
        """Of that bag, the whole litres: what to buy."""
        return math.floor(self.bag_l)


@dataclass(frozen=True)
class EndZones:
    """Both ends: ahead of the feet, and behind seat and opening."""

    bow: EndZone
    stern: EndZone


def end_zones(boat, gear=()):
    """The EndZones of a boat: BAG_SHARE of the inside, less the volume of gear stowed there.

    Parameters
    ----------
    boat : Boat, or many
    gear : tuple of Load, each taken to fill its mass of water's volume
    """
    feet = boat.seat_x_m - boat.design.cockpit.footbrace_reach_m[1] * boat.map.legs - FEET_ROOM_M
    back = np.maximum(boat.seat_x_m, boat.opening.back_x_m) + BACK_ROOM_M
    return EndZones(_zone(boat, 0.0, np.maximum(feet, 0.0), gear),
                    _zone(boat, np.minimum(back, boat.length_m), boat.length_m, gear))


@lru_cache(maxsize=8)
def _zones_of_one(boat, gear):
    """Kept, since many bags are tried in one boat."""
    return end_zones(boat, gear)


def _zone(boat, front_x_m, back_x_m, gear):
    stowed = sum(heap.mass_kg * ((front_x_m <= heap.lcg_m) & (heap.lcg_m <= back_x_m))
                 for heap in gear)
    inside = volume_m3(boat.sections, Chamber(front_x_m, back_x_m))
    room = BAG_SHARE * inside - stowed / GEAR_KGPM3
    return EndZone(front_x_m, back_x_m, np.maximum(room, 0.0) * L_PER_M3)


def volume_m3(sections, chamber):
    """What a chamber holds, in m3."""
    outline = chamber_outline(sections, chamber)
    y, z = outline.y_m, outline.z_m
    areas = np.einsum("...e,...e->...", y[..., 1:] + y[..., :-1], np.diff(z))
    return chamber.share * np.trapezoid(areas, outline.x_m, axis=-1)


def chambers_of(boat, bow, stern, gear=()):
    """What keeps water out of both ends. Returns a tuple of Chamber.

    A bag fills BAG_SHARE of each cross-section from its stem inwards until its litres are used up.

    Raises
    ------
    BadInput at "bow_bag_l", "stern_bag_l", "bow_bulkhead_x_m", "stern_bulkhead_x_m": all faults.
    """
    zones = _zones_of_one(boat, gear)
    faults = [*_faults("bow", bow, zones.bow), *_faults("stern", stern, zones.stern)]
    if faults:
        raise BadInput(faults)
    found = []
    if bow.bulkhead_x_m is not None:
        found.append(Chamber(0.0, bow.bulkhead_x_m))
    elif bow.bag_l > 0.0:
        found.append(_bag_in_one(boat.sections, bow.bag_l, 0.0, float(zones.bow.back_x_m)))
    if stern.bulkhead_x_m is not None:
        found.append(Chamber(stern.bulkhead_x_m, boat.length_m))
    elif stern.bag_l > 0.0:
        found.append(_bag_in_one(boat.sections, stern.bag_l, float(boat.length_m),
                                 float(zones.stern.front_x_m)))
    return tuple(found)


def _faults(name, end, zone):
    if not 0.0 <= end.bag_l <= zone.bag_l:
        yield Fault(f"{name}_bag_l", f"{end.bag_l:g} l",
                    f"0 to {zone.bag_l:.0f} l, what fits into that end of this boat")
    if end.bulkhead_x_m is None:
        return
    if not zone.front_x_m <= end.bulkhead_x_m <= zone.back_x_m:
        low, high = zone.front_x_m * MM_PER_M, zone.back_x_m * MM_PER_M
        yield Fault(f"{name}_bulkhead_x_m", f"{end.bulkhead_x_m * MM_PER_M:g} mm",
                    f"{low:.0f} to {high:.0f} mm from the bow, clear of the paddler")
    if end.bag_l > 0.0:
        yield Fault(f"{name}_bag_l", f"{end.bag_l:g} l", "a bag or a bulkhead at one end, not both")


def bag_chamber(sections, litres, stem_x_m, inner_x_m):
    """The Chamber of a bag from a stem inwards, to the last litre; or of one in each of many boats.

    Newton steps from the inner limit, the cross-section there being the slope.

    Parameters
    ----------
    sections : Sections
    litres : above 0, at most what fits
    stem_x_m, inner_x_m : the end's stem and its inner limit, either one the larger
    """
    def bag(inner):
        return Chamber(np.minimum(stem_x_m, inner), np.maximum(stem_x_m, inner), BAG_SHARE)

    inner, inward = inner_x_m, np.sign(inner_x_m - stem_x_m)
    for _ in range(MOST_BAG_STEPS):
        over = volume_m3(sections, bag(inner)) - litres / L_PER_M3
        fits = (over <= 0.0) & (inner == inner_x_m)  # all that there is room for
        if np.all(fits | (np.abs(over) < BAG_TOLERANCE_M3)):
            break
        y, z = half_section_at(sections, np.asarray(inner)[..., None])
        area = np.einsum("...e,...e->...", y[..., 1:] + y[..., :-1], np.diff(z))[..., 0]
        inner = inner - inward * np.where(fits, 0.0, over / np.maximum(BAG_SHARE * area, 1e-9))
        inner = np.clip(inner, np.minimum(stem_x_m, inner_x_m), np.maximum(stem_x_m, inner_x_m))
    return bag(inner)


@lru_cache(maxsize=32)
def _bag_in_one(sections, litres, stem_x_m, inner_x_m):
    """Kept, since one boat is flooded with the same bags, its paddler here and there."""
    return bag_chamber(sections, litres, stem_x_m, inner_x_m)


def held_m3(sections, stem_x_m, inner_x_m):
    """Hull volume from a stem to each place inwards. Returns (n,) x and (n,) m3, rising from 0."""
    inward = 1 if inner_x_m >= stem_x_m else -1
    between = sections.x_m[(sections.x_m - stem_x_m) * (sections.x_m - inner_x_m) < 0.0]
    x = np.concatenate([[stem_x_m], between[::inward], [inner_x_m]])
    areas = 2.0 * np.interp(x, sections.x_m, half_areas_m2(sections))
    steps = 0.5 * (areas[1:] + areas[:-1]) * np.abs(np.diff(x))
    return x, np.concatenate([[0.0], np.cumsum(steps)])
