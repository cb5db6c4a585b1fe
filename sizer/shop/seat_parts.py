"""What the seat, the backband and the footbrace take, and how they are fixed, in words."""

import numpy as np

from sizer.drawing.told import in_full, in_mm, in_tenths, row_of, size, told
from sizer.hull.seat import LEAST_CLEAR_M, SLAT_WOOD
from sizer.hull.seat_bears import BREAKS_BELOW, SURE_TO_BEAR
from sizer.shop import outfit
from sizer.shop.boards import ends_m, sit_x_m
from sizer.shop.items import SAW_M, Item, rough_text, waxed_cord
from sizer.shop.said import both, listed
from sizer.shop.seat_boards import (
    CUT_M,
    GAP_M,
    bevels_m,
    plate_ties,
    plates,
    sag_under_m,
    slats,
    straps,
)
from sizer.shop.skin_relief import LEFT_M
from sizer.shop.trade_sizes import cord_text
from sizer.units import MM_PER_M

HARD_WOOD = "white ash"
RAIL_HIGH_M = 0.018  # of a footbrace's rail: low, as its pedal's notch is open behind it, where
# toes could go in; our drawing
RAIL_THICKS_M = (0.018, 0.021, 0.024, 0.027, 0.030, 0.033, 0.036)  # tried in order; our drawing
PLATE_GRAIN = ("The plates' face grain runs athwart, port and starboard alike: fore and aft it "
               "bears less than half as much and breaks")
CASING_M = 0.100  # of what cases each of them round the plywood's edge; our judgement
TIE_SPARE_M = 0.50  # of each of the backband's ties, for knots; our judgement


def boards(boat, x_m=None):
    """The Boards of a boat's seat, middle first; their sections at `x_m`, or where one sits."""
    make = {"panel": plates, "slats": slats, "sling": straps}[boat.design.seat.kind]
    return tuple(make(boat, sit_x_m(boat) if x_m is None else x_m))


def seat_items(boat, rail_thick_m, frames):
    """Everything that seat, backband and footbrace take, as lines of the shopping list; `frames` as
    patterns, round one of which the backband's ties go."""
    seat = boat.design.seat
    make = {"panel": _panel_items, "slats": _slat_items, "sling": _sling_items}[seat.kind]
    band, rail = outfit.backband(boat), outfit.rail_long_m(boat)
    section = rail_thick_m, RAIL_HIGH_M
    return (*make(boat),
            Item("seat", "backband", 1, "pieces", (),
                 f"{both(band.eyes_m)} from eye to eye, laid straight; about "
                 f"{both(outfit.BAND_M[1])} high"),
            Item("seat", f"cord {cord_text(outfit.TIE_CORD_MM)} for the backband's ties",
                 2.0 * (outfit.tie_round_m(band, frames) + TIE_SPARE_M), "m", (),
                 f"{both(TIE_SPARE_M)} on each for knots"),
            Item("seat", "leather or hose that cases a tie of the backband: length", 2, "pieces",
                 (CASING_M,), f"round {band.frame}'s plywood, where it lies on the edge"),
            Item("seat", f"elastic cord {cord_text(outfit.ELASTIC_MM)} for the backband",
                 outfit.ELASTIC_M, "m", (), "with its knots"),
            Item("seat", f"{HARD_WOOD} rail for the footbrace: thickness, height, length", 2,
                 "pieces", (*section, rail),
                 f"one a side, ends past both frames; {rough_text(*section)}; buy no footbrace in "
                 "its place: no sheet fits it, and a foot goes in beside its pedals",
                 2.0 * (rail + SAW_M)))


def _panel_items(boat):
    for board in boards(boat):
        yield Item("seat", f"okoume plywood {board.name}: thickness, width, length", 2, "pieces",
                   (boat.design.seat.thickness_m, *board.size_m),
                   "port and starboard, rectangle round it, cut from the sheets")
    yield waxed_cord(sum(lashings for _, lashings, _ in plate_ties(boat)), "the seat")


def _slat_items(boat):
    laid = boards(boat)
    for board in laid:
        yield Item("seat", f"{SLAT_WOOD} slat: thickness, width, length", 2, "pieces",
                   (boat.design.seat.thickness_m, *board.size_m), "port and starboard; "
                   + rough_text(boat.design.seat.thickness_m, board.size_m[0]))
    yield waxed_cord(2 * sum(len(board.holes_m) for board in laid), "the seat")


