"""Everything that is afloat: the boat, the dressed paddler in the seat, the gear in its places."""

from dataclasses import dataclass

import numpy as np

from sizer.fit.uses import FRACTION_AFT, FRACTION_BESIDE_SEAT, FRACTION_FORE
from sizer.hydro.flotation import Load
from sizer.paddler.seated import worn_kg

# Where gear lies. Our judgement: a day's kit stands behind the seat; camping gear is packed in
# both ends so that the boat floats level, low down.
BEHIND_SEAT_M = 0.40
END_PLACE = {FRACTION_FORE: 0.26, FRACTION_AFT: 0.74}  # share of hull length from the bow
GEAR_HEIGHT_SHARE = 0.40  # of the depth


@dataclass(frozen=True)
class Loading:
    """The load by parts, and as one mass with its centre; of many boats, arrays (n,)."""

    paddler_kg: float  # dressed, with PFD, spray deck and paddle
    gear_kg: float
    boat_kg: float
    load: Load  # with the nominal seated centre
    cautious: Load  # with the cautious, higher one
    paddler: Load  # the dressed paddler alone, nominal centre
    gear: tuple[Load, ...]  # each heap of gear alone

    @property
    def carried_kg(self):
        """What people call the load: the dressed paddler and all gear, without the boat."""
        return self.paddler_kg + self.gear_kg


def loading(boat, weight, body, centre, use, gear_kg, gear_off_m=(0.0, 0.0)):
    """The load of a boat with its paddler and gear.

    Parameters
    ----------
    boat : Boat
    weight : OwnWeight
    body : Body
    centre : SeatedCentre
    use : Use
    gear_kg : float
    gear_off_m : how far ahead and above its places the gear lies
    """
    dressed_kg = body.weight_kg + worn_kg()
    seated = [Load(dressed_kg, boat.seat_x_m - centre.ahead_m, boat.seat_z_m + height)
              for height in (centre.nominal_height_m, centre.cautious_height_m)]
    ahead_m, up_m = gear_off_m
    gear_z = GEAR_HEIGHT_SHARE * boat.depth_m + up_m
    gear = tuple(Load(share * gear_kg, _gear_x_m(boat, place) - ahead_m, gear_z)
                 for place, share in use.gear_places if np.any(share * gear_kg > 0.0))
    own = Load(weight.mass_kg, weight.lcg_m, weight.vcg_m)
    return Loading(dressed_kg, gear_kg, weight.mass_kg,
                   *(together(own, paddler, *gear) for paddler in seated), seated[0], gear)


def together(*loads):
    """Several loads as one."""
    mass = sum(load.mass_kg for load in loads)
    return Load(mass, sum(load.mass_kg * load.lcg_m for load in loads) / mass,
                sum(load.mass_kg * load.vcg_m for load in loads) / mass)


def _gear_x_m(boat, place):
    if place == FRACTION_BESIDE_SEAT:
        return boat.seat_x_m + BEHIND_SEAT_M
    return END_PLACE[place] * boat.length_m
