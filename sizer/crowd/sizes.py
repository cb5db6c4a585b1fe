"""A range of sizes of one base: the few finished boats that serve the most of a crowd without a
caution, and then the most of it.

Everybody said to be served has been put through the exact checks in the size they are given; only
seat, footbrace and padding move. The pool, and with it the bound, is of boats that we tried: a
boat that nobody tried might serve more.
"""

from dataclasses import dataclass

import numpy as np

from sizer.crowd.bodies import crowd_of
from sizer.crowd.choose import greedy, pick, reached_by
from sizer.crowd.crew import crew
from sizer.crowd.finished import Finished, Verdict, persons_of, verdict
from sizer.crowd.placing import Placing
from sizer.crowd.pool import ROOMY, Setting, goals_of, pool_of
from sizer.errors import BadInput, Fault
from sizer.fit.tried import UNKNOWN
from sizer.hydro.flotation import enclosed_volume_m3
from sizer.paddler.measures import Measured

MOST_SIZES = 6
METHOD = (
    "Boats are fitted to a spread of the people, given larger openings, and changed step by step "
    "round the best ones. Of all that were tried, an exact search (maximum coverage) chooses "
    "those that serve the most people without a caution; among equals, those that serve the most "
    "people, then the most with a just-noticeable change to spare at every check. A boat can be "
    "too large for somebody as well as too small. Everybody served is then worked out exactly in "
    "the size they are given, with seat, footbrace and padding free and nothing else. The bound "
    "holds for the boats that were tried, not for every boat that could be drawn.")
MISHAP_NOTE = (
    "Heeling and flooding are worked out for a few people of each size, the lightest and the "
    "heaviest among them, and for everybody whom these do not show to be well clear.")


@dataclass(frozen=True, eq=False)
class Size:
    name: str  # "Size 1" is the smallest by volume
    hull: Finished
    drawn: Measured  # the body it is drawn for: the middle of those who take it, where that fits


@dataclass(frozen=True, eq=False)
class Choice:
    """So many sizes, and what they do for the crowd. Arrays are (n_people,)."""

    boats: tuple[int, ...]  # columns of the pool
    sizes: tuple[Size, ...]
    taken: np.ndarray  # index of the size each person takes; -1: none serves
    verdicts: tuple[Verdict, ...]  # in that size, or for the left-out in the one that comes nearest
    nearest: np.ndarray  # index of the size that the verdict is for
    spare: np.ndarray  # (n_people, n_sizes) to spare in each size by the tables; -inf: not served
    bounds: tuple[int, ...]  # most people any choice in the pool reaches, for each of pool.GOALS
    on_tables: tuple[int, ...]  # people that this choice reaches on the tables, the same three
    greedy: tuple[int, ...]  # the same of the greedy choice

    @property
    def between(self):
        """(n_people,) bool: more than one size serves, by the tables."""
        return np.isfinite(self.spare).sum(axis=1) > 1

    @property
    def served(self):
        """People served."""
        return int((self.taken >= 0).sum())

    @property
    def clean(self):
        """People served without a caution."""
        return sum(one.clean for one in self.verdicts)

    @property
    def unknown(self):
        """People whom no size serves and who could not be worked out in one of them."""
        return sum(one.unknown for one in self.verdicts)

    @property
    def roomy(self):
        """People served with a just-noticeable change to spare at every check."""
        return sum(one.clean and one.spare >= ROOMY for one in self.verdicts)


@dataclass(frozen=True, eq=False)
class SizeRange:
    """The choices for 1, 2, ... sizes, and the people they are for."""

    setting: Setting
    measured: tuple[Measured, ...]
    choices: tuple[Choice, ...]  # for 1 size, for 2, ...; a small pool may end it early
    pool: int  # boats tried that serve their own paddler
    pool_unknown: int  # fits and boats that could not be worked out
    pool_refused: int  # fits and boats that do not serve their own paddler


