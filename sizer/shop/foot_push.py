"""What holds a frame on its sticks that the footbrace's stops press forward, and the cleats ahead
of it.

Each stick lies in its notch under its lashing's turns and slides only against the friction of both.
Turns pulled by hand leave a strand some pull once wood has given and cord has crept; rubbed wood
and waxed cord hold by about a fifth of that. So every lashing holds little, and all of a frame's
together less than both feet that stop a body where the bow runs on sand. Two cleats glued to a pair
of sticks, tight against the frame's forward face, bear the rest. Strand, friction and what glue
bears in wet wood are our judgement, on the safe side.
"""

from dataclasses import dataclass

import numpy as np

from sizer.drawing.told import in_tenths, size, told
from sizer.hull.seat_bears import SURE_TO_BEAR
from sizer.shop.boards import hull_at
from sizer.shop.items import Item
from sizer.shop.lashing import TURNS, lashings_at
from sizer.shop.rail_bears import PUSH
from sizer.shop.said import both, marked
from sizer.shop.seat_parts import HARD_WOOD, RAIL_HIGH_M
from sizer.shop.sundries import EPOXY, GLUE_KGPM2, GLUE_SPARE_SHARE, SAW_M
from sizer.units import STANDARD_GRAVITY_MPS2

FEET = 2
STRAND_N = 50.0  # left in a strand of a lashing pulled by hand
FRICTION = 0.2  # of wood in its notch, and of waxed cord on it
GLUE_PA = 1.0e6  # in shear, wet, along the grain: a fifth or less of what a sound joint breaks at
CLEAT_M = (0.012, 0.080, RAIL_HIGH_M)  # thickness, length, height: of the rails' stock, its height
# no more than the stick is wide; our drawing
SAME_M = 0.0005  # that is no step
HOLLOW_M = 0.003  # of its end that is against the frame, where cord or its knot lies; our judgement


@dataclass(frozen=True, eq=False)
class PushCleats:
    """The cleats ahead of the footbrace's after frame, and what holds that frame."""

    frame: str
    stick: str  # a pair of sticks, on whose inner faces they are glued
    size_m: tuple[float, float, float]  # thickness, length, height
    lashings: int  # of that frame
    grip_n: float  # of all its lashings
    push_n: float  # of both feet, at the most
    face_x_m: float  # of the frame's forward face, that they stand against
    stick_m: np.ndarray  # (4, 2) the stick's section there to starboard: half-breadth, height
    section_m: np.ndarray  # (4, 2) a cleat's, its first side on the stick, from below

    @property
    def middle_m(self):
        """Its middle to starboard: from the boat's foremost point, half-breadth, height."""
        return self.face_x_m - 0.5 * self.size_m[1], *map(float, self.section_m.mean(axis=0))

    @property
    def off_edge_m(self):
        """From the stick's lower edge, along its inner face, to the cleat's."""
        return float(np.linalg.norm(self.section_m[0] - self.stick_m[0]))

    @property
    def placed(self):
        off = self.off_edge_m
        return ("its lower edge flush with the stick's" if off < SAME_M else
                f"its lower edge {both(off)} up from the stick's")

    @property
    def glued_m2(self):
        """What glue holds of both."""
        return 2.0 * self.size_m[1] * self.size_m[2]

    @property
    def bears(self):
        """What holds the frame over the push, cleats among it."""
        return (self.grip_n + GLUE_PA * self.glued_m2) / self.push_n

    @property
    def unaided(self):
        return self.grip_n / self.push_n


