"""How risers are made and what holds them, in words, for the setting-up sheet."""

from sizer.shop.items import bored_text
from sizer.shop.leg_stays import STAYED, between_words
from sizer.shop.risers import (
    CHEEK_SCREW_MM,
    FOOT_M,
    FOOT_SCREW_MM,
    LEDGE_M,
    LEDGE_SCREW_MM,
    POINT_LEFT_MM,
    SOLD_SQUARE_M,
    SOLD_THICK_M,
    THICK_M,
)
from sizer.shop.said import both, both_sides
from sizer.shop.stem_posts import SOLD_ARM_SCREW_MM, STOCK_M
from sizer.shop.sundries import SOLD_BEAM_M
from sizer.shop.trade_sizes import screw_text
from sizer.units import MM_PER_M

RISER_WORDS = (
    "Every riser is a pair, port and starboard. Two cheeks of planed board stand on the "
    "strongback's level with their faces on the mark, against the frame's reference face; a foot "
    f"of {both_sides(*FOOT_M)} across the strongback is "
    f"screwed behind them, two screws {screw_text(CHEEK_SCREW_MM)} a cheek, and down, two "
    f"{screw_text(FOOT_SCREW_MM)}. A ledge, a piece of the cheek's own board "
    f"{both(LEDGE_M)} high or a little more, is screwed with two "
    f"{screw_text(LEDGE_SCREW_MM)} to each cheek's face that looks to the frame. Screws stand one "
    f"over the other on a cheek's middle line, bored {bored_text(CHEEK_SCREW_MM)} and "
    f"{bored_text(FOOT_SCREW_MM)}: a narrow one splits. A cheek beyond the beam's edge stands on "
    "the foot's screws alone. The ledge's upper edge is cut to the plywood's underside at the two "
    "heights told; the plywood stands on it; clamp cheek and plywood. Common practice, no source; "
    "sizes our drawing.")
KIND_WORDS = {
    "forked": "Forked, as the tables call it: the cheeks close beside the keel, which goes between "
              "them.",
    "posts": "Posts, as the tables call it: the cheeks as far out as the frame's bottom goes."}
HUNG_WORDS = (
    "A hung frame has two hangers from a bar over it instead, and two legs outside the boat carry "
    "the bar. Bar and foot are alike: the same stock, as long as each other. All four boards, "
    "hangers and legs, have their faces on the mark; bar and foot lie behind them, and they lap "
    "both in full, the hangers' and legs' tops flush with the bar's upper edge. Two screws "
    f"{screw_text(CHEEK_SCREW_MM)} go through each board into the bar, and two through each leg "
    f"into the foot: {{bite}} of each bite there, across the grain. Make it lying flat, square "
    "by equal diagonals; screw the foot down. {stayed}{between} The "
    "frame hangs by two clamps. To lift the boat off, the bar with its hangers comes off first. "
    "Our drawing.")
SOLD_WORDS = (
    f"Where no such stock is sold: boards {both(SOLD_THICK_M)} thick, called 1 x 3 and wider, "
    f"serve for those of {both(THICK_M)}, ripped to the widths told, since a wider one stands in a "
    "stick's way. Their faces stay on the mark; feet and bars behind them come "
    f"{both(THICK_M - SOLD_THICK_M)} nearer to it. Square stock of {both(SOLD_SQUARE_M)}, called "
    f"2 x 2, serves for that of {both(FOOT_M[0])}: a stem post's face to the boat's middle stays "
    "on its mark, and its slot's floor is cut from the height told there towards the other, which "
    "it does not reach; a foot against the post's outer face comes "
    f"{both(STOCK_M - SOLD_SQUARE_M)} nearer to the middle. A bar's upper edge stays as high; feet "
    f"and bars are {both(FOOT_M[1] - SOLD_SQUARE_M)} less high, a joint's two screws nearer to "
    "each other by as much. A beam of "
    f"{both_sides(*SOLD_BEAM_M)}, called 4 x 4, serves too: with it or such "
    "a foot a stem's laths are cut to what is there. Through a post into its foot go screws no "
    "longer than "
    f"{screw_text((FOOT_SCREW_MM[0], round(2.0 * SOLD_SQUARE_M * MM_PER_M) - POINT_LEFT_MM))}, and "
    f"through a board of {both(SOLD_THICK_M)} into such a post's loose arm none longer than "
    f"{screw_text(SOLD_ARM_SCREW_MM)}; all others as told. All that the sheets check "
    "stays as told. Our judgement.")


def made_words(bench):
    made = bench.marks.risers
    kinds = {one.kind for one in made}
    yield " ".join((RISER_WORDS, *(told for kind, told in KIND_WORDS.items() if kind in kinds)))
    if any(one.bar_m for one in made):
        yield HUNG_WORDS.format(bite=both(CHEEK_SCREW_MM[1] / MM_PER_M - THICK_M), stayed=STAYED,
                                between=between_words(bench.leg_stays))
    yield SOLD_WORDS
