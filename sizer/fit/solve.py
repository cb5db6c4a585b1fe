"""The fit: the boat that is to this paddler what the base is to whom it was drawn for.

Bounded least squares over the length, beam, depth and crown factors (`sizer.fit.search`) of what is
sought (`sizer.fit.sought`), the checks as walls. The opening follows from the body, the seat slides
to level the boat inside each evaluation. Nothing is random: the same request gives the same boat.
Holding a size leaves the others as fitted, unless they are asked to follow; but a boat is always
fitted round a seat that is held, since where the paddler sits is what it is trimmed for.
"""

from dataclasses import dataclass, replace

import numpy as np

from sizer.errors import NotSolved, SizerError, WillNotFloat
from sizer.fit.assess import Assessed, refusal
from sizer.fit.bench_found import unfair_checks
from sizer.fit.check import Check, overall
from sizer.fit.checks import checks_of, checks_within
from sizer.fit.held import SEAT_KEY, held_factors, held_seat_m, opening_of
from sizer.fit.mishaps import Mishaps, facts_with, mishaps, upper_body_moment_of
from sizer.fit.odds import odds_all_hard, surely_failed, together, with_mishaps
from sizer.fit.person import Person, legs_stretch
from sizer.fit.reasons import at_limits, set_by, unmet
from sizer.fit.search import Answer, Problem, answers_at, best, problem_of
from sizer.fit.sought import FACTORS, NO_WISHES, Sought, base_says, sought
from sizer.fit.told import told_of_each
from sizer.hull.lines import Lines
from sizer.hull.scale import Scaling
from sizer.rows import stacked
from sizer.units import both_mass

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
        are worked out with the largest bags, for the checks alone, which say nothing of this boat

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


def searched(lines, persons, fixed=(), wishes=NO_WISHES, follow=False, freely=None):
    """The Searched of some people; parameters and BadInput as `fit`.

    `freely` gives their `searched_freely` from the pairs that hold a seat, where that is kept.
    """
    if follow:
        return _searched(_asked(lines, persons, fixed), held_factors(lines, dict(fixed)), wishes)
    freely = freely or (lambda seat: searched_freely(lines, persons, seat, wishes))
    return _searched_holding(lines, persons, fixed, freely) if fixed else freely(())


def searched_freely(lines, persons, seat=(), wishes=NO_WISHES):
    """As `searched`, of people who hold no size; `seat` are the pairs that hold one."""
    return _searched(_asked(lines, persons, seat), {}, wishes)


def _searched_holding(lines, persons, fixed, freely):
    """As `searched`, what is not held left as it was found freely."""
    found, factors = _asked(lines, persons, fixed), held_factors(lines, dict(fixed))
    held_seat_m(lines.design, found.held)  # refused before anything is looked for
    free = freely(tuple(pair for pair in fixed if pair[0] == SEAT_KEY))
    if free.problem is None:
        return found
    logs = free.logs.copy()
    for index, name in enumerate(FACTORS):
        if name in factors:
            logs[:, index] = np.log(factors[name])
    problem = replace(free.problem, scaling=replace(free.problem.scaling,
                                                    **_each_size(found.openings)))
    answers = answers_at(problem, logs, [one.rigid for one in free.answers])
    return replace(found, problem=problem, logs=logs, answers=tuple(answers))


def _asked(lines, persons, fixed):
    """The Searched of people before anything is looked for."""
    held = dict(fixed)
    return Searched(lines, tuple(persons), held,
                    tuple(opening_of(lines, person, held) for person in persons))


def _searched(found, factors, wishes):
    """The Searched with boats of its openings and these factors, its seat where it is held."""
    lines, persons = found.lines, found.persons
    seat_shift_m = held_seat_m(lines.design, found.held)
    scaling = Scaling(
        legs=np.array([legs_stretch(lines.design, person.body) for person in persons]),
        seat_shift_m=np.full(len(persons), seat_shift_m or 0.0), **_each_size(found.openings))
    try:
        says = base_says(lines)
    except WillNotFloat:
        return found
    problem, logs, answers = best(*problem_of(lines, stacked(persons), says, wishes, scaling,
                                              factors, seat_shift_m is not None))
    return replace(found, problem=problem, logs=logs, answers=answers)


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
    return [replace(one, facts=replace(one.facts, mishap=replace(
        one.facts.mishap, swamped_out_gm_m=gm_m, wave_arm_area_mrad=area_mrad)))
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
        if not answer.facts.mishap.known:
            return NotSolved("the heeled or swamped boat did not settle")
        if answer.facts.mishap.flooded_spare_m < SURELY_DRY_M:
            sure = with_mishaps(sure, assessed)
            assessed = replace(assessed, spread=sure.spread)
        checks = checks_within(answer.facts, problem.limits[:, 0], assessed.spread)
    else:
        wrong, sure = mishaps(assessed), with_mishaps(sure, assessed)
        assessed = replace(assessed, spread=sure.spread)
        checks = checks_of(facts_with(assessed, wrong))
        by_hand = {name for name in FACTORS
                   if ("deck_crown" if name == "crown" else f"{name}_mm") in held}
        why = set_by(problem, logs, by_hand) | opening_reasons | _seat_reason(problem, assessed)
    assessed = replace(assessed, sure=sure)
    checks = (*checks, *unfair_checks(assessed.boat, quick=not explained))
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
    return {SEAT_KEY: reason}


def _too_heavy(lines, mass_kg):
    return WillNotFloat(
        f"will not float this: {both_mass(mass_kg)} puts the cockpit rim of "
        f"{lines.design.name} under water even at its largest; take less, or a larger base design")
