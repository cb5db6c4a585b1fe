"""The tools that the order of work asks for, once a shop's own, no price is asked; and what it uses
up beside the boat's materials."""

from sizer.shop.aboard import FOAM_L
from sizer.shop.bag_ties import PULL_KG
from sizer.shop.coaming import CLAMP_HOLE_M, SEWING_HOLE_M
from sizer.shop.items import BORED_MM, M_PER_FT, Item
from sizer.shop.lashing import HOLE_M
from sizer.shop.outfit import PIN_M
from sizer.shop.pedals import BAR, BOLT_HOLE_M, BOLT_MM, SLOT_WIDE_M
from sizer.shop.stick_loops import ROD_MM
from sizer.shop.stringers import BENDS
from sizer.shop.sundries import EYELET_MM
from sizer.shop.trade_sizes import bit_inches, bolt_name, cord_text, fine_text, inside_text
from sizer.shop.twists import any_hot
from sizer.units import MM_PER_M, both_mass

TOOLS = "tools"  # the group of the list
USED_UP = "used up"  # the group of what else is bought
TAPES = ((5, 16), (8, 26), (10, 33), (20, 66), (30, 100))  # m and ft as sold; common practice
TAPE_SPARE_M = 0.1  # of a tape past what is pulled: 16 ft are less than 5 m; our judgement
FEELER_MM = 0.3  # the widest gap in the coaming; our judgement
CONSUMABLES = (  # what, quantity, unit, why; common practice, no source
    ("adhesive tape, roll", 2, "pieces", "faces for glue, foam and ends that are tried"),
    ("wax, block", 1, "pieces", "the coaming's form"),
    ("newspaper or baking paper, old pots, stirring sticks", 1, "pieces", "under clamps, for glue"),
    ("paint that holds on the coating, small tin", 1, "pieces", "ticks on the deck at frames"),
    ("twine, waxed", 5.0, "m", "to seize the deck line's ends"),
    ("rags", 20, "pieces", "oil, glue, coating"),
    ("thinner as the oil's and the coating's makers name it", 1.0, "l", "to thin oil, for brushes"),
)


def _bits_text():
    """Every drill that the papers ask for, in mm and in inches."""
    bored = (round(one * MM_PER_M, 2) for one in (
        HOLE_M, SEWING_HOLE_M, PIN_M, CLAMP_HOLE_M, BOLT_HOLE_M, SLOT_WIDE_M))
    pairs = ", ".join(f"{one:g} ({bit_inches(one)})"
                      for one in sorted({*bored, *BORED_MM.values()}))
    return f"in mm (in inches) {pairs}"


def tool_items(sticks, marks):
    """Items of every tool for some Sticks on BenchMarks, and what is used up; common practice."""
    longest = max([marks.strongback_m, *(one.cut_m for one in sticks)])
    tape_m, tape_ft = next(one for one in TAPES if min(one[0], one[1] * M_PER_FT)
                           >= longest + TAPE_SPARE_M)
    for what, why in (
        (f"tape measure, {tape_m} m ({tape_ft} ft) or longer",
         "strongback and sticks in one pull"),
        (f"level, plumb bob, square, triangle, sliding bevel, feeler {fine_text(FEELER_MM)}, two "
         "winding sticks, straight edge, caliper, moisture meter, string, pencil, marking knife",
         "to set up and mark"),
        ("two trestles that bear the strongback at hip height", "to build on"),
        ("jig saw, hand saw, pull saw; band saw or table saw for the coaming's strips, with riving "
         "knife, feather board, push block; planer or sawyer for rough timber; push stick, "
         "extraction", "to saw"),
        ("router or rounding plane, plane, block plane, spokeshave, rasp, files, chisel, mallet, "
         "abrasive paper", "to shape"),
        *([("steam box, long gloves", "to bend")]
          if any(one.verdict == BENDS[2] for one in sticks) else []),
        *([("kettle, old cloths, long gloves", "to twist")] if any_hot(sticks) else []),
        (f"drill, bits {_bits_text()}, countersink, screwdrivers, spanner for {bolt_name(BOLT_MM)}",
         "to bore and screw"),
        (f"knife, dowel, leather for the hand; round rod {cord_text(ROD_MM)}", "lashing, loops"),
        ("box to stand on that does not tip", "to climb into the dry frame"),
        (f"round {BAR}", "to try what the pedals leave open: never 1 in, plane a thicker one down"),
        ("straps that are drawn by hand, two; soft floor: mats or old carpet",
         "to join frames by their spacers, to set the boat down"),
        ("tackle of two double blocks, or two ratchet straps", "to draw the skin lengthwise"),
        ("tack hammer, scissors, hot knife, pliers, eyelet setter "
         f"{inside_text(EYELET_MM)}, iron or hot-air gun, brushes and roller, lamp",
         "skin, panels and coating"),
        (f"scale for the boat, {both_mass(30.0, 0)} or more", "to weigh"),
        (f"spring scale, {both_mass(PULL_KG, 0)} or more", "to try the bags"),
        (f"weights for the trial: closed bags of sand; foam to prop gear, {FOAM_L} litres at most",
         "to launch"),
    ):
        yield Item(TOOLS, what, 1, "pieces", (), why)
    for what, quantity, unit, why in CONSUMABLES:
        yield Item(USED_UP, what, quantity, unit, (), why)
