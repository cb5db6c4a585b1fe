"""Why a fitted boat is as it is: what set each dimension, what was given up, what fails."""

import numpy as np

from sizer.fit.checks import ROWS
from sizer.fit.facts import facts_of
from sizer.fit.search import (
    CANNOT,
    HARD_WEIGHT,
    LOG_STEP,
    PLAIN_COUNT,
    SOFT_WEIGHT,
    terms_of,
    wall,
)
from sizer.fit.sought import AIMS, FACTORS, PROPORTION_TITLES

UNCHANGED = 0.005  # a factor whose logarithm is within this is called as the base
AT_LIMIT = 1e-3  # of a factor's logarithm
TERM_TITLES = (*(aim.title for aim in AIMS), *PROPORTION_TITLES,
               *(row.title for row in ROWS[:PLAIN_COUNT]))


def set_by(problem, logs, held):
    """{dimension: reason}: what pulls hardest on each factor where it stands.

    `held` are the names of factors that were held by hand.
    """
    reasons, here = {}, _each_merit(problem, logs)
    for index, name in enumerate(FACTORS):
        key = "deck_crown" if name == "crown" else f"{name}_mm"
        if name in held:
            reasons[key] = "held by you"
        elif abs(logs[index]) <= UNCHANGED:
            reasons[key] = "as the base: it suits"
        else:
            edge = " (at the base's limit)" if name in at_limits(problem, logs) else ""
            reasons[key] = f"{_puller(problem, logs, here, index)}{edge}"
    return reasons


def at_limits(problem, logs):
    """Names of the free factors that stand at a limit of the base."""
    free = problem.high - problem.low > 1e-9
    room = np.minimum(logs - problem.low, problem.high - logs)
    return [name for index, name in enumerate(FACTORS) if free[index] and room[index] < AT_LIMIT]


def _puller(problem, logs, here, index):
    """Title of the term that grows most where this factor goes back towards the base."""
    back = logs.copy()
    back[index] -= 2.0 * LOG_STEP * np.sign(logs[index])
    try:
        there = _each_merit(problem, back)
    except CANNOT:
        return "the load"
    return TERM_TITLES[int(np.argmax(there - here))]


def _each_merit(problem, logs):
    """What each term adds to the merit, in the order of TERM_TITLES."""
    one = problem.assessed(logs)
    terms = terms_of(problem, logs, one, facts_of(one))
    return np.concatenate([terms.off**2,
                           wall(terms.soft, SOFT_WEIGHT) + wall(terms.hard, HARD_WEIGHT)])


def unmet(checks, held, edges):
    """Sentences for what fails: by how much, and what would have to give.

    Parameters
    ----------
    checks : of the fitted boat
    held : names of what was held by hand
    edges : names of the factors at a limit of the base
    """
    free = [f"let go of the held {' and '.join(held)}"] if held else []
    wider = [f"widen the base's limit on {' and '.join(edges)}"] if edges else []
    return tuple(shortfall_sentence(check, (*free, *wider)) for check in checks
                 if check.status == "fail")


def shortfall_sentence(check, gives=()):
    """What a check lacks or has too much of, and what would have to give."""
    return (f"{check.name}: {check.value:.4g} {check.unit}, {check.sense} {check.limit:.4g} "
            f"wanted, {abs(check.margin):.3g} {check.unit} off; "
            + ", or ".join((*gives, check.remedy)))
