"""The shape that stands there: the smoothest change of the designed lines that meets the measures.

Penalised least squares with the penalty of `sizer.built.smooth`: with changes c ~ N(0, K),
measures m = H c + e and e ~ N(0, T), c = K H' S^-1 m with S = H K H' + T, and what stays
unknown of c is K - K H' S^-1 H K. What a smooth change cannot explain is told as one frame that is
off, or as one measure at odds with the rest: of m that pattern g best explains, its size is
d = g' S^-1 m / (g' S^-1 g) with standard deviation (g' S^-1 g)^-1/2 (generalised least squares).
With g one measure alone d is the leave-one-out residual. Each found is freed, and looked again.
What is accused is so even of a boat that differs WILD times as much as most; after that K is of the
size which the measures make most likely, with every frame free to stand a little off by itself.
"""

from dataclasses import dataclass

import numpy as np
from scipy.special import ndtri

from sizer.built.measures import LEAST_SPREAD_M, MOST_SPREAD_M, reading_spread_m, rows_of
from sizer.built.smooth import WILD, frames_own, gain_of, left_m2, prior, size_of
from sizer.errors import BadInput, Fault
from sizer.units import MM_PER_M, known_text

# Chance that any frame, or any measure, is accused in a faultless boat; our judgement.
FALSE_ALARM = {True: 0.03, False: 0.01}
MOST_FOUND = 6  # frames and measures accused; more is a boat measured from another datum
SEEN_M = 0.006  # of a frame's height, that a dry fit should find; our judgement
FREED_M = 0.030  # standard deviation of what is freed: as good as unknown; our judgement
# How a whole frame may be off: (half-breadth, height) of a point on side +1, -1 or 0.
WAYS = {"height": lambda sign: (0.0 * sign, 1.0 + 0.0 * sign),
        "half-breadth": lambda sign: (np.abs(sign), 0.0 * sign),
        "sideways": lambda sign: (sign, 0.0 * sign)}
MOVES = {"height": ("lower it", "raise it"),
         "half-breadth": ("trim its notches in", "pack its notches out"),
         "sideways": ("shift it to port", "shift it to starboard")}


@dataclass(frozen=True)
class Odd:
    """One frame that no smooth change explains, or one measure at odds with the others."""

    frame: str
    way: str  # of WAYS, or the measure in words
    measures: int  # it rests on
    off_m: float  # positive: high, wide, to starboard; of a measure: it says too much
    spread_m: float
    say: str

    @property
    def is_frame(self):
        """Whether a frame is accused, not a measure."""
        return self.way in WAYS


@dataclass(frozen=True, eq=False)
class Standing:
    """The boat as it stands, over its Points."""

    points: object
    change_m: np.ndarray  # (n, 2) half-breadth, height: as it stands less as designed
    spread_m: np.ndarray  # (n, 2) one standard deviation of what stays unknown
    measured: np.ndarray  # (n, 2) bool, whether any reading speaks of it
    odd: tuple[Odd, ...]
    unseen: tuple[str, ...]  # frames at which SEEN_M of height would not surely be found
    covariance_m2: np.ndarray  # (2 n, 2 n) of the changes
    tape_m: float


