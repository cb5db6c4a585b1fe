"""The shape that stands there: the smoothest change of the designed lines that meets the measures.

Penalised least squares with the penalty of `sizer.built.smooth`: with changes c ~ N(0, K),
measures m = H c + e and e ~ N(0, T), c = K H' S^-1 m with S = H K H' + T, and what stays
unknown of c is K - K H' S^-1 H K. What a smooth change cannot explain is told as one frame that is
off, as one stick off at one frame, or as one measure at odds with the rest: of m that pattern g
best explains, its size is
d = g' S^-1 m / (g' S^-1 g) with standard deviation (g' S^-1 g)^-1/2 (generalised least squares).
With g one measure alone d is the leave-one-out residual. Each found is freed, and looked again.
What is accused is so even of a boat that differs WILD times as much as most; after that K is of the
size which the measures make most likely, with every frame and notch free to be a little off by
itself.
"""

from dataclasses import dataclass

import numpy as np
from scipy.special import ndtri

from sizer.built.measures import AXES, LEAST_SPREAD_M, MOST_SPREAD_M, reading_spread_m, rows_of
from sizer.built.points import CENTRE, SIDES, stands
from sizer.built.read_twice import both_ways
from sizer.built.smooth import WILD, by_itself, gain_of, left_m2, prior, size_of
from sizer.errors import BadInput, Fault
from sizer.units import MM_PER_M, known_text

# Chance that any of a kind is accused in a faultless boat; our judgement.
FRAME, NOTCH, MEASURE = "frame", "notch", "measure"
FALSE_ALARM = {FRAME: 0.03, NOTCH: 0.01, MEASURE: 0.01}
MOST_FOUND = 6  # accused; more is a boat measured from another datum
SEEN_M = 0.006  # of a frame's height, that a dry fit should find; our judgement
FREED_M = 0.030  # standard deviation of what is freed: as good as unknown; our judgement
# How a whole frame may be off: (half-breadth, height) of a point on side +1, -1 or 0.
WAYS = {"height": lambda sign: (0.0 * sign, 1.0 + 0.0 * sign),
        "half-breadth": lambda sign: (np.abs(sign), 0.0 * sign),
        "sideways": lambda sign: (sign, 0.0 * sign)}
MOVES = {"height": ("lower it", "raise it"),
         "half-breadth": ("trim its notches in", "pack its notches out"),
         "sideways": ("shift it to port", "shift it to starboard")}


@dataclass(frozen=True, eq=False)
class _Suspect:
    """What may be off by itself."""

    kind: str  # of FALSE_ALARM
    frame: str
    way: str  # of WAYS, the stick with its side, or the measure in words
    pattern: np.ndarray  # (m,) what a unit of it adds to each measure
    moved: np.ndarray | None  # (2 n,) what it moves; None of a measure
    axis: int | None = None  # in which a notch is off or may be; None of a frame, a diagonal


