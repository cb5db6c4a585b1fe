"""One boat tried beside the fitted one: some dimensions moved, all else as it is, checked in full.

The other dimensions stay where the fit put them and are not fitted anew; the seat slides to level
trim as it does in a fit, unless it is held or is itself what moves.
"""

from dataclasses import dataclass, replace

import numpy as np

from sizer.errors import WillNotFloat
from sizer.fit.assess import Assessed, assess_many, refusal
from sizer.fit.bench_found import unfair_checks
from sizer.fit.check import CLEAN_ODDS, FAIL, STATUSES, Check, codes_of, read_rows
from sizer.fit.checks import PLAIN, ROWS, TOGETHER, checks_of
from sizer.fit.facts import facts_of
from sizer.fit.mishaps import mishaps_of_many, quick_righting, quick_rightings
from sizer.fit.odds import Sure, odds_all_hard, odds_together_of_many, together
from sizer.fit.sought import FACTORS
from sizer.hull.boat import SECTION_COUNT, scaled_boat
from sizer.hull.scale import Scaling
from sizer.rows import one_of

NOT_AFLOAT = "does not float with its rim clear"
UNKNOWN = "could not be worked out"
MOST_GEAR_KG = 60.0  # at the end of the gear's axis: a laden camping boat; our judgement


@dataclass(frozen=True)
class Dimension:
    """What can be moved."""

    key: str
    words: str
    unit: str  # "m", "kg" or "of the base"
    field: str  # of Scaling, "" for what is none of the boat's


DIMENSIONS = {one.key: one for one in (
    Dimension("length", "length", "m", "length"), Dimension("beam", "beam", "m", "beam"),
    Dimension("depth", "depth", "m", "depth"),
    Dimension("cockpit-length", "cockpit length", "m", "cockpit_length_m"),
    Dimension("cockpit-width", "cockpit width", "m", "cockpit_width_m"),
    Dimension("crown", "deck crown", "of the base", "crown"),
    Dimension("seat", "seat place", "m", "seat_shift_m"), Dimension("gear", "gear", "kg", ""))}
OPENING = {"cockpit-length": "length_m", "cockpit-width": "width_m"}  # where a Boat has it


@dataclass(frozen=True, eq=False)
class Tried:
    """One boat tried, and its checks; neither where `why_not` says why it has none."""

    assessed: Assessed | None
    checks: tuple[Check, ...]
    why_not: str = ""  # NOT_AFLOAT or UNKNOWN


def today_setting(assessed, key):
    """Where today's boat stands: a factor of the base, m of seat shift or opening, kg of gear."""
    if key == "gear":
        return assessed.person.gear_kg
    if key in OPENING:
        return getattr(assessed.boat.opening, OPENING[key])
    return getattr(assessed.boat.scaling, DIMENSIONS[key].field)


def ends_of(assessed, key):
    """Least and most setting: the base's limits; the gear's end is our own."""
    if key == "gear":
        return 0.0, max(MOST_GEAR_KG, assessed.person.gear_kg)
    if key == "seat":
        forward, aft = assessed.boat.design.cockpit.seat_slide_m
        return -forward, aft
    return getattr(assessed.boat.design.limits, DIMENSIONS[key].field)


def settings_of(assessed, key, count):
    """Evenly spaced settings from end to end."""
    return np.unique(np.linspace(*ends_of(assessed, key), count))


def unit_size(assessed, key):
    """What one of a setting is in the dimension's unit: the base's own size for a factor."""
    if key in FACTORS and key != "crown":
        return getattr(assessed.boat, f"{key}_m") / getattr(assessed.boat.scaling, key)
    return 1.0


def moved_boats(assessed, seat_held, moved):
    """The Assessed of many boats beside today's, whose checks are taken to be as sure.

    Parameters
    ----------
    assessed : Assessed, today's fitted boat
    seat_held : whether its seat is held, or else slides
    moved : {key of DIMENSIONS: (n,) settings}
    """
    own, person = assessed.boat.scaling, assessed.person
    if not seat_held:  # it slides from the base's own place
        own = replace(own, seat_shift_m=0.0)
    count = len(next(iter(moved.values())))
    every = {name: np.full(count, value) for name, value in vars(own).items() if value is not None}
    scaling = Scaling(**{**every, **{DIMENSIONS[key].field: value for key, value in moved.items()
                                     if DIMENSIONS[key].field}})
    start = tuple(np.full(count, value) for value in assessed.start)
    many = assess_many(scaled_boat(assessed.boat.lines, scaling, SECTION_COUNT),
                       replace(person, gear_kg=moved.get("gear", person.gear_kg)), start,
                       seat_held or "seat" in moved)
    return replace(many, spread=assessed.spread)


