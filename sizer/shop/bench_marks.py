"""What is marked on the strongback beside the stations: risers, seat, footbrace, opening, ends.

All distances are on the same tape pull as the stations, from the strongback's forward end.
"""

from dataclasses import dataclass

from sizer.hull.inside import SAME_PLACE_M
from sizer.shop.lashing import HOLE_M
from sizer.shop.risers import DEFAULT_KIND, HOLE_CLEAR_M, Riser, risers
from sizer.shop.seat import places
from sizer.shop.stem_posts import StemPost, stem_posts

RIM_MARKS = tuple(f"coaming {end} at the deck line, rim's height"
                  for end in ("in front", "behind"))  # its wall stands square to its slope


@dataclass(frozen=True)
class Mark:
    """One more mark on the tape; beyond the strongback where it is on neither end of it."""

    name: str
    x_m: float  # from the boat's foremost point
    strongback_m: float
    height_m: float | None  # over the strongback's top, where the part has one
    on_strongback: bool


@dataclass(frozen=True)
class BenchMarks:
    """Everything beside the stations, in the order of the tape."""

    strongback_m: float  # length needed
    overhangs_m: tuple[float, float]  # of the boat beyond the strongback, bow and stern
    risers: tuple[Riser, ...]
    posts: tuple[StemPost, ...]  # of the stems, bow first
    marks: tuple[Mark, ...]


def bench_marks(boat, up, seat, frames, stems, riser_kind=DEFAULT_KIND):
    """The marks of a boat on its SettingUp: of its SeatBuilt, FramePatterns and StemPatterns, the
    risers of a kind of `sizer.shop.risers.KINDS`."""
    posts = stem_posts(boat, up, stems)
    end = up.strongback_start_x_m + up.strongback_length_m
    marks = sorted(_marks(boat, up, seat, posts), key=lambda mark: mark.x_m)
    return BenchMarks(up.strongback_length_m,
                      (up.strongback_start_x_m, boat.length_m - end),
                      risers(up.stations, frames, up.baseline_height_m, riser_kind), posts,
                      tuple(marks))


def set_up_words(made):
    """In which order the boat is set up on its Risers, in words."""
    hangs = " (or hangs clamped to its hangers)" if any(one.bar_m for one in made) else ""
    return ("the keel loose on the risers' feet, then the frames: each stands on its riser at its "
            f"height, plumb, clamped to the cheeks{hangs}, the stems on their posts. The gunwales "
            "come next, into the notches of frames that so hold them; sight along them, level "
            "along the cockpit, and shim or plane a ledge where they show a hump. Then the keel up "
            "into its notches, then the chines")


def risers_in_seat(seat, up, made):
    """Names of the frames whose Riser, of those made on a SettingUp, stands where a board of the
    SeatBuilt lies: along, across and up."""
    def met(riser, board):
        spans = (
            (riser.boards_tape_m, board.plan_m[:, 0] - up.strongback_start_x_m),
            ((riser.inner_m, riser.outer_m), board.plan_m[:, 1]),
            ((riser.low_m, riser.height_m), board.section_m[:, 1] + up.baseline_height_m))
        return all(max(low, found.min()) < min(high, found.max()) - SAME_PLACE_M
                   for (low, high), found in spans)

    return tuple(one.frame for one in made if any(met(one, board) for board in seat.boards))


def seat_ties_hidden(seat, made):
    """{frame: numbers of the slats, counted from the middle, one for each lashing to starboard} of
    a SeatBuilt's lashings that no cord comes to while the Risers made stand: they go under a floor
    and up both its faces, on one of which cheeks stand."""
    if seat.kind != "slats":
        return {}
    stand, reach, found = {one.frame: one for one in made}, 0.5 * HOLE_M + HOLE_CLEAR_M, {}
    for number, board in enumerate(seat.boards, start=1):
        half = 0.5 * float(board.flat_m[:, 0].max())
        for along, out in board.holes_m:
            riser = stand[seat.stands_on[along > half]]
            y = float(board.plan_m[:, 1].min()) + out
            if riser.inner_m - reach < y < riser.outer_m + reach:
                found.setdefault(riser.frame, []).append(number)
    return {name: tuple(numbers) for name, numbers in found.items()}


def _marks(boat, up, seat, posts):
    opening = boat.opening
    keel = boat.lines.lines[0]
    ends = boat.map((keel.start_x_m, keel.end_x_m))
    keel_z = boat.scaling.depth * keel.curve((keel.start_x_m, keel.end_x_m))[:, 1]
    heads = [post.head_m - up.baseline_height_m for post in posts]
    marked = (
        ("bow", 0.0, heads[0]),
        ("keel's forward end, in the bow stem", float(ends[0]), float(keel_z[0])),
        (RIM_MARKS[0], opening.front_x_m, opening.rim_z_m[0]),
        (RIM_MARKS[1], opening.back_x_m, opening.rim_z_m[1]),
        ("keel's after end, in the stern stem", float(ends[1]), float(keel_z[1])),
        ("stern", boat.length_m, heads[1]),
        *((f"{post.stem}'s post, inner face", post.x_m,
           post.inner_floor_m - up.baseline_height_m) for post in posts),
        *places(seat, boat),
    )
    for name, x, z in marked:
        mark = x - up.strongback_start_x_m
        yield Mark(name, x, mark, None if z is None else z + up.baseline_height_m,
                   0.0 <= mark <= up.strongback_length_m)