def _sling_items(boat):
    for board in boards(boat):
        yield Item("seat", "webbing strap: width, length", 2, "pieces", board.size_m,
                   "port and starboard, from frame to frame: no ends, for no fixing holds them")


def seat_says(boat, bears):
    """How a seat stands and is fixed; `bears` (k,) as `sizer.hull.seat_bears.bears_ratio`."""
    names = boat.design.seat.stands_on
    if boat.design.seat.kind == "panel":
        yield told("Seat plates, flat, lie from stick to stick, port and starboard, on {}. Plane "
                   "the underside of their edges until they lie flat on the sticks, no edge down "
                   "to nothing: where one sits {}{}. Tie them near the front and near the back "
                   "with {}. {}.{}", " and ".join(names), _bevels(boat), _meeting(names),
                   _ties(boat), PLATE_GRAIN, _notched(boat))
    elif boat.design.seat.kind == "slats":
        yield told("Slats run from {} to {} and lie on the floors of both, beside the plywood that "
                   "stands up behind the notches, flush with the outer faces. Two lashings at each "
                   "end: down the hole beside the inner face, under the floor, up its outer face "
                   "and back over the slat's end in a saw cut {} wide and {} deep in line with the "
                   "hole; three turns, the ends knotted under the slat. No screw: a floor {} deep "
                   "splits, and a point comes out at the skin.", *names[:2], size(CUT_M[0]),
                   in_full(CUT_M[1]), both(LEFT_M))
    else:
        yield (f"NOT TO BE BUILT: straps from {names[0]} to {names[1]} that hang only "
               f"{sag_under_m(boat) * MM_PER_M:.0f} mm under the floors of both pull them together "
               "with many times the paddler's weight, and no fixing is drawn for them: give the "
               "design a panel or slats.")
    yield told("Least clear of the skin with the paddler on it: {} asked for; measure it in the "
               "dry frame to a straight stick held across from stick to stick, where skin "
               "will be.", size(LEAST_CLEAR_M, form=in_mm))
    if not np.isnan(bears).any():
        yield (f"Taken wet, by itself and with no water under it, {_bearing(boat, bears)} "
               f"({SURE_TO_BEAR:.2f} wanted; under {BREAKS_BELOW:g} most break): clear, "
               "straight-grained wood there, no knot.")


def _bearing(boat, bears):
    """What of a seat bears its paddler how often, in words."""
    hard = "bear this paddler, sitting down hard,"
    if boat.design.seat.kind == "slats":
        return f"the seat's slats {hard} {bears[0]:.2f} times"
    return (f"the seat's {listed(list(boat.design.seat.stands_on))} {hard} {bears[:-1].min():.2f} "
            f"times, its plates {bears[-1]:.2f} times")


def _bevels(boat):
    """What is planed off a panel's edges where one sits, in words."""
    thick = size(boat.design.seat.thickness_m)
    return row_of([told("a bevel {} wide on the {}, which leaves {} of the {} at the edge",
                        size(over, form=in_tenths), stick, size(left, form=in_tenths), thick)
                   for stick, over, left in bevels_m(boat, sit_x_m(boat))])


def _notched(boat):
    """What is done where frames stand under a panel's plates; "" where none does."""
    fore, aft = ends_m(boat)
    under = [one.name for one, x in zip(boat.design.frames, boat.frame_x_m, strict=True)
             if fore - one.thickness_m < x < aft + one.thickness_m]
    return f" Under the plates stands {listed(under)}: notch them there." if under else ""


def _meeting(names):
    """How the plates share a stick between the keel and the outermost."""
    if len(names) == 2:
        return ""
    return told(", half of {} to each of two: they do not lap, their tops stay {} apart",
                " and of ".join(names[1:-1]), size(GAP_M))


def _ties(boat):
    """How a panel's holes and lashings go together."""
    found = list(plate_ties(boat))
    holes = sum(lashings * through for _, lashings, through in found)
    told = "; ".join(f"{lashings} round {stick}, each through " + (
        "one hole" if through == 1 else "a hole of both plates beside it")
        for stick, lashings, through in found)
    return f"{sum(one for _, one, _ in found)} lashings through {holes} holes: {told}"
