"""What a builder is asked for at the bench, in the order in which he walks round the boat.

First what the tape tells along the strongback; then down the starboard side from bow to stern with
the breadths across, and back up the port side; last the diagonals of each frame. Heights are over
the strongback's top, as on the setting-up sheet; half-breadths from its centre line.
"""

from dataclasses import dataclass

import numpy as np

from sizer.built.measures import BOTH, MOST_OFF_M, Reach
from sizer.built.points import CENTRE
from sizer.built.read_twice import is_far
from sizer.built.table import Measured

ACROSS, HALF, HEIGHT, DIAGONAL, MARK, LENGTH = (
    "across", "half_breadth", "height", "diagonal", "mark", "length")
WHERE = {ACROSS: "breadth across", HALF: "half-breadth", HEIGHT: "height over the strongback",
         DIAGONAL: "diagonal", MARK: "mark on the strongback", LENGTH: "length over all"}
SHORT = {**WHERE, ACROSS: "across", HALF: "out", HEIGHT: "up", MARK: "mark"}


@dataclass(frozen=True)
class Asked:
    """One measure that can be taken of a boat on its strongback."""

    what: str  # of WHERE
    designed_m: float  # what the tape says where the boat is as designed
    side: str = ""  # starboard, port or centre; both across
    frame: str = ""
    stringer: str = ""
    to: tuple[str, str, str] | None = None

    @property
    def key(self):
        """Names it among all that can be asked of a boat."""
        return "/".join(filter(None, (self.what, self.side, self.frame, self.stringer,
                                      *(self.to or ()))))

    @property
    def words(self):
        side = f"{self.side} " if self.side not in ("", BOTH, CENTRE) else ""
        of = {"": "", ACROSS: "s"}.get(self.what, "")
        place = f" of {side}{self.stringer}{of}" if self.stringer else ""
        at = f" at {self.frame}" if self.frame else ""
        to = f" to {self.to[0]} {self.to[2]}" if self.to else ""
        return f"{WHERE[self.what].capitalize()}{place}{at}{to}"

    @property
    def short(self):
        """As it is named in a list: frame first."""
        place = " ".join(filter(None, (self.frame, "" if self.side in (BOTH, CENTRE) else self.side,
                                       self.stringer)))
        to = f" to {self.to[0]} {self.to[2]}" if self.to else ""
        return ", ".join(filter(None, (place, SHORT[self.what]))) + to

    def is_slip(self, value_m):
        """Whether what the tape said is farther off the design than a dry fit can be."""
        return abs(value_m - self.designed_m) > MOST_OFF_M * (2.0 if self.what == ACROSS else 1.0)

    def is_far(self, value_m, tape_m):
        """Whether what the tape said is to be read a second time."""
        return is_far(value_m - self.designed_m, tape_m)

    def reach(self, value_m, baseline_m):
        """The Reach of what the tape said; None of a mark and of the length."""
        if self.what in (MARK, LENGTH):
            return None
        value = {ACROSS: 0.5 * value_m, HEIGHT: value_m - baseline_m}.get(self.what, value_m)
        what = HALF if self.what == ACROSS else self.what
        side = BOTH if self.side == CENTRE else self.side
        return Reach(what, value, side, self.frame, self.stringer, self.to, self.key)


def asked_of(points, setting_up):
    """Every Asked of a boat's Points set up so, in walking order."""
    base = setting_up.baseline_height_m
    along = [Asked(LENGTH, points.length_m),
             *(Asked(MARK, one.strongback_m, frame=one.name) for one in setting_up.stations)]
    out = [one for frame in points.frames for one in _side(points, frame, "starboard", base)]
    back = [one for frame in reversed(points.frames) for one in _side(points, frame, "port", base)]
    last = [one for frame in points.frames for one in _diagonals(points, frame)]
    return (*along, *out, *back, *last)


def words_of(key):
    """The words of the Asked that has this key, as within a sentence."""
    what, *at = key.split("/")
    if what == MARK:
        words = Asked(what, 0.0, frame="/".join(at)).words
    elif what in WHERE and len(at) in (0, 3, 6):
        words = Asked(what, 0.0, *at[:3], to=tuple(at[3:]) or None).words
    else:  # a slash in a name of the design
        words = key
    return words[0].lower() + words[1:]


def measured_of(asked, values_m, baseline_m):
    """The Measured of what was read, {key of an Asked: m}; heights over the strongback."""
    read = [(one, values_m[one.key]) for one in asked if one.key in values_m]
    return Measured(
        tuple(one.reach(value, baseline_m) for one, value in read if one.frame and
              one.what != MARK),
        next((value for one, value in read if one.what == LENGTH), None),
        tuple((one.frame, value) for one, value in read if one.what == MARK))


def straight(asked):
    """Those of some Asked that a square and a straight tape reach: a diagonal runs through the
    sticks at both its ends."""
    return [one for one in asked if one.what != DIAGONAL]


def _side(points, frame, side, base):
    """What is asked on one side of a frame; the centre line and the breadths with starboard."""
    for index, (here, name, stringer) in enumerate(points.keys):
        y, z = points.at[index]
        if name != frame or here not in ((side,) if side == "port" else (side, CENTRE)):
            continue
        if here == "starboard":
            yield Asked(ACROSS, 2.0 * float(y), BOTH, frame, stringer)
        if here != CENTRE:
            yield Asked(HALF, float(y), here, frame, stringer)
        yield Asked(HEIGHT, float(z) + base, here, frame, stringer)


def _diagonals(points, frame):
    """From each side's highest stick to the other side's lowest."""
    names = [key[2] for key in points.keys if key[:2] == ("starboard", frame)]
    height = {name: points.at[points.index("starboard", frame, name), 1] for name in names}
    low, high = min(names, key=height.get), max(names, key=height.get)
    if low == high:
        return
    for side, other in (("starboard", "port"), ("port", "starboard")):
        ends = [points.place_m[points.index(at, frame, name)]
                for at, name in ((side, high), (other, low))]
        yield Asked(DIAGONAL, float(np.linalg.norm(ends[0] - ends[1])), side, frame, high,
                    (other, frame, low))
