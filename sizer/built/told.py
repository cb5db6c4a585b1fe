"""What a dry fit says: point by point, frame by frame, and of the hull as a whole."""

from dataclasses import dataclass

import numpy as np

from sizer.built.measures import rows_of
from sizer.hull.fairness import AXES, fairness
from sizer.units import MM_PER_M, known_text, mark_text

BEYOND = 2.0  # standard deviations from which a difference is told; about 1 in 20 by chance
AXIS_WORDS = (("stands out", "file the notch deeper", "stands in", "pack the notch out"),
              ("stands high", "lower it", "stands low", "raise it"))
GUESSED = "That is a guess from what was measured elsewhere: measure here first."
WIND_FELT_M = 0.003  # over the beam, from end to end; our judgement


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
    say: str


def points_told(standing, sides, unit="mm", reaches=()):
    """A PointTold of every point, in the order of the Points.

    Parameters
    ----------
    unit : "mm", "cm" or "in", of the marks in sentences
    reaches : what was read, so that one reading that says otherwise is told beside its figure
    """
    unfair, alone = _unfair(sides), _alone(standing.points, reaches)
    told = []
    for index, (key, change, spread, read) in enumerate(zip(
            standing.points.keys, standing.change_m, standing.spread_m, standing.measured,
            strict=True)):
        side, frame, name = key
        beyond = (np.abs(change) > BEYOND * spread) & (np.abs(change) > standing.tape_m)
        words = [_words(axis, change[axis], alone.get((index, axis)), unit)
                 for axis in range(2) if beyond[axis]]
        marks = unfair.get(key, [])
        words += [_mending(one, unit) for one in marks]
        told_of = beyond | np.isin(AXES, [one.axis for one in marks])
        if not read[told_of].all():
            words.append(GUESSED)
        worst = max((one.status for one in marks), key=("caution", "fail").index, default=None)
        told.append(PointTold(frame, side, name, *map(float, change), *map(float, spread),
                              bool(beyond.any()), worst, " ".join(words)))
    return tuple(told)


def recut(standing, told):
    """Names of the frames that differ by more than the tape's spread, in the boat's order."""
    changed = {one.frame for one in told if one.beyond}
    changed |= {odd.frame for odd in standing.odd if odd.is_frame}
    return tuple(name for name in standing.points.frames if name in changed)


def hull_told(standing, unit="mm"):
    """Sentences: whether the hull winds, and whether one side differs from the other."""
    names = {key[2] for key, sign in zip(standing.points.keys, standing.points.sign, strict=True)
             if sign}
    wide = max(sorted(names), key=lambda name: _breadth(standing.points, name))
    frames = [name for name in standing.points.frames
              if ("starboard", name, wide) in standing.points.keys]
    return (*_wind(standing, wide, frames, unit), *_sides(standing, wide, frames, unit))


def _breadth(points, name):
    return max(at[0] for key, at in zip(points.keys, points.at, strict=True) if key[2] == name)


def _apart(standing, frame, name, axis):
    """The row that takes starboard less port of one point's change, over the changes' vector."""
    row = np.zeros(standing.covariance_m2.shape[0])
    for side, sign in (("starboard", 1.0), ("port", -1.0)):
        row[2 * standing.points.index(side, frame, name) + axis] = sign
    return row


def _wind(standing, name, frames, unit):
    points = standing.points
    beam = 2.0 * _breadth(points, name)
    turns = np.array([_apart(standing, frame, name, 1) * beam / (
        2.0 * points.at[points.index("starboard", frame, name), 0]) for frame in frames])
    turn = turns @ standing.change_m.ravel()
    high, low = int(turn.argmax()), int(turn.argmin())
    row = turns[high] - turns[low]
    spread = np.sqrt(max(row @ standing.covariance_m2 @ row, 0.0))
    size = turn[high] - turn[low]
    # the largest of many differences is looked at, so a wider band than BEYOND
    if size < max(WIND_FELT_M, (BEYOND + 1.0) * spread):
        return ()
    return (f"The hull winds: from {frames[low]} to {frames[high]} the {name}s turn by "
            f"{np.degrees(np.arctan(size / beam)):.1f} degrees, that is "
            f"{known_text(size * MM_PER_M, spread * MM_PER_M, unit)} over the beam.",)


def _sides(standing, name, frames, unit):
    rows = np.array([_apart(standing, frame, name, 0) for frame in frames])
    row = rows.mean(axis=0)
    size = float(row @ standing.change_m.ravel())
    spread = np.sqrt(max(row @ standing.covariance_m2 @ row, 0.0))
    if abs(size) < max(standing.tape_m, BEYOND * spread):
        return ()
    wider, other = ("starboard", "port") if size > 0.0 else ("port", "starboard")
    by = known_text(abs(size) * MM_PER_M, spread * MM_PER_M, unit)
    return (f"The {name} is {by} farther out to {wider} than to {other}, on the mean of all "
            "frames.",)


def _alone(points, reaches):
    """{(index of a point, axis): by how much its own reading says it is off, m}."""
    rows, off_m = rows_of(points, reaches)
    return {divmod(int(row.argmax()), 2): float(off) for row, off in zip(rows, off_m, strict=True)
            if np.abs(row).sum() == row.max() == 1.0}  # of one point, straight


def _words(axis, off, alone, unit):
    much = mark_text(abs(off) * MM_PER_M, unit)
    stands, mend = _way(axis, off)
    said = f"It {stands} by {much}: {mend} by so much, or accept it."
    if alone is None or (read := mark_text(abs(alone) * MM_PER_M, unit)) == much:
        return said
    return (f"{said} By its own reading alone it {_way(axis, alone)[0]} by {read}: what is said "
            "weighs all measures together.")


def _way(axis, off):
    """How it stands, and what mends it."""
    return AXIS_WORDS[axis][:2] if off > 0.0 else AXIS_WORDS[axis][2:]


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


def _mending(one, unit):
    much = mark_text(abs(one.offset_m) * MM_PER_M, unit)
    if one.what != "bump":
        return f"Hollow of {much} in {one.axis} near here: sight along the stick."
    way = (("in", "out"), ("down", "up"))[one.axis == "profile"][one.offset_m > 0.0]
    return f"Unfair in {one.axis}: move this notch {way} by {much}."
