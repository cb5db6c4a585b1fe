"""One finished boat and one paddler by the exact engine: only seat, footbrace and padding move."""

import math
from dataclasses import dataclass, replace

import numpy as np

from sizer.crowd.how_sure import ByWeight, each_by_weight, sure_in
from sizer.crowd.served import OF_THE_PADDLER, judged
from sizer.errors import BadInput, NotSolved, WillNotFloat
from sizer.fit.assess import assess_boat, assess_crowd, assess_many
from sizer.fit.check import CLEAN_ODDS, STATUSES
from sizer.fit.checks import BY_KEY, ROWS, TOGETHER
from sizer.fit.facts import facts_of
from sizer.fit.mishaps import mishap_facts, mishaps_of_many, quick_rightings
from sizer.fit.odds import Sure, odds_together_of_many
from sizer.fit.person import person_on
from sizer.fit.request import Request
from sizer.fit.sizes import SIZES
from sizer.fit.tried import NOT_AFLOAT, UNKNOWN
from sizer.hull.boat import SECTION_COUNT, Boat, scaled_boat
from sizer.hull.lines import Lines
from sizer.hull.scale import Scaling
from sizer.hull.weight import OwnWeight, own_weight
from sizer.rows import many_of, one_of, side_by_side, stacked
from sizer.units import MM_PER_M

AT_ONCE, MANY_AT_ONCE = 64, 400  # people in one boat, worked out side by side: heeled or not
ANY, SERVING, CLEAN = range(3)  # what a verdict must be to be of use
WITHOUT_CHECKS = {"afloat": NOT_AFLOAT, "unknown": UNKNOWN}  # verdicts that no row gives


@dataclass(frozen=True, eq=False)
class Finished:
    """A boat that is built: its shape and opening stay as they are."""

    lines: Lines
    scaling: Scaling  # its seat where the map puts it
    boat: Boat
    weight: OwnWeight
    by_weight: ByWeight | None = None  # where it was worked out with others'


@dataclass(frozen=True)
class Verdict:
    """What the checks say of one paddler in one finished boat; keys as in `sizer.fit.checks`."""

    status: str  # pass, caution or fail; "unknown" where it could not be worked out
    fails: tuple[str, ...]  # keys, the farthest off its limit first; or one of WITHOUT_CHECKS
    cautions: tuple[str, ...]  # keys, the farthest off first
    spare: float  # least margin of the paddler's checks, in just-noticeable changes
    tightest: str  # key of that margin's check
    margins: tuple[tuple[str, float, str], ...]  # every check by itself: key, margin, its unit

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
    return [title_of(key) for key in keys]


def finished(lines, scaling):
    """The Finished boat of a scaling; a seat shift is undone, since the seat slides."""
    return finished_of_many(lines, (scaling,))[0]


def finished_of_many(lines, scalings):
    """A tuple of Finished, as `finished`, of many scalings."""
    level = [replace(one, seat_shift_m=0.0) for one in scalings]
    boats = scaled_boat(lines, side_by_side(level), SECTION_COUNT)
    both = boats, own_weight(boats)
    return tuple(Finished(lines, one, *one_of(both, index)) for index, one in enumerate(level))


def all_sure(hulls, persons):
    """Some Finished of one base with the slopes of their checks on the trip of these Persons."""
    return tuple(replace(hull, by_weight=one) for hull, one in zip(
        hulls, each_by_weight(hulls, persons), strict=True))


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
    return tuple(person_on(trip, one) for one in measured)


def verdict(hull, person, mishaps=True):
    """The Verdict of the exact checks on a Person in a Finished boat, the seat free to slide;
    without `mishaps`, the heeled and swamped boat is left out, which costs most."""
    try:
        assessed = assess_boat(hull.boat, person, weight=hull.weight)
        if assessed.upright.rim_freeboard_m <= 0.0:
            return SINKS
        sure = sure_in(hull, person)
        facts = replace(facts_of(assessed), spread=sure.spread)
        if mishaps:
            facts = replace(facts, mishap=mishap_facts(assessed))
    except WillNotFloat:
        return SINKS
    except (NotSolved, BadInput):  # BadInput: a centre outside the hull
        return NOT_KNOWN
    return _told(facts, many_of(sure))[0]


def verdicts(hull, person, heeled, least):
    """The Verdict of each of many people in one boat.

    Parameters
    ----------
    hull : Finished
    person : Person of n people, for one use
    heeled : (n,) bool, whether to ask the heeled and swamped boat as well
    least : (n,) of ANY, SERVING, CLEAN: that is left out where the rest already makes the verdict
        less than this

    Returns
    -------
    list of Verdict, and (n,) bool: which leave nothing out that was asked
    """
    def in_lots(people, size, work):
        lots = [people[first:first + size] for first in range(0, people.size, size)]
        each = ((one_of(person, some), some.size) for some in lots)
        return [one for own, count in each for one in work(_sure(
            assess_crowd(hull.boat, own, count, hull.weight), _sure_of_each(hull, own, count)))]

    found = in_lots(np.arange(heeled.size), MANY_AT_ONCE, _plain)
    useful = _of_use(found, least)
    whole = ~heeled | useful | [one is None or one is SINKS for one in found]
    asked = np.flatnonzero(heeled & useful)
    _put(found, asked, in_lots(asked, AT_ONCE, _whole))
    return [verdict(hull, one_of(person, index), bool(heeled[index])) if one is None else one
            for index, one in enumerate(found)], whole