def standing(points, reaches, tape_m, unit="mm"):
    """The Standing of a boat's Points that Reaches were taken of; `tape_m` is one standard
    deviation of a reading, `unit` that of sentences: "mm", "cm" or "in".

    Raises
    ------
    BadInput: see `rows_of`; and a spread that no tape has.
    """
    if not LEAST_SPREAD_M <= tape_m <= MOST_SPREAD_M:
        raise BadInput([Fault("plus_minus_mm", f"{tape_m * MM_PER_M:g} mm",
                              f"{LEAST_SPREAD_M * MM_PER_M:g} to {MOST_SPREAD_M * MM_PER_M:g} mm, "
                              "one standard deviation of a reading")])
    rows, off = rows_of(points, reaches)
    usual, odd = prior(points), []
    cover = WILD**2 * usual
    noise = np.array([reading_spread_m(one, tape_m) ** 2 for one in reaches])
    suspects = _suspects(points, reaches, rows)
    unseen = _unseen(points, rows @ cover @ rows.T + np.diag(noise), suspects)
    while len(odd) < MOST_FOUND:
        found = _worst(rows @ cover @ rows.T + np.diag(noise), off, suspects)
        if found is None:
            break
        pattern, moved = found[0][2:]
        odd.append(_told(reaches, found, unit))
        suspects = [one for one in suspects if one[2] is not pattern]
        if moved is None:
            noise = noise + np.where(pattern > 0.0, FREED_M**2, 0.0)
        else:
            cover = cover + FREED_M**2 * np.outer(moved, moved)
    freed = cover - WILD**2 * usual + frames_own(points)
    size = size_of(rows @ usual @ rows.T, rows @ freed @ rows.T + np.diag(noise), off)
    cover = size**2 * usual + freed
    left = left_m2(cover, rows, np.diag(noise))
    return Standing(points, (gain_of(cover, rows, np.diag(noise)) @ off).reshape(-1, 2),
                    np.sqrt(np.maximum(left.diagonal(), 0.0)).reshape(-1, 2),
                    np.any(rows, axis=0).reshape(-1, 2), tuple(odd), unseen, left,
                    tape_m)


def _suspects(points, reaches, rows):
    """(place, way, pattern over measures, pattern over points or None) of all to be looked at."""
    found = []
    for index, frame in enumerate(points.frames):
        here = points.frame == index
        for way, moves in WAYS.items():
            moved = (np.column_stack(moves(points.sign)) * here[:, None]).ravel()
            pattern = rows @ moved
            if np.any(pattern):
                found.append((frame, way, pattern, moved))
    for row, reach in enumerate(reaches):
        found.append((reach.frame, reach.words, np.eye(len(reaches))[row], None))
    return found


def _worst(spread2, off, suspects):
    """The suspect that is most beyond chance, with its size and spread; None where none is."""
    if not suspects:
        return None
    weighed, spread, limit = _spreads(spread2, suspects)
    size = weighed.T @ off * spread**2
    beyond = np.abs(size / spread) / limit
    worst = int(beyond.argmax())
    if beyond[worst] < 1.0:
        return None
    return suspects[worst], float(size[worst]), float(spread[worst])


def _spreads(spread2, suspects):
    """Of each suspect's pattern: S^-1 g, the spread of its size, and from how many it is told."""
    frames = np.array([one[3] is not None for one in suspects])
    limit = np.where(frames, *(-ndtri(FALSE_ALARM[kind] / (2.0 * max((frames == kind).sum(), 1)))
                               for kind in (True, False)))
    patterns = np.array([one[2] for one in suspects])
    weighed = np.linalg.solve(spread2, patterns.T)
    return weighed, (patterns * weighed.T).sum(axis=1) ** -0.5, limit


def _unseen(points, spread2, suspects):
    """Frames at which SEEN_M too high or low would not be found in 95 of 100."""
    if not suspects:
        return points.frames
    _, spread, limit = _spreads(spread2, suspects)
    seen = {one[0] for one, apart, times in zip(suspects, spread, limit, strict=True)
            if one[1] == "height" and (times + -ndtri(0.05)) * apart <= SEEN_M}
    return tuple(frame for frame in points.frames if frame not in seen)


def _told(reaches, found, unit):
    """The Odd of what `_worst` found."""
    (place, way, pattern, _), size, spread = found
    count = int(np.count_nonzero(pattern))
    by = known_text(abs(size) * MM_PER_M, spread * MM_PER_M, unit)
    if way not in WAYS:
        return Odd(place, way, 1, size, spread,
                   f"The {way} disagrees with the other measures: {by} too "
                   f"{'much' if size > 0.0 else 'little'}. It was left out: measure it again.")
    move = MOVES[way][0 if size > 0.0 else 1]
    names = " and ".join(dict.fromkeys(
        reach.stringer for reach, part in zip(reaches, pattern, strict=True) if part))
    again = " It rests on one measure: measure again first." if count == 1 else ""
    return Odd(place, way, count, size, spread,
               f"{place} is off in {way.replace('sideways', 'the sideways direction')}: "
               f"{move} by {by}, as told by {names}.{again}")
