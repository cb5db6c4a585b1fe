"""How the float bags are held: which frames they lie between, what closes their inner ends.

A bag is pushed in empty through the frames' openings, as far as the boat is wide enough for its
nose, and blown up there. Its nose is hauled there by a line that is rove before the skin is on,
when a hand still gets to the ends: through the window of the last frame, through a ring nearer to
the tip than the nose, and back. The ring hangs in turns of waxed cord round both gunwales and the
ridge close behind the stem's head: the gunwales spread from there, so that no pull draws the turns
aft. A panel of the skin's cloth across the frame at its inner end keeps it from coming out: cloth
and not a net, since feet are near it and no foot may go through. It is laced to loops round the
sticks, whose lashings hold, and never to the skin. It is laced while the bag is soft: its edge and
its loops are behind the frame's plywood, where a full bag leaves a hand no room. The bag's valve is
on a hose that comes out through the lacing under the ridge, so that air goes in and out while the
panel stays laced. Common
practice, no source; panel and hose are our judgement, and which frame, cloth and cord are worked
out here.
"""

from dataclasses import dataclass
from itertools import pairwise
from math import ceil

import numpy as np
from shapely.geometry import Polygon

from sizer.hull.sections import half_section_at
from sizer.hydro.ends import BAG_SHARE, L_PER_M3, volume_m3
from sizer.hydro.watertight import Chamber
from sizer.shop.said import listed

CORD_SPARE_M = 1.0  # of each cord for knots; our judgement
RING_MM = 20  # inside, of the ring that a nose line runs through; our judgement
RING_LASHINGS = 2  # of waxed cord, what a lashing takes, in a ring's turns; our judgement
PASSES = 2  # of the cord over the panel's edge, which it is laced along; our judgement
CAP_M = (0.060, 0.060)  # of foam over the end of a rail that presses on a panel; our drawing
EYELET_STEP_M = 0.100  # along the panel's hem; our judgement
HEM_M = 0.040  # of cloth beyond the panel's edge, folded twice to half of it; our judgement
PANEL_IN_M = 0.033  # of a panel's edge from the skin's line: inside of every stick; our drawing
SAME_M = 1e-6  # nearer to the centre line a corner is on it
HOSE_M = 0.300  # of a bag's valve, from its inner end out through the lacing; our judgement
KG_PER_L = 1.03  # of sea water, what a litre of air lifts at the most
PULL_KG = 20.0  # at a laced panel, which it bears; our judgement
NOSE_ROOM_M = 0.040  # of a line between bag and ring, at the least, for its knot; our judgement


@dataclass(frozen=True)
class BagTie:
    """One bag and what holds it; places from the boat's foremost point."""

    end: str  # "bow" or "stern"
    litres: float
    front_x_m: float  # of the room it fills, its nose as near to the tip as it is reckoned with
    back_x_m: float
    nose: str  # the last frame before the stem, whose window it goes through
    ring_x_m: float  # where its nose line turns
    ring_in_m: float  # the same from the boat's own end
    panel: str  # the frame that closes its inner end
    panel_x_m: float  # of that frame's face which looks to the bag
    points_m: tuple[tuple[float, float], ...]  # where the panel is tied there, half-breadth, height
    bays_l: tuple[tuple[str, float], ...]  # litres from frame to frame, its nose's first
    inside_m: tuple[tuple[str, float, float], ...]  # frames it goes through, skin's breadth, height
    corners_m: tuple[tuple[float, float], ...]  # of the hemmed panel, as `points_m`, to starboard
    cloth_m: tuple[float, float]  # width and height of the panel's cloth, with its hem
    eyelets: int  # in its hem, one at every corner among them
    loops: int  # round sticks, that it is laced to
    cord_m: float  # of the panel's lacing
    nose_line_m: float  # of cord from the panel's frame through the ring and back

    @property
    def panel_size_m(self):
        """Width and height of the hemmed panel."""
        return tuple(one - 2.0 * HEM_M for one in self.cloth_m)

    @property
    def nose_x_m(self):
        """Where the bag ends at the boat's end."""
        return self.front_x_m if self.end == "bow" else self.back_x_m

    @property
    def inner_x_m(self):
        """Where the bag ends inboard."""
        return self.back_x_m if self.end == "bow" else self.front_x_m

    @property
    def long_m(self):
        """Of the bag as it is blown up: from where its litres begin to where they end."""
        return self.back_x_m - self.front_x_m

    @property
    def lead_m(self):
        """Of line between the ring and the nose of a bag so long."""
        return abs(self.nose_x_m - self.ring_x_m)

    @property
    def longest_m(self):
        """Of a longer bag, its nose as near to the ring as a knot lets it."""
        return self.long_m + max(self.lead_m - NOSE_ROOM_M, 0.0)

    @property
    def half_l(self):
        """The least of each of two bags side by side in its place, in whole litres."""
        return ceil(round(self.litres) / 2)

    @property
    def pulls_loop_kg(self):
        """At each of its panel's loops, were the boat to stand on end in the water."""
        return self.litres * KG_PER_L / self.loops

    @property
    def short_of_panel_m(self):
        return abs(self.panel_x_m - self.inner_x_m)


