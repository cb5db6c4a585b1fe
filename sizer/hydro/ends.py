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
# Of the boat, skin to skin, where a bag's blunt nose ends: nearer to the tip the stem stands in the
# middle, gunwales and chines beside it. Our judgement, on the careful side.
NOSE_WIDE_M = 0.200
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
    nose_x_m: float  # as near to the stem as a bag reaches
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
    """The EndZones of a boat: BAG_SHARE of the inside from where it is NOSE_WIDE_M wide, less the
    volume of gear stowed there.

    Parameters
    ----------
    boat : Boat, or many
    gear : tuple of Load, each taken to fill its mass of water's volume
    """
    feet = boat.seat_x_m - boat.design.cockpit.footbrace_reach_m[1] * boat.map.legs - FEET_ROOM_M
    back = np.maximum(boat.seat_x_m, boat.opening.back_x_m) + BACK_ROOM_M
    feet, back = np.maximum(feet, 0.0), np.minimum(back, boat.length_m)
    bow, stern = _noses_m(boat.sections)
    return EndZones(_zone(boat, (0.0, feet), np.minimum(bow, feet), feet, gear),
                    _zone(boat, (back, boat.length_m), np.maximum(stern, back), back, gear))


def _noses_m(sections):
    """Where bow and stern, from their tips inwards, are first NOSE_WIDE_M wide."""
    wide, x = 2.0 * sections.y_m.max(axis=-1), sections.x_m
    for order in (slice(None), slice(None, None, -1)):
        inwards, places = wide[..., order], np.broadcast_to(x, wide.shape)[..., order]
        enough = inwards >= NOSE_WIDE_M
        after = np.argmax(enough, axis=-1)[..., None]
        before = np.maximum(after - 1, 0)
        (low, high), (start, end) = ([np.take_along_axis(each, at, axis=-1)[..., 0]
                                      for at in (before, after)] for each in (inwards, places))
        share = np.clip((NOSE_WIDE_M - low) / np.where(high > low, high - low, 1.0), 0.0, 1.0)
        yield np.where(enough.any(axis=-1), start + share * (end - start), places[..., -1])[()]


@lru_cache(maxsize=8)
def zones_of_one(boat, gear):
    """The `end_zones` of one boat: kept, since many bags are tried in it."""
    return end_zones(boat, gear)


def _zone(boat, reach_m, nose_x_m, inner_x_m, gear):
    front_x_m, back_x_m = reach_m
    stowed = sum(heap.mass_kg * ((front_x_m <= heap.lcg_m) & (heap.lcg_m <= back_x_m))
                 for heap in gear)
    inside = volume_m3(boat.sections, Chamber(np.minimum(nose_x_m, inner_x_m),
                                              np.maximum(nose_x_m, inner_x_m)))
    room = BAG_SHARE * inside - stowed / GEAR_KGPM3
    return EndZone(front_x_m, back_x_m, nose_x_m, np.maximum(room, 0.0) * L_PER_M3)


def volume_m3(sections, chamber):
    """What a chamber holds, in m3."""
    outline = chamber_outline(sections, chamber)
    y, z = outline.y_m, outline.z_m
    areas = np.einsum("...e,...e->...", y[..., 1:] + y[..., :-1], np.diff(z))
    return chamber.share * np.trapezoid(areas, outline.x_m, axis=-1)


def chambers_of(boat, bow, stern, gear=()):
    """What keeps water out of both ends. Returns a tuple of Chamber.

    A bag fills BAG_SHARE of each cross-section from its nose inwards until its litres are used
    up.

    Raises
    ------
    BadInput at "bow_bag_l", "stern_bag_l", "bow_bulkhead_x_m", "stern_bulkhead_x_m": all faults.
    """
    zones = zones_of_one(boat, gear)
    faults = [*_faults("bow", bow, zones.bow), *_faults("stern", stern, zones.stern)]
    if faults:
        raise BadInput(faults)
    found = []
    if bow.bulkhead_x_m is not None:
        found.append(Chamber(0.0, bow.bulkhead_x_m))
    elif bow.bag_l > 0.0:
        found.append(_bag_in_one(boat.sections, bow.bag_l, float(zones.bow.nose_x_m),
                                 float(zones.bow.back_x_m)))
    if stern.bulkhead_x_m is not None:
        found.append(Chamber(stern.bulkhead_x_m, boat.length_m))
    elif stern.bag_l > 0.0:
        found.append(_bag_in_one(boat.sections, stern.bag_l, float(zones.stern.nose_x_m),
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


def bag_chamber(sections, litres, nose_x_m, inner_x_m):
    """The Chamber of a bag from its nose inwards, to the last litre; of one in each of many boats.

    Newton steps from the inner limit, the cross-section there being the slope.

    Parameters
    ----------
    sections : Sections
    litres : above 0, at most what fits
    nose_x_m, inner_x_m : how near it reaches to its stem, and the end's inner limit; either one is
        the larger
    """
    def bag(inner):
        return Chamber(np.minimum(nose_x_m, inner), np.maximum(nose_x_m, inner), BAG_SHARE)

    inner, inward = inner_x_m, np.sign(inner_x_m - nose_x_m)
    for _ in range(MOST_BAG_STEPS):
        over = volume_m3(sections, bag(inner)) - litres / L_PER_M3
        fits = (over <= 0.0) & (inner == inner_x_m)  # all that there is room for
        if np.all(fits | (np.abs(over) < BAG_TOLERANCE_M3)):
            break
        y, z = half_section_at(sections, np.asarray(inner)[..., None])
        area = np.einsum("...e,...e->...", y[..., 1:] + y[..., :-1], np.diff(z))[..., 0]
        inner = inner - inward * np.where(fits, 0.0, over / np.maximum(BAG_SHARE * area, 1e-9))
        inner = np.clip(inner, np.minimum(nose_x_m, inner_x_m), np.maximum(nose_x_m, inner_x_m))
    return bag(inner)


@lru_cache(maxsize=32)
def _bag_in_one(sections, litres, nose_x_m, inner_x_m):
    """Kept, since one boat is flooded with the same bags, its paddler here and there."""
    return bag_chamber(sections, litres, nose_x_m, inner_x_m)


def held_m3(sections, nose_x_m, inner_x_m):
    """Hull volume from a nose to each place inwards. Returns (n,) x and (n,) m3, rising from 0."""
    inward = 1 if inner_x_m >= nose_x_m else -1
    between = sections.x_m[(sections.x_m - nose_x_m) * (sections.x_m - inner_x_m) < 0.0]
    x = np.concatenate([[nose_x_m], between[::inward], [inner_x_m]])
    areas = 2.0 * np.interp(x, sections.x_m, half_areas_m2(sections))
    steps = 0.5 * (areas[1:] + areas[:-1]) * np.abs(np.diff(x))
    return x, np.concatenate([[0.0], np.cumsum(steps)])
