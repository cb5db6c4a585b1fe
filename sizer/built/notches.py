"""What a dry fit says of one stick at one frame: one way to mend it, by one amount for each axis.

That is back to the design where it is off beyond what a tape can tell, else into line with its
neighbours where the stick is unfair there. Some are not to be moved yet: a frame that stands wrong
takes all its notches with it, and what was not measured where it stands is a guess.
"""

from dataclasses import dataclass

import numpy as np

from sizer.built.measures import rows_of
from sizer.built.points import stands
from sizer.hull.fairness import AXES, fairness
from sizer.units import MM_PER_M, mark_text

BEYOND = 2.0  # standard deviations from which a difference is told; about 1 in 20 by chance
AXIS_OF = {"half-breadth": 0, "sideways": 0, "height": 1}  # of the ways of a frame in `standing`
FRAME, MEASURE = "set its frame right", "measure here"


@dataclass(frozen=True)
class PointTold:
    """One stick at one frame on one side."""

    frame: str
    side: str
    stringer: str
    off_half_breadth_m: float
    off_height_m: float
    spread_half_breadth_m: float
    spread_height_m: float
    beyond: bool  # what a tape can tell
    unfair: str | None  # "caution" or "fail" where the stick is unfair here
    first: str  # FRAME or MEASURE, before this notch is moved; "" where it may be
    most_m: float  # the largest amount told
    say: str
    remark: str  # where its own reading says otherwise


@dataclass(frozen=True)
class _Way:
    """One axis of one point: what is said, by how much, and how it is known."""

    axis: int
    stands: str  # as in "stands high by 9.0 mm"
    mend: str
    much_m: float
    read: bool
    beyond: bool  # off the design beyond what a tape can tell; else unfair alone


def points_told(standing, sides, unit="mm", reaches=()):
    """A PointTold of every point, in the order of the Points, marks in `unit` "mm", "cm" or "in";
    `reaches` is what was read, so that one reading that says otherwise is told beside its figure.
    """
    unfair, alone = _unfair(sides), _alone(standing.points, reaches)
    waits = _waits(standing)
    told = []
    for index, (key, change, spread, read) in enumerate(zip(
            standing.points.keys, standing.change_m, standing.spread_m, standing.measured,
            strict=True)):
        side, frame, name = key
        beyond = (np.abs(change) > BEYOND * spread) & (np.abs(change) > standing.tape_m)
        marks = unfair.get(key, [])
        ways = [way for axis in range(2) for way in _ways(
            axis, change[axis], beyond[axis], read[axis],
            [one for one in marks if one.axis == AXES[axis]], unit)]
        first = (FRAME if ways and all((frame, way.axis, way.beyond) in waits for way in ways) else
                 "" if all(way.read for way in ways) else MEASURE)
        worst = max((one.status for one in marks), key=("caution", "fail").index, default=None)
        told.append(PointTold(
            frame, side, name, *map(float, change), *map(float, spread), bool(beyond.any()), worst,
            first, max((way.much_m for way in ways), default=0.0), _say(ways, first),
            _remark(index, change, beyond, alone, unit)))
    return tuple(told)


def in_order(told):
    """What matters most first: of the PointTold, those that may be moved, unfair, and most off."""
    return tuple(sorted(told, key=lambda one: (
        ("", FRAME, MEASURE).index(one.first), ("fail", "caution", None).index(one.unfair),
        -one.most_m)))


def _waits(standing):
    """{(frame, axis, whether off beyond)} of all that waits until a frame that is accused stands
    right: its own notches, and sticks that bump or hollow beside it."""
    frames, found = standing.points.frames, set()
    for odd in standing.odd:
        if odd.is_frame:
            axis, at = AXIS_OF[odd.way], frames.index(odd.frame)
            found.add((odd.frame, axis, True))
            found |= {(frame, axis, False) for frame in frames[max(at - 1, 0):at + 2]}
    return found


def _ways(axis, off, beyond, read, marks, unit):
    """The _Way of one axis; none where nothing is to be said of it."""
    bump = max((one for one in marks if one.what == "bump"), default=None,
               key=lambda one: abs(one.offset_m))
    much = mark_text(abs(off) * MM_PER_M, unit)
    if beyond and bump is not None and bump.offset_m * off > 0.0:
        yield _Way(axis, f"{stands(axis, off)[0]} by {much}, its neighbours by more",
                   "mend those first", abs(float(off)), read, True)
    elif beyond:
        how, mend = stands(axis, off)
        yield _Way(axis, f"{how} by {much}", mend, abs(float(off)), read, True)
    elif bump is not None:
        much = mark_text(abs(bump.offset_m) * MM_PER_M, unit)
        yield _Way(axis, f"bumps {stands(axis, -bump.offset_m)[0].removeprefix('stands ')} by "
                   f"{much}", stands(axis, -bump.offset_m)[1], abs(bump.offset_m), read, False)
    elif marks:
        deepest = max(abs(one.offset_m) for one in marks)
        much = mark_text(deepest * MM_PER_M, unit)
        yield _Way(axis, f"has a hollow in {AXES[axis]} near here, {much} deep",
                   "sight along the stick", deepest, read, False)


def _say(ways, first):
    if not ways:
        return ""
    if first == MEASURE:
        return f"Measure here first: by guess it {' and '.join(way.stands for way in ways)}."
    if first == FRAME:
        said = " and ".join(way.stands for way in ways)
    else:
        said = "; ".join(f"{way.stands}: {way.mend}" for way in ways)
    return f"{said[0].upper()}{said[1:]}."


def _remark(index, change, beyond, alone, unit):
    """Where the point's own reading says otherwise than all measures together, as a sentence."""
    said = []
    for axis in np.flatnonzero(beyond):
        off = alone.get((index, int(axis)))
        if off is None:
            continue
        read, much = (mark_text(abs(one) * MM_PER_M, unit) for one in (off, change[axis]))
        if read != much:
            said.append(f"By its own reading alone it {stands(axis, off)[0]} by {read}.")
    return " ".join(said)


def _alone(points, reaches):
    """{(index of a point, axis): by how much its own reading says it is off, m}."""
    rows, off_m = rows_of(points, reaches)
    return {divmod(int(row.argmax()), 2): float(off) for row, off in zip(rows, off_m, strict=True)
            if np.abs(row).sum() == row.max() == 1.0}  # of one point, straight


def _unfair(sides):
    """{key of a point: Unfairness records} of each side's sticks, beyond the design's own."""
    drawn = {_same(one) for one in fairness(sides.designed) if one.status != "pass"}
    found = {}
    for side, boat in (("starboard", sides.starboard), ("port", sides.port)):
        for one in fairness(boat):
            if one.status == "pass" or _same(one) in drawn:
                continue
            frame = boat.design.frames[int(np.abs(boat.frame_x_m - one.point_m[0]).argmin())].name
            single = boat.design.stringer(one.stringer).count == 1
            if not (single and side == "port"):
                key = ("centre" if single else side, frame, one.stringer)
                found.setdefault(key, []).append(one)
    return found


def _same(one):
    return one.stringer, one.axis, one.what, one.place
