"""The seat of one boat as it is built: where it stands, its boards, its parts, its checks."""

from dataclasses import dataclass

from shapely.geometry import Polygon

from sizer.hull.seat import SIT_APART_M, clear_of_skin_m, sag_m
from sizer.shop.boards import Board, ends_m, sit_x_m
from sizer.shop.frames import frame_patterns
from sizer.shop.items import Item
from sizer.shop.outfit import Backband, Footbrace, backband, footbrace
from sizer.shop.pattern_checks import PatternCheck, length_check
from sizer.shop.seat_boards import pull_n
from sizer.shop.seat_parts import RAIL_THICKS_M, boards, seat_items, seat_says
from sizer.shop.stations import setting_up
from sizer.units import MM_PER_M

SIT_MARK = f"seat, top under the sitting bones, {SIT_APART_M * MM_PER_M:.0f} mm off the centre line"
OVER_FRAME_M = 0.002  # least between the seat and a frame that it passes; our judgement
# Lengthwise on a frame's floor of plywood 12 mm thick and 17 mm deep, bent sideways over 250 mm to
# either side of the keel, strained to a third of what breaks it; our judgement
MOST_PULL_N = 400.0


@dataclass(frozen=True, eq=False)
class SeatBuilt:
    """The seat in one boat, with what goes behind the back and before the feet."""

    kind: str
    stands_on: tuple[str, ...]
    front_x_m: float
    back_x_m: float
    sit_x_m: float  # under the sitting bones
    top_m: float  # there, SIT_APART_M off the centre line, over the baseline
    clear_of_skin_m: float  # least, the paddler on it
    sag_m: float
    pull_n: float  # of a sling's straps on each of its frames; 0 of any other seat
    boards: tuple[Board, ...]  # to starboard
    items: tuple[Item, ...]
    says: tuple[str, ...]  # how it stands and is fixed
    backband: Backband
    footbrace: Footbrace

    @property
    def board_name(self):
        """What one of its boards is called, without the number that tells it from others."""
        return self.boards[0].name.rstrip(" 0123456789")


def seat_built(assessed, rail_thick_m=RAIL_THICKS_M[0], frames=None):
    """The SeatBuilt of an Assessed boat, its footbrace's rails so thick; `frames` its
    FramePatterns, where they are drawn already."""
    boat, body_kg = assessed.boat, assessed.person.body.weight_kg
    front, back = ends_m(boat)
    return SeatBuilt(
        boat.design.seat.kind, boat.design.seat.stands_on, front, back, sit_x_m(boat),
        boat.seat_z_m, clear_of_skin_m(boat.design, boat.seat, body_kg),
        sag_m(boat.design.seat, boat.seat.span_m, body_kg),
        pull_n(boat, body_kg) if boat.design.seat.kind == "sling" else 0.0,
        boards(boat), seat_items(boat, rail_thick_m, frames or frame_patterns(boat)),
        tuple(seat_says(boat, assessed.space.bears_each)),
        backband(boat), footbrace(assessed))


def places(seat, boat):
    """(name, x from the bow, height over the baseline or None) of all that is marked for it."""
    brace, band = seat.footbrace, seat.backband
    yield "footbrace, farthest", boat.seat_x_m - brace.farthest_m, None
    yield "footbrace, this paddler", boat.seat_x_m - brace.set_m, None
    yield "footbrace, nearest", boat.seat_x_m - brace.nearest_m, None
    yield "seat, front edge", seat.front_x_m, None
    yield SIT_MARK, seat.sit_x_m, seat.top_m
    yield "seat, back of the buttocks", boat.seat_x_m, None
    yield "backband", band.x_m, band.z_m
    yield "backband, loops", band.loop_x_m, None


def edges_m(seat):
    """(half-breadth, height over the baseline) of the top's edges, under the sitting bones."""
    tops = [one.section_m[len(one.section_m) // 2:] for one in seat.boards]  # from outside inward
    return (tuple(min((one[-1] for one in tops), key=lambda at: at[0]).tolist()),
            tuple(max((one[0] for one in tops), key=lambda at: at[0]).tolist()))


def seat_checks(seat, patterns, boat):
    """Whether the seat passes over the frames under it: where not, its boards are notched there;
    and whether the frames of a sling hold its pull."""
    if seat.kind == "sling":
        yield PatternCheck(
            seat.stands_on[0], "seat", "pull of the straps", seat.pull_n, MOST_PULL_N, "at most",
            "N", True, "lengthwise on this frame and the other, the paddler on them: their floors "
            "break; give the design a panel or slats")
    for pattern, station in zip(patterns, setting_up(boat).stations, strict=True):
        forward, aft = station.faces_x_m
        under = aft > seat.front_x_m and forward < seat.back_x_m
        if not under or pattern.name in seat.stands_on:
            continue
        gap = min(_over_m(Polygon(board.section_m), pattern.wood)
                  for board in boards(boat, pattern.x_m))
        yield length_check(
            pattern.name, "under the seat", "seat clear of the frame", gap, "at least",
            OVER_FRAME_M, "the seat meets this frame's floor: notch its boards round the plywood "
            "and pad the edge, or move the seat", hard=False)


def _over_m(board, wood):
    """From a board to the wood; negative by the height that they share."""
    both = board.intersection(wood)
    if both.is_empty:
        return float(board.distance(wood))
    return float(both.bounds[1] - both.bounds[3])
