"""Why a fitted boat is as it is: what set each dimension, what was given up, what fails."""

import numpy as np

from sizer.fit.check_figures import difference, miss_words
from sizer.fit.checks import ROWS
from sizer.fit.search import HARD_WEIGHT, LOG_STEP, PLAIN_COUNT, SOFT_WEIGHT, terms_at, wall
from sizer.fit.sought import AIMS, FACTORS, PROPORTION_TITLES

UNCHANGED = 0.005  # a factor whose logarithm is within this is called as the base
AT_LIMIT = 1e-3  # of a factor's logarithm
TERM_TITLES = (*(aim.title for aim in AIMS), *PROPORTION_TITLES,
               *(row.title for row in ROWS[:PLAIN_COUNT]))


def set_by(problem, logs, held):
    """{dimension: reason}: what pulls hardest on each factor where it stands.

    Parameters
    ----------
    problem : Problem of one person
    logs : (4,) logarithms of the factors
    held : names of factors that were held by hand
    """
    pulls = _pulls(problem, logs)
    reasons = {}
    for index, name in enumerate(FACTORS):
        key = "deck_crown" if name == "crown" else f"{name}_mm"
        if name in held:
            reasons[key] = "held by you"
        elif abs(logs[index]) <= UNCHANGED:
            reasons[key] = "as the base: it suits"
        else:
            edge = " (at the base's limit)" if name in at_limits(problem, logs) else ""
            reasons[key] = f"{pulls[index]}{edge}"
    return reasons


def at_limits(problem, logs):
    """Names of the free factors that stand at a limit of the base."""
    low, high = problem.low[0], problem.high[0]
    free = high - low > 1e-9
    room = np.minimum(logs - low, high - logs)
    return [name for index, name in enumerate(FACTORS) if free[index] and room[index] < AT_LIMIT]


def _pulls(problem, logs):
    """For each factor the title of the term that grows most where it goes back to the base."""
    back = -2.0 * LOG_STEP * np.diag(np.sign(logs))
    terms = terms_at(problem.of(np.zeros(len(logs) + 1, int)), np.vstack([logs, logs + back]))
    each = np.concatenate([terms.off**2, wall(terms.soft, SOFT_WEIGHT)
                           + wall(terms.hard, HARD_WEIGHT)], axis=1)
    return [TERM_TITLES[one] if known else "the load" for one, known in zip(
        (each[1:] - each[0]).argmax(axis=1).tolist(), terms.known[1:].tolist(), strict=True)]


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
    off = "" if check.unit == "of 1" else f", {difference(check.margin, check.unit)} off"
    return f"{miss_words(check)}{off}; " + ", or ".join((*gives, check.remedy))
