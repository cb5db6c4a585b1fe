"""Blocks that bear the boat before it floats: upside down under its skin, right way up, and on the
strongback.

Between the two frames beside a panel seat nothing stands under the keel while somebody sits in the
frame: a block on the strongback does what water and soft floors do later.
"""

from dataclasses import dataclass

import numpy as np

from sizer.hull.sections import half_section_at
from sizer.shop.boards import hull_at, sit_x_m
from sizer.shop.items import Item
from sizer.shop.said import both, listed, marked
from sizer.shop.stations import setting_up

STOOLS_AT = (0.25, 0.75)  # of the length, about where it lies upside down; our judgement
BLOCKS_A_STOOL = 2
OVER_DECK_M = 0.050  # of the blocks under its gunwales over the deck's rise; our judgement
OFF_FLOOR_M = 0.100  # that its rim stays off the floor then; our judgement
WEDGES_M = 0.020  # of two wedges, one from either side, driven half-way; our judgement
TO_LIFT_OFF = 3  # under the keel, where no riser stands under a frame; our judgement


@dataclass(frozen=True)
class UpsideDown:
    """How a boat lies upside down, by its gunwales on blocks."""

    frames: tuple[str, ...]  # over the two trestles
    block_m: float  # height of the blocks: the deck stays off the trestles
    over_floor_m: float  # least of their tops: the rim stays off the floor


def upside_down(boat):
    """How a boat lies UpsideDown, at the frames clear of its opening nearest to STOOLS_AT."""
    aims = [share * boat.length_m for share in STOOLS_AT]
    opening = boat.opening
    free = [(frame.name, float(x)) for frame, x in zip(
        boat.design.frames, boat.frame_x_m, strict=True)
        if not opening.front_x_m <= x <= opening.back_x_m]
    chosen = [min(free, key=lambda one: abs(one[1] - aim)) for aim in aims]
    _, z = half_section_at(boat.sections, np.array([x for _, x in chosen]))
    gunwale = z[:, boat.sections.sheer]
    names = tuple(dict.fromkeys(name for name, _ in chosen))
    return UpsideDown(names, float(np.max(z[:, -1] - gunwale)) + OVER_DECK_M,
                      float(np.max(opening.rim_z_m) - gunwale.min()) + OFF_FLOOR_M)


@dataclass(frozen=True)
class RightWayUp:
    """How a boat lies right way up: its keel on the two trestles, a prop a side under a stick."""

    frames: tuple[str, ...]  # over the two trestles
    stick: str  # the first beside the keel
    half_m: tuple[float, ...]  # at each: how far out it is
    props_m: tuple[float, ...]  # and how high over what the keel lies on


def right_way_up(boat):
    """How a boat lies RightWayUp, at the frames at which it lies upside down."""
    frames, at = upside_down(boat).frames, dict(zip(
        (one.name for one in boat.design.frames), boat.frame_x_m, strict=True))
    beside = next(one.name for one in boat.design.stringers if one.role in ("chine", "gunwale"))
    corners = [hull_at(boat, [float(at[name])])[0] for name in frames]
    return RightWayUp(frames, beside, tuple(float(one[1, 0]) for one in corners),
                      tuple(float(one[1, 1] - one[0, 1]) for one in corners))


def right_way_up_words(boat):
    lies = right_way_up(boat)
    props = listed([f"{both(high)} high {both(out)} out at {name}" for name, out, high in zip(
        lies.frames, lies.half_m, lies.props_m, strict=True)])
    return (f"Right way up, for the deck's cloth and coats, its keel lies on the same trestles, "
            f"padded, at the same frames, and a padded wedge a side under the {lies.stick}, "
            f"{props}, fixed to the trestle, keeps it from rolling: never hung or held by the rim. "
            "[j]")


def block_items(boat, marks):
    """Items of every block that the steps ask for, for a boat on its BenchMarks."""
    yield Item("strongback", "padded wedge, right way up: height", BLOCKS_A_STOOL * len(STOOLS_AT),
               "pieces", (round(max(right_way_up(boat).props_m), 3),),
               f"to borrow; {BLOCKS_A_STOOL} a trestle, at the most so high")
    yield Item("strongback", "padded block, upside down: height",
               BLOCKS_A_STOOL * len(STOOLS_AT), "pieces", (round(upside_down(boat).block_m, 3),),
               f"to borrow; {BLOCKS_A_STOOL} a trestle")
    prop = seat_prop(boat)
    yield wedges(4 if prop else 2, f"blocks under the keel, {both(WEDGES_M)} the two of a pair")
    if prop:
        yield block_item("seated", prop.high_m)
    if all(one.kind == "hung" for one in marks.risers):
        yield Item("strongback", "block under the keel, to lift off", TO_LIFT_OFF,
                   "pieces", (), "to borrow; as high as the keel is there")


def wedges(count, where):
    """The Item of some wedges, two to a pair; all of a boat's are one line to buy."""
    return Item("strongback", "wedge of softwood, in pairs", count, "pieces", (),
                f"{where}: {count}")


def block_m(high_m):
    """Height of a block under a keel whose outer face is so high: two wedges go in over it."""
    return high_m - WEDGES_M


def block_item(which, high_m):
    """The Item of a block under the keel, wedged, whose outer face is so high there."""
    return Item("strongback", f"block under the keel, {which}: height", 1, "pieces",
                (round(block_m(high_m), 3),), f"to borrow; two wedges on it, {both(WEDGES_M)}")


def block_words(high_m):
    """How it is set there, as the rest of a sentence that has told the place."""
    return (f"where its outer face is {marked(high_m)} over the strongback, a block "
            f"{marked(block_m(high_m))} high, two wedges on it, driven from either side until "
            "they just bear")


@dataclass(frozen=True)
class SeatProp:
    """A block wedged between strongback and keel, under the sitting bones."""

    fore_frame: str
    aft_frame: str
    tape_m: float  # on the strongback, to its middle
    high_m: float  # of the keel's outer face over the strongback


def seat_prop(boat):
    """The SeatProp of a boat; None where its seat does not lie on the keel."""
    if boat.design.seat.kind != "panel":
        return None
    up, x = setting_up(boat), sit_x_m(boat)
    fore = max((one for one in up.stations if one.faces_x_m[0] <= x), key=lambda one: one.x_m)
    aft = min((one for one in up.stations if one.faces_x_m[0] > x), key=lambda one: one.x_m)
    keel_m = hull_at(boat, [x])[0][0, 1]
    return SeatProp(fore.name, aft.name, float(x - up.strongback_start_x_m),
                    float(keel_m + up.baseline_height_m))


def prop_words(boat):
    """How the block is set, as a sentence; "" where none is wanted."""
    prop = seat_prop(boat)
    return "" if prop is None else (
        f"Under the keel between {prop.fore_frame} and {prop.aft_frame}, at tape "
        f"{marked(prop.tape_m)}, {block_words(prop.high_m)}: no water holds the keel up here. ")
