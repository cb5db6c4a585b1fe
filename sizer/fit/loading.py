"""Everything that is afloat: the boat, the dressed paddler in the seat, the gear in its places."""

from dataclasses import dataclass

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
    """The load by parts, and as one mass with its centre."""

    paddler_kg: float  # dressed, with PFD, spray deck and paddle
    gear_kg: float
    boat_kg: float
    load: Load  # with the nominal seated centre
    cautious: Load  # with the cautious, higher one


def loading(boat, weight, body, centre, use, gear_kg):
    """The load of a boat with its paddler and gear.

    Parameters
    ----------
    boat : Boat
    weight : OwnWeight
    body : Body
    centre : SeatedCentre
    use : Use
    gear_kg : float
    """
    paddler = body.weight_kg + worn_kg()
    paddler_x = boat.seat_x_m - centre.ahead_m
    gear_x = sum(share * _gear_x_m(boat, place) for place, share in use.gear_places)
    gear_z = GEAR_HEIGHT_SHARE * boat.depth_m
    total = paddler + gear_kg + weight.mass_kg
    lcg = (paddler * paddler_x + gear_kg * gear_x + weight.mass_kg * weight.lcg_m) / total
    vcgs = [
        (paddler * (boat.seat_z_m + height) + gear_kg * gear_z + weight.mass_kg * weight.vcg_m)
        / total
        for height in (centre.nominal_height_m, centre.cautious_height_m)]
    return Loading(paddler, gear_kg, weight.mass_kg,
                   Load(total, lcg, vcgs[0]), Load(total, lcg, vcgs[1]))


def _gear_x_m(boat, place):
    if place == FRACTION_BESIDE_SEAT:
        return boat.seat_x_m + BEHIND_SEAT_M
    return END_PLACE[place] * boat.length_m
