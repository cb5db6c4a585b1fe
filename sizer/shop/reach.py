"""Where hand pump and sponge ride: both must be in reach, the pump of a swimmer too.

The pump lies on the foredeck under two elastic cords, from the deck line's point on one side to
that on the other, at the last two frames ahead of the opening; the sponge behind the seat. No cord
of theirs makes a loop that a leg goes through. Our drawing and our judgement.
"""

import numpy as np

from sizer.hull.sections import half_section_at
from sizer.shop.items import Item
from sizer.shop.outfit import ELASTIC_MM, TIE_CORD_MM
from sizer.shop.said import both, listed
from sizer.shop.stations import setting_up
from sizer.shop.trade_sizes import cord_text
from sizer.units import MM_PER_M, both_text

CORDS = 2  # that hold the pump
KNOTS_M = 0.20  # of both ends of one, drawn taut
SPONGE_CORD_M = 0.150  # no longer than a hand


def reach_items(boat):
    long = sum(float(girth) for _, girth in _across(boat)) + CORDS * KNOTS_M
    yield Item("fittings", f"cord {cord_text(TIE_CORD_MM)}", SPONGE_CORD_M + KNOTS_M, "m", (),
               "sponge")
    yield Item("fittings", f"elastic cord {cord_text(ELASTIC_MM)} for the hand pump", long, "m", (),
               f"{CORDS} across the foredeck, {both(KNOTS_M)} more each for knots")


def pump_words(boat):
    names = [name for name, _ in _across(boat)]
    return (f"For the hand pump an elastic cord across the foredeck at {listed(names)}, from the "
            "deck line's point on one side to that on the other, taut: a finger goes under. [j]")


def in_reach_words(boat):
    back = boat.opening.back_x_m
    stations = setting_up(boat).stations
    behind = next((one for one in stations if one.faces_x_m[0] >= back), stations[-1]).name
    return ("The hand pump lies lengthwise on the foredeck under both elastic cords, its handle to "
            "the opening, its cord to the deck line: in reach from the seat and from beside. The "
            f"sponge lies behind the seat on a cord of {both_text(SPONGE_CORD_M * MM_PER_M)}, a "
            "plain end and no "
            f"loop, to the gunwale at {behind}. ")


def _across(boat):
    """(name, girth of the deck) of the last frames ahead of the opening."""
    ahead = [(one.name, one.x_m) for one in setting_up(boat).stations
             if one.faces_x_m[1] <= boat.opening.front_x_m][-CORDS:]
    sheer = boat.sections.sheer
    y, z = half_section_at(boat.sections, np.array([x for _, x in ahead]))
    girths = 2.0 * np.hypot(np.diff(y[:, sheer:]), np.diff(z[:, sheer:])).sum(axis=1)
    return [(name, girth) for (name, _), girth in zip(ahead, girths, strict=True)]
