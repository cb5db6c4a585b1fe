"""What is marked on the strongback beside the stations: risers, seat, footbrace, opening, ends.

All distances are on the same tape pull as the stations, from the strongback's forward end. A riser
fixes its frame's place along the strongback only: the gunwales, which run level through the
cockpit, fix its height.
"""

from dataclasses import dataclass

from sizer.shop.seat import places

RISER_OVER_KEEL_M = 0.10  # of the riser, for a clamp above the keel's notch; our judgement
GUNWALE_WORDS = ("gunwales first, level along the cockpit: they fix every frame's height; "
                 "risers fix only its place")


@dataclass(frozen=True)
class Riser:
    """The post that a frame is clamped to; it stands against the frame's reference face."""

    frame: str
    strongback_m: float  # of the face that touches the frame
    stands: str  # "forward" or "aft" of the mark, away from the plywood
    height_m: float  # over the strongback's top
    keel_height_m: float  # of the moulded keel, over the strongback's top
    gunwale_height_m: float


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
    marks: tuple[Mark, ...]


def bench_marks(boat, up, seat):
    """The marks of a boat on its strongback.

    Parameters
    ----------
    boat : Boat
    up : SettingUp of that boat
    seat : SeatBuilt in it
    """
    risers = tuple(
        Riser(one.name, one.strongback_m, one.reference_face,
              one.keel_height_m + RISER_OVER_KEEL_M, one.keel_height_m, one.gunwale_height_m)
        for one in up.stations)
    end = up.strongback_start_x_m + up.strongback_length_m
    marks = sorted(_marks(boat, up, seat), key=lambda mark: mark.x_m)
    return BenchMarks(up.strongback_length_m,
                      (up.strongback_start_x_m, boat.length_m - end), risers, tuple(marks))


def _marks(boat, up, seat):
    opening = boat.opening
    keel = boat.lines.lines[0]
    ends = boat.map((keel.start_x_m, keel.end_x_m))
    keel_z = boat.scaling.depth * keel.curve((keel.start_x_m, keel.end_x_m))[:, 1]
    marked = (
        ("bow", 0.0, None),
        ("keel's forward end, in the bow stem", float(ends[0]), float(keel_z[0])),
        ("coaming, front", opening.front_x_m, opening.rim_z_m[0]),
        ("coaming, back", opening.back_x_m, opening.rim_z_m[1]),
        ("keel's after end, in the stern stem", float(ends[1]), float(keel_z[1])),
        ("stern", boat.length_m, None),
        *places(seat, boat),
    )
    for name, x, z in marked:
        mark = x - up.strongback_start_x_m
        yield Mark(name, x, mark, None if z is None else z + up.baseline_height_m,
                   0.0 <= mark <= up.strongback_length_m)
