"""The search for the boat nearest to what is sought that passes, in the logarithms of its factors.

Least squares of how far each sought quantity is off, in just-noticeable changes, and of changed
proportions. The windows of the checks are walls, steep where a check would fail, less where it
would caution, and straight beyond, so that what nobody can meet does not pull the boat out of
shape. What the heeled and swamped boat says joins as soon as the best boat without it is near one
of its limits. The walls of a clean pass stand as far inside the limits as the checks' spread asks,
which is told anew of the boats that are found, and farther where all together would be met too
seldom. Many people are searched for side by side, each as if alone.
"""

from dataclasses import dataclass, fields, replace
from functools import cached_property

import numpy as np
from scipy.special import ndtri

from sizer.fit.assess import Assessed, assess_many
from sizer.fit.box import HELD, least_in_box
from sizer.fit.check import CLEAN_ODDS, clean_window, values_of, windows_of
from sizer.fit.checks import PLAIN, ROWS
from sizer.fit.facts import Facts, facts_of
from sizer.fit.mishaps import mishaps_of_many, quick_rightings
from sizer.fit.odds import Sure, base_slopes, odds_together_of_many, sure_of
from sizer.fit.sought import (
    FACTORS,
    PROPORTION_SCALE,
    PROPORTIONS,
    SEARCH_COUNT,
    offs,
    wanted_of,
)
from sizer.hull.boat import SECTION_COUNT, scaled_boat
from sizer.hydro.stability import RightingCurve
from sizer.paddler.spread import input_covariance
from sizer.rows import one_of

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
AS_SURE = 0.005  # in a factor's logarithm: nearer than that, boats are as sure as each other
# Of all checks together: over CLEAN_ODDS, since what a boat is made surer of costs it a little of
# the rest; and the most that each by itself is asked for it. Tried on 600 people: our judgement.
SOUGHT_ODDS, MOST_ODDS = 0.86, 0.93
WALL_INSIDE = 1e-3  # just-noticeable changes: a boat that leans on a wall of a clean pass passes
PLAIN_COUNT = len(PLAIN)
SCALE = np.array([row.scale for row in ROWS])
TOLD = np.array([not row.sought for row in ROWS])  # no wall of the search, whatever they read
UNWALLED = TOLD | [row.key.startswith("factor-") for row in ROWS]  # the bounds see to factors


@dataclass(frozen=True, eq=False)
class Terms:
    """What the merit is made of at one boat for each of n people."""

    off: np.ndarray  # (n, n_aims + n_proportions) in just-noticeable changes
    soft: np.ndarray  # (n, n_rows) short of a clean pass, in just-noticeable changes; negative: met
    hard: np.ndarray  # (n, n_rows) short of a limit
    known: np.ndarray  # (n,) bool; where it could not be worked out, the rest means nothing
    level_m: np.ndarray  # (n,) as they float, to start a neighbour from
    trim_deg: np.ndarray

    @property
    def parts(self):
        """What the merit is summed from."""
        return self.off, self.soft, self.hard

    @property
    def start(self):
        """(level, trim) of the boats."""
        return self.level_m, self.trim_deg


@dataclass(frozen=True, eq=False)
class Problem:
    """Fits of one base to n people: whose, what is held."""

    lines: object  # Lines
    person: object  # Person of n people, or one for all
    says: object  # BaseSays
    wishes: object  # Wishes
    limits: np.ndarray  # (4, n, n_rows) of every check, were nothing to stray
    sd: np.ndarray  # (n, n_rows) the checks' spread, as far as it is known
    surer: np.ndarray  # (n,) times as far inside its limits as a check by itself has to be
    scaling: object  # Scaling: legs, opening and seat shift, (n,); the factors are replaced
    seat_held: bool
    low: np.ndarray  # (n, 4) logarithms
    high: np.ndarray
    first: np.ndarray

    @cached_property
    def window(self):
        """(4, n, n_rows) of every check."""
        low, from_, to, high = clean_window(*self.limits, self.sd * self.surer[:, None])
        return np.stack([low, from_ + WALL_INSIDE * SCALE, to - WALL_INSIDE * SCALE, high])

    @cached_property
    def wanted(self):
        """(n, n_aims) as `sought.wanted_of`."""
        return wanted_of(self.says, self.person, self.wishes, self.window)

    def of(self, people):
        """The Problem of some of the people; `people` indexes arrays and may name one twice."""
        if people.size == 1 == len(self.first):
            return self
        return replace(
            self, person=one_of(self.person, people), limits=self.limits[:, people],
            sd=self.sd[people], surer=self.surer[people], scaling=one_of(self.scaling, people),
            low=self.low[people], high=self.high[people], first=self.first[people])

    def assessed(self, logs, start=None, count=SEARCH_COUNT):
        """The Assessed of the boats with these factors, (n, 4) logarithms."""
        scaling = replace(self.scaling, **dict(zip(FACTORS, np.exp(logs).T, strict=True)))
        return assess_many(scaled_boat(self.lines, scaling, count), self.person, start,
                           self.seat_held)


