"""What mends a boat that does not pass: a few remedies, each tried in full before it is offered.

A remedy changes the request, or the base's own limits, and nothing else; what it promises is what
`sizer.job.run` says of the changed request.
"""

from dataclasses import dataclass, replace

import numpy as np
from pydantic import ValidationError

from sizer.design.edit import edited_design
from sizer.design.write import file_of
from sizer.errors import SizerError
from sizer.fit.check import STATUSES, overall
from sizer.fit.request import Request
from sizer.fit.sizes import main_sizes_mm
from sizer.fit.solve import fitted_of
from sizer.hull.lines import Lines, fair_lines
from sizer.hull.seat_bears import SURE_TO_BEAR
from sizer.job import run, searched_for
from sizer.shop.said import listed
from sizer.shop.settings import SHOP
from sizer.units import MM_PER_IN, MM_PER_M, both_text, mark_text

MOST = 3  # remedies told; our judgement
GEAR_STEP_KG = 1.0  # to which less gear is found
AT_ONCE = 5  # loads tried in one go
OPENING_SPARE_M = 0.005  # over the need, to whole steps of as much; our judgement
OPENINGS = {"way-out-long": ("length", "cockpit_length_m"),
            "way-out-wide": ("width", "cockpit_width_m")}
ALL_HELD = "let go of every held size"
DEEPENED = 3  # times at most that what bears the seat is deepened until it bears


@dataclass(frozen=True, eq=False)
class Remedy:
    """What is changed, and what the boat is then."""

    kind: str  # "hold", "opening", "sticks", "gear" or "base"
    words: str  # what to do
    request: Request  # as changed
    lines: Lines  # of the base, as changed
    status: str  # of every check of that boat
    sizes_mm: tuple[float, ...]  # its length, beam and depth
    freeboard_m: float
    left: tuple[str, ...] = ()  # names of its checks that have that status; none of "pass"

    @property
    def sentence(self):
        """What to do, and what it brings."""
        if self.status == "pass":
            return f"{self.words}: passes"
        word = "a caution" if self.status == "caution" else "still does not pass"
        return f"{self.words}: {word} ({', '.join(self.left)})"


def remedies(request, lines, fitted, bases, shop=SHOP):
    """The few remedies of a boat that does not pass; empty where none of those tried helps.

    Parameters
    ----------
    request : Request
    lines : Lines of its base
    fitted : Fitted with every check, of its Job; None where there is no boat
    bases : {key: Lines} of the other bases to try
    shop : Shop whose plywood each is sawn from

    Returns
    -------
    tuple of Remedy, the best first: each brings a better status than the boat has
    """
    now = STATUSES.index(fitted.status) if fitted else len(STATUSES)
    if not now:
        return ()
    found = []
    for kind, words, asked, there, (quick, search) in _candidates(request, lines, fitted, bases):
        if quick < now:  # else the whole job is spared: it cannot help
            one = _tried(kind, words, asked, there, search, shop)
            if one and STATUSES.index(one.status) < now:
                found.append(one)
        if len(found) == MOST or (found and found[-1].kind == "base"
                                  and found[-1].status == "pass"):
            break
    return tuple(sorted(found, key=lambda one: STATUSES.index(one.status)))


def _candidates(request, lines, fitted, bases):
    """(kind, words, Request, Lines, what `_quick` gives) to try: what changes least first, of the
    bases those that pass as soon as one is found, then the best."""
    yield from _let_go(request, lines)
    if fitted:
        yield from _wider(request, lines, fitted)
        yield from _stouter(request, lines, fitted)
    if request.trip.gear_kg:
        yield from _less_gear(request, lines, fitted)
    others = []
    for key, there in bases.items():
        asked = replace(request, trip=replace(request.trip, base=key), fixed=())
        one = "base", f"take {there.design.name}", asked, there, _quick(asked, there)
        if one[-1][0] == 0:
            yield one
        else:
            others.append(one)
    yield from sorted(others, key=lambda other: other[-1][0])


def _let_go(request, lines):
    """Each held size let go of; all of them, where there are more and no single one mends it."""
    alone = False
    for key, size in request.fixed:
        name = key.removesuffix("_mm").replace("_", " ")
        asked = replace(request, fixed=tuple(pair for pair in request.fixed if pair != (key, size)))
        quick = _quick(asked, lines)
        alone = alone or quick[0] == 0
        yield "hold", f"let go of the held {name}", asked, lines, quick
    if len(request.fixed) > 1 and not alone:
        asked = replace(request, fixed=())
        yield "hold", ALL_HELD, asked, lines, _quick(asked, lines)


