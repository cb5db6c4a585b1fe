"""The zip ties of the dry fit: how long each has to be to go round stick and plywood.

A tie runs over a stick's outer face, along both faces of the plywood and through the frame's
opening behind it; at a stem round the piece and a stick on each of its sides. Lashing holes are too
small for it. Common practice, no source; lengths worked out from the patterns.
"""

from collections import Counter
from math import ceil

from shapely.geometry import Point

from sizer.hull.weight import STEM_WIDTH_M
from sizer.shop.items import Item, more_text
from sizer.shop.said import both

STOCK_M = (0.20, 0.30, 0.37, 0.45, 0.54, 0.75)  # lengths that are sold; common practice, no source
TAIL_M = 0.050  # of a tie in its lock and beyond, for the hand that pulls it; our judgement
SPARE_SHARE = 0.15  # our judgement
ROUNDS = 2  # dry fit, and again


def tie_loops_m(frames, stems, sticks):
    """(place, what a tie has to reach round there in m, without its tail), a list: of each
    FramePattern one a notch, port and starboard, of each StemPattern one a lashing, of each Stick
    one a lashing to the stick that it ends on."""
    found = []
    for frame in frames:
        for notch in frame.section.notches:
            # from the farther corner of the stick's outer face the shortest way to the opening
            behind = max(Point(notch.at(along, 0.0)).distance(frame.opening)
                         for along in (notch.low_m, notch.high_m))
            loop = 2.0 * (behind + frame.thickness_m)
            found += [(frame.name, loop)] * (1 if notch.central else 2)
    deep = max(one.stringer.depth_m for one in sticks if one.stringer.role in ("chine", "gunwale"))
    for stem in stems:
        loop = 2.0 * (STEM_WIDTH_M + stem.thickness_m + 2.0 * deep)
        found += [(stem.name, loop)] * len(stem.lashings)
    by_name = {one.name: one.stringer for one in sticks}
    for stick in sticks:
        for end, _, places in stick.ties:
            pair = stick.stringer, by_name[end.on]
            loop = 2.0 * (sum(one.width_m for one in pair) + max(one.depth_m for one in pair))
            found += [(f"{stick.name}'s end", loop)] * (stick.stringer.count * len(places))
    return found


def tie_items(loops):
    """The ties as lines of the shopping list, of the shortest length sold that goes round."""
    bought = Counter(next((one for one in STOCK_M if loop + TAIL_M <= one), STOCK_M[-1])
                     for _, loop in loops)
    for number, (long, count) in enumerate(sorted(bought.items())):
        longest = max((loop, place) for place, loop in loops
                      if loop + TAIL_M <= long or long == STOCK_M[-1])
        yield Item("ties", "zip tie: length", ceil(ROUNDS * count * (1.0 + SPARE_SHARE)), "pieces",
                   (long,), f"{count} places, longest {both(longest[0])} round at "
                   f"{longest[1]}" + f", {both(TAIL_M)} for lock and hand" * (number == 0)
                   + f"; for two fits; {more_text(SPARE_SHARE)}")
