"""Checks, what was sought and padding in words: written once for every sheet and table."""

from functools import partial
from math import ceil, floor

from sizer.fit.check_figures import WRITTEN, value_words, written
from sizer.fit.checks import BODY_SOURCE
from sizer.fit.facts import facts_of, room_left
from sizer.paddler.body import NINE_IN_TEN_SD
from sizer.shop.hip_pads import room_words
from sizer.shop.said import both
from sizer.units import MM_PER_M, both_mass, bound_inches, mark_text

LEAST_PAD_M = 0.003  # less is left to the clothes
STATUS_WORDS = {"pass": "passes", "caution": "caution", "fail": "does not pass"}  # of one check
CHECKS_WORDS = {"pass": "all pass", "caution": "pass with caution", "fail": "DO NOT PASS"}
COUNTS = "as much as counts (our judgement)"  # of what is off what was sought
PLACES = {"hips_each_side": "each side of the hips", "thighs": "over the thighs",
          "knees": "over the knees"}


def window_words(check, lengths=None):
    """What is wanted of a check, from which side to which, and where it fails if that differs."""
    if check.unit == "of 1":
        return "yes"
    figure, unit = written(check.unit, lengths)
    fails_below, wanted_from, wanted_to, fails_above = check.window
    low = _first(max, fails_below, wanted_from)
    high = _first(min, wanted_to, fails_above)
    least = most = figure
    if lengths == "in" and WRITTEN[check.unit].length:  # as every other paper tells a limit
        least, most = (partial(bound_inches, to_strict=way) for way in (ceil, floor))
        if any(one != end and text(one) == text(end) for one, end, text in (
                (fails_below, low, least), (fails_above, high, most)) if one is not None):
            least = most = partial(mark_text, unit=lengths)  # else the two read as one
    parts = [f"{_range(low, high, least, most)}{unit}"]
    if fails_below is not None and fails_below != low:
        parts.append(f"fails under {least(fails_below)}{unit}")
    if fails_above is not None and fails_above != high:
        parts.append(f"fails over {most(fails_above)}{unit}")
    return "; ".join(parts)


def check_words(check):
    """One sentence of a check that does not pass: figures, window, meaning, what mends it."""
    mends = f" What mends it: {check.remedy}." if check.remedy else ""
    return (f"{check.name}: {value_words(check)}, wanted {window_words(check)} "
            f"({check.status}). {capital(check.meaning)}.{mends}")


def in_a_hundred(odds):
    """Odds as a whole number of a hundred; never all or none of them."""
    return min(max(round(100.0 * odds), 1), 99)


def odds_words(odds):
    """Odds as a natural frequency."""
    if odds >= 0.995:
        return "more than 99 of 100"
    return "fewer than 1 of 100" if odds < 0.005 else f"{in_a_hundred(odds)} of 100"


def odds_met(odds):
    return f"{odds_words(odds)} such paddlers in such boats meet every limit that can fail"


def odds_sentence(odds):
    return (f"{odds_met(odds)}: the rest have a body, a load or a boat that differs from what is "
            "predicted, by as much as such things do.")


def worst_words(check, lengths=None):
    """One check's odds, and its worst plausible value: that of the tenth least lucky in a hundred.

    What is predicted of the body counts as if it were the boat that differed.
    """
    figure, unit = written(check.unit, lengths)
    low, high = check.window[0], check.window[3]
    under = high is None or (low is not None and check.value - low < high - check.value)
    worst = check.value + (-1.0 if under else 1.0) * NINE_IN_TEN_SD * check.spread
    limit = f"at least {figure(low)}" if under else f"at most {figure(high)}"
    return (f"{capital(check.name)}: {odds_words(check.odds)} meet the limit of {limit}{unit}. It "
            f"is {figure(check.value)}{unit}; one in ten has {figure(worst)}{unit} or "
            f"{'less' if under else 'more'}.")


