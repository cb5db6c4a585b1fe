"""A dry fit, whole: a job and what was measured in, the boat as it stands out."""

from dataclasses import dataclass

from sizer.built.as_built import Sides, sides_of
from sizer.built.floated import LIST_SEEN_DEG, Floated, floated, list_deg
from sizer.built.points import points_of
from sizer.built.standing import Standing, standing
from sizer.built.told import BEYOND, PointTold, hull_told, points_told, recut
from sizer.errors import BadInput, Fault
from sizer.stamp import refusal
from sizer.units import MM_PER_M

FEW = 8  # measures; fewer leave most of the boat as designed; our judgement


@dataclass(frozen=True, eq=False)
class DryFit:
    """The boat as it stands, beside its design."""

    standing: Standing
    sides: Sides
    designed: Floated
    built: Floated
    list_deg: float | None
    points: tuple[PointTold, ...]
    hull: tuple[str, ...]
    recut: tuple[str, ...]
    cautions: tuple[str, ...]

    @property
    def refusal(self):
        """Across a boat that does not pass as it stands; "" where it passes."""
        return refusal(self.built)


def dry_fit(job, measured, tape_m, unit="mm"):
    """The DryFit of a job's boat.

    Parameters
    ----------
    job : sizer.job.Job
    measured : sizer.built.table.Measured
    tape_m : one standard deviation of a reading
    unit : "mm", "cm" or "in", of the marks in sentences

    Raises
    ------
    BadInput, for measures that cannot be; errors of `sizer.fit.assess.assess_boat`.
    """
    assessed = job.fitted.assessed
    found = standing(points_of(assessed.boat), measured.reaches, tape_m)
    sides = sides_of(assessed.boat, job.drawn_for, found)
    designed, built = (floated(one, job.person) for one in (sides.designed, sides.mean))
    lies = list_deg(sides.starboard.sections, sides.port.sections, built.assessed)
    told = points_told(found, sides, unit)
    hull = (*hull_told(found), *_listing(lies), *_along(job, measured, tape_m))
    return DryFit(found, sides, designed, built, lies, told, hull, recut(found, told),
                  (*_doubts(measured), *job.cautions))


def _listing(lies):
    if lies is None:
        return ("As it stands the boat has no heel near upright at which it would come to rest: "
                "do not launch it.",)
    if abs(lies) < LIST_SEEN_DEG:
        return ()
    return (f"Its sides differ: it would lie over by {abs(lies):.1f} degrees to "
            f"{'starboard' if lies > 0.0 else 'port'}.",)


def _along(job, measured, tape_m):
    """Sentences on the overall length and the frames' marks."""
    said, faults = [], []
    stations = {one.name: one.strongback_m for one in job.setting_up.stations}
    if measured.length_m is not None:
        off = measured.length_m - job.fitted.assessed.boat.length_m
        if abs(off) > BEYOND * tape_m:
            said.append(f"The boat is {abs(off) * MM_PER_M:.0f} mm too "
                        f"{'long' if off > 0.0 else 'short'} over all: check both stems.")
    for frame, mark in measured.marks_m:
        if frame not in stations:
            faults.append(Fault("mark_mm", f"frame {frame!r:.40}", "one of " + ", ".join(stations)))
        elif abs(mark - stations[frame]) > BEYOND * tape_m:
            off = (mark - stations[frame]) * MM_PER_M
            said.append(f"{frame} stands {abs(off):.0f} mm too far "
                        f"{'aft' if off > 0.0 else 'forward'}: move it "
                        f"{'forward' if off > 0.0 else 'aft'} by so much.")
    if faults:
        raise BadInput(faults)
    return said


def _doubts(measured):
    few = (f"Only {len(measured.reaches)} measures: between them the boat is taken as designed, "
           "which is not the same as right.",) if len(measured.reaches) < FEW else ()
    return (*few, "What was not measured is the smoothest guess, and the stems are taken as "
            "designed: measure again before wood is cut.")
