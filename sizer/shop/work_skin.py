"""The skin on, sewn and coated, and the deck line: words of the {name}s in work.toml."""

from math import ceil

from sizer.shop.blocks import BLOCKS_A_STOOL, STOOLS_AT, right_way_up_words, upside_down
from sizer.shop.coaming import under_lip_m
from sizer.shop.materials import (
    DECK_LINE,
    DECK_LINE_MM,
    LOOP_CORD_MM,
    LOOP_OUT_M,
    coating_on_kg,
    line_points,
)
from sizer.shop.said import at_least, at_most, both, both_far, listed
from sizer.shop.skin import COATS, PULL_M, STITCHES
from sizer.shop.skin_relief import skin_under_water
from sizer.shop.sundries import TACK_STEP_M
from sizer.shop.trade_sizes import cord_text
from sizer.units import MM_PER_M, both_mass

# Our judgement
LOOP_COVERED = ("Its strands lie side by side outside the gunwales, its knot inboard; a double "
                "piece of the skin's cloth goes between it and the skin: no other cord so thick "
                "lies there. [j]")
TURN_UP_M = 0.040  # of the deck's cloth inside the coaming's wall, to turn up; our judgement
SNIPS_M, SNIP_OFF_M = 0.050, 0.010  # apart there, and from the wall; our judgement
LINE_OFF_M = 0.050  # that a deck line may be pulled off the deck: a hand, no arm; our judgement


def skinned_words(job, bench):
    """{name: words} of a Job and its Bench."""
    bought, boat = bench.materials, job.fitted.assessed.boat
    cloth, sewn = bought.skin, bought.seams
    found = skin_under_water(boat, job.fitted.assessed.particulars, job.person.water)
    lengths = "one length" if cloth.lengths == 1 else f"{cloth.lengths} lengths"
    return {
        "opening_cut": "Press the cloth into the opening along its inside, draw that edge, then a "
                       "second line "
                       f"{both(TURN_UP_M)} inside it; cut on that one, never the first, and "
                       f"snip from it every {both(SNIPS_M)} at the ends, to "
                       f"{both(SNIP_OFF_M)} from the wall. [j]",
        "turned": _turned(bought.coaming),
        "upside_down": _upside_down(boat), "right_way_up": right_way_up_words(boat),
        "skin_way": sewn.way, "seams": sewn.where, "stem_slits": _stem_slits(sewn),
        "trimmed": sewn.trimmed,
        "cloth": f"{lengths} of {both(cloth.cloth_m / cloth.lengths)}",
        "tack_step": both(TACK_STEP_M),
        "cloth_wide": f"{both(cloth.cloth_width_m)} for {over_words(cloth)}, and "
                      f"{both(0.5 * PULL_M)} at each edge to hold and sew",
        "seam_m": f"{both(sewn.seam_m)} and {both(sewn.coaming_m)} round the coaming",
        "thread": f"{both_far(sewn.thread_m)}, doubled", "stitches": STITCHES,
        "skin_touches": found.touched,
        "coating": f"{both_mass(coating_on_kg(boat, cloth), 2)} on the boat when dry, as reckoned "
                   "in its weight, no more (what else is bought stays in pots and brushes)",
        "coats": str(COATS),
        **_deck_line(boat, bench, sewn.lengths)}


def over_words(cloth):
    """What each length of a Skin's cloth goes over where the boat is widest."""
    if len(cloth.over_m) == 1:
        return f"{both(cloth.girth_m)} all round"
    hull, deck = map(both, cloth.over_m)
    return f"{hull} of hull and {deck} of deck, from gunwale to gunwale"


def _stem_slits(sewn):
    """What is done at the stems, in short; the sheet Skin tells how."""
    if not sewn.stems:
        return ""
    return ("At the stems slit it and sew it down their edges, "
            f"{listed([f'{both(one.long_m)} at the {one.end}' for one in sewn.stems])}, as the "
            "sheet Skin tells. ")


def _turned(rim):
    """How the cloth's edge lies between the coaming's deck line and its lip."""
    front, behind = map(both, under_lip_m(rim.wall_m))
    high = front if front == behind else f"{front} in front, {behind} behind"
    return (f"up the wall's outside to the lip, {high}; there the edge is folded in towards the "
            "wall and down again as far, what is longer cut off; a stitch through both layers in "
            "each hole")


def _upside_down(boat):
    """On what the boat lies so, and who turns it."""
    lies = upside_down(boat)
    over = at_least(ceil(lies.over_floor_m * MM_PER_M) / MM_PER_M)
    return (f"Upside down it lies on {len(STOOLS_AT)} trestles under {listed(list(lies.frames))}, "
            f"on each {BLOCKS_A_STOOL} blocks, padded, under the gunwales, {both(lies.block_m)} "
            f"high so that the deck stays off, their tops {over} or more over the "
            "floor so that the rim does: never on rim, ridge or stems. Three turn it, one at "
            "each trestle's frame and one amidships, all by the gunwales beside a frame. [j]")


def _deck_line(boat, bench, lengths):
    line = next(one for one in bench.materials.items if one.what == DECK_LINE)
    over = "the seam and both cloths" if lengths > 1 else "the cloth"
    return {
        "deck_line": f"{both_far(line.quantity, 1)} of {cord_text(DECK_LINE_MM)} cord",
        "line_run": "One length a side: from the bow's end loop, a bowline, "
                    "through every point of that side, to the stern's: drawn tight by hand, a "
                    "round turn and two half hitches, ends seized",
        "line_off": at_most(LINE_OFF_M),
        "line_points": str(line_points(boat)), "points_through": over,
        "loop_cord": f"{cord_text(LOOP_CORD_MM)} cord", "loop_out": both(LOOP_OUT_M),
        "loop_covered": LOOP_COVERED,
        "line_frames": f"{bench.frames[0].name} to {bench.frames[-1].name}"}