def of_the_body(check):
    """Whether a check's figures tell a body measure, which sheets for others leave out."""
    return check.source == BODY_SOURCE


def sought_rows(fitted):
    """(what, sought, reached, off, from where off counts) of all the fit sought, in words."""
    return [(one.aim.title, *(_sought(value, one.aim.unit) for value in (one.wanted, one.value)),
             _apart(one), _sought(one.aim.scale, one.aim.unit)) for one in fitted.sought]


def gave_way(fitted):
    """What gave way: titles of what is off what was sought by as much as counts, or more."""
    return [one.aim.title for one in fitted.sought if one.steps_off >= 1.0]


def gave_way_words(fitted):
    """The same as a sentence; where nothing did, what comes nearest to it."""
    names = gave_way(fitted)
    if names:
        return f"What gave way, off by {COUNTS} or more: {', '.join(names)}."
    most = max(fitted.sought, key=lambda one: one.steps_off)
    off, counts = _apart(most).removeprefix("-"), _sought(most.aim.scale, most.aim.unit)
    return (f"Nothing gave way: nothing is off by {COUNTS}. Nearest to that comes "
            f"{most.aim.title}: off by {off if off != counts else 'a hair less'}, where {counts} "
            "count.")


def day_load_words(assessed, said=both_mass):
    """Why figures with the day's load differ from the others; nothing where they are the same.
    `said` writes a mass in kg."""
    drawn_kg, gear_kg = assessed.boat.design.drawn_for.gear_kg, assessed.person.gear_kg
    if gear_kg > drawn_kg:
        yield (f"“With the day's load” is with {said(drawn_kg)} of gear, what its base was drawn "
               f"for. All other figures are with this job's {said(gear_kg)}, the checks' too: so "
               "their freeboard and GM may differ from these.")


def padding_words(assessed, bench):
    """The room that is over the body's need, and the foam that a Bench's pads take of it;
    beside the hips between the spacers as they are sawn, where pads are on them."""
    hips, thigh = bench.hip_pads, bench.thigh
    over = room_left(facts_of(assessed)) | ({} if hips is None else {"hips_each_side": hips.room_m})
    left = [f"{both(size)} {PLACES[place]}"
            for place, size in over.items() if size >= LEAST_PAD_M]
    room = (f"Room left over, clothing allowed for: {', '.join(left)}." if left
            else "No room is left over.")
    pads = [*([] if hips is None else [f"{capital(room_words(hips))}."]),
            *([] if thigh is None else [
                f"Under the boards of the thigh braces at most {both(thigh.pad_m)} of foam: "
                "boards, deck and a flat hand between thigh and foam take the rest."])]
    if not pads:
        return f"{room} The plans place no foam."
    return (f"{room} {' '.join(pads)} Foam as the plans place it, and nowhere else. Begin "
            "thinner, at the hips with the bare board: nothing may hold you on the way out.")


def capital(text):
    """The text with a capital first letter, the rest as it is."""
    return text[:1].upper() + text[1:]


def _first(choose, *sides):
    there = [side for side in sides if side is not None]
    return choose(there) if there else None


def _range(low, high, least, most):
    if low is None and high is None:
        return "any"
    if low is None:
        return f"at most {most(high)}"
    if high is None:
        return f"at least {least(low)}"
    if low == high or least(low) == most(high):  # a body that needs more than is wanted of others
        return least(low)
    return f"{least(low)} to {most(high)}"


def _sought(value, unit):
    figure, behind = written(unit)
    return f"{figure(value * _per(unit))}{behind}"


def _apart(one):
    """How far apart both figures of a Sought are as they are written beside it."""
    figure, behind = written(one.aim.unit)
    reached, wanted = (float(figure(value * _per(one.aim.unit))) for value in (
        one.value, one.wanted))
    return f"{figure(reached - wanted)}{behind}"


def _per(unit):
    return MM_PER_M if unit == "mm" else 1.0
