"""Loops round sticks under the skin, which panels, gear and backband are tied to.

A cord as thick as these are tied with would stand up on a stick's outer face under the skin, along
keel, chines and gunwales, where it wears first. So a loop is of the lashings' own thin cord, turn
beside turn, and stands no higher there than the lashing beside it. It goes round stick and a rod
along the stick's inner face, and the knot is there too: with the rod drawn out the turns leave room
for what is tied to them. Our drawing; what it bears is our judgement.
"""

from sizer.shop.items import CORD_SPARE_SHARE, waxed_cord
from sizer.shop.lashing import CORD_MM
from sizer.shop.trade_sizes import cord_text, fine_text

# Turns of a loop, and of one that a backband's tie goes to, and the cord each takes; our judgement
LOOP_TURNS, LOOP_CORD_M = 6, 1.3
BAND_TURNS, BAND_CORD_M = 10, 2.0
BAND_TIES = 2
ROD_MM = 10  # thickness of the rod: what it leaves takes a cord of 4 mm twice; our judgement
# What a strand of the lashings' cord bears, new and straight, at the least; what knots and wet
# leave of that, and what turns that do not draw alike; our judgement.
STRAND_KG, KNOTTED_SHARE, UNEVEN_SHARE = 15.0, 0.5, 0.5


def bears_kg(turns):
    """What a loop of so many turns is reckoned to bear: two strands a turn."""
    return 2 * turns * STRAND_KG * KNOTTED_SHARE * UNEVEN_SHARE


def loop_words(turns):
    """How a loop of so many turns is made."""
    return (f"{turns} turns of waxed cord round the stick and a rod {cord_text(ROD_MM)} thick "
            "along its inner face, side by side, none crossing on the outer face, reef knot "
            f"inboard, the rod drawn out (bears {bears_kg(turns):.0f} kg [j])")


NO_THICKER = (f"Between the stems no cord thicker than these {fine_text(CORD_MM[1])} crosses a "
              "stick's outer face: it wears through the skin, at keel and chines first. The end "
              "loops do, at the stems: covered as the order of work tells.")


def loops_cord(ties, stowed):
    """The Item of waxed cord for the loops of BagTies, of GearTies and of the backband."""
    loops = sum(one.loops for one in (*ties, *stowed))
    long_m = loops * LOOP_CORD_M + BAND_TIES * BAND_CORD_M
    return waxed_cord(loops + BAND_TIES, "loops for panels, gear, backband",
                      long_m * (1.0 + CORD_SPARE_SHARE))
