"""The odds of a fit's checks with what its launch taught: the slopes of the fit, what is left
unknown of weights and centres after the readings, and all else straying as it did.
"""

from dataclasses import replace

import numpy as np

from sizer.built.departures import FORM_M, NAMES
from sizer.built.learnt import odds_above
from sizer.fit.checks import ROWS
from sizer.fit.odds import Sure, odds_all_hard
from sizer.paddler.spread import INPUTS, SPREADS
from sizer.units import MM_PER_M

# The input that each departure is, and its sense; the load is read as the paddler's weight. What a
# predicted sitting height adds to the centre's height is in the departure already.
AS_INPUT = {"seat_up": ("centre-height", 1.0), "seat_fore": ("centre-ahead", 1.0),
            "gear_aft": ("gear-ahead", -1.0), "gear_up": ("gear-height", 1.0),
            "load_kg": ("weight-day", 1.0)}
IN_THE_LOAD = ("clothing", "gear-mass", "sitting_height")  # told by a departure, so not once more


def checks_after(fitted, lesson):
    """The Checks of an explained fit as they are likeliest after a Lesson's readings, with their
    spread, and the Sure of them."""
    sure, boat_kg = fitted.sure, fitted.assessed.weight.mass_kg
    rows = {row.key: place for place, row in enumerate(ROWS[:len(sure.slopes)])}
    moved = np.zeros((len(INPUTS), len(NAMES)))
    for name, (key, sense) in AS_INPUT.items():
        moved[INPUTS.index(key), NAMES.index(name)] = sense
    moved[INPUTS.index("boat-weight"), NAMES.index("boat_kg")] = 1.0 / boat_kg
    # a form that is steadier is put to the beam as built, spread for spread
    moved[INPUTS.index("build-beam"), NAMES.index("form")] = SPREADS["build-beam"].sd / FORM_M
    known = moved.any(axis=1)
    known[[INPUTS.index(key) for key in IN_THE_LOAD]] = True
    covariance = np.where(known[:, None] | known, 0.0, sure.covariance)
    after = Sure(sure.slopes, covariance + moved @ lesson.left @ moved.T)
    off = sure.slopes @ moved @ lesson.departures
    return tuple(
        replace(one, value_si=one.value_si + float(off[rows[one.key]]),
                sd_si=float(after.sd[rows[one.key]]))
        if one.key in rows and one.sd_si is not None else one
        for one in fitted.checks), after


def odds_after(fitted, lesson):
    """The odds, after the readings, that every check that can fail is met; as `checks_after`, in
    the worst of the Lesson's ways; None where one of them fits no boat."""
    if lesson.fits_no_boat:
        return None
    return min(odds_all_hard(*checks_after(fitted, one)) for one in lesson.every_way())


def gm_odds(fitted, lesson):
    """Odds before and after a Lesson that GM is not below where its check fails; after as of
    `odds_after`."""
    least, gm = fitted.check("gm").window[0] / MM_PER_M, lesson.of("gm_m")
    before = odds_above(least, gm.before, gm.before_plus_minus)
    if lesson.fits_no_boat:
        return before, None
    ways = [one.of("gm_m") for one in lesson.every_way()]
    return before, min(odds_above(least, one.after, one.after_plus_minus) for one in ways)
