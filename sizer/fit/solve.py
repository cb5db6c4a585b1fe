"""The fit: the smallest change of the base that passes every check.

Bounded least squares over the length, beam, depth and crown factors. Each factor's change counts
squared; each check that is short of its limit adds its shortfall, squared and steep. So the answer
is the least changed boat that passes where one exists, and otherwise the boat that is short by
least, the hard checks first. The opening follows from the body, the seat slides to level the boat
inside each evaluation. Nothing is random: the same request gives the same boat.
"""

from dataclasses import dataclass, replace

import numpy as np
from scipy.optimize import lsq_linear

from sizer.errors import BadInput, Fault, WillNotFloat
from sizer.fit.assess import Assessed, assess
from sizer.fit.checks import Check, all_checks, overall
from sizer.fit.person import legs_stretch
from sizer.hull.boat import SECTION_COUNT, scaled_boat
from sizer.hull.scale import Scaling
from sizer.paddler.room import room_needed
from sizer.units import MM_PER_M

FACTORS = ("length", "beam", "depth", "crown")
# What a change of the base costs: the share that weighs like one unit. Crown is cheap, since it
# moves only the foredeck; our judgement.
COST_SHARE = np.array([0.10, 0.06, 0.08, 0.30])
OPENING_LIMITS = {"opening long enough": "cockpit length", "opening wide enough": "cockpit width"}
HARD_WEIGHT = 60.0  # per just-noticeable shortfall of a hard check
SOFT_WEIGHT = 20.0  # of a caution
BUFFER = 0.05  # of a just-noticeable change: aimed inside each limit, so that rounding is no fail
SEARCH_COUNT = 61  # even sections during the search; the answer is worked out with SECTION_COUNT
MOST_ROUNDS = 12
MOST_SETS = 30  # sets of short checks tried in one round
FIRST_REACH = 0.08  # most a factor changes in one round
LEAST_REACH = 2e-5  # changes below this are none
LEAST_GAIN = 1e-5  # of the merit
LOG_STEP = 2e-3  # of each factor, for slopes
UNCHANGED = 0.003  # a factor whose logarithm is within this is called unchanged


@dataclass(frozen=True, eq=False)
class Fitted:
    """The fitted boat, its checks, and what set each dimension."""

    assessed: Assessed
    checks: tuple[Check, ...]
    status: str
    set_by: dict[str, str]
    unmet: tuple[str, ...]  # sentences: what could not be met and what would have to give


def fit(lines, person, fixed_mm=()):
    """Fits a base to a person.

    Parameters
    ----------
    lines : Lines of the base design
    person : Person
    fixed_mm : pairs of dimension key and mm, held where they are

    Raises
    ------
    BadInput, where a held dimension lies outside the base's limits.
    WillNotFloat, where even the largest boat within the limits cannot carry the load.
    """
    held = dict(fixed_mm)
    opening, opening_reason = _opening(lines.design, person, held)
    fixed_factors = _fixed_factors(lines, held)
    search = _Search(lines, person, Scaling(legs=legs_stretch(lines.design, person.body),
                                            **opening), fixed_factors)
    try:
        logs = search.best()
    except WillNotFloat as error:
        raise WillNotFloat(_too_heavy(lines, person.body.weight_kg + person.gear_kg)) from error
    assessed = assess(lines, search.scaling(logs), person, SECTION_COUNT, search.start)
    rim = assessed.particulars.rim_freeboard_m
    if rim <= 0.0:
        raise WillNotFloat(_too_heavy(lines, assessed.loading.load.mass_kg))
    checks = all_checks(assessed)
    return Fitted(assessed, checks, overall(checks),
                  _set_by(search, logs, opening_reason), _unmet(checks, search, logs))


def _too_heavy(lines, mass_kg):
    return (f"will not float this: {mass_kg:.1f} kg puts the cockpit rim of {lines.design.name} "
            "under water even at its largest; take less, or a larger base design")