def bag_ties(boat, swamped, zones, stations, stems):
    """(bow's, stern's) BagTie of a boat: its Swamped, whose litres fill the ends, the EndZones they
    have, its Stations, as whose heights are told, its StemPatterns."""
    return tuple(_tie(boat, stem, litres, zone, stations) for stem, litres, zone in zip(
        stems, (swamped.bow_l, swamped.stern_l), (zones.bow, zones.stern), strict=True))


def _tie(boat, stem, litres, zone, stations):
    end = stem.end
    inner = float(zone.back_x_m if end == "bow" else zone.front_x_m)
    front, back = sorted((float(zone.nose_x_m), inner))
    ring_in = float(stem.ring_m[0, 0])
    turn = ring_in if end == "bow" else float(boat.length_m) - ring_in
    panel = min(stations, key=lambda one: abs(_face_x_m(one, end) - inner))
    nose = stations[0] if end == "bow" else stations[-1]
    points = tuple(panel.points_m[one.name] for one in boat.design.stringers
                   if one.name in panel.points_m)  # from the keel to the ridge: the whole section
    hemmed = Polygon([*points, *((-y, z) for y, z in points[::-1] if y > 0.0)]).buffer(
        -PANEL_IN_M, join_style="mitre")
    ring, spans = np.asarray(hemmed.exterior.coords)[:-1], hemmed.length
    edges = np.hypot(*np.diff(hemmed.exterior.coords, axis=0).T)
    loops = sum(2 if y > 0.0 else 1 for y, _ in points)
    return BagTie(end, litres, front, back, nose.name, turn, ring_in, panel.name,
                  _face_x_m(panel, end), points,
                  tuple(_bays(boat, end, front, back, stations)),
                  tuple(_inside(boat, front, back, stations)),
                  _to_starboard(ring),
                  tuple((np.ptp(ring, axis=0) + 2.0 * HEM_M).tolist()),
                  sum(ceil(one / EYELET_STEP_M - SAME_M) for one in edges.tolist()), loops,
                  PASSES * float(spans) + CORD_SPARE_M,
                  2.0 * abs(inner - turn) + CORD_SPARE_M)


def _to_starboard(ring):
    """Corners of a ring on the centre line and to starboard, from below round its middle."""
    middle = float(ring[:, 1].mean())
    return tuple(sorted(((max(float(y), 0.0), float(z)) for y, z in ring if y > -SAME_M),
                        key=lambda one: np.arctan2(one[0], middle - one[1])))


def _face_x_m(station, end):
    """Of the plywood's face that looks to that end."""
    return station.faces_x_m[0 if end == "bow" else 1]


def _inside(boat, front, back, stations):
    """(name, breadth, height) of the skin at every frame that a bag goes through."""
    for one in stations:
        if front < one.x_m < back:
            y, z = half_section_at(boat.sections, np.array([one.x_m]))
            yield one.name, 2.0 * float(y.max()), float(np.ptp(z))


def _bays(boat, end, front, back, stations):
    """(name, litres) of what a bag fills from frame to frame, from its nose inwards."""
    inside = [(one.name, one.x_m) for one in stations if front < one.x_m < back]
    stops = [("nose", front if end == "bow" else back), *(
        inside if end == "bow" else inside[::-1]), ("panel", back if end == "bow" else front)]
    for (name, x), (other, next_x) in pairwise(stops):
        low, high = sorted((x, next_x))
        yield (f"{name} to {other}",
               float(BAG_SHARE * volume_m3(boat.sections, Chamber(low, high)) * L_PER_M3))


def not_sold_words(ties):
    """What does where no bag so large is sold as one of some BagTies asks; our judgement."""
    halves = listed([f"{one.half_l} litres in the {one.end}" for one in ties])
    return ("Where no float bag so large is sold: one made to order, as long, and as wide and high "
            "as the boat inside (the sheet Float bags); or two side by side, each as long, of half "
            f"the litres or more ({halves}), both noses on the one nose line, blown up by turns "
            "until both lie full length, both hoses out at the ridge, one panel over both. Never "
            "one smaller bag, nor one behind another: nothing holds it. [j]")


def over_rails(ties, rails):
    """The BagTies whose panel a footbrace's FootRails stand out into, and press on."""
    return tuple(one for one in ties if one.panel == rails.fore)
