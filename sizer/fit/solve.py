"""The fit: the smallest change of the base that passes every check.

Bounded least squares over the length, beam, depth and crown factors. Each factor's change is one
residual; each check that is short of its limit adds a steep one. So the answer is the least
changed boat that passes where one exists, and otherwise the boat that is short by least, the hard
checks first. The opening follows from the body, the seat slides to level the boat inside each
evaluation. Nothing is random: the same request gives the same boat.
"""

from dataclasses import dataclass, replace

import numpy as np
from scipy.optimize import least_squares

from sizer.errors import BadInput, Fault, WillNotFloat
from sizer.fit.assess import Assessed, assess
from sizer.fit.checks import Check, all_checks, overall
from sizer.fit.person import Person, legs_stretch
from sizer.hull.boat import SECTION_COUNT, scaled_boat
from sizer.hull.scale import Scaling
from sizer.paddler.room import room_needed
from sizer.units import MM_PER_M

FACTORS = ("length", "beam", "depth", "crown")
# What a change of the base costs: the share that weighs like one unit. Crown is cheap, since it
# moves only the foredeck; our judgement.
COST_SHARE = np.array([0.10, 0.06, 0.08, 0.30])
HARD_WEIGHT = 60.0  # per just-noticeable shortfall of a hard check
SOFT_WEIGHT = 20.0  # of a caution
BUFFER = 0.05  # of a just-noticeable change: aimed inside each limit, so that rounding is no fail
SEARCH_COUNT = 61  # even sections during the search; the answer is worked out with SECTION_COUNT
MOST_EVALUATIONS = 30
FACTOR_STEP = 2e-3  # of each factor, for slopes
UNCHANGED_SHARE = 0.003  # a factor this near 1 is called unchanged


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
    factors = search.best()
    scaling = search.scaling(factors)
    assessed = assess(lines, scaling, person, SECTION_COUNT, search.start)
    rim = assessed.particulars.rim_freeboard_m
    if rim <= 0.0:
        raise WillNotFloat(_too_heavy(lines, assessed.loading.load.mass_kg))
    checks = all_checks(assessed)
    return Fitted(assessed, checks, overall(checks),
                  _set_by(search, factors, opening_reason), _unmet(checks, search, factors))


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
    """The least-squares problem of one fit; remembers the last water level to start the next from."""

    def __init__(self, lines, person, scaling, fixed):
        self.lines, self.person, self._scaling = lines, person, scaling
        self.fixed = fixed
        limits = lines.design.limits
        bounds = np.array([getattr(limits, name) for name in FACTORS])
        self.free = np.array([name not in fixed for name in FACTORS])
        self.low, self.high = bounds[:, 0], bounds[:, 1]
        self._at = np.array([fixed.get(name, 1.0) for name in FACTORS])
        self.start = None

    def scaling(self, factors):
        """The Scaling with these four factors."""
        return replace(self._scaling, **dict(zip(FACTORS, map(float, factors), strict=True)))

    def best(self):
        """The four factors of the answer."""
        first = self._at.copy()
        if not self._floats(first):
            first[self.free] = self.high[self.free]
            if not self._floats(first):
                mass = self.person.body.weight_kg + self.person.gear_kg
                raise WillNotFloat(_too_heavy(self.lines, mass))
        if not self.free.any():
            return first
        low, high = self.low[self.free], self.high[self.free]
        inside = np.clip(first[self.free], low + 1e-6, high - 1e-6)
        answer = least_squares(lambda part: self.residuals(self._whole(part)), inside,
                               jac=lambda part: self._slopes(part), bounds=(low, high),
                               method="trf", x_scale=COST_SHARE[self.free], ftol=1e-6, xtol=1e-5,
                               gtol=1e-6, max_nfev=MOST_EVALUATIONS)
        return self._whole(answer.x)

    def residuals(self, factors):
        """Change of each factor, then every check's shortfall, hard ones twice."""
        try:
            assessed = assess(self.lines, self.scaling(factors), self.person, SEARCH_COUNT,
                              self.start)
        except WillNotFloat:
            return np.full(4 + 2 * self._count, 1e3)
        self.start = assessed.start
        return np.concatenate([np.log(factors) / COST_SHARE, *shortfalls(all_checks(assessed))])

    def _floats(self, factors):
        try:
            assessed = assess(self.lines, self.scaling(factors), self.person, SEARCH_COUNT)
        except WillNotFloat:
            return False
        self.start = assessed.start
        self._count = len(all_checks(assessed))
        return True

    def _whole(self, part):
        factors = self._at.copy()
        factors[self.free] = part
        return factors

    def _slopes(self, part):
        """Forward differences, backward at an upper limit. Returns (n_residuals, n_free)."""
        here = self.residuals(self._whole(part))
        columns = []
        for index, value in enumerate(part):
            step = FACTOR_STEP if value + FACTOR_STEP <= self.high[self.free][index] else -FACTOR_STEP
            moved = part.copy()
            moved[index] += step
            columns.append((self.residuals(self._whole(moved)) - here) / step)
        return np.stack(columns, axis=1)


