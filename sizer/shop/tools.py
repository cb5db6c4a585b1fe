"""The tools that the order of work asks for, once a shop's own, no price is asked; and what it uses
up beside the boat's materials."""

from math import ceil

from sizer.shop.bag_ties import PULL_KG
from sizer.shop.coaming import CLAMP_HOLE_M, SEWING_HOLE_M
from sizer.shop.items import BORED_MM, Item
from sizer.shop.lashing import HOLE_M
from sizer.shop.outfit import PIN_M
from sizer.shop.pedals import BOLT_MM, MOST_OPEN_M, SLOT_WIDE_M
from sizer.shop.stringers import BENDS
from sizer.shop.sundries import EYELET_MM
from sizer.shop.twists import any_hot
from sizer.units import MM_PER_M

TOOLS = "tools"  # the group of the list
USED_UP = "used up"  # the group of what else is bought
TAPE_STEP_M = 1.0  # in which tapes are sold
FEELER_MM = 0.3  # the widest gap in the coaming; our judgement
CONSUMABLES = (  # what, quantity, unit, why; common practice, no source
    ("adhesive tape, roll", 2, "pieces", "faces for glue, foam and ends that are tried"),
    ("wax, block", 1, "pieces", "the coaming's form"),
    ("newspaper or baking paper, old pots, stirring sticks", 1, "pieces", "under clamps, for glue"),
    ("rags", 20, "pieces", "oil, glue, coating"),
    ("thinner as the oil's and the coating's makers name it", 1.0, "l", "to thin oil, for brushes"),
)


def tool_items(sticks, marks):
    """Items of every tool for some Sticks on BenchMarks, and of what is used up; common practice,
    no source."""
    longest = max([marks.strongback_m, *(one.cut_m for one in sticks)])
    bits = ", ".join(f"{size:g}" for size in sorted({
        *(round(one * MM_PER_M, 2) for one in (HOLE_M, SEWING_HOLE_M, PIN_M, CLAMP_HOLE_M,
                                             SLOT_WIDE_M)),
        float(BOLT_MM[0]), *BORED_MM.values()}))
    for what, why in (
        (f"tape measure, {TAPE_STEP_M * ceil(longest / TAPE_STEP_M):.0f} m or longer",
         "strongback and sticks in one pull"),
        (f"level, plumb bob, square, triangle, sliding bevel, feeler {FEELER_MM:g} mm, two winding "
         "sticks, straight edge, pencil, marking knife", "to set up and mark"),
        ("two trestles that bear the strongback at hip height", "to build on"),
        ("jig or band saw, hand saw, pull saw; planer or sawyer for rough timber; push stick, "
         "extraction", "to saw"),
        ("router or rounding plane, plane, block plane, spokeshave, rasp, files, chisel, abrasive "
         "paper", "to shape"),
        *([("steam box, long gloves", "to bend")]
          if any(one.verdict == BENDS[2] for one in sticks) else []),
        *([("kettle, old cloths, long gloves", "to twist")] if any_hot(sticks) else []),
        (f"drill, bits {bits} mm, countersink, screwdrivers, spanner for M{BOLT_MM[0]}",
         "to bore and screw"),
        ("knife, dowel, leather for the hand", "lashing"),
        (f"round bar {MOST_OPEN_M * MM_PER_M:.0f} mm thick", "to try what the pedals leave open"),
        ("tackle of two double blocks, or two ratchet straps", "to draw the skin lengthwise"),
        (f"scissors, hot knife, pliers, eyelet setter {EYELET_MM} mm, iron or hot-air gun, brushes "
         "and roller, lamp", "skin, panels and coating"),
        ("scale for the boat, 30 kg or more", "to weigh"),
        (f"spring scale, {PULL_KG:.0f} kg or more", "to try the bags"),
        ("weights as the launch sheet names them", "to launch"),
    ):
        yield Item(TOOLS, what, 1, "pieces", (), why)
    for what, quantity, unit, why in CONSUMABLES:
        yield Item(USED_UP, what, quantity, unit, (), why)