def push_cleats(assessed, rails, risers, patterns):
    """The PushCleats of an Assessed boat with its FootRails among its FramePatterns: on the pair
    of sticks nearest to the rails' height whose lashings no Riser hides, so that a clamp gets
    there."""
    boat, body_kg = assessed.boat, assessed.person.body.weight_kg
    index = [one.name for one in boat.design.frames].index(rails.aft)
    riser = next(one for one in risers if one.frame == rails.aft)
    high = hull_at(boat, [boat.frame_x_m[index]])[0][1:, 1]
    pairs = [(abs(up - rails.z_m), one) for one, up in zip(
        [one for one in boat.design.stringers if one.role in ("chine", "gunwale")], high,
        strict=True)]
    _, stick = min([pair for pair in pairs if pair[1].name not in riser.hides] or pairs[-1:],
                   key=lambda pair: pair[0])
    thick, long, tall = CLEAT_M
    sizes = thick, long, min(tall, stick.width_m)
    pattern = next(one for one in patterns if one.name == rails.aft)
    stock, section = _sections_m(pattern, stick.name, sizes)
    count = sum(how_many for _, how_many in lashings_at(boat, index))
    strands = 2 * TURNS  # a turn presses with two
    return PushCleats(
        rails.aft, stick.name, sizes, count,
        count * strands * STRAND_N * FRICTION * 2,  # in the notch and under the cord
        FEET * PUSH * body_kg * STANDARD_GRAVITY_MPS2, float(min(pattern.faces_x_m)), stock,
        section)


def _sections_m(pattern, stick, size_m):
    """A stick's section at a FramePattern to starboard, from its inner lower corner up and round,
    and that of a cleat on its inner face, midway between the lashing's holes as far as the face
    goes: a gunwale's upper hole is behind it, not past its edge."""
    notch = next(one for one in pattern.section.notches if one.stringer == stick)
    thick, _, tall = size_m
    deep, holes = notch.depth_m, [float(np.subtract(spot, notch.corner_m) @ notch.along)
                                  for name, spot in pattern.holes
                                  if name == stick and spot[0] > 0.0]
    middle = float(np.clip(0.5 * (min(holes) + max(holes)), notch.low_m + 0.5 * tall,
                           notch.high_m - 0.5 * tall))
    return tuple(np.array([notch.at(*corner) for corner in (
        (low, near), (high, near), (high, far), (low, far))]) for low, high, near, far in (
            (notch.low_m, notch.high_m, deep, 0.0),
            (middle - 0.5 * tall, middle + 0.5 * tall, deep, deep + thick)))


def cleat_items(cleats):
    stock = 2.0 * (cleats.size_m[1] + SAW_M)
    yield Item("outfit", f"{HARD_WOOD} cleat ahead of {cleats.frame}: thickness, length, height", 2,
               "pieces", cleats.size_m, f"one a side, glued; both from "
               f"{both(stock)} more of the rails' stock", stock)
    yield Item("glue", EPOXY, cleats.glued_m2 * GLUE_KGPM2 * (1.0 + GLUE_SPARE_SHARE), "kg", (),
               f"cleats {cleats.glued_m2 * 1e4:.0f} cm2")


def cleat_words(cleats):
    thick, long, tall = map(both, cleats.size_m)
    return (f"The 2 cleats, a side on the inner face of the {cleats.stick}, {thick} thick, {long} "
            f"along it, {tall} high, {cleats.placed}, tight against "
            f"{cleats.frame}'s forward face: the feet push that frame forward")


def cleat_told(cleats, baseline_m, number):
    """Where a cleat stands and how its end is hollowed; the baseline so high over the strongback,
    its number in the list of parts."""
    _, half, high = cleats.middle_m
    return told(
        "Cleats ({}), one a side, {} (thick, long, high), of the rails' stock: glued on the inner "
        "face of the {} ahead of {}, {}, so between the two lashing holes; there the middle {} off "
        "the centre line and {} over the strongback. The "
        "end against the plywood is sawn to lie flat on it, and hollowed {} deep only where the "
        "lashing or its knot lies.", number, size(*cleats.size_m),
        cleats.stick, cleats.frame, cleats.placed, size(half, form=in_tenths),
        marked(high + baseline_m), size(HOLLOW_M))


def push_check_words(cleats):
    """What the push proves, and what is reckoned to bear it."""
    return (f"{cleats.frame} stands between its pencil lines yet (a bow that runs on sand asks for "
            f"twice the body's weight: both cleats hold {cleats.bears:.1f} times that, "
            f"{SURE_TO_BEAR:.2f} wanted, the {cleats.lashings} lashings alone "
            f"{cleats.unaided:.1f}; our judgement)")