@dataclass(frozen=True)
class Odd:
    """One frame or stick that no smooth change explains, or one measure at odds with the others."""

    kind: str  # of FALSE_ALARM
    frame: str
    way: str  # of WAYS, the stick with its side, or the measure in words
    measures: int  # it rests on
    off_m: float  # positive: high, wide, to starboard; of a measure: it says too much
    spread_m: float
    say: str

    @property
    def is_frame(self):
        return self.kind == FRAME


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
    deviation of a reading, `unit` that of sentences: "mm", "cm" or "in". Raises BadInput: see
    `rows_of`; and a spread that no tape has."""
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
        accused = found[0]
        odd.append(_told(reaches, found, unit))
        suspects = [one for one in suspects if one is not accused]
        if accused.moved is None:
            noise = noise + np.where(accused.pattern > 0.0, FREED_M**2, 0.0)
        else:
            cover = cover + FREED_M**2 * np.outer(accused.moved, accused.moved)
    freed = cover - WILD**2 * usual + by_itself(points)
    size = size_of(rows @ usual @ rows.T, rows @ freed @ rows.T + np.diag(noise), off)
    cover = size**2 * usual + freed
    left = left_m2(cover, rows, np.diag(noise))
    return Standing(points, (gain_of(cover, rows, np.diag(noise)) @ off).reshape(-1, 2),
                    np.sqrt(np.maximum(left.diagonal(), 0.0)).reshape(-1, 2),
                    np.any(rows, axis=0).reshape(-1, 2), tuple(odd), unseen, left,
                    tape_m)


def _suspects(points, reaches, rows):
    """Every _Suspect that the measures, rows (m, 2 n), speak of."""
    found = [*_frames(points, rows)]
    for one in _notches(points, rows):
        # what moves the very same measures as one before it is not told apart from that
        if not any(np.array_equal(one.pattern, other.pattern) for other in found
                   if other.frame == one.frame):
            found.append(one)
    each = np.eye(len(reaches))
    return found + [_Suspect(MEASURE, reach.frame, reach.words, row, None,
                             None if reach.to else AXES.index(reach.what))
                    for row, reach in zip(each, reaches, strict=True)]


def _frames(points, rows):
    """A whole frame off, in each of WAYS."""
    for index, frame in enumerate(points.frames):
        here = points.frame == index
        for way, moves in WAYS.items():
            moved = (np.column_stack(moves(points.sign)) * here[:, None]).ravel()
            pattern = rows @ moved
            if np.any(pattern):
                yield _Suspect(FRAME, frame, way, pattern, moved)


def _notches(points, rows):
    """One stick off at one frame, on one side or both: where two measures or more speak of it, for
    by one alone it is the measure that is told."""
    for frame, name in dict.fromkeys(key[1:] for key in points.keys):
        at = {key[0]: index for index, key in enumerate(points.keys) if key[1:] == (frame, name)}
        ways = {f" on the {side} side": [at[side]] for side in SIDES if side in at}
        ways |= {" on both sides" * (CENTRE not in at): [*at.values()]}
        for side, indices in ways.items():
            for axis in range(2):
                moved = np.zeros(rows.shape[1])
                moved[[2 * index + axis for index in indices]] = 1.0
                pattern = rows @ moved
                if np.count_nonzero(pattern) > 1:
                    yield _Suspect(NOTCH, frame, f"{name}{side}", pattern, moved, axis)


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
    kinds = [one.kind for one in suspects]
    limit = np.array([-ndtri(FALSE_ALARM[kind] / (2.0 * kinds.count(kind))) for kind in kinds])
    patterns = np.array([one.pattern for one in suspects])
    weighed = np.linalg.solve(spread2, patterns.T)
    return weighed, (patterns * weighed.T).sum(axis=1) ** -0.5, limit


def _unseen(points, spread2, suspects):
    """Frames at which SEEN_M too high or low would not be found in 95 of 100."""
    if not suspects:
        return points.frames
    _, spread, limit = _spreads(spread2, suspects)
    seen = {one.frame for one, apart, times in zip(suspects, spread, limit, strict=True)
            if one.kind == FRAME and one.way == "height"
            and (times + -ndtri(0.05)) * apart <= SEEN_M}
    return tuple(frame for frame in points.frames if frame not in seen)


def _told(reaches, found, unit):
    """The Odd of what `_worst` found."""
    one, size, spread = found
    count = int(np.count_nonzero(one.pattern))
    by = known_text(abs(size) * MM_PER_M, spread * MM_PER_M, unit)
    of = [reach for reach, part in zip(reaches, one.pattern, strict=True) if part]
    names = list(dict.fromkeys(reach.stringer for reach in of))
    if one.kind == MEASURE:
        by = both_ways(of[0], lambda times: known_text(
            abs(size) * times * MM_PER_M, spread * times * MM_PER_M, unit))
    say = {FRAME: _frame_says, NOTCH: _notch_says, MEASURE: _measure_says}[one.kind]
    return Odd(one.kind, one.frame, one.way, count, size, spread,
               say(one, size, by, names, count))


def _frame_says(one, size, by, names, count):
    move = MOVES[one.way][0 if size > 0.0 else 1]
    again = (" It rests on one measure: measure again first." if count == 1 else
             f" Only the {names[0]} was measured so there, and it may be off by itself: measure "
             "another stick first." if len(names) == 1 else "")
    return (f"{one.frame} is off in {one.way.replace('sideways', 'the sideways direction')}: "
            f"{move} by {by}, as told by {' and '.join(names)}.{again}")


def _notch_says(one, size, by, _names, count):
    how, mend = stands(one.axis, size)
    return (f"At {one.frame} the {one.way} {how} by {by}, as told by {count} measures, and the "
            f"frame does not: {mend}.")


def _measure_says(one, size, by, _names, _count):
    same = ""
    if one.axis is not None:
        how, mend = stands(one.axis, size)
        same = f" If it reads the same again, the stick {how} there by itself: {mend}."
    return (f"The {one.way} disagrees with the other measures: it is {by} too "
            f"{'much' if size > 0.0 else 'little'}. It was left out: measure it again.{same}")
