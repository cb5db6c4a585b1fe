"""The posts that hold bow and stern stem up before the sticks do.

A post stands under the stem's edge, just beyond the keel's mouth: a slot in its top, as wide as the
stem is thick, takes the edge, and its two arms hold the stem upright under the lowest stick. Where
that stick's long tip, ahead of its landing, comes to lie in their way, which it does down to the
slot's floor, they are loose: off before it comes, and on again whenever the boat is put together.
Laths stay the stem's head (`sizer.shop.stem_stays`). Its foot lies against its outer face, out of
the way of the nearest frame's riser; only where the beam ends too near there, and that frame is far
off, against its inner one.
"""

from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry import box

from sizer.shop.items import Item
from sizer.shop.risers import LEDGE_SCREW_MM, behind_m
from sizer.shop.said import both, listed
from sizer.shop.trade_sizes import screw_text

STOCK_M = 0.045  # of a post and its foot, square; our drawing
FOOT_LONG_M = 0.120  # of a post's foot, across the strongback; our drawing
SLOT_SPARE_M = 0.001  # of the slot over the stem's thickness; our judgement
ARMS_M = 0.040  # height of the arms over the slot's floor, at most; our drawing
CLEAR_M = 0.004  # from an arm to a stick over it; our judgement
FROM_MOUTH_M = 0.010  # least from the post to the keel's end; our judgement
SEARCH_M = 0.005  # steps outward until the arms have room
ARM_BOARD_M = 0.120  # length of the board that a loose arm is screwed to; our drawing
ARM_SCREW_MM = (4, 30)  # into an arm, whose other side it must not reach; our drawing
SOLD_ARM_SCREW_MM = (4, 25)  # the same where both are of sold stock; our drawing
ARM_SCREWS = 2  # of that board into the arm, and as many into the post; our drawing


@dataclass(frozen=True)
class StemPost:
    """One stem's post; heights over the strongback's top."""

    stem: str
    x_m: float  # of its face that looks to the boat's middle, from the boat's foremost point
    strongback_m: float
    inner_floor_m: float  # of the slot, at that face and at the outer face
    outer_floor_m: float
    arms_m: float  # height of the arms over the slot's higher floor
    slot_m: float  # width
    head_m: float  # of the stem's moulded head
    foot_outside: bool  # on its outer face; else on the one that looks to the boat's middle
    tips: tuple[str, ...]  # sticks whose long tips come in the arms' way: these are loose then

    @property
    def long_m(self):
        """Of the post to its arms' top, level, which is as high over the strongback."""
        return max(self.inner_floor_m, self.outer_floor_m) + self.arms_m

    @property
    def tape_m(self):
        """The least and most mark on the tape that it covers."""
        return behind_m(self.strongback_m, self._out, 0.0, STOCK_M)

    @property
    def foot_tape_m(self):
        """The same of its foot."""
        near = STOCK_M if self.foot_outside else -STOCK_M
        return behind_m(self.strongback_m, self._out, near, near + STOCK_M)

    @property
    def _out(self):
        return -1.0 if self.stem == "bow stem" else 1.0


def stem_posts(boat, up, stems):
    """The StemPosts of a boat's StemPatterns on its SettingUp, bow first."""
    return tuple(_post(boat, up, stem) for stem in stems)


LOOSE = (
    "Loose arms: saw both off along the slot's floor, and screw each, where it was, to a piece "
    f"{both(ARM_BOARD_M)} long of the risers' board against the post's side, two screws "
    f"{screw_text(ARM_SCREW_MM)} into the arm, two {screw_text(LEDGE_SCREW_MM)} into the post.")


def arms_words(post):
    """Why a StemPost's arms are loose; "" where they are not."""
    if not post.tips:
        return ""
    return f"The {listed(list(post.tips))}'s long tip comes in its arms' way: they are loose. "


def arms_off_words(posts):
    """What is done with the loose arms of StemPosts before sticks come there; "" without any."""
    loose = [post for post in posts if post.tips]
    return "" if not loose else (
        f"The {_tips(loose)}'s long tip comes where the arms are of the {_stems(loose)}'s post: "
        "see that each stem's two laths hold it upright and on the centre line alone, then take "
        f"its loose arms off, {ARM_SCREWS} screws each. ")


def arms_on_words(posts):
    """That they are put on again; "" without any."""
    loose = [post for post in posts if post.tips]
    return (f"Loose arms on again at the {_stems(loose)}'s post, until the {_tips(loose)} comes. "
            if loose else "")


def _stems(posts):
    return listed([one.stem for one in posts])


def _tips(posts):
    return listed(list(dict.fromkeys(name for one in posts for name in one.tips)))


def loose_arms(posts):
    return 2 * sum(1 for post in posts if post.tips)


def arm_items(posts):
    loose = loose_arms(posts)
    if loose:
        screws = ARM_SCREWS * loose
        for size, where in ((ARM_SCREW_MM, "into them"), (LEDGE_SCREW_MM, "to the posts")):
            yield Item("strongback", f"screw {screw_text(size)}", screws, "pieces", (),
                       f"stem posts' loose arms, {where}: {screws}")


def _post(boat, up, stem):
    reach = up.strongback_start_x_m if stem.end == "bow" else (
        boat.length_m - up.strongback_start_x_m - up.strongback_length_m)
    inner = float(stem.keel_m[0, 0]) - FROM_MOUTH_M
    places = np.arange(inner, reach + STOCK_M, -SEARCH_M)
    bands, arms = [one.square_band() for one in stem.beside], []
    for place in places:
        arms.append(_arms_m(stem, bands, place))
        if arms[-1] == ARMS_M:  # none goes higher
            break
    at = int(np.argmax(arms))
    inboard = float(places[at])
    x = inboard if stem.end == "bow" else boat.length_m - inboard
    over = np.linspace(inboard, inboard - STOCK_M, 10)
    edge = np.interp(over, *stem.profile_m.T)
    dips = np.interp(over, over[[-1, 0]], edge[[-1, 0]]) - edge  # under a straight floor
    floors = edge[[0, -1]] - dips.max() + up.baseline_height_m
    high = max(min(arms[at], ARMS_M), 0.0)
    tips = tuple(name for name, low in _tips_m(stem, inboard) if low < high)
    return StemPost(stem.name, x, x - up.strongback_start_x_m, *floors.tolist(), high,
                    stem.thickness_m + SLOT_SPARE_M,
                    float(stem.profile_m[0, 1]) + up.baseline_height_m,
                    inboard - 2.0 * STOCK_M >= reach, tips)


def _tips_m(stem, inner_m):
    """(name, height over the slot's higher floor up to which arms clear it) of each stick there."""
    span, floor = _place(stem, inner_m)
    for one in stem.beside:
        over = one.band().intersection(span)
        if not over.is_empty:
            yield one.stringer, over.bounds[1] - CLEAR_M - floor


def _place(stem, inner_m):
    """All over a post whose inner face is there, and its slot's higher floor."""
    return (box(inner_m - STOCK_M, -1.0, inner_m, 2.0),
            float(np.interp(inner_m - STOCK_M, *stem.profile_m.T)))


def _arms_m(stem, bands, inner_m):
    """How high the arms may stand over the slot's higher floor, under whatever bands lie beside."""
    span, floor = _place(stem, inner_m)
    lows = [piece.bounds[1] for piece in shapely.intersection(bands, span) if not piece.is_empty]
    return min([ARMS_M, *(low - CLEAR_M - floor for low in lows)])
