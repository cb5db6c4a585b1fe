"""The search for the boat nearest to what is sought that passes, in the logarithms of its factors.

Least squares of how far each sought quantity is off, in just-noticeable changes, and of changed
proportions. The windows of the checks are walls, steep where a check would fail, less where it
would caution, and straight beyond, so that what nobody can meet does not pull the boat out of
shape. What the heeled and swamped boat says joins as soon as the best boat without it is near one
of its limits.
"""

from dataclasses import dataclass, replace

import numpy as np
from scipy.optimize import lsq_linear

from sizer.errors import BadInput, NotSolved, WillNotFloat
from sizer.fit.assess import assess
from sizer.fit.checks import ROWS, values_of, windows_of
from sizer.fit.facts import facts_of
from sizer.fit.mishaps import mishap_facts, quick_righting
from sizer.fit.sought import (
    FACTORS,
    PROPORTION_SCALE,
    PROPORTIONS,
    SEARCH_COUNT,
    offs,
    wanted_of,
)

HARD_WEIGHT = 60.0  # per just-noticeable shortfall of a hard limit
SOFT_WEIGHT = 25.0  # of a caution
# Of a just-noticeable change: aimed so far inside each limit. A wall is steeper the farther a boat
# is short of this, up to the limit itself; from there it pulls no harder, so a limit is met, or
# given up where meeting it would cost too much of what is sought.
BUFFER = 0.1
NEAR_MISHAP = 0.3  # just-noticeable changes to a mishap's limit within which it joins the search
MOST_ROUNDS = 14
MOST_SETS = 30  # sets of short checks tried in one round
FIRST_REACH = np.array([0.10, 0.10, 0.10, 0.40])  # most a factor changes in one round
LEAST_REACH = 1e-4  # changes below this are none
LEAST_GAIN = 1e-4  # of the merit
LOG_STEP = 2e-3  # of each factor, for slopes
PLAIN_COUNT = sum(not row.mishap for row in ROWS)  # they come first in the table
SCALE = np.array([row.scale for row in ROWS])
BOUNDED = np.array([row.key.startswith("factor-") for row in ROWS])  # the bounds see to these
CANNOT = (WillNotFloat, NotSolved, BadInput)  # BadInput: a centre outside the hull


@dataclass(frozen=True, eq=False)
class Terms:
    """What the merit is made of at one boat."""

    off: np.ndarray  # (n_aims + n_proportions,) in just-noticeable changes
    soft: np.ndarray  # (n_rows,) short of a clean pass, in just-noticeable changes; negative: met
    hard: np.ndarray  # (n_rows,) short of a limit
    mishaps: bool  # whether those of the mishaps are in


@dataclass(frozen=True, eq=False)
class Problem:
    """One fit: whose, in which base, what is held."""

    lines: object  # Lines
    person: object  # Person
    wanted: np.ndarray  # as `sought.wanted_of`
    window: np.ndarray  # (4, n_rows) of every check
    scaling: object  # Scaling: legs, opening and seat shift; the factors are replaced
    seat_held: bool
    low: np.ndarray  # (4,) logarithms
    high: np.ndarray
    first: np.ndarray

    def scaling_at(self, logs):
        """The Scaling with these four factors, given as logarithms."""
        return replace(self.scaling, **dict(zip(FACTORS, np.exp(logs).tolist(), strict=True)))

    def assessed(self, logs, start=None, count=SEARCH_COUNT):
        """The boat with these factors."""
        return assess(self.lines, self.scaling_at(logs), self.person, count, start,
                      self.seat_held)


def problem_of(lines, person, says, wishes, scaling, held, seat_held):
    """The Problem of one fit.

    Parameters
    ----------
    lines, person : Lines, Person
    says : BaseSays
    wishes : Wishes
    scaling : Scaling with legs, opening and seat shift
    held : {factor's name: value} of what the search may not move
    seat_held : bool
    """
    limits = lines.design.limits
    bounds = np.log([getattr(limits, name) for name in FACTORS])
    free = np.array([name not in held for name in FACTORS])
    fixed = np.log([held.get(name, 1.0) for name in FACTORS])
    low, high = np.where(free, bounds[:, 0], fixed), np.where(free, bounds[:, 1], fixed)
    load = person.body.weight_kg + min(person.gear_kg, lines.design.drawn_for.gear_kg)
    drawn = lines.design.drawn_for.weight_kg + lines.design.drawn_for.gear_kg
    guess = np.array([1.0, 1.0, 1.0, 0.0]) * np.log(load / drawn) / 3.0
    draft = Problem(lines, person, np.zeros(0), np.zeros(0), scaling, seat_held, low, high,
                    np.clip(np.where(free, guess, fixed), low, high))
    here = draft.first
    try:
        facts = facts_of(draft.assessed(here))
    except CANNOT:
        here = high
        facts = facts_of(draft.assessed(here))
    return replace(draft, wanted=wanted_of(says, person, wishes, facts), first=here,
                   window=windows_of(ROWS, facts))


def best(problem):
    """Logarithms (4,) of the four factors of the answer, and whether the mishaps joined.

    Raises
    ------
    WillNotFloat, NotSolved, BadInput, where not even the first boat can be worked out.
    """
    here, _ = _settled(problem, problem.first, None)
    near = quick_righting(problem.assessed(here))
    terms = _terms(problem, here, None, near)
    if terms is None or (terms.soft[PLAIN_COUNT:] < -NEAR_MISHAP).all():
        return here, False
    return _settled(problem, here, near)[0], True


