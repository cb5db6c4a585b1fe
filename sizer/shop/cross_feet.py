"""The strongback's cross feet: it stands on them on the floor while somebody sits in the frame.

A beam is narrower than the boat: a foot that comes over a gunwale, or a hand that leans on one,
would turn beam, frame and paddler over. So feet lie under it across the floor, out past both
gunwales, screwed up into the beam near both its edges: all the weight on one gunwale is then still
within them, and their screws hold the beam down on them. Our drawing and our judgement throughout;
no weight is meant to go there, and helpers hold the frame all the same.
"""

from dataclasses import dataclass
from itertools import pairwise
from math import ceil

from sizer.shop.blocks import wedges
from sizer.shop.items import Item
from sizer.shop.risers import FOOT_SCREW_MM
from sizer.shop.said import both, both_sides, listed, marked
from sizer.shop.trade_sizes import screw_text
from sizer.units import MM_PER_M, STANDARD_GRAVITY_MPS2

SECTION_M = (0.090, 0.045)  # width and height of a foot, lying flat
SOLD_M = (0.089, 0.038)  # of 2 x 4, planed; common practice, no source
PAST_M = 0.020  # of a foot beyond the boat's greatest half-breadth, at least
LONG_STEP_M = 0.050  # in which its length is told, never less than is needed
LEAST = 4  # feet: by the seat, under both ends and between
SCREWS_AN_EDGE = 2  # of a foot into the beam
FROM_EDGE_M = 0.015  # of those screws, from the beam's edge
# That a screw across the grain of softwood holds for each square metre of its thickness times what
# of it is in the wood: about a third of what pulls it out (common practice, no source).
HOLDS_PA = 4.0e6


@dataclass(frozen=True)
class CrossFeet:
    """How long the feet are, and the marks on the tape of their middles."""

    long_m: float
    tapes_m: tuple[float, ...]  # from the bow
    seat_tape_m: float  # of the one by the seat

    @property
    def count(self):
        return len(self.tapes_m)


def foot_long_m(boat):
    """How long a foot is: past both gunwales."""
    return ceil(round((boat.beam_m + 2.0 * PAST_M) / LONG_STEP_M, 6)) * LONG_STEP_M


def foot_end_m(boat, beam_high_m):
    """(half-breadth of a foot's end, height of its middle over the strongback's top)."""
    return 0.5 * foot_long_m(boat), -beam_high_m - 0.5 * SECTION_M[1]


def cross_feet(boat, weight_kg, beam_wide_m, seat_tape_m, stays):
    """The CrossFeet of a boat whose paddler weighs so much, under a beam so wide: those under its
    ends where the stems' StemStays come down to them."""
    half = 0.5 * boat.beam_m
    turning = weight_kg * STANDARD_GRAVITY_MPS2 * max(half - 0.5 * beam_wide_m, 0.0)
    thick, long = (one / MM_PER_M for one in FOOT_SCREW_MM)
    one_foot = SCREWS_AN_EDGE * HOLDS_PA * thick * (long - SECTION_M[1]) * (
        beam_wide_m - 2.0 * FROM_EDGE_M)
    bow, stern = (one.foot_tape_m for one in stays)
    tapes = sorted([bow + 0.5 * SECTION_M[0], seat_tape_m, stern - 0.5 * SECTION_M[0]])
    while len(tapes) < max(LEAST, ceil(turning / one_foot)):
        fore, aft = max(pairwise(tapes), key=lambda gap: gap[1] - gap[0])
        tapes = sorted([*tapes, 0.5 * (fore + aft)])
    return CrossFeet(foot_long_m(boat), tuple(float(one) for one in tapes), float(seat_tape_m))


def cross_feet_items(feet):
    screws = 2 * SCREWS_AN_EDGE * feet.count
    yield Item("strongback", "cross foot under the beam: width, height, length", feet.count,
               "pieces", (*SECTION_M, round(feet.long_m, 3)),
               f"softwood; 2 x 4, {both_sides(*SOLD_M)}, serves")
    yield wedges(2 * feet.count, "under the cross feet, on the floor")
    yield Item("strongback", f"screw {screw_text(FOOT_SCREW_MM)}", screws, "pieces", (),
               f"cross feet up into the beam: {screws}")


def cross_feet_words(feet):
    """How they are made and screwed on, in sentences."""
    places = listed([marked(one) + " (under the seat)" * (one == feet.seat_tape_m)
                     for one in feet.tapes_m])
    return (f"Before anything stands on it, turn it over and screw {feet.count} cross feet under "
            f"it, {both_sides(*SECTION_M)}, lying flat, each {both(feet.long_m)} long, as far out "
            f"to either side, square to it, their middles at tape {places}, the trestles "
            f"clear of them; {2 * SCREWS_AN_EDGE} screws {screw_text(FOOT_SCREW_MM)} in each, from "
            f"below, {SCREWS_AN_EDGE} near either edge of the beam, {both(FROM_EDGE_M)} from it. "
            "They reach out past both gunwales: on the floor, with the paddler climbing in, the "
            "beam alone would turn over. [j]")