def _opening(design, person, held):
    """Opening length and width: the base's own unless the body needs more, within its limits."""
    room = room_needed(person.body, design.cockpit.entry)
    sizes, reasons, faults = {}, {}, []
    for key, needed, own, (low, high) in (
        ("cockpit_length", room.opening_length_m, design.cockpit.length_m,
         design.limits.cockpit_length_m),
        ("cockpit_width", room.opening_width_m, design.cockpit.width_m,
         design.limits.cockpit_width_m),
    ):
        mm_key = f"{key}_mm"
        if mm_key in held:
            size, reason = held[mm_key] / MM_PER_M, "held by you"
            if not low - 1e-9 <= size <= high + 1e-9:
                faults.append(_outside(mm_key, held[mm_key], low * MM_PER_M, high * MM_PER_M))
        elif needed <= own:
            size, reason = own, "unchanged: the base's opening is large enough"
        else:
            size, reason = min(needed + 0.0005, high), "room to get in and out"
            if needed > high:
                reason = "largest the base allows; the body needs more to get in and out"
        sizes[f"{key}_m"], reasons[mm_key] = size, reason
    if faults:
        raise BadInput(faults)
    return sizes, reasons


def _fixed_factors(lines, held):
    """Held length, beam and depth as factors of the base.

    Raises BadInput with every one that is outside the base's limits.
    """
    base = scaled_boat(lines, Scaling())
    limits = lines.design.limits
    factors, faults = {}, []
    for key, own_m, (low, high) in (("length", base.length_m, limits.length),
                                    ("beam", base.beam_m, limits.beam),
                                    ("depth", base.depth_m, limits.depth)):
        mm_key = f"{key}_mm"
        if mm_key in held:
            factors[key] = held[mm_key] / MM_PER_M / own_m
            if not low - 1e-6 <= factors[key] <= high + 1e-6:
                faults.append(_outside(mm_key, held[mm_key], low * own_m * MM_PER_M,
                                       high * own_m * MM_PER_M))
    if faults:
        raise BadInput(faults)
    return factors


def _outside(key, value, low, high):
    return Fault(f"fixed.{key}", f"{value:g} mm",
                 f"this base allows {np.ceil(low):.0f} to {np.floor(high):.0f} mm")


class _Search:
    """The least-squares problem of one fit, in the logarithms of the four factors.

    Remembers the last water level, to start the next flotation from.
    """

    def __init__(self, lines, person, scaling, fixed):
        self.lines, self.person, self._scaling = lines, person, scaling
        self.fixed = fixed
        bounds = np.log([getattr(lines.design.limits, name) for name in FACTORS])
        self.free = np.array([name not in fixed for name in FACTORS])
        self.first = np.log([fixed.get(name, 1.0) for name in FACTORS])
        self.low = np.where(self.free, bounds[:, 0], self.first)
        self.high = np.where(self.free, bounds[:, 1], self.first)
        self.start = None

    def scaling(self, logs):
        """The Scaling with these four factors, given as logarithms."""
        return replace(self._scaling,
                       **dict(zip(FACTORS, np.exp(logs).tolist(), strict=True)))

    def checks(self, logs):
        """The checks of the boat with these factors."""
        assessed = assess(self.lines, self.scaling(logs), self.person, SEARCH_COUNT, self.start)
        self.start = assessed.start
        return all_checks(assessed)

    def best(self):
        """Logarithms of the four factors of the answer.

        Each round linearises the checks, takes the best boat of that model within reach, and
        keeps it if the real one is better; if not, it reaches less far.
        """
        here = np.clip(self.first, self.low, self.high)
        try:
            shorts = shortfalls(self.checks(here))
        except WillNotFloat:
            here = self.high.copy()
            self.start = None
            shorts = shortfalls(self.checks(here))
        reach = FIRST_REACH
        merit = _merit(here, shorts)
        for _ in range(MOST_ROUNDS):
            slopes = self._slopes(here, shorts)
            moved = False
            while not moved and reach > LEAST_REACH:
                aim = _best_of_model(here, shorts, slopes, np.maximum(self.low, here - reach),
                                     np.minimum(self.high, here + reach))
                if np.abs(aim - here).max() < LEAST_REACH:
                    return here
                there = self._shortfalls(aim)
                moved = _merit(aim, there) < merit
                if not moved:
                    reach = 0.3 * np.abs(aim - here).max()
            if not moved:
                return here
            gain = merit - _merit(aim, there)
            here, shorts, merit = aim, there, merit - gain
            if gain < LEAST_GAIN * (1.0 + merit):
                return here
        return here

    def _shortfalls(self, logs):
        """Shortfalls, or hopeless ones for a boat that does not float."""
        try:
            return shortfalls(self.checks(logs))
        except WillNotFloat:
            return np.full(1, 1e6)

    def _slopes(self, here, shorts):
        """Slopes of the shortfalls, one-sided, backward at an upper limit. (n, 4); held ones 0."""
        slopes = np.zeros((shorts.size, len(FACTORS)))
        for index in np.flatnonzero(self.free):
            step = LOG_STEP if here[index] + LOG_STEP <= self.high[index] else -LOG_STEP
            moved = here.copy()
            moved[index] += step
            slopes[:, index] = (shortfalls(self.checks(moved)) - shorts) / step
        return slopes


