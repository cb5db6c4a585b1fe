"""One finished boat and one paddler by the exact engine: only seat, footbrace and padding move."""

import math
from dataclasses import dataclass, replace

import numpy as np

from sizer.crowd.how_sure import spread_in
from sizer.crowd.served import OF_THE_PADDLER
from sizer.errors import BadInput, NotSolved, WillNotFloat
from sizer.fit.assess import assess_boat, assess_crowd
from sizer.fit.checks import BY_KEY, checks_of, checks_of_many, overall
from sizer.fit.facts import facts_of
from sizer.fit.mishaps import mishap_facts, mishaps_of_many, quick_rightings
from sizer.fit.person import person_on
from sizer.fit.request import Request
from sizer.fit.sizes import SIZES
from sizer.fit.tried import NOT_AFLOAT, UNKNOWN
from sizer.hull.boat import SECTION_COUNT, Boat, scaled_boat
from sizer.hull.lines import Lines
from sizer.hull.scale import Scaling
from sizer.hull.weight import OwnWeight, own_weight
from sizer.units import MM_PER_M

AT_ONCE = 32  # people in one boat that are worked out side by side
WITHOUT_CHECKS = {"afloat": NOT_AFLOAT, "unknown": UNKNOWN}  # verdicts that no row gives


@dataclass(frozen=True, eq=False)
class Finished:
    """A boat that is built: its shape and opening stay as they are."""

    lines: Lines
    scaling: Scaling  # its seat where the map puts it
    boat: Boat
    weight: OwnWeight


@dataclass(frozen=True)
class Verdict:
    """What the checks say of one paddler in one finished boat; keys as in `sizer.fit.checks`."""

    status: str  # pass, caution or fail; "unknown" where it could not be worked out
    fails: tuple[str, ...]  # keys, the farthest off its limit first; or one of WITHOUT_CHECKS
    cautions: tuple[str, ...]  # keys, the farthest off first
    spare: float  # least margin of the paddler's checks, in just-noticeable changes
    tightest: str  # key of that margin's check
    margins: tuple[tuple[str, float, str], ...]  # every check: key, margin, its unit

    @property
    def serves(self):
        """No check fails."""
        return not self.fails

    @property
    def unknown(self):
        """It could not be worked out; nothing is said for or against."""
        return self.status == "unknown"

    @property
    def faults(self):
        """Keys of what keeps the paddler from sitting in it without caution, the worst first."""
        return (*self.fails, *(key for key in self.cautions if key in OF_THE_PADDLER))

    @property
    def clean(self):
        """No check fails and none of the paddler's cautions."""
        return not self.faults


SINKS = Verdict("fail", ("afloat",), (), -math.inf, "afloat", ())
NOT_KNOWN = Verdict("unknown", ("unknown",), (), -math.inf, "unknown", ())


def title_of(key):
    """What a check, or a verdict without any, is called."""
    return BY_KEY[key].title if key in BY_KEY else WITHOUT_CHECKS[key]


def titles_of(keys):
    """A list of `title_of`."""
    return [title_of(key) for key in keys]


def finished(lines, scaling):
    """The Finished boat of a scaling; a seat shift is undone, since the seat slides."""
    level = replace(scaling, seat_shift_m=0.0)
    boat = scaled_boat(lines, level, SECTION_COUNT)
    return Finished(lines, level, boat, own_weight(boat))


def request_for(hull, drawn, trip):
    """The Request of the paddler a boat is drawn for, which holds this very boat; its seat slides.

    Lengths are the base's own times the factors, so that fitting it gives the same factors again.
    """
    own, opening, scaling = scaled_boat(hull.lines, Scaling()), hull.boat.opening, hull.scaling
    lengths_m = (scaling.length * own.length_m, scaling.beam * own.beam_m,
                 scaling.depth * own.depth_m, opening.length_m, opening.width_m)
    fixed = zip(SIZES, (length * MM_PER_M for length in lengths_m), strict=True)
    return Request(trip, drawn, (*fixed, ("deck_crown", scaling.crown)))


def persons_of(measured, trip):
    """A tuple of Person, one for each Measured, all on one Trip."""
    return tuple(person_on(trip, one) for one in measured)


def verdict(hull, person, mishaps=True):
    """The Verdict of the exact checks, the seat free to slide.

    Parameters
    ----------
    hull : Finished
    person : Person
    mishaps : False leaves out the heeled and swamped boat, which costs most
    """
    try:
        assessed = assess_boat(hull.boat, person, weight=hull.weight)
        if assessed.upright.rim_freeboard_m <= 0.0:
            return SINKS
        facts = replace(facts_of(assessed), spread=spread_in(hull, person))
        if mishaps:
            facts = replace(facts, mishap=mishap_facts(assessed))
    except WillNotFloat:
        return SINKS
    except (NotSolved, BadInput):  # BadInput: a centre outside the hull
        return NOT_KNOWN
    return _verdict(checks_of(facts))


def verdicts(hull, persons, heeled):
    """The Verdict of each of many people.

    Parameters
    ----------
    hull : Finished
    persons : sequence of Person, for one use
    heeled : (n,) bool, whether to ask the heeled and swamped boat as well
    """
    found = []
    for first in range(0, len(persons), AT_ONCE):
        some = slice(first, first + AT_ONCE)
        found += _verdicts(hull, persons[some], heeled[some])
    return found


def _verdicts(hull, persons, heeled):
    many = assess_crowd(hull.boat, persons, hull.weight)
    facts, unknown = facts_of(many), np.zeros(len(persons), bool)
    facts = replace(facts, spread=spread_in(hull, many.person))
    if heeled.any():
        facts = replace(facts, mishap=mishaps_of_many(
            many, quick_rightings(many, None, heeled), told=True))
        unknown = heeled & ~facts.mishap.known
    every = checks_of_many(facts)
    found = []
    for index, person in enumerate(persons):
        if not many.floats[index] or unknown[index]:
            found.append(verdict(hull, person, mishaps=bool(heeled[index])))  # tells why
        elif many.upright.rim_freeboard_m[index] <= 0.0:
            found.append(SINKS)
        else:
            found.append(_verdict([check for check in every[index]
                                   if heeled[index] or not check.row.mishap]))
    return found


def _verdict(checks):
    off = {check.key: math.inf if check.margin is None
           else check.margin / (check.row.factor * check.row.scale) for check in checks}
    worst_first = sorted(checks, key=lambda check: off[check.key])
    tightest = next(check.key for check in worst_first if check.key in OF_THE_PADDLER)
    return Verdict(
        overall(checks),
        *(tuple(check.key for check in worst_first if check.status == status)
          for status in ("fail", "caution")),
        off[tightest], tightest,
        tuple((check.key, off[check.key] * check.row.factor * check.row.scale, check.unit)
              for check in checks))