def why_not(many):
    """For each of many boats NOT_AFLOAT, UNKNOWN, or "" where it floats."""
    found = []
    for index, (floats, rim) in enumerate(zip(
            many.floats.tolist(), many.upright.rim_freeboard_m.tolist(), strict=True)):
        sinks = rim <= 0.0 if floats else isinstance(refusal(many.one(index)), WillNotFloat)
        found.append(NOT_AFLOAT if sinks else "" if floats else UNKNOWN)
    return found


def tried(assessed, seat_held, moved):
    """A tuple of Tried; parameters as `moved_boats`."""
    many = moved_boats(assessed, seat_held, moved)
    rigid = quick_rightings(many, [quick_righting(assessed)] * many.floats.size)
    mishap = mishaps_of_many(many, rigid, told=True)
    found = []
    for index, reason in enumerate(why_not(many)):
        if reason or not mishap.known[index]:
            found.append(Tried(None, (), reason or UNKNOWN))
            continue
        one = replace(many.one(index), sure=assessed.sure)
        checks = (*checks_of(replace(facts_of(one), mishap=one_of(mishap, index))),
                  *unfair_checks(one.boat, quick=True))
        odds = odds_all_hard(checks, one.sure)
        found.append(Tried(one, (*checks, *together(checks, odds))))
    return tuple(found)


def verdicts(assessed, seat_held, moved, near):
    """The worst status of each boat and the names of the checks that have it: a list of pairs.

    Parameters as `moved_boats`, and today's `quick_righting`. A boat that fails upright is not
    heeled as well: nothing that heeling shows is a fail.
    """
    many = moved_boats(assessed, seat_held, moved)
    facts = facts_of(many)
    sound = (_codes(PLAIN, facts) < FAIL).all(axis=0)
    rigid = quick_rightings(many, [near] * sound.size, sound)
    facts = replace(facts, mishap=mishaps_of_many(many, rigid, told=True))
    values, windows = read_rows(ROWS, facts)
    codes, unknown = codes_of(values, windows), sound & ~facts.mishap.known
    unknown |= np.isnan(facts.mishap.flooded_spare_m)
    found, unsure = [], _unsure_together(values, windows, codes, assessed)
    for index, (reason, odd, column) in enumerate(zip(
            why_not(many), unknown.tolist(), codes.T, strict=True)):
        if reason or odd:
            reason = reason or UNKNOWN
            found.append(("unknown" if reason == UNKNOWN else "fail", (reason,)))
            continue
        named = [(row.title, code) for row, code in zip(ROWS, column.tolist(), strict=True)]
        if max(column) < FAIL:
            named += _unfair(many.boat_of(index))
        if unsure[index]:
            named.append((TOGETHER.title, 1))
        worst = max(code for _, code in named)
        found.append((STATUSES[worst],
                      tuple(name for name, code in named if code == worst > 0)))
    return found


def _unfair(boat):
    """Title and index into STATUSES of the check of a boat's sticks, where it is not passed."""
    return [(check.name, STATUSES.index(check.status))
            for check in unfair_checks(boat, quick=True)]


def _unsure_together(values, windows, codes, assessed):
    """(n,) bool: boats, as sure as today's, that meet each limit but all together too seldom."""
    unsure = (codes < FAIL).all(axis=0)
    count = np.count_nonzero(unsure)
    sure = Sure(*(np.broadcast_to(one, (count, *one.shape))
                  for one in (assessed.sure.slopes, assessed.sure.covariance)))
    sd = np.array([[assessed.spread.get(row.key, 0.0)] * count for row in ROWS])
    unsure[unsure] = odds_together_of_many(
        values[:, unsure], windows[..., unsure], sd, sure) < CLEAN_ODDS
    return unsure


def _codes(rows, facts):
    """Index into STATUSES of some rows: (n_rows, n); 0 where there is nothing to measure."""
    return codes_of(*read_rows(rows, facts))
