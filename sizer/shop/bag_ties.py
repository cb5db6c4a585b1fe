"""How the float bags are held: which frames they lie between, what closes their inner ends.

A bag is pushed in empty through the frames' openings, as far as the stem, and blown up there. Its
nose is hauled there by a line that is rove before the skin is on, when a hand still gets to the
ends: through the window of the last frame, round the stem's tail and back, both its ends tied off
at the panel's frame. A panel of the skin's cloth laced across the frame at its inner end keeps
it from coming out: cloth and not a net, since feet are near it and no foot may go through. It is
laced to the sticks, whose lashings hold, and never to the skin. Common practice, no source; the
panel is our judgement, and which frame, cloth and cord are worked out here.
"""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from sizer.hydro.ends import BAG_SHARE, L_PER_M3, volume_m3
from sizer.hydro.watertight import Chamber

CORD_SPARE_M = 1.0  # of each cord for knots; our judgement
PASSES = 2  # of the cord over the panel's edge, which it is laced along; our judgement
HEM_M = 0.040  # of the panel on every side; our judgement


@dataclass(frozen=True)
class BagTie:
    """One bag and what holds it; places from the boat's foremost point."""

    end: str  # "bow" or "stern"
    litres: float
    front_x_m: float  # of the room it fills
    back_x_m: float
    nose: str  # the last frame before the stem, whose window it goes through
    panel: str  # the frame that closes its inner end
    panel_x_m: float  # of that frame's face which looks to the bag
    points_m: tuple[tuple[float, float], ...]  # where the panel is tied there, half-breadth, height
    bays_l: tuple[tuple[str, float], ...]  # litres from frame to frame, the stem's first
    cloth_m: tuple[float, float]  # width and height of the panel's cloth, with its hem
    cord_m: float  # of the panel's lacing
    nose_line_m: float  # of cord from the panel's frame round the stem and back

    @property
    def inner_x_m(self):
        """Where the bag ends inboard."""
        return self.back_x_m if self.end == "bow" else self.front_x_m


def bag_ties(boat, swamped, zones, stations):
    """(bow's, stern's) BagTie of a boat: its Swamped, whose litres fill the ends, the EndZones they
    have, its Stations, as whose heights are told."""
    return (_tie(boat, "bow", swamped.bow_l, zones.bow, stations),
            _tie(boat, "stern", swamped.stern_l, zones.stern, stations))


def _tie(boat, end, litres, zone, stations):
    front, back = float(zone.front_x_m), float(zone.back_x_m)
    inner = back if end == "bow" else front
    panel = min(stations, key=lambda one: abs(_face_x_m(one, end) - inner))
    nose = stations[0] if end == "bow" else stations[-1]
    points = tuple(panel.points_m[one.name] for one in boat.design.stringers
                   if one.name in panel.points_m)  # from the keel to the ridge: the whole section
    ring = np.array([*points, *((-y, z) for y, z in points[::-1])])
    spans = np.linalg.norm(np.diff([*ring, ring[0]], axis=0), axis=1).sum()
    return BagTie(end, litres, front, back, nose.name, panel.name, _face_x_m(panel, end), points,
                  tuple(_bays(boat, end, front, back, stations)),
                  tuple((np.ptp(ring, axis=0) + 2.0 * HEM_M).tolist()),
                  PASSES * float(spans) + CORD_SPARE_M,
                  2.0 * (inner if end == "bow" else boat.length_m - inner) + CORD_SPARE_M)


def _face_x_m(station, end):
    """Of the plywood's face that looks to that end."""
    return station.faces_x_m[0 if end == "bow" else 1]


def _bays(boat, end, front, back, stations):
    """(name, litres) of what a bag fills from frame to frame, from the stem inwards."""
    inside = [(one.name, one.x_m) for one in stations if front < one.x_m < back]
    stops = [("stem", front if end == "bow" else back), *(
        inside if end == "bow" else inside[::-1]), ("panel", back if end == "bow" else front)]
    for (name, x), (other, next_x) in pairwise(stops):
        low, high = sorted((x, next_x))
        yield (f"{name} to {other}",
               float(BAG_SHARE * volume_m3(boat.sections, Chamber(low, high)) * L_PER_M3))