def problem_of(lines, person, says, wishes, scaling, held, seat_held):
    """The Problem of some fits, and the Terms of its first boats.

    Parameters
    ----------
    lines, person : Lines, Person of n people
    says : BaseSays
    wishes : Wishes
    scaling : Scaling with legs, opening and seat shift, each (n,)
    held : {factor's name: value} of what the search may not move
    seat_held : bool
    """
    limits = lines.design.limits
    bounds = np.log([getattr(limits, name) for name in FACTORS])
    free = np.array([name not in held for name in FACTORS])
    fixed = np.log([held.get(name, 1.0) for name in FACTORS])
    low, high = (np.tile(np.where(free, bound, fixed), (scaling.legs.size, 1))
                 for bound in bounds.T)
    load = person.body.weight_kg + np.minimum(person.gear_kg, lines.design.drawn_for.gear_kg)
    drawn = lines.design.drawn_for.weight_kg + lines.design.drawn_for.gear_kg
    guess = np.log(load / drawn)[..., None] / 3.0 * np.array([1.0, 1.0, 1.0, 0.0])
    first = np.clip(np.where(free, guess, fixed), low, high)
    draft = Problem(lines, person, says, wishes, np.zeros((4, len(low), 0)),
                    _first_sd(lines, person, len(low)), np.ones(len(low)), scaling, seat_held,
                    low, high, first)
    found = draft.assessed(first)
    if not found.floats.all():
        first = np.where(found.floats[:, None], first, high)
        found = draft.assessed(first)
    facts = facts_of(found)
    window = windows_of(ROWS, facts)
    if window.ndim == 2:  # the same for everybody
        window = window[..., None]
    window = np.broadcast_to(np.moveaxis(window, -1, 1), (4, len(low), len(ROWS)))
    problem = replace(draft, first=first, limits=window)
    return problem, _terms_of(problem, first, found, facts)


def _first_sd(lines, person, count):
    """The checks' spread (count, n_rows) in the base as drawn, as this person is known."""
    slopes = base_slopes(lines)
    sd = np.zeros((count, len(ROWS)))
    sd[:, :len(slopes)] = Sure(slopes, input_covariance(person.body, person.own_spread)).sd
    return sd


@dataclass(frozen=True, eq=False)
class Answer:
    """One person's boat, worked out with SECTION_COUNT."""

    assessed: Assessed
    facts: Facts  # without words; NaN in its mishap where that could not be worked out
    rigid: RightingCurve | None
    sure: Sure


def best(problem, terms):
    """The Problem as sure as it became, logarithms (n, 4) of the factors of each answer, and the
    tuple of Answers.

    Where even a first boat does not float, the answer is that first boat.
    """
    logs = _settled(problem, problem.first, terms, None)
    many = problem.assessed(logs)
    sure = sure_of(many)
    problem = knowing(problem, sure)
    problem = replace(problem, surer=_surer(problem, many, sure))
    terms, told = _terms_of(problem, logs, many, facts_of(many)), logs.copy()
    logs = _settled(problem, logs, terms, None)
    many, rigid, facts = _in_full(problem, logs)
    terms = _terms_of(problem, logs, many, facts)
    joins = np.flatnonzero(terms.known & (terms.soft[:, PLAIN_COUNT:] >= -NEAR_MISHAP).any(axis=1))
    if joins.size:
        some, near = problem.of(joins), [rigid[one] for one in joins]
        terms = terms_at(some, logs[joins], None, near)
        logs[joins] = _settled(some, logs[joins], terms, near)
    moved = np.flatnonzero(np.abs(logs - told).max(axis=1) > AS_SURE)
    if moved.size:
        slopes = sure.slopes.copy()
        slopes[moved] = sure_of(problem.of(moved).assessed(logs[moved])).slopes
        sure = Sure(slopes, sure.covariance)
    found = _answers(many, rigid, facts, sure)
    if joins.size:
        again = _in_full(some, logs[joins], near)
        for index, answer in zip(joins.tolist(), _answers(*again, one_of(sure, joins)),
                                 strict=True):
            found[index] = answer
    return problem, logs, tuple(found)


