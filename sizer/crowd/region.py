"""Who fits a finished boat: weights against statures and against hip widths.

Twice over: whom no check fails, and who sits in it without a caution. Only seat, footbrace and
padding move. What a row does not fix is what the body survey expects, or off that as it is in the
paddler at hand, who is then among the rows.
"""

from dataclasses import dataclass, replace

from sizer.crowd.edges import Asked, Plane, planes
from sizer.crowd.finished import Finished, Verdict, persons_of, verdict
from sizer.fit.request import Trip
from sizer.paddler.measures import Measured


@dataclass(frozen=True, eq=False)
class Region:
    """Who fits one boat for one use."""

    hull: Finished
    trip: Trip
    statures: Plane  # with the gear
    hip_widths: Plane
    statures_without_gear: Plane
    clean_statures: Plane  # those without a caution, with the gear
    clean_hip_widths: Plane
    unknown: int  # bodies tried exactly that could not be worked out
    like: Measured | None = None  # the paddler at hand, whom all are built like
    own: Verdict | None = None  # of that paddler as they are


def extremes(plane):
    """(lightest, heaviest) Edge of all of a plane's rows; (None, None) where nobody fits."""
    if not plane.rows:
        return None, None
    return (min((row.lightest for row in plane.rows), key=lambda edge: edge.weight_kg),
            max((row.heaviest for row in plane.rows), key=lambda edge: edge.weight_kg))


def who_fits(hull, trip, progress=lambda done, of, words: None, stop=lambda: False, like=None):
    """The Region of a finished boat.

    Parameters
    ----------
    hull : Finished
    trip : Trip
    progress : called as progress(done, of, words)
    stop : called often; true to give up
    like : Measured of the paddler at hand, if there is one

    Raises
    ------
    Stopped
    """
    found, unknown, gear_kg = {}, [], trip.gear_kg
    jobs = (("stature", gear_kg), ("hip_width", gear_kg), ("stature", 0.0))
    for done, (measure, gear) in enumerate(jobs):
        progress(done, len(jobs), "weights against " + measure.replace("_", " "))
        asked = Asked(hull, replace(trip, gear_kg=gear), stop, unknown, like)
        found[measure, gear] = planes(asked, measure)
    statures, clean_statures = found["stature", gear_kg]
    hip_widths, clean_hip_widths = found["hip_width", gear_kg]
    own = None if like is None else verdict(hull, persons_of([like], trip)[0])
    return Region(hull, trip, statures, hip_widths, found["stature", 0.0][0], clean_statures,
                  clean_hip_widths, len(unknown), like, own)
