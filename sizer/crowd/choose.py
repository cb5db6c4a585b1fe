"""The choice of a few boats out of many that serves the most people: maximum coverage, exactly.

The first goal is met as well as can be, then the next one among the choices that meet it as well,
and so on, by trying every choice that could still be it (`sizer.crowd.cover`). A linear programme
(HiGHS, through SciPy) of the first goal, each boat taken in shares, prices every boat: most are too
dear to be in any best choice and need not be asked about. Greedy choice stands beside it.
"""

from dataclasses import dataclass

import numpy as np
from scipy.optimize import linprog
from scipy.sparse import csr_array, eye_array, hstack, vstack

from sizer.crowd.cover import best_cover, swapped

PRICED_TO = 0.1  # of a person: far more than the prices are off by rounding


@dataclass(frozen=True)
class Picked:
    """Some boats of a pool and how many people they reach, goal by goal."""

    boats: tuple[int, ...]  # columns, rising
    reached: tuple[int, ...]  # people, for each goal
    bounds: tuple[int, ...]  # no choice of as many boats reaches more, given the goals before


def reached_by(goals, boats):
    """How many people some boats reach. Returns one count for each goal."""
    return tuple(int(goal[:, list(boats)].any(axis=1).sum()) for goal in goals)


def greedy(goals, count, first=()):
    """Boats taken one by one, each the one that adds most people, by the goals in turn.

    Parameters
    ----------
    goals : sequence of (n_people, n_boats) bool
    count : boats wanted
    first : columns already taken

    Returns
    -------
    tuple of columns, rising; fewer than `count` where the pool is smaller
    """
    taken = list(first)
    have = [goal[:, taken].any(axis=1) for goal in goals]
    while len(taken) < min(count, goals[0].shape[1]):
        gains = [(goal & ~mask[:, None]).sum(axis=0)
                 for goal, mask in zip(goals, have, strict=True)]
        left = (boat for boat in range(goals[0].shape[1]) if boat not in taken)
        best = max(left, key=lambda boat: tuple(gain[boat] for gain in gains))
        taken.append(best)
        have = [mask | goal[:, best] for goal, mask in zip(goals, have, strict=True)]
    return tuple(sorted(taken))


def pick(goals, count):
    """The Picked of at most `count` boats that reaches the most people; never less than greedy.

    Parameters
    ----------
    goals : sequence of (n_people, n_boats) bool, the most important first
    count : 1 or more
    """
    best = swapped(goals, greedy(goals, count))
    most_with = _most_with(goals[0], count)
    most = float(most_with.max()) + PRICED_TO
    bounds = (int(most), *(int(goal.any(axis=1).sum()) for goal in goals[1:]))
    left = np.flatnonzero(most_with + PRICED_TO >= reached_by(goals, best)[0])
    if 1 < len(best) < goals[0].shape[1]:
        found = best_cover([goal[:, left] for goal in goals], most - PRICED_TO - most_with[left],
                           most, np.searchsorted(left, best))
        best, proven = (best, False) if found is None else (tuple(left[list(found)].tolist()), True)
    else:
        proven = True  # all there are, or the best of single ones, which greedy takes
    reached = reached_by(goals, best)
    return Picked(best, reached, reached if proven else tuple(
        max(pair) for pair in zip(reached, bounds, strict=True)))


def _most_with(goal, count):
    """People whom at most `count` boats reach that have a boat among them: no choice does better.

    maximise sum w_g y_g subject to y_g <= sum of x_b over the boats that reach group g,
    sum x_b <= count, 0 <= x_b, y_g <= 1: shares of boats reach at least as many as whole ones.
    People whom the same boats reach are one group g of w_g people. A boat that is left out would
    cost its reduced cost, and several would cost the sum of theirs. Returns (n_boats,).
    """
    patterns, people = _groups(goal)
    boats = goal.shape[1]
    covered = hstack([csr_array(-patterns.astype(float)), eye_array(people.size)])
    counted = csr_array([np.repeat([1.0, 0.0], [boats, people.size])])
    answer = linprog(np.concatenate([np.zeros(boats), -people]), vstack([covered, counted]),
                     np.append(np.zeros(people.size), count), bounds=(0.0, 1.0))
    if not answer.success:
        return np.full(boats, float(len(goal)))
    return -answer.fun - answer.lower.marginals[:boats]


def _groups(goal):
    """Patterns (n_groups, n_boats) bool that reach anybody, and people in each (n_groups,)."""
    packed, people = np.unique(np.packbits(goal, axis=1), axis=0, return_counts=True)
    patterns = np.unpackbits(packed, axis=1, count=goal.shape[1]).astype(bool)
    some = patterns.any(axis=1)
    return patterns[some], people[some]