def _surer(problem, many, sure):
    """How many times as far inside their limits (n,) the checks have to be for all together to be
    met: as much as the boats miss too often together, each check is to miss less often."""
    sd = problem.sd[:, :PLAIN_COUNT].T
    value = np.where(TOLD[:PLAIN_COUNT, None], np.nan, values_of(PLAIN, facts_of(many)))
    missed = 1.0 - odds_together_of_many(
        value, np.moveaxis(problem.limits[..., :PLAIN_COUNT], 1, -1), sd, sure)
    less = (1.0 - SOUGHT_ODDS) / np.maximum(missed, 1.0 - SOUGHT_ODDS)
    return ndtri(np.minimum(1.0 - (1.0 - CLEAN_ODDS) * less, MOST_ODDS)) / ndtri(CLEAN_ODDS)


def knowing(problem, sure):
    """The Problem where the plain checks are as sure as that."""
    sd = problem.sd.copy()
    sd[:, :PLAIN_COUNT] = sure.sd[:, :PLAIN_COUNT]
    return replace(problem, sd=sd)


def answers_at(problem, logs, near=None):
    """The Answers with these factors, a list; `near` are RightingCurves to start from."""
    many, rigid, facts = _in_full(problem, logs, near)
    return _answers(many, rigid, facts, sure_of(many))


def _in_full(problem, logs, near=None):
    many = problem.assessed(logs, None, SECTION_COUNT)
    rigid = quick_rightings(many, near)
    return many, rigid, replace(facts_of(many), mishap=mishaps_of_many(many, rigid))


def _answers(many, rigid, facts, sure):
    # person: of one, whoever asked knows more than numbers
    many = replace(many, person=None, spread=sure.spread)
    return [Answer(many.one(index), one_of(facts, index), curve, one_of(sure, index))
            for index, curve in enumerate(rigid)]


def _settled(problem, first, terms, near):
    """Rounds of linearised problems until nothing gains: (n, 4) logarithms.

    Each round linearises the terms, takes the best boat of that model within reach, and keeps it if
    the real one is better; if not, it reaches less far. `terms` are those of the first boats, and
    are changed; `near`, a RightingCurve each, brings the mishaps in.
    """
    here = first.copy()
    reach = np.tile(FIRST_REACH, (len(here), 1))
    free = (problem.high - problem.low > HELD).any(axis=1)  # all may be held
    going = np.flatnonzero(terms.known & free)
    for _ in range(MOST_ROUNDS):
        if not going.size:
            break
        going = _round(problem, here, terms, reach, going, near)
    return here


def _round(problem, here, terms, reach, going, near):
    """One round for some of the people, in place. Returns those who gained enough to go on."""
    slopes = _slopes(problem.of(going), here[going], one_of(terms, going), _some(near, going))
    gained, pending = [], np.arange(going.size)  # positions among those going
    while pending.size:
        people = going[pending]
        low = np.maximum(problem.low[people], here[people] - reach[people])
        high = np.minimum(problem.high[people], here[people] + reach[people])
        aim = _best_of_model(here[people], one_of(terms.parts, people),
                             tuple(slope[pending] for slope in slopes), low, high)
        moves = np.abs(aim - here[people]).max(axis=1) >= LEAST_REACH
        pending, people, aim = pending[moves], people[moves], aim[moves]
        if not people.size:
            break
        start = one_of(terms.start, people)
        there = terms_at(problem.of(people), aim, start, _some(near, people))
        before, after = merit(*one_of(terms.parts, people)), merit(*there.parts)
        better = there.known & (after < before)
        kept = people[better]
        enough = before - after >= LEAST_GAIN * (1.0 + after)
        gained.append(people[better & enough])
        share = np.abs((aim - here[people]) / reach[people]).max(axis=1, keepdims=True)
        reach[people] = np.where(better[:, None], reach[people], 0.3 * share * reach[people])
        here[kept] = aim[better]
        for field in fields(Terms):
            getattr(terms, field.name)[kept] = getattr(there, field.name)[better]
        pending = pending[~better & (reach[people].max(axis=1) >= LEAST_REACH)]
    return np.sort(np.concatenate(gained)) if gained else going[:0]


def _some(near, people):
    return near and [near[one] for one in people]


def terms_at(problem, logs, start=None, near=None):
    """The Terms of the boats with these factors."""
    found = problem.assessed(logs, start)
    facts = facts_of(found)
    if near is not None:
        rigid = quick_rightings(found, near)
        facts = replace(facts, mishap=mishaps_of_many(found, rigid, smaller_too=False))
    return _terms_of(problem, logs, found, facts)