def own_verdicts(hulls, persons):
    """The Verdict of each of some boats for its own Person; all asked of those that serve."""
    many = assess_many(side_by_side([hull.boat for hull in hulls]), stacked(persons),
                       weight=side_by_side([hull.weight for hull in hulls]))
    many = _sure(many, side_by_side([sure_in(*pair) for pair in zip(hulls, persons, strict=True)]))
    found = _plain(many)
    asked = np.flatnonzero(_of_use(found, SERVING))
    _put(found, asked, _whole(many.one(asked)) if asked.size else ())
    return [verdict(*pair) if one is None else one for one, *pair in zip(
        found, hulls, persons, strict=True)]


def _sure_of_each(hull, person, count):
    """The `sure_in` of each of `count` people, who may all be of one weight."""
    sure = sure_in(hull, person)
    return Sure(*(np.broadcast_to(one, (count, *one.shape[-2:]))
                  for one in (sure.slopes, sure.covariance)))


def _sure(many, sure):
    """An Assessed of many with how sure its checks are, the Sure of each."""
    return replace(many, sure=sure, spread=sure.spread)


def _plain(many):
    """A list of the Verdict of each of an Assessed of many without the heeled and swamped boat;
    None where `verdict` has to say why there is none."""
    rims = many.upright.rim_freeboard_m.tolist()
    return [(told if rim > 0.0 else SINKS) if floats else None for told, rim, floats in zip(
        _told(facts_of(many), many.sure), rims, many.floats.tolist(), strict=True)]


def _whole(many):
    """As `_plain`, with it."""
    mishap = mishaps_of_many(many, quick_rightings(many), told=True)
    return [told if known else None for told, known in zip(
        _told(replace(facts_of(many), mishap=mishap), many.sure), mishap.known, strict=True)]


def _of_use(found, least):
    """(n,) bool: which Verdicts are there, afloat, and still as good as they have to be."""
    return np.array([one is not None and one is not SINKS and one.serves + one.clean >= limit
                     for one, limit in zip(found, np.broadcast_to(least, len(found)), strict=True)])


def _put(found, places, better):
    for place, one in zip(places.tolist(), better, strict=True):
        found[place] = one


def _told(facts, sure):
    """A list of the Verdict of each of those whom Facts are about, of the rows worked out and of
    all of these together."""
    found = judged(facts)
    rows = (*ROWS[:len(found.to_fail)], TOGETHER)
    short = _short_together(found, sure)
    off = np.vstack([found.off, short])
    status = np.where(found.to_fail < 0.0, 2, np.where(found.to_caution < 0.0, 1, 0))
    status, there = (np.vstack(pair) for pair in ((status, short < 0.0),
                                                  (found.there, short < 0.0)))
    order = np.argsort(off, axis=0, kind="stable")
    margins = off[:-1] * np.array([[row.factor] for row in rows[:-1]]) * np.array(
        [[row.scale] for row in rows[:-1]])
    named = [(row.key, row.unit, row.key in OF_THE_PADDLER) for row in rows]
    return [_verdict(named, *each) for each in zip(
        *(one.T.tolist() for one in (off, status, there, order, margins)), strict=True)]


def _short_together(found, sure):
    """How far all limits together are off a clean pass (n,), in just-noticeable changes; positive
    where they are not, or where one fails by itself."""
    serves = np.flatnonzero((found.to_fail >= 0.0).all(axis=0))
    short = np.full(found.to_fail.shape[1], np.inf)
    odds = odds_together_of_many(found.value[:, serves], found.window[..., serves],
                                 found.sd[:, serves], one_of(sure, serves))
    short[serves] = 100.0 * (odds - CLEAN_ODDS) / TOGETHER.scale
    return short


def _verdict(named, off, status, there, order, margins):
    """The Verdict of one, from a list for each of the rows, (key, unit, whether the paddler's), and
    their order, the worst first."""
    order = [index for index in order if there[index]]
    tightest = next(index for index in order if named[index][2])
    return Verdict(
        STATUSES[max(status)],
        *(tuple(named[index][0] for index in order if status[index] == code) for code in (2, 1)),
        off[tightest], named[tightest][0],
        tuple((key, value, unit) for (key, unit, _), value, known in zip(
            named, margins, there, strict=False) if known))