def shortfalls(checks):
    """Steep residuals of the checks: cautions and, again and steeper, failures. Two (n,) arrays."""
    margin = np.array([check.margin for check in checks])
    scale = np.array([check.scale for check in checks])
    band = np.array([check.band for check in checks])
    hard = np.array([check.hard for check in checks])
    caution = np.maximum(0.0, (band - margin) / scale + BUFFER)
    fail = np.where(hard, np.maximum(0.0, -margin / scale + BUFFER), 0.0)
    return SOFT_WEIGHT * caution, HARD_WEIGHT * fail


def _set_by(search, factors, opening_reasons):
    """Why each dimension is what it is: the check that pulls hardest on a changed factor."""
    reasons = {}
    here = search.residuals(factors)
    assessed = assess(search.lines, search.scaling(factors), search.person, SEARCH_COUNT)
    names = [check.name for check in all_checks(assessed)]
    for index, name in enumerate(FACTORS):
        key = "deck_crown" if name == "crown" else f"{name}_mm"
        factor = factors[index]
        if name in search.fixed:
            reasons[key] = "held by you"
        elif abs(factor - 1.0) <= UNCHANGED_SHARE:
            reasons[key] = "unchanged: the base suits"
        else:
            cause = _puller(search, factors, here, index, names)
            edge = min(factor - search.low[index], search.high[index] - factor) < 1e-3
            reasons[key] = f"{cause} (at the base's limit)" if edge else cause
    reasons.update(opening_reasons)
    return reasons


def _puller(search, factors, here, index, names):
    """Name of the check whose shortfall grows most where this factor goes back towards 1."""
    back = factors.copy()
    step = FACTOR_STEP * 2.0 * np.sign(1.0 - factors[index])
    back[index] += step
    growth = (search.residuals(back)**2 - here**2)[4:]
    count = len(names)
    return names[int(np.argmax(growth[:count] + growth[count:]))]


def _unmet(checks, search, factors):
    """Sentences for what fails: by how much, and what would have to give."""
    at_edge = [name for index, name in enumerate(FACTORS)
               if min(factors[index] - search.low[index], search.high[index] - factors[index]) < 1e-3]
    sentences = []
    for check in checks:
        if check.status != "fail":
            continue
        gives = []
        if search.fixed:
            gives.append("let go of the held " + " and ".join(search.fixed))
        if at_edge:
            gives.append("widen the base's limit on " + " and ".join(at_edge))
        gives.append("take another base, or accept another use or load")
        sentences.append(f"{check.name}: {check.value:.4g} {check.unit}, {check.sense} "
                         f"{check.limit:.4g} wanted, short by {-check.margin:.3g}; "
                         + ", or ".join(gives))
    return tuple(sentences)
