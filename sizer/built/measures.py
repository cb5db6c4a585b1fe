"""What was read off the tape at a dry fit, as records, and as rows of the Points they speak of."""

from dataclasses import dataclass

import numpy as np

from sizer.built.points import CENTRE, SIDES
from sizer.errors import BadInput, Fault
from sizer.units import MM_PER_M, length_text

BOTH = "both"
AXES = ("half_breadth", "height", "diagonal")
WORDS = {"half_breadth": "half-breadth", "height": "height", "diagonal": "diagonal"}
MOST_OFF_M = 0.060  # farther off is a slip of the tape or of the pen; our judgement
LEAST_SPREAD_M, MOST_SPREAD_M = 0.0002, 0.020  # of a tape; our judgement


@dataclass(frozen=True)
class Reach:
    """One measure: of a point, or between two points for a diagonal."""

    what: str  # of AXES
    value_m: float  # heights over the baseline
    side: str  # starboard, port or both (their mean: half of what the tape says across)
    frame: str
    stringer: str
    to: tuple[str, str, str] | None = None  # side, frame, stringer of a diagonal's other end
    place: str = ""  # where it was typed, for a fault

    @property
    def is_across(self):
        """Whether it is half of what the tape said."""
        return self.side == BOTH and self.what == "half_breadth"

    @property
    def words(self):
        side = "" if self.side == BOTH else f"{self.side} "
        other = "" if self.to is None else f" to {' '.join(self.to)}"
        return f"{WORDS[self.what]} of {side}{self.stringer} at {self.frame}{other}"


def rows_of(points, reaches):
    """(m, 2 n) what one unit of each change adds to each measure, and (m,) measured - designed.

    A diagonal is taken as straight in the small changes: its error is their square over twice its
    length, 0.1 mm for 12 mm in 700 mm.

    Raises
    ------
    BadInput with every fault: an unknown point, a half-breadth of a stick on the centre line, a
    measure farther off the design than a dry fit can be.
    """
    faults, rows, off = [], [], []
    for reach in reaches:
        try:
            row, designed = row_of(points, reach)
        except BadInput as error:
            faults += error.faults
            continue
        rows.append(row)
        off.append(reach.value_m - designed)
        if not abs(off[-1]) <= MOST_OFF_M:
            faults.append(_absurd(reach, designed))
    if faults:
        raise BadInput(faults)
    return np.reshape(rows, (-1, 2 * len(points.keys))), np.array(off)


def reading_spread_m(reach, tape_m):
    """One standard deviation of a Reach; what is measured across is halved, and so is its error."""
    return 0.5 * tape_m if reach.is_across else tape_m


def row_of(points, reach):
    """(2 n,) what a unit of each change adds to one Reach, and what the design says of it."""
    row = np.zeros(2 * len(points.keys))
    at = [_found(points, side, reach.frame, reach.stringer, reach.place)
          for side in (SIDES if reach.side == BOTH else (reach.side,))]
    if reach.what == "diagonal":
        other = _found(points, *reach.to, reach.place)
        return _diagonal(points, at[0], other, row, reach.place)
    axis = AXES.index(reach.what)
    if axis == 0 and points.keys[at[0]][0] == CENTRE:
        raise BadInput([Fault(reach.place, f"half-breadth of {reach.stringer}",
                              "none: it stands on the centre line; leave the cell blank")])
    for one in at:
        row[2 * one + axis] += 1.0 / len(at)
    return row, points.at[at[0], axis]


def _diagonal(points, first, second, row, place):
    apart = points.place_m[second] - points.place_m[first]
    length = float(np.linalg.norm(apart))
    if length < MOST_OFF_M:
        raise BadInput([Fault(place, "a diagonal between points that are one or touch",
                              "two points farther apart")])
    way = apart / length
    for point, towards in ((first, -1.0), (second, 1.0)):
        row[2 * point] += towards * way[1] * points.sign[point]
        row[2 * point + 1] += towards * way[2]
    return row, length


def _found(points, side, frame, stringer, place):
    if frame not in points.frames:
        raise BadInput([Fault(place, f"frame {frame!r:.40}",
                              "one of " + ", ".join(points.frames))])
    try:
        return points.index(side, frame, stringer)
    except ValueError:
        here = dict.fromkeys(key[2] for key in points.keys if key[1] == frame)
        raise BadInput([Fault(place, f"{side} {stringer!r:.40} at {frame}",
                              "side starboard, port or both, and one of "
                              + ", ".join(here))]) from None


def _absurd(reach, designed):
    said, meant = (length_text(one * MM_PER_M, "mm") for one in (reach.value_m, designed))
    return Fault(reach.place or "measured", f"{reach.words}: {said}",
                 f"the design says {meant}; more than {MOST_OFF_M * MM_PER_M:.0f} mm off is a slip "
                 "of tape, pen or datum (heights from the strongback or the baseline?): "
                 "measure again")
