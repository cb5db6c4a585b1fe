"""The tools that the order of work asks for, once a shop's own: to borrow, no price is asked."""

from math import ceil

from sizer.shop.coaming import CLAMP_HOLE_M
from sizer.shop.items import Item
from sizer.shop.lashing import HOLE_M
from sizer.shop.outfit import PIN_M
from sizer.shop.pedals import BOLT_MM, MOST_OPEN_M
from sizer.units import MM_PER_M

TOOLS = "tools"  # the group of the list
TAPE_STEP_M = 1.0  # in which tapes are sold


def tool_items(sticks, marks):
    """Items of every tool for some Sticks on BenchMarks; common practice, no source."""
    longest = max([marks.strongback_m, *(one.cut_m for one in sticks)])
    bits = ", ".join(f"{size:g}" for size in (
        HOLE_M * MM_PER_M, BOLT_MM[0], PIN_M * MM_PER_M, CLAMP_HOLE_M * MM_PER_M))
    for what, why in (
        (f"tape measure, {TAPE_STEP_M * ceil(longest / TAPE_STEP_M):.0f} m or longer",
         "strongback and sticks in one pull"),
        ("level, square, sliding bevel, two winding sticks, straight edge, pencil, marking knife",
         "to set up and mark"),
        ("jig or band saw, hand saw, pull saw; planer or sawyer for rough timber", "to saw"),
        ("plane, block plane, spokeshave, rasp, files, chisel, abrasive paper", "to shape"),
        (f"drill, bits {bits} mm, pilot bits for the screws, countersink, screwdrivers, spanners",
         "to bore and screw"),
        (f"round bar {MOST_OPEN_M * MM_PER_M:.0f} mm thick", "to try what the pedals leave open"),
        ("tackle of two double blocks, or two ratchet straps", "to draw the skin lengthwise"),
        ("scissors, hot knife, pliers, brushes and roller, lamp", "skin and coating"),
        ("scale for the boat, 30 kg or more", "to weigh"),
    ):
        yield Item(TOOLS, what, 1, "pieces", (), why)
