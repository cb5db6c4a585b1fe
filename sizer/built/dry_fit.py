"""A dry fit, whole: a job and what was measured in, the boat as it stands out."""

from dataclasses import dataclass

import numpy as np

from sizer.built.as_built import Along, Sides, sides_of
from sizer.built.asked import LENGTH
from sizer.built.floated import LIST_SEEN_DEG, Floated, floated, list_deg
from sizer.built.measures import MOST_OFF_M, rows_of
from sizer.built.notches import BEYOND, PointTold, points_told
from sizer.built.points import points_of
from sizer.built.read_twice import read_twice
from sizer.built.standing import SEEN_M, Standing, standing
from sizer.built.table import Measured
from sizer.errors import BadInput, Fault, caught
from sizer.stamp import refusal
from sizer.units import MM_PER_M, known_text, rough_text

FEW = 8  # measures; fewer leave most of the boat as designed; our judgement
WIND_FELT_M = 0.003  # over the beam, from end to end; our judgement


@dataclass(frozen=True, eq=False)
class DryFit:
    """The boat as it stands, beside its design."""

    measured: Measured
    standing: Standing
    along: Along
    sides: Sides
    designed: Floated
    built: Floated
    list_deg: float | None
    points: tuple[PointTold, ...]
    hull: tuple[str, ...]
    recut: tuple[str, ...]
    twice: tuple[str, ...]  # of what is to be read a second time, as `read_twice`
    cautions: tuple[str, ...]

    @property
    def refusal(self):
        """Across a boat that does not pass as it stands; "" where it passes."""
        return refusal(self.built)


def dry_fit(job, measured, tape_m, unit="mm"):
    """The DryFit of a Job's boat.

    Parameters
    ----------
    measured : Measured
    tape_m : one standard deviation of a reading
    unit : "mm", "cm" or "in", of the marks in sentences

    Raises
    ------
    BadInput, for measures that cannot be; errors of `sizer.fit.assess.assess_boat`.
    """
    assessed = job.fitted.assessed
    if not measured.count:
        raise BadInput([Fault("measured", "nothing", "at least one half-breadth, height, diagonal, "
                              "mark or overall length")])
    faults = faults_in(job, measured)
    if faults:
        raise BadInput(faults)
    along = _along(job, measured)
    found = standing(points_of(assessed.boat), measured.reaches, tape_m, unit)
    sides = sides_of(assessed.boat, job.drawn_for, found, along)
    designed, built = (floated(one, job.person) for one in (sides.designed, sides.mean))
    lies = list_deg(sides.starboard.sections, sides.port.sections, built.assessed)
    told = points_told(found, sides, unit, measured.reaches)
    hull = (*hull_told(found, unit), *_listing(lies), *_along_told(along, tape_m, unit))
    twice = tuple(read_twice(measured.reaches, rows_of(found.points, measured.reaches)[1], along,
                             tape_m, unit))
    return DryFit(measured, found, along, sides, designed, built, lies, told, hull,
                  recut(found, told), twice, (*_doubts(measured, found, unit), *job.cautions))


def faults_in(job, measured):
    """Every Fault of measures that cannot be of a Job's boat: an unknown frame or stick, a figure
    farther off than a dry fit can be."""
    faults, points = [], points_of(job.fitted.assessed.boat)
    caught(lambda: rows_of(points, measured.reaches), faults)
    caught(lambda: _along(job, measured), faults)
    return faults


def _listing(lies):
    if lies is None:
        return ("As it stands the boat has no heel near upright at which it would come to rest: "
                "do not launch it.",)
    if abs(lies) < LIST_SEEN_DEG:
        return ()
    return (f"Its sides differ: it would lie over by {abs(lies):.1f} degrees to "
            f"{'starboard' if lies > 0.0 else 'port'}.",)


def _along(job, measured):
    """The Along of the frames' marks and the overall length. Raises BadInput: an unknown frame, a
    mark or a length farther off than a dry fit can be."""
    stations = {one.name: one.strongback_m for one in job.setting_up.stations}
    faults = [Fault(f"mark/{frame}", f"frame {frame!r:.40}", "one of " + ", ".join(stations))
              for frame, _ in measured.marks_m if frame not in stations]
    off = tuple((frame, mark - stations[frame]) for frame, mark in measured.marks_m
                if frame in stations)
    longer = 0.0
    if measured.length_m is not None:
        longer = measured.length_m - job.fitted.assessed.boat.length_m
    faults += [Fault(place, f"{much * MM_PER_M:+.0f} mm from the design",
                     f"more than {MOST_OFF_M * MM_PER_M:.0f} mm off is a slip of tape, pen or "
                     "datum: measure again")
               for place, much in ((LENGTH, longer), *((f"mark/{frame}", much)
                                                       for frame, much in off))
               if not abs(much) <= MOST_OFF_M]
    if faults:
        raise BadInput(faults)
    return Along(off, longer)


def _along_told(along, tape_m, unit):
    """Sentences on the overall length and the frames' marks."""
    longer = along.longer_m
    if abs(longer) > BEYOND * tape_m:
        yield (f"The boat is {rough_text(abs(longer) * MM_PER_M, unit)} too "
               f"{'long' if longer > 0.0 else 'short'} over all: check both stems. Until then all "
               "of it is taken at the stern.")
    for frame, off in along.frames_m:
        if abs(off) > BEYOND * tape_m:
            yield (f"{frame} stands {rough_text(abs(off) * MM_PER_M, unit)} too far "
                   f"{'aft' if off > 0.0 else 'forward'}: move it "
                   f"{'forward' if off > 0.0 else 'aft'} by so much.")


def _doubts(measured, found, unit):
    many = "s" * (measured.count > 1)
    few = (f"Only {measured.count} measure{many}: between them the boat is taken as designed, "
           "which is not the same as right.",) if measured.count < FEW else ()
    unseen = () if few else _unseen(found, unit)
    return (*few, *unseen, "What was not measured is the smoothest guess, and the stems are taken "
            "as designed: measure again before wood is cut.")


def _unseen(found, unit):
    """At which frames one that stands wrong may have been missed; those accused were not."""
    accused = {one.frame for one in found.odd if one.way == "height"}
    left = [name for name in found.unseen if name not in accused]
    wrong = f"{rough_text(SEEN_M * MM_PER_M, unit)} too high or low"
    if len(left) > 0.5 * len(found.points.frames):  # a list of nearly all helps nobody
        seen = [name for name in found.points.frames if name not in left]
        but = f", but at {', '.join(seen)}," if seen else ""
        return (f"These measures tell how the boat floats, not surely whether each frame stands "
                f"right: one {wrong} may be missed{but} until more sticks' heights are measured.",)
    return (f"A frame {wrong} would not surely be found at {', '.join(left)}: measure the heights "
            "of more sticks there.",) if left else ()


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
