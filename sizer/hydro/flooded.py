"""The flooded boat: cockpit open to the sea, and what still holds it up.

By lost buoyancy (`sizer.hydro.lost_buoyancy`): wood, skin and fittings, bags or bulkheaded ends,
packed gear and the seated body, each as far as it is under water. Left out: waves, air caught
under the deck, bags that shift or leak, clothing and PFD, soaked wood, and what a swimmer who
holds on adds or takes. An open boat swamped in calm water, not a trial.
"""

from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from sizer.errors import WillNotFloat
from sizer.hydro.ends import L_PER_M3, End, bag_chamber, chambers_of, end_zones
from sizer.hydro.flotation import Load
from sizer.hydro.immersion import half_outline, immersed, planes_at
from sizer.hydro.lost_buoyancy import balance, balance_many
from sizer.hydro.rim import rim_clearance_m, sheer_clearance_m
from sizer.hydro.solids import (
    body_solids,
    fitting_solids,
    gear_solids,
    skin_solids,
    wood_solids,
)
from sizer.hydro.watertight import Solids, joined, no_solids, outline_of, under_of
from sizer.paddler.body import Body
from sizer.units import MM_PER_M, both_text

RIM_MARGIN_M = 0.030  # of the rim over calm water; our judgement, waves will still wash in
SIDE_DECK_MARGIN_M = 0.015  # of the side deck over calm water; our judgement, as the rim's
OPEN = End()
# What to do upside down, in the water, and in a boat that fills: one wording everywhere.
RIM_UPSIDE_DOWN = ("upside down the rim may be gripped and pushed with all your strength, whatever "
                   "is said elsewhere about hands and weight on it: never mind whether it breaks")
KEEP_HOLD = "keep hold of the boat; do not let go of it to swim"
TO_SHORE = "Get ashore with it, or re-enter only with help."
LEAVE = f"get out of the cockpit and {KEEP_HOLD}. {TO_SHORE}"


@dataclass(frozen=True)
class Aboard:
    """Who and what is in the boat; the paddler is None beside it in the water."""

    gear: tuple[Load, ...]
    paddler: Load | None = None  # dressed, at the seated centre, or where the paddler lies on deck
    body: Body | None = None  # as far as it is in the water that fills the boat
    on_deck: bool = False  # lying on the back deck, climbing on

    @property
    def who(self):
        """Where the paddler is, in words."""
        if self.paddler is None:
            return "with nobody in it"
        return ("with the paddler lying on the back deck" if self.on_deck
                else "with the paddler in the seat")


@dataclass(frozen=True)
class Flooded:
    """A swamped boat at rest; every number is None where it sinks."""

    state: str  # "rim clear", "awash" or "sinks"
    says: str
    sinkage_m: float | None  # water above the baseline at half the hull's length
    trim_deg: float | None  # positive: stern deeper
    rim_clearance_m: float | None  # lowest place of the rim over water; negative under it
    freeboard_m: float | None  # lowest place of the sheer over water; negative under it
    water_inside_l: float | None
    gm_m: float | None  # about upright, inside open to the sea

    @property
    def spare_m(self):
        """What rim and side deck, whichever has less, stand over their margins; -inf sunk."""
        if self.rim_clearance_m is None:
            return -np.inf
        return min(self.rim_clearance_m - RIM_MARGIN_M, self.freeboard_m - SIDE_DECK_MARGIN_M)

    @property
    def stays_upright(self):
        """Whether it does so by itself, as loaded; None where it sinks."""
        return None if self.gm_m is None else bool(self.gm_m > 0.0)

    @property
    def can_be_paddled(self):
        """Whether one could sit in it and go on: it floats upright, rim and side deck clear."""
        return bool(self.stays_upright and min(self.rim_clearance_m, self.freeboard_m) > 0.0)


