"""The fit: the boat that is to this paddler what the base is to whom it was drawn for.

Bounded least squares over the length, beam, depth and crown factors (`sizer.fit.search`) of what is
sought (`sizer.fit.sought`), the checks as walls. The opening follows from the body, the seat slides
to level the boat inside each evaluation. Nothing is random: the same request gives the same boat.
Holding a size leaves the others as fitted, unless they are asked to follow.
"""

from dataclasses import dataclass, replace

import numpy as np

from sizer.errors import BadInput, Fault, NotSolved, SizerError, WillNotFloat
from sizer.fit.assess import Assessed, refusal
from sizer.fit.bench_found import unfair_checks
from sizer.fit.checks import Check, checks_of, overall
from sizer.fit.facts import facts_of
from sizer.fit.mishaps import Mishaps, facts_with, mishaps, upper_body_moment_of
from sizer.fit.odds import odds_all_hard, surely_failed, together, with_mishaps
from sizer.fit.person import Person, legs_stretch
from sizer.fit.reasons import at_limits, set_by, unmet
from sizer.fit.search import Answer, Problem, answers_at, best, problem_of
from sizer.fit.sought import FACTORS, NO_WISHES, Sought, base_says, opening_wanted_m, sought
from sizer.fit.told import told_of_each
from sizer.hull.boat import scaled_boat
from sizer.hull.lines import Lines
from sizer.hull.scale import Scaling
from sizer.rows import stacked
from sizer.units import MM_PER_M

OPENING_KEYS = ("cockpit_length", "cockpit_width")
ROUNDING_M = 1e-9
# Swamped rim and side deck that keep so much more than they need are sure to: seven of the 4.5 mm
# that they stray by in the shipped bases.
SURELY_DRY_M = 0.030


@dataclass(frozen=True, eq=False)
class Fitted:
    """The fitted boat, its checks, and what set each dimension."""

    assessed: Assessed
    mishaps: Mishaps | None  # None where it was not asked for
    checks: tuple[Check, ...]
    status: str
    set_by: dict[str, str]
    sought: tuple[Sought, ...]
    unmet: tuple[str, ...]  # sentences: what could not be met and what would have to give
    seat_held: bool
    odds_afloat: float  # that every check that can fail is met, the bench's own not asked

    @property
    def sure(self):
        """Its Sure: without `explained` of the plain checks, the rest where one is near a limit."""
        return self.assessed.sure

    @property
    def odds_all_hard(self):
        """That every check that can fail is met by such a paddler in such a boat."""
        return 0.0 if surely_failed(self.checks) else self.odds_afloat

    def check(self, key):
        """The Check of this key; None where it has nothing to measure."""
        return next((one for one in self.checks if one.key == key), None)


@dataclass(frozen=True, eq=False)
class Searched:
    """The boats found for n people, before anything is told of them; no problem where the base
    itself does not float."""

    lines: Lines
    persons: tuple[Person, ...]
    held: dict[str, float]  # as asked, by key of `request.FIXED`
    openings: tuple[tuple[dict, dict], ...]  # sizes and why
    problem: Problem | None = None
    logs: np.ndarray | None = None  # (n, 4) of the factors
    answers: tuple[Answer, ...] = ()


def fit(lines, person, fixed=(), wishes=NO_WISHES, follow=False, explained=True):
    """Fits a base to a person.

    Parameters
    ----------
    lines : Lines of the base design
    person : Person
    fixed : pairs of a key of `request.FIXED` and its value, held where they are
    wishes : Wishes
    follow : whether the sizes that are not held are fitted anew to those that are
    explained : whether to find what set each dimension and work the mishaps out in full; else they
        are worked out with the largest bags, for the checks alone

    Raises
    ------
    BadInput, where a held dimension lies outside the base's limits.
    WillNotFloat, where even the largest boat within the limits cannot carry the load.
    NotSolved, where the boats tried first could not be worked out: unknown, not refused.
    """
    return only_fitted(searched(lines, (person,), fixed, wishes, follow), explained)


def only_fitted(found, explained=True):
    """As `fit`, from the Searched of one person."""
    fitted, = fitted_of(found, explained)
    if isinstance(fitted, SizerError):
        raise fitted
    return fitted


