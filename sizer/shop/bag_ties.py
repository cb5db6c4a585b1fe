"""How the float bags are held: which frames they lie between, what closes their inner ends.

A bag is pushed in empty through the frames' openings, its nose tied to the last frame before the
stem, and blown up there. A net of cord across the frame at its inner end keeps it from coming out;
it is tied to the sticks, whose lashings hold, and never to the skin. Common practice, no source;
which frame, and the cord, are worked out here.
"""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from sizer.hydro.ends import BAG_SHARE, L_PER_M3, volume_m3
from sizer.hydro.watertight import Chamber

NET_SPARE_M = 1.0  # of cord for knots and for the nose's line; our judgement
PASSES = 2  # of the net's cord: once round the tied points, once to and fro; our judgement


@dataclass(frozen=True)
class BagTie:
    """One bag and what holds it; places from the boat's foremost point."""

    end: str  # "bow" or "stern"
    litres: float
    front_x_m: float  # of the room it fills
    back_x_m: float
    nose: str  # the frame that its nose is tied to
    net: str  # the frame that closes its inner end
    net_x_m: float  # of that frame's face which looks to the bag
    points_m: tuple[tuple[float, float], ...]  # where the net is tied there, half-breadth, height
    bays_l: tuple[tuple[str, float], ...]  # litres from frame to frame, the stem's first
    cord_m: float  # net and nose's line

    @property
    def inner_x_m(self):
        """Where the bag ends inboard."""
        return self.back_x_m if self.end == "bow" else self.front_x_m


def bag_ties(boat, swamped, zones, stations):
    """(bow's, stern's) BagTie of a boat.

    Parameters
    ----------
    boat : Boat
    swamped : Swamped, whose litres fill the ends
    zones : EndZones, the room there is
    stations : its Stations, bow to stern; heights over the strongback's top are told as theirs
    """
    return (_tie(boat, "bow", swamped.bow_l, zones.bow, stations),
            _tie(boat, "stern", swamped.stern_l, zones.stern, stations))


def _tie(boat, end, litres, zone, stations):
    front, back = float(zone.front_x_m), float(zone.back_x_m)
    inner = back if end == "bow" else front
    net = min(stations, key=lambda one: abs(_face_x_m(one, end) - inner))
    nose = stations[0] if end == "bow" else stations[-1]
    names = [one.name for one in boat.design.stringers if one.role in ("keel", "gunwale", "chine")]
    points = tuple(net.points_m[name] for name in names if name in net.points_m)
    ring = np.array([*points, *((-y, z) for y, z in points[::-1])])
    spans = np.linalg.norm(np.diff([*ring, ring[0]], axis=0), axis=1).sum()
    return BagTie(end, litres, front, back, nose.name, net.name, _face_x_m(net, end), points,
                  tuple(_bays(boat, end, front, back, stations)),
                  PASSES * float(spans) + NET_SPARE_M)


def _face_x_m(station, end):
    """Of the plywood's face that looks to that end."""
    return station.faces_x_m[0 if end == "bow" else 1]


def _bays(boat, end, front, back, stations):
    """(name, litres) of what a bag fills from frame to frame, from the stem inwards."""
    inside = [(one.name, one.x_m) for one in stations if front < one.x_m < back]
    stops = [("stem", front if end == "bow" else back), *(
        inside if end == "bow" else inside[::-1]), ("net", back if end == "bow" else front)]
    for (name, x), (other, next_x) in pairwise(stops):
        low, high = sorted((x, next_x))
        yield (f"{name} to {other}",
               float(BAG_SHARE * volume_m3(boat.sections, Chamber(low, high)) * L_PER_M3))
