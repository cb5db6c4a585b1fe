"""The choice of a few boats out of many that serves the most people: maximum coverage, exactly.

The first goal is met as well as can be, then the next one among the choices that meet it as well,
and so on. Integer programming (HiGHS, through SciPy) with its own bound; greedy choice beside it.
The first goal, each boat taken in shares, prices every boat: most are too dear to be in any best
choice and need not be asked about.
"""

import math
from dataclasses import dataclass

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, linprog, milp
from scipy.sparse import block_array, csr_array, eye_array, hstack, vstack

# For each goal; then the best choice found so far stands with its bound. Counted in steps of the
# search, so that the same crowd gives the same answer however busy the machine is.
MOST_NODES = 300
WHOLE = 1e-6  # of a person: a bound is a whole number of people, to this
PRICED_TO = 0.1  # of a person: far more than the prices are off by rounding


@dataclass(frozen=True)
class Picked:
    """Some boats of a pool and how many people they reach, goal by goal."""

    boats: tuple[int, ...]  # columns, rising
    reached: tuple[int, ...]  # people, for each goal
    bounds: tuple[int, ...]  # no choice of as many boats reaches more, given the goals before

    @property
    def proven(self):
        """Nothing in the pool does better at any goal."""
        return self.reached == self.bounds


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

    maximise sum w_g y_g subject to y_g <= sum of x_b over the boats that reach group g,
    sum x_b <= count, x_b 0 or 1, 0 <= y_g <= 1; people whom the same boats reach are one group g
    of w_g people.

    Parameters
    ----------
    goals : sequence of (n_people, n_boats) bool, the most important first
    count : 1 or more
    """
    best = greedy(goals, count)
    most_with = _most_with(goals[0], count)
    floors, bounds = [], []
    for depth in range(len(goals)):
        left = np.flatnonzero(most_with >= reached_by(goals, best)[0] - PRICED_TO)
        blocks = [_groups(one[:, left]) for one in goals[: depth + 1]]
        found, bound = _solved(blocks, left.size, count, floors)
        if found is not None:
            best = max(best, tuple(left[list(found)].tolist()),
                       key=lambda boats: reached_by(goals[: depth + 1], boats))
        floors.append(reached_by(goals, best)[depth])
        bounds.append(max(bound, floors[-1]))
    return Picked(best, reached_by(goals, best), tuple(bounds))


def _most_with(goal, count):
    """People whom at most `count` boats reach that have a boat among them: no choice does better.

    The programme of `pick` with shares of boats allowed reaches at least as many; a boat that it
    leaves out would cost its reduced cost. Returns (n_boats,).
    """
    patterns, people = _groups(goal)
    boats = goal.shape[1]
    covered = hstack([csr_array(-patterns.astype(float)), eye_array(people.size)])
    counted = csr_array([np.repeat([1.0, 0.0], [boats, people.size])])
    answer = linprog(np.concatenate([np.zeros(boats), -people]), vstack([covered, counted]),
                     np.append(np.zeros(people.size), count), bounds=(0.0, 1.0))
    if not answer.success:
        return np.full(boats, np.inf)
    return -answer.fun - answer.lower.marginals[:boats]


def _groups(goal):
    """Patterns (n_groups, n_boats) bool that reach anybody, and people in each (n_groups,)."""
    packed, people = np.unique(np.packbits(goal, axis=1), axis=0, return_counts=True)
    patterns = np.unpackbits(packed, axis=1, count=goal.shape[1]).astype(bool)
    some = patterns.any(axis=1)
    return patterns[some], people[some]


def _solved(blocks, boats, count, floors):
    """Columns chosen for the last block's goal, or None, and the bound on people reached."""
    patterns, people = zip(*blocks, strict=True)
    if not people[-1].size:
        return None, 0
    rows = [[np.ones((1, boats)), *[None] * len(blocks)]]
    lows, highs = [0.0], [float(count)]
    for depth, groups in enumerate(people):
        rows.append([patterns[depth].astype(float), *_at(depth, blocks, -eye_array(groups.size))])
        lows += [0.0] * groups.size
        highs += [np.inf] * groups.size
        if depth < len(floors):  # a goal before this one keeps what it has
            rows.append([None, *_at(depth, blocks, groups[None, :].astype(float))])
            lows.append(floors[depth] - 0.5)
            highs.append(np.inf)
    before = boats + sum(groups.size for groups in people[:-1])
    cost = np.concatenate([np.zeros(before), -people[-1]])
    answer = milp(cost, constraints=LinearConstraint(block_array(rows).tocsr(), lows, highs),
                  integrality=np.arange(cost.size) < boats, bounds=Bounds(0.0, 1.0),
                  options={"node_limit": MOST_NODES, "mip_rel_gap": 0.0})
    bound = int(people[-1].sum())
    if answer.mip_dual_bound is not None and np.isfinite(answer.mip_dual_bound):
        bound = min(bound, math.floor(WHOLE - answer.mip_dual_bound))
    if answer.x is None:
        return None, bound
    return tuple(np.flatnonzero(answer.x[:boats] > 0.5).tolist()), bound


def _at(depth, blocks, block):
    """A row of blocks with one at its goal's own place."""
    return [block if place == depth else None for place in range(len(blocks))]