def fit_many(lines, persons, fixed=(), wishes=NO_WISHES, follow=False, explained=False):
    """As `fit`, of many people for one use, each as if alone.

    Returns
    -------
    tuple of Fitted, or of WillNotFloat or NotSolved where there is none

    Raises
    ------
    BadInput, where a held dimension lies outside the base's limits.
    """
    return fitted_of(searched(lines, persons, fixed, wishes, follow), explained)


def searched(lines, persons, fixed=(), wishes=NO_WISHES, follow=False):
    """The Searched of some people; parameters and BadInput as `fit`."""
    held = dict(fixed)
    openings = tuple(_opening(lines, person, held) for person in persons)
    free = openings if follow else [_opening(lines, person, {}) for person in persons]
    factors = _held_factors(lines, held)
    seat_shift_m = _seat_shift_m(lines.design, held)
    count = len(persons)
    scaling = Scaling(
        legs=np.array([legs_stretch(lines.design, person.body) for person in persons]),
        seat_shift_m=np.full(count, seat_shift_m or 0.0), **_each_size(free))
    found = Searched(lines, tuple(persons), held, openings)
    try:
        says = base_says(lines)
    except WillNotFloat:
        return found
    problem, terms = problem_of(lines, stacked(persons), says, wishes, scaling,
                                factors if follow else {}, seat_shift_m is not None)
    problem, logs, answers = best(problem, terms)
    if held and not follow:
        for index, name in enumerate(FACTORS):
            if name in factors:
                logs[:, index] = np.log(factors[name])
        problem = replace(problem, scaling=replace(problem.scaling, **_each_size(openings)))
        answers = answers_at(problem, logs, [one.rigid for one in answers])
    return replace(found, problem=problem, logs=logs, answers=tuple(answers))


def fitted_of(found, explained):
    """As `fit_many`, from a Searched."""
    if found.problem is None:
        return tuple(_too_heavy(found.lines, one.body.weight_kg + one.gear_kg)
                     for one in found.persons)
    answers = found.answers if explained else _told(found.answers, found.problem.person)
    return tuple(
        _found(found.problem.of(np.array([index])), found.logs[index],
               replace(one.assessed, person=person), found.held, reasons, one, explained)
        for index, (one, person, (_, reasons)) in enumerate(
            zip(answers, found.persons, found.openings, strict=True)))


def _told(answers, person):
    """The Answers with what is told of their boats and not sought; `person` is all of them."""
    told = told_of_each([one.assessed for one in answers], person,
                        upper_body_moment_of(person), [one.rigid for one in answers])
    return [replace(one, mishap=replace(one.mishap, swamped_out_gm_m=gm_m,
                                        wave_arm_area_mrad=area_mrad))
            for one, gm_m, area_mrad in zip(answers, *told, strict=True)]


def _each_size(openings):
    """Lengths and widths of some openings: {Scaling's name: (n,)}."""
    return {name: np.array([sizes[name] for sizes, _ in openings]) for name in openings[0][0]}


def _found(problem, logs, assessed, held, opening_reasons, answer, explained):
    """The Fitted of one of many, or the error that says why there is none."""
    load = assessed.loading.load
    error = None if assessed.floats else refusal(assessed)
    if error is not None and not isinstance(error, WillNotFloat):
        return error
    if error is not None or assessed.upright.rim_freeboard_m <= 0.0:
        return _too_heavy(problem.lines, load.mass_kg)
    try:
        return _fitted(problem, logs, assessed, held, opening_reasons, answer, explained)
    except SizerError as error:
        return error