@lru_cache(maxsize=16)  # the checks ask for boats that are told of as well
def flooded(boat, weight, aboard, bow, stern, water):
    """The boat with its cockpit open to the sea.

    Parameters
    ----------
    boat : Boat
    weight : OwnWeight
    aboard : Aboard
    bow, stern : End
    water : Water

    Returns
    -------
    Flooded

    Raises
    ------
    BadInput for bags or bulkheads that cannot be, see `sizer.hydro.ends.chambers_of`.
    NotSolved, where the search does not settle.
    """
    chambers, inside, skin = inside_of(boat, weight, aboard, bow, stern)
    solids = joined(inside, skin)
    load = load_of(weight, aboard)
    try:
        found = balance(boat.sections, chambers, solids, load, water)
    except WillNotFloat as sunk:
        return Flooded("sinks", f"Flooded {aboard.who}, the boat {sunk}."
                       f"{_leave_says(aboard)}", *[None] * 6)
    return _afloat(boat, chambers, inside, found, aboard)


def inside_of(boat, weight, aboard, bow, stern):
    """What keeps water out within the skin: the Chambers, the Solids outside them; and the skin's.

    Raises
    ------
    BadInput for bags or bulkheads that cannot be, see `sizer.hydro.ends.chambers_of`.
    """
    chambers = chambers_of(boat, bow, stern, aboard.gear)
    within = _inside_of_one(boat, weight, aboard)
    return chambers, _outside_of(chambers, within), skin_of(boat, weight)


def filled_by_bags(boats, gear):
    """The Chambers of the largest bags that fit into both ends of many boats, in whole litres."""
    sections, zones = boats.sections, end_zones(boats, gear)
    return (bag_chamber(sections, np.floor(zones.bow.bag_l), zones.bow.nose_x_m,
                        zones.bow.back_x_m),
            bag_chamber(sections, np.floor(zones.stern.bag_l), zones.stern.nose_x_m,
                        zones.stern.front_x_m))


def spare_with_bags_m(boats, weight, aboard, water, bags):
    """What rim and side deck of many swamped boats keep over their margins, with bags: (n,) m.

    -inf where a boat sinks, NaN where it did not settle: `flooded` may still tell.

    Parameters
    ----------
    boats : Boat of n boats
    weight, aboard, water : as `flooded`, of n
    bags : their Chambers, such as `filled_by_bags`
    """
    sections = boats.sections
    found, sinks, settled = _many_with_bags(boats, weight, aboard, water, bags)
    water_plane = planes_at(found.sinkage_m, found.trim_deg, sections.mid_x_m)
    spare = np.minimum(rim_clearance_m(sections, *water_plane) - RIM_MARGIN_M,
                       sheer_clearance_m(sections, *water_plane) - SIDE_DECK_MARGIN_M)
    return np.where(sinks, -np.inf, np.where(settled, spare, np.nan))


def gm_with_bags_m(boats, weight, aboard, water, bags):
    """GM of many swamped boats with bags: (n,) m; NaN where `flooded` has to be asked, as it sinks
    or did not settle. Parameters as `spare_with_bags_m`."""
    found, sinks, settled = _many_with_bags(boats, weight, aboard, water, bags)
    return np.where(settled & ~sinks, found.gm_m, np.nan)


def _many_with_bags(boats, weight, aboard, water, bags):
    solids = joined(inside_solids(boats, weight, aboard), skin_of(boats, weight))
    load = load_of(weight, aboard)
    # a boat that all share, with nobody in it, weighs the same for each of them
    each = np.broadcast_to(load.lcg_m, np.broadcast_shapes(
        np.shape(load.lcg_m), np.shape(boats.seat_x_m)))
    return balance_many(boats.sections, bags, solids, replace(load, lcg_m=each), water)


def unsteady_says(gm_m, aboard):
    """What to do with a swamped boat that will not stay upright; empty where it does."""
    if gm_m > 0.0:
        return ""
    if aboard.paddler is None:
        return f" It will not stay upright by itself: do not climb on alone; {KEEP_HOLD}."
    if aboard.on_deck:
        return (f" It will not stay upright with you on it: do not climb on alone; {KEEP_HOLD}. "
                f"{TO_SHORE}")
    return f" It will not stay upright with you in it: {LEAVE}"