def _terms_of(problem, logs, found, facts):
    """The Terms of assessed boats."""
    count = len(ROWS) if facts.mishap is not None else PLAIN_COUNT
    value = np.broadcast_to(values_of(ROWS[:count], facts).T, (len(logs), count))
    low, from_, to, high = problem.window[..., :count]
    with np.errstate(invalid="ignore"):
        soft = np.maximum(np.maximum(low, from_) - value, value - np.minimum(to, high))
        hard = np.maximum(low - value, value - high)
    absent = np.isnan(value) | UNWALLED[:count]
    known = found.floats
    if facts.mishap is not None:
        known = known & facts.mishap.known
    return Terms(
        np.concatenate([offs(found, problem.wanted), logs @ PROPORTIONS.T / PROPORTION_SCALE],
                       axis=1),
        np.where(absent, -np.inf, soft / SCALE[:count]),
        np.where(absent, -np.inf, hard / SCALE[:count]), known, *found.start)


def _slopes(problem, here, terms, near):
    """Slopes of the Terms' three arrays, (n, ..., 4): one-sided, backward at an upper limit or
    where no boat ahead can be worked out; of held factors 0."""
    count = len(FACTORS)
    slopes = tuple(np.zeros((*values.shape, count)) for values in terms.parts)
    people, index = np.nonzero(problem.high - problem.low > HELD)
    ahead = here[people, index] + LOG_STEP <= problem.high[people, index]
    step = np.where(ahead, LOG_STEP, -LOG_STEP)
    for _ in range(2):
        moved = here[people]
        moved[np.arange(people.size), index] += step
        start = one_of(terms.start, people)
        there = terms_at(problem.of(people), moved, start, _some(near, people))
        for slope, before, after in zip(slopes, terms.parts, there.parts, strict=True):
            known = np.isfinite(before[people]) & np.isfinite(after) & there.known[:, None]
            rise = np.zeros_like(after)
            np.subtract(after, before[people], out=rise, where=known)
            slope[people, :, index] = rise / step[:, None]
        left = ~there.known
        if not left.any():
            break
        people, index, step = people[left], index[left], -step[left]
    return slopes


def merit(off, soft, hard):
    """What the search makes small, (n,), from the arrays of Terms."""
    return (np.sum(off**2, axis=-1) + wall(soft, SOFT_WEIGHT).sum(axis=-1)
            + wall(hard, HARD_WEIGHT).sum(axis=-1))


def wall(short, weight):
    """What shortfalls cost: squared within BUFFER of the limit, straight beyond."""
    into = np.maximum(short + BUFFER, 0.0)
    return weight**2 * np.where(into <= BUFFER, into**2, BUFFER * (2.0 * into - BUFFER))


def _best_of_model(here, parts, slopes, low, high):
    """Least merit where the parts of the Terms are linear, between bounds: one bounded least
    squares for each set of checks that are short, until the set stays."""
    def model(at, some):
        moved = (values[some] + np.einsum("nki,ni->nk", slope[some], at - here[some])
                 for values, slope in zip(parts, slopes, strict=True))
        return tuple(moved)

    chosen, at, least = here.copy(), here.copy(), np.full(len(here), np.inf)
    going = np.arange(len(here))
    for _ in range(MOST_SETS):
        now = at[going]
        short = _short_rows(model(now, going), tuple(one[going] for one in slopes), now)
        after = least_in_box(*short, low[going], high[going])
        value = merit(*model(after, going))
        back = value >= least[going] - 1e-9
        after[back] = 0.5 * (now + after)[back]
        value[back] = merit(*model(after[back], going[back]))
        less = value < least[going]
        better = going[less]
        chosen[better], least[better] = after[less], value[less]
        at[going] = after
        going = going[np.abs(after - now).max(axis=1) >= 1e-7]
        if not going.size:
            break
    return chosen


def _short_rows(now, slopes, at):
    """Rows (n, k, 4) and aims (n, k) of the least squares with the checks that are short."""
    off, soft, hard = now
    rows, aims = [slopes[0]], [off]
    for values, slope, weight in ((soft, slopes[1], SOFT_WEIGHT), (hard, slopes[2], HARD_WEIGHT)):
        into = np.maximum(values + BUFFER, 0.0)
        # as straight as the wall beyond BUFFER
        each = weight * np.sqrt(np.minimum(1.0, BUFFER / np.maximum(into, BUFFER))) * (into > 0.0)
        rows.append(each[..., None] * slope)
        aims.append(each * into)
    rows = np.concatenate(rows, axis=1)
    return rows, np.einsum("nki,ni->nk", rows, at) - np.concatenate(aims, axis=1)