def _fitted(problem, logs, assessed, held, opening_reasons, answer, explained):
    """The Fitted; explained with its mishaps in full, else those of the Answer."""
    wrong, why, sure = None, {}, answer.sure
    names = [key.removesuffix("_mm").replace("_", " ") for key in held]
    if not explained:
        if not answer.mishap.known:
            return NotSolved("the heeled or swamped boat did not settle")
        if answer.mishap.flooded_spare_m < SURELY_DRY_M:
            sure = with_mishaps(sure, assessed)
            assessed = replace(assessed, spread=sure.spread)
        facts = replace(facts_of(assessed), mishap=answer.mishap)
    else:
        wrong, sure = mishaps(assessed), with_mishaps(sure, assessed)
        assessed = replace(assessed, spread=sure.spread)
        facts = facts_with(assessed, wrong)
        by_hand = {name for name in FACTORS
                   if ("deck_crown" if name == "crown" else f"{name}_mm") in held}
        why = set_by(problem, logs, by_hand) | opening_reasons | _seat_reason(problem, assessed)
    assessed = replace(assessed, sure=sure)
    checks = (*checks_of(facts), *unfair_checks(assessed.boat, quick=not explained))
    odds = odds_all_hard(checks, sure)
    checks = (*checks, *together(checks, odds))
    return Fitted(assessed, wrong, checks, overall(checks), why,
                  sought(assessed, problem.wanted[0]),
                  unmet(checks, names, at_limits(problem, logs)), problem.seat_held, odds)


def _seat_reason(problem, assessed):
    if problem.seat_held:
        reason = "held by you"
    elif assessed.boat.scaling.seat_shift_m:
        reason = "slid towards level trim"
    else:
        reason = "as the base: level enough"
    return {"seat_shift_mm": reason}


def _too_heavy(lines, mass_kg):
    return WillNotFloat(
        f"will not float this: {mass_kg:.1f} kg puts the cockpit rim of {lines.design.name} under "
        "water even at its largest; take less, or a larger base design")


def _opening(lines, person, held):
    """Opening length and width, and why; BadInput with every held one outside the base's limits."""
    design = lines.design
    room = person.room_in(design.cockpit.entry)
    limits = (design.limits.cockpit_length_m, design.limits.cockpit_width_m)
    needed = (room.opening_length_m, room.opening_width_m)
    sizes, reasons, faults = {}, {}, []
    for key, size, need, (low, high) in zip(
            OPENING_KEYS, opening_wanted_m(base_says(lines), design, room,
                                           person.body.hip_sitting.plus_minus_m),
            needed, limits, strict=True):
        mm_key, reason = f"{key}_mm", "room to get in and out, as the base leaves"
        if mm_key in held:
            size, reason = held[mm_key] / MM_PER_M, "held by you"
            if not low - ROUNDING_M <= size <= high + ROUNDING_M:
                faults.append(_outside(mm_key, held[mm_key], low * MM_PER_M, high * MM_PER_M))
        elif need > high:
            reason = "largest the base allows; the body needs more to get in and out"
        elif size in (low, high):
            reason = "at the base's limit"
        sizes[f"{key}_m"], reasons[mm_key] = size, reason
    if faults:
        raise BadInput(faults)
    return sizes, reasons


def _held_factors(lines, held):
    """Held length, beam, depth and crown as factors of the base.

    Raises BadInput with every one that is outside the base's limits.
    """
    if not held:
        return {}
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
    if "deck_crown" in held:
        factors["crown"] = held["deck_crown"]
        low, high = limits.crown
        if not low - 1e-6 <= factors["crown"] <= high + 1e-6:
            faults.append(Fault("fixed.deck_crown", f"{factors['crown']:g}",
                                f"this base allows {low:g} to {high:g} of its own"))
    if faults:
        raise BadInput(faults)
    return factors


def _seat_shift_m(design, held):
    """Where a held seat stands, aft of its own place; None where it may slide.

    Raises BadInput outside the slide of the base.
    """
    if "seat_shift_mm" not in held:
        return None
    forward, aft = (reach * MM_PER_M for reach in design.cockpit.seat_slide_m)
    if not -forward - 1e-6 <= held["seat_shift_mm"] <= aft + 1e-6:
        raise BadInput([_outside("seat_shift_mm", held["seat_shift_mm"], -forward, aft)])
    return held["seat_shift_mm"] / MM_PER_M


def _outside(key, value, low, high):
    return Fault(f"fixed.{key}", f"{value:g} mm",
                 f"this base allows {np.ceil(low):.0f} to {np.floor(high):.0f} mm")