def _leave_says(aboard):
    """What to do with a boat that cannot be paddled though it may stay upright, or that sinks."""
    return f" It cannot be paddled: {LEAVE}" if aboard.body is not None else ""


@lru_cache(maxsize=8)  # many bags are tried in one boat
def _inside_of_one(boat, weight, aboard):
    return inside_solids(boat, weight, aboard)


def inside_solids(boat, weight, aboard):
    """All that displaces water within the skin, as if nothing were watertight."""
    body = no_solids() if aboard.body is None else body_solids(boat, aboard.body)
    return joined(_built(boat, weight)[0], gear_solids(aboard.gear), body)


def skin_of(boat, weight):
    """The skin's Solids, outside all else."""
    return _built(boat, weight)[1]


@lru_cache(maxsize=4)
def _built(boat, weight):
    """Solids of what is built within the skin, and the skin's; kept, since they are asked for
    whoever sits in a boat."""
    return joined(wood_solids(boat, weight), fitting_solids(weight)), skin_solids(boat, weight)


def load_of(weight, aboard):
    """Boat, gear and whoever sits in it, as one Load."""
    parts = [Load(weight.mass_kg, weight.lcg_m, weight.vcg_m), *aboard.gear]
    if aboard.paddler is not None:
        parts.append(aboard.paddler)
    mass = sum(part.mass_kg for part in parts)
    return Load(mass, sum(part.mass_kg * part.lcg_m for part in parts) / mass,
                sum(part.mass_kg * part.vcg_m for part in parts) / mass)


def _outside_of(chambers, solids):
    """Solids but those behind a bulkhead, which the watertight end already counts."""
    keep = np.ones(solids.x_m.size, bool)
    for one in chambers:
        if one.share == 1.0:
            keep &= (solids.x_m < one.front_x_m) | (solids.x_m > one.back_x_m)
    return Solids(solids.x_m[keep], solids.low_m[keep], solids.high_m[keep],
                  solids.volume_m3[keep], solids.breadth_m[keep])


def _afloat(boat, chambers, inside, found, aboard):
    sections = boat.sections
    up, level = planes_at(found.sinkage_m, np.array([found.trim_deg]), sections.mid_x_m)
    rim = float(rim_clearance_m(sections, up, level)[0])
    litres = _water_inside_l(sections, chambers, inside, up, level)
    side = float(sheer_clearance_m(sections, up, level)[0])
    state = "rim clear" if rim > 0.0 else "awash"
    told = unsteady_says(found.gm_m, aboard)
    if not told and min(rim, side) <= 0.0:
        told = _leave_says(aboard)
    says = (f"Flooded {aboard.who}, {_heights_say(rim, side)}"
            f"{_inside_says(litres, rim)}{told}")
    return Flooded(state, says, found.sinkage_m, found.trim_deg, rim, side, litres, found.gm_m)


def _heights_say(rim_m, side_m):
    rim, side = (both_text(abs(height) * MM_PER_M) for height in (rim_m, side_m))
    if rim_m <= 0.0:
        return f"the rim lies {rim} under water"
    if side_m <= 0.0:
        return f"the rim stays {rim} over the water and the side deck lies {side} under it"
    return f"the rim stays {rim} and the side deck {side} over the water"


def _inside_says(litres, rim_m):
    return (f", with {litres:.0f} litres inside, as high as the sea." if rim_m > 0.0 else
            ": it cannot be pumped out.")


def _water_inside_l(sections, chambers, inside, up, level):
    """The hull under water, less everything in it that water cannot enter."""
    whole = immersed(half_outline(sections), up, level).volume_m3[0]
    dry = under_of(outline_of(sections, chambers), inside, up, level).volume_m3[0]
    return float(whole - dry) * L_PER_M3
