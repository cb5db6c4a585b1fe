"""What a dry fit says frame by frame, and of the hull as a whole; its notches are in `notches`."""

import numpy as np

from sizer.built.notches import BEYOND
from sizer.units import MM_PER_M, known_text

WIND_FELT_M = 0.003  # over the beam, from end to end; our judgement


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