def _wider(request, lines, fitted):
    """The base with its limits on the opening widened as far as the body needs."""
    limits, said = lines.design.limits, []
    for key, (side, name) in OPENINGS.items():
        check = fitted.check(key)
        if check is None or check.too != "small":
            continue
        steps = -(-check.window_si[0] // OPENING_SPARE_M)  # whole steps that reach the need
        wanted = (steps + 1.0) * OPENING_SPARE_M
        low, high = getattr(limits, name)
        if wanted > high:
            limits = replace(limits, **{name: (low, wanted)})
            said.append(f"its {side} to {both_text(wanted * MM_PER_M)}")
    if said:
        wider = replace(lines, design=replace(lines.design, limits=limits))
        yield ("opening", f"widen the opening in the base, {' and '.join(said)}", request, wider,
               _quick(request, wider))


def _stouter(request, lines, fitted):
    """The base with what bears the seat as much deeper, in whole mm, as bears this paddler."""
    found, design = fitted, lines.design
    for _ in range(DEEPENED):
        check = found.check("seat-bears")
        if check is None or check.too != "small":
            break
        design = _deepened(design, found.assessed.space.bears_each)
        try:
            stouter = fair_lines(edited_design(file_of(design).model_dump()))
        except (SizerError, ValidationError):
            return  # no room for sticks so deep
        try:
            search = searched_for([request], stouter)
        except SizerError:
            return
        found, = fitted_of(search, False)
        if isinstance(found, SizerError):
            return
    if design is not lines.design:
        yield ("sticks", f"in the base, make {listed(_deeper(lines.design, design))}",
               request, stouter, (STATUSES.index(overall(found.checks)), search))


def _deepened(design, bears):
    """The BaseDesign with each stick under the seat, its plates or its slats, as strong as is
    wanted: bending strength goes with the depth squared. `bears` as
    `sizer.hull.seat_bears.bears_ratio`."""
    factors = np.sqrt(np.maximum(SURE_TO_BEAR / bears, 1.0))
    if factors[-1] > 1.0:
        design = replace(design, seat=replace(
            design.seat, thickness_m=_whole_mm(design.seat.thickness_m * factors[-1])))
    if design.seat.kind == "slats":
        return design
    deeper = dict(zip(design.seat.stands_on, factors[:-1], strict=True))
    return replace(design, stringers=tuple(
        replace(one, depth_m=_whole_mm(one.depth_m * deeper[one.name]))
        if deeper.get(one.name, 1.0) > 1.0 else one for one in design.stringers))


def _whole_mm(size_m):
    """Up to whole mm."""
    return float(np.ceil(size_m * MM_PER_M)) / MM_PER_M


def _deeper(before, after):
    """What of a design is deeper in another of it, as words."""
    sticks = [(f"the {old.name}", "deep", old.depth_m, new.depth_m)
              for old, new in zip(before.stringers, after.stringers, strict=True)]
    kind = "plates" if before.seat.kind == "panel" else "slats"
    seat = f"the seat's {kind}", "thick", before.seat.thickness_m, after.seat.thickness_m
    return [f"{name} {_no_less_text(new * MM_PER_M)} {deep}, not {both_text(old * MM_PER_M)}"
            for name, deep, old, new in (*sticks, seat) if new != old]


def _no_less_text(mm):
    """Whole mm, and the next sixteenth of an inch that is no less."""
    return f"{mm:.0f} mm ({mark_text(MM_PER_IN / 16.0 * np.ceil(mm / MM_PER_IN * 16.0), 'in')})"


def _less_gear(request, lines, fitted):
    """The most gear, in whole steps, with which the status is the best that none gives."""
    now = STATUSES.index(fitted.status) if fitted else len(STATUSES)
    best, search = _quick(_with_gear(request, 0.0), lines)
    if best >= now:
        return
    enough, over = 0, int(-(-request.trip.gear_kg // GEAR_STEP_KG))  # in steps
    while over - enough > 1:
        between = np.unique(np.linspace(enough, over, AT_ONCE + 2).astype(int))[1:-1]
        statuses, _ = _quick_many([_with_gear(request, GEAR_STEP_KG * steps)
                                   for steps in between.tolist()], lines)
        good = [steps for steps, status in zip(between.tolist(), statuses, strict=True)
                if status <= best]
        enough = max(good, default=enough)
        over = min((steps for steps in between.tolist() if steps > enough), default=over)
    gear_kg = enough * GEAR_STEP_KG
    yield ("gear", f"{request.trip.gear_kg - gear_kg:.3g} kg less gear (then {gear_kg:.0f} kg)",
           _with_gear(request, gear_kg), lines, (best, None if enough else search))


def _with_gear(request, gear_kg):
    return replace(request, trip=replace(request.trip, gear_kg=gear_kg))


def _quick(request, lines):
    """(index into STATUSES of the fit's own checks, one more where there is no boat; the Searched
    or None)."""
    (status,), search = _quick_many([request], lines)
    return status, search


def _quick_many(requests, lines):
    """As `_quick`, of many that differ by person or gear alone: a list of indices, one Searched."""
    try:
        search = searched_for(requests, lines)
    except SizerError:
        return [len(STATUSES)] * len(requests), None
    return [len(STATUSES) if isinstance(one, SizerError)
            else STATUSES.index(overall(one.checks)) for one in fitted_of(search, False)], search


def _tried(kind, words, request, lines, search, shop):
    """The Remedy with what the whole job says of it; None where there is no boat."""
    try:
        fitted = run(request, lines, search, shop).fitted
    except SizerError:
        return None
    left = tuple(check.name for check in fitted.checks
                 if fitted.status != "pass" and check.status == fitted.status)
    assessed = fitted.assessed
    return Remedy(kind, words, request, lines, fitted.status, main_sizes_mm(assessed.boat),
                  assessed.particulars.freeboard_m, left)
