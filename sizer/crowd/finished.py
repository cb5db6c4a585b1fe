"""One finished boat and one paddler by the exact engine: only seat, footbrace and padding move."""

import math
from dataclasses import dataclass, replace

from sizer.crowd.served import NAMES
from sizer.errors import BadInput, NotSolved, WillNotFloat
from sizer.fit.assess import assess
from sizer.fit.checks import all_checks
from sizer.fit.mishaps import flooded_with_bags
from sizer.fit.person import person_of
from sizer.fit.request import Request
from sizer.hull.boat import SECTION_COUNT, Boat, scaled_boat
from sizer.hull.lines import Lines
from sizer.hull.scale import Scaling
from sizer.hull.weight import OwnWeight, own_weight
from sizer.hydro.bags import RIM_MARGIN_M
from sizer.units import MM_PER_M

FLOATS = "floats at all"  # the check's name where a boat does not
FLOODED = "flooded rim with float bags"
FLOODED_SCALE_MM = 10.0  # as that check's own

OF_THE_PADDLER = (*NAMES, FLOODED)  # the checks that one paddler passes and another does not


@dataclass(frozen=True, eq=False)
class Finished:
    """A boat that is built: its shape and opening stay as they are."""

    lines: Lines
    scaling: Scaling  # its seat where the map puts it
    boat: Boat
    weight: OwnWeight


@dataclass(frozen=True)
class Verdict:
    """What the checks say of one paddler in one finished boat."""

    fails: tuple[str, ...]  # names of checks, the shortest of its limit first
    cautions: tuple[str, ...]
    spare: float  # least margin of OF_THE_PADDLER, in just-noticeable changes
    tightest: str  # the check of that margin
    margins: tuple[tuple[str, float, str], ...]  # every check: name, margin, its unit

    @property
    def serves(self):
        """No check fails."""
        return not self.fails

    @property
    def clean(self):
        """No check of the paddler's fails or cautions."""
        return self.serves and not set(self.cautions) & set(OF_THE_PADDLER)


SINKS = Verdict((FLOATS,), (), -math.inf, FLOATS, ())


def finished(lines, scaling):
    """The Finished boat of a scaling; a seat shift is undone, since the seat slides."""
    level = replace(scaling, seat_shift_m=0.0)
    boat = scaled_boat(lines, level, SECTION_COUNT)
    return Finished(lines, level, boat, own_weight(boat))


def request_for(hull, drawn, base, use_name, water, gear_kg):
    """The Request of the paddler a boat is drawn for, which holds this very boat; its seat slides.

    Lengths are the base's own times the factors, so that fitting it gives the same factors again.
    """
    own, opening, scaling = scaled_boat(hull.lines, Scaling()), hull.boat.opening, hull.scaling
    lengths = {"length_mm": scaling.length * own.length_m, "beam_mm": scaling.beam * own.beam_m,
               "depth_mm": scaling.depth * own.depth_m, "cockpit_length_mm": opening.length_m,
               "cockpit_width_mm": opening.width_m}
    fixed = {key: value * MM_PER_M for key, value in lengths.items()}
    return Request(base, drawn, use_name, gear_kg, water,
                   (*fixed.items(), ("deck_crown", scaling.crown)))


def persons_of(measured, base, use_name, water, gear_kg):
    """A tuple of Person, one for each Measured, all for one use, water and gear."""
    return tuple(person_of(Request(base, one, use_name, gear_kg, water)) for one in measured)


def verdict(hull, person, start=None, flood=True):
    """The Verdict of the exact checks, the seat free to slide.

    The cautions that come with a righting curve are left out: they never fail.

    Parameters
    ----------
    hull : Finished
    person : Person
    start : (level_m, trim_deg) to start the flotation from
    flood : False leaves out the flooded check, which costs most
    """
    try:
        assessed = assess(hull.lines, hull.scaling, person, SECTION_COUNT, start)
        if assessed.particulars.rim_freeboard_m <= 0.0:
            return SINKS
        rows = [(check.name, check.margin, check.unit, check.margin / check.scale, check.status)
                for check in all_checks(assessed)]
        if flood:
            margin_mm = flooded_margin_mm(assessed)
            rows.append((FLOODED, margin_mm, "mm", margin_mm / FLOODED_SCALE_MM,
                         "fail" if margin_mm < 0.0 else "pass"))
    except (WillNotFloat, NotSolved, BadInput):  # BadInput: a centre outside the hull
        return SINKS
    return _verdict(rows)


def flooded_margin_mm(assessed):
    """Margin of the flooded rim with float bags."""
    clear_m = flooded_with_bags(assessed)[0].rim_clearance_m
    if clear_m is None:
        clear_m = -assessed.boat.depth_m  # it sinks: under by its whole depth
    return (clear_m - RIM_MARGIN_M) * MM_PER_M


def _verdict(rows):
    short = sorted((spare, name) for name, _, _, spare, status in rows if status == "fail")
    name, _, _, spare, _ = min((row for row in rows if row[0] in OF_THE_PADDLER),
                               key=lambda row: row[3])
    return Verdict(tuple(name for _, name in short),
                   tuple(row[0] for row in rows if row[4] == "caution"), spare, name,
                   tuple(row[:3] for row in rows))
