"""Why a fitted boat is as it is: what set each dimension, and what could not be met."""

import numpy as np

from sizer.fit.search import FACTORS, LOG_STEP, shortfalls

OPENING_LIMITS = {"opening long enough": "cockpit length", "opening wide enough": "cockpit width"}
UNCHANGED = 0.003  # a factor whose logarithm is within this is called unchanged


def set_by(search, logs, opening_reasons):
    """Why each dimension is what it is: the check that pulls hardest on a changed factor."""
    reasons = {}
    checks = search.checks(logs)
    shorts = shortfalls(checks)
    for index, name in enumerate(FACTORS):
        key = "deck_crown" if name == "crown" else f"{name}_mm"
        if name in search.fixed:
            reasons[key] = "held by you"
        elif abs(logs[index]) <= UNCHANGED:
            reasons[key] = "unchanged: the base suits"
        else:
            cause = _puller(search, logs, shorts, index, [check.name for check in checks])
            edge = name in _at_limits(search, logs)
            reasons[key] = f"{cause} (at the base's limit)" if edge else cause
    return reasons | opening_reasons


def _puller(search, logs, shorts, index, names):
    """Name of the check whose shortfall grows most where this factor goes back towards 1."""
    back = logs.copy()
    back[index] -= 2.0 * LOG_STEP * np.sign(logs[index])
    growth = (np.maximum(shortfalls(search.checks(back)), 0.0) ** 2
              - np.maximum(shorts, 0.0) ** 2)
    count = len(names)
    return names[int(np.argmax(growth[:count] + growth[count:]))]


def _at_limits(search, logs):
    """Names of the free factors that stand at a limit of the base."""
    room = np.minimum(logs - search.low, search.high - logs)
    return [name for index, name in enumerate(FACTORS) if search.free[index] and room[index] < 1e-3]


def unmet(checks, search, logs):
    """Sentences for what fails: by how much, and what would have to give."""
    names = [*search.fixed, *(["seat"] if search.seat_held else [])]
    held = [f"let go of the held {' and '.join(names)}"] if names else []
    edges = _at_limits(search, logs)
    sentences = []
    for check in checks:
        if check.status == "fail":
            limits = OPENING_LIMITS.get(check.name) or " and ".join(edges)
            sentences.append(shortfall_sentence(check, (
                *held, *([f"widen the base's limit on {limits}"] if limits else []),
                "take another base", "accept another use or load")))
    return tuple(sentences)


def shortfall_sentence(check, gives):
    """What a failing check lacks, and what would have to give."""
    return (f"{check.name}: {check.value:.4g} {check.unit}, {check.sense} {check.limit:.4g} "
            f"wanted, short by {-check.margin:.3g} {check.unit}; " + ", or ".join(gives))