def _settled(problem, here, near):
    """Rounds of linearised problems until nothing gains; `near` brings the mishaps in.

    Each round linearises the terms, takes the best boat of that model within reach, and keeps it if
    the real one is better; if not, it reaches less far.
    """
    start = problem.assessed(here).start
    terms = _terms(problem, here, start, near)
    reach = FIRST_REACH
    for _ in range(MOST_ROUNDS):
        slopes = _slopes(problem, here, terms, start, near)
        while True:
            aim = _best_of_model(here, terms, slopes, np.maximum(problem.low, here - reach),
                                 np.minimum(problem.high, here + reach))
            if np.abs(aim - here).max() < LEAST_REACH:
                return here, terms
            there = _terms(problem, aim, start, near)
            if there is not None and merit(there) < merit(terms):
                break
            reach = 0.3 * reach * np.abs((aim - here) / reach).max()
            if reach.max() < LEAST_REACH:
                return here, terms
        gain = merit(terms) - merit(there)
        here, terms = aim, there
        if gain < LEAST_GAIN * (1.0 + merit(terms)):
            break
    return here, terms


def _terms(problem, logs, start, near):
    """The Terms of the boat with these factors; None where it cannot be worked out."""
    try:
        one = problem.assessed(logs, start)
        facts = facts_of(one)
        if near is not None:
            facts = replace(facts, mishap=mishap_facts(one, near))
    except CANNOT:
        return None
    return terms_of(problem, logs, one, facts)


def terms_of(problem, logs, one, facts):
    """The Terms of an assessed boat."""
    count = len(ROWS) if facts.mishap is not None else PLAIN_COUNT
    value = values_of(ROWS[:count], facts)
    low, from_, to, high = problem.window[:, :count]
    with np.errstate(invalid="ignore"):
        soft = np.maximum(np.maximum(low, from_) - value, value - np.minimum(to, high))
        hard = np.maximum(low - value, value - high)
    absent = np.isnan(value) | BOUNDED[:count]
    return Terms(
        np.concatenate([offs(one, problem.wanted), PROPORTIONS @ logs / PROPORTION_SCALE]),
        np.where(absent, -np.inf, soft / SCALE[:count]),
        np.where(absent, -np.inf, hard / SCALE[:count]),
        facts.mishap is not None)


def _slopes(problem, here, terms, start, near):
    """Slopes of the Terms' three arrays, one-sided, backward at an upper limit; held ones 0."""
    slopes = [np.zeros((values.size, len(FACTORS)))
              for values in (terms.off, terms.soft, terms.hard)]
    for index in np.flatnonzero(problem.high - problem.low > 1e-12):
        ahead = LOG_STEP if here[index] + LOG_STEP <= problem.high[index] else -LOG_STEP
        for step in (ahead, -ahead):
            moved = here.copy()
            moved[index] += step
            there = _terms(problem, moved, start, near)
            if there is not None:
                break
        else:
            continue
        for slope, before, after in zip(slopes, (terms.off, terms.soft, terms.hard),
                                        (there.off, there.soft, there.hard), strict=True):
            known = np.isfinite(before) & np.isfinite(after)
            slope[known, index] = (after[known] - before[known]) / step
    return slopes


def merit(terms):
    """What the search makes small."""
    return float(np.sum(terms.off**2) + sum(wall(terms.soft, SOFT_WEIGHT))
                 + sum(wall(terms.hard, HARD_WEIGHT)))


def wall(short, weight):
    """What shortfalls (n,) cost: squared within BUFFER of the limit, straight beyond."""
    into = np.maximum(short + BUFFER, 0.0)
    return weight**2 * np.where(into <= BUFFER, into**2, BUFFER * (2.0 * into - BUFFER))


def _best_of_model(here, terms, slopes, low, high):
    """Least merit where the terms are linear, between bounds: one bounded least squares for each
    set of checks that are short, until the set stays."""
    fixed = high - low < 1e-12
    low, high = low - 1e-12 * fixed, high + 1e-12 * fixed

    def model(at):
        moved = [values + slope @ (at - here) for values, slope in zip(
            (terms.off, terms.soft, terms.hard), slopes, strict=True)]
        return Terms(*moved, terms.mishaps)

    at, chosen, least = here, here, np.inf
    for _ in range(MOST_SETS):
        now = model(at)
        rows, aims = [slopes[0]], [now.off]
        for values, slope, weight in ((now.soft, slopes[1], SOFT_WEIGHT),
                                      (now.hard, slopes[2], HARD_WEIGHT)):
            into = values + BUFFER
            short = into > 0.0
            each = weight * np.sqrt(np.minimum(1.0, BUFFER / into[short]))  # as straight beyond it
            rows.append(each[:, None] * slope[short])
            aims.append(each * into[short])
        rows, aims = np.vstack(rows), np.concatenate(aims)
        after = lsq_linear(rows, rows @ at - aims, (low, high), method="bvls").x
        value = merit(model(after))
        if value >= least - 1e-9:
            after = 0.5 * (at + after)
            value = merit(model(after))
        if value < least:
            chosen, least = after, value
        if np.abs(after - at).max() < 1e-7:
            break
        at = after
    return chosen