def size_range(measured, lines, trip, most_sizes,
               progress=lambda done, of, words: None, workers=1):
    """The SizeRange of a base design for some people and one use.

    Parameters
    ----------
    measured : sequence of Measured, one or more
    lines : Lines of the base design
    trip : Trip of everybody, in that base
    most_sizes : 1 to MOST_SIZES
    progress : called as progress(done, of, words)
    workers : processes; 1 works in this one. Their number changes no answer

    Raises
    ------
    BadInput, without people, with another count of sizes, or where no boat serves anybody.
    WorkerLost, where one of several processes ended by itself.
    """
    faults = []
    if not measured:
        faults.append(Fault("people", "none", "give one person or more"))
    if not 1 <= most_sizes <= MOST_SIZES:
        faults.append(Fault("sizes", f"{most_sizes}", f"1 to {MOST_SIZES}"))
    if faults:
        raise BadInput(faults)
    crowd = crowd_of(persons_of(measured, trip), lines.design.cockpit.entry)
    setting = Setting(lines, crowd, trip)
    with crew(setting, workers) as shared:
        pool = pool_of(setting, measured, progress, shared)
        if not pool.boats:
            raise BadInput([_nobody_served(len(measured), pool.unknown)])
        goals, choices = goals_of(pool.boats), []
        placing = Placing(setting, pool.boats, {}, shared)
        counts = range(1, min(most_sizes, len(pool.boats)) + 1)
        picks = shared(_picked, [goals] * len(counts), counts)
        for count in counts:
            progress(count - 1, most_sizes, "choosing boats, working out each person exactly")
            choices.append(_choice(placing, goals, next(picks), count, choices))
    return SizeRange(setting, tuple(measured), tuple(choices), len(pool.boats), pool.unknown,
                     pool.refused)


def _nobody_served(people, unknown):
    if unknown:
        return Fault("people", f"{people} people, none served; {unknown} boats {UNKNOWN}",
                     "try another base, use or gear")
    return Fault("people", f"{people} people, none served",
                 "no boat of this base passes for any of those tried; take another base, use or "
                 "gear")


def _picked(_, goals, count):
    return pick(goals, count)


def _choice(placing, goals, picked, count, before):
    """The Choice of so many boats; never clean for fewer than the choice before and one boat more.

    The tables err on the safe side, so the exact counts of two choices may stand otherwise by the
    few who are near a limit.
    """
    boats = greedy(goals, count, picked.boats)
    found = _placed(placing, goals, picked, boats)
    if before and (found.clean, found.served) < (before[-1].clean, before[-1].served):
        found = _placed(placing, goals, picked, greedy(goals, count, before[-1].boats))
    return found


def _placed(placing, goals, picked, boats):
    boats = tuple(sorted(boats, key=lambda boat: enclosed_volume_m3(
        placing.pool[boat].hull.boat.sections)))
    nearest, verdicts = placing.of(boats)
    taken = np.where([one.serves for one in verdicts], nearest, -1)
    sizes = tuple(Size(f"Size {index + 1}", placing.pool[boat].hull,
                       placing.middle_body(boat, np.flatnonzero(taken == index)))
                  for index, boat in enumerate(boats))
    spare = np.stack([np.where(placing.pool[boat].served, placing.pool[boat].spare, -np.inf)
                      for boat in boats], axis=1)
    return Choice(boats, sizes, taken, verdicts, nearest, spare,
                  picked.bounds, reached_by(goals, boats),
                  reached_by(goals, greedy(goals, len(boats))))


def which_size(hulls, person):
    """(name, Verdict) of every boat of {name: Finished} for one Person, the one to take first. One
    that passes every check comes before one with a caution of any kind, then one that is clean
    before one that serves, and that before one that does not; then the one with most to spare at
    its tightest check. What is given up stands in the margins of both."""
    rows = [(name, verdict(hull, person)) for name, hull in hulls.items()]
    return tuple(sorted(rows, key=lambda row: (
        row[1].status == "pass", row[1].clean, row[1].serves, row[1].spare), reverse=True))