def shortfalls(checks):
    """How far each check is short of what is aimed for, weighted; negative is met. (2 n,) array.

    First half: short of a clean pass. Second half, steeper: hard checks short of their limit.
    """
    margin = np.array([check.margin for check in checks])
    scale = np.array([check.scale for check in checks])
    band = np.array([check.band for check in checks])
    hard = np.array([check.hard for check in checks])
    clean = (band - margin) / scale + BUFFER
    failed = np.where(hard, -margin / scale + BUFFER, -1.0)
    return np.concatenate([SOFT_WEIGHT * clean, HARD_WEIGHT * failed])


def _merit(logs, shorts):
    """What the search makes small: the changes and the shortfalls, squared."""
    return float(np.sum((logs / COST_SHARE) ** 2) + np.sum(np.maximum(shorts, 0.0) ** 2))


def _best_of_model(here, shorts, slopes, low, high):
    """Least merit where shortfalls are linear, between bounds: one bounded least squares for each
    set of checks that are short, until the set stays."""
    fixed = high - low < 1e-12
    low, high = low - 1e-12 * fixed, high + 1e-12 * fixed
    at, best = here, here
    least = np.inf
    for _ in range(MOST_SETS):
        short = shorts + slopes @ (at - here) > 0.0
        rows = np.vstack([np.diag(1.0 / COST_SHARE), slopes[short]])
        aims = np.concatenate([np.zeros(len(FACTORS)), slopes[short] @ here - shorts[short]])
        after = lsq_linear(rows, aims, (low, high), method="bvls").x
        merit = _merit(after, shorts + slopes @ (after - here))
        if merit >= least - 1e-9:
            after = 0.5 * (at + after)
            merit = _merit(after, shorts + slopes @ (after - here))
        if merit < least:
            best, least = after, merit
        if np.abs(after - at).max() < 1e-7:
            break
        at = after
    return best


def _set_by(search, logs, opening_reasons):
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


def _unmet(checks, search, logs):
    """Sentences for what fails: by how much, and what would have to give."""
    held = [f"let go of the held {' and '.join(search.fixed)}"] if search.fixed else []
    edges = _at_limits(search, logs)
    sentences = []
    for check in checks:
        if check.status == "fail":
            limits = OPENING_LIMITS.get(check.name) or " and ".join(edges)
            gives = [*held, *([f"widen the base's limit on {limits}"] if limits else []),
                     "take another base", "accept another use or load"]
            sentences.append(
                f"{check.name}: {check.value:.4g} {check.unit}, {check.sense} {check.limit:.4g} "
                f"wanted, short by {-check.margin:.3g} {check.unit}; " + ", or ".join(gives))
    return tuple(sentences)
