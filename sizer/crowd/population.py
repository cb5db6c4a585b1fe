"""People drawn at random as the survey found them: for trying a range of boats on a crowd.

The logarithms of all measures are drawn jointly normal, with the means and covariances that give
the survey's own, sex by sex (ANSUR II, Gordon et al. 2014, `sizer/paddler/body_table.json`). So
weight leans to the heavy side as surveyed weights do: the 5th and 95th percentiles of every measure
lie within 1 % of the published ones (tested). Soldiers of 17 to 58 years: customers spread wider
in weight and hips, which is what the shift and the spread are for.
"""

import json
from dataclasses import dataclass
from functools import cache
from importlib import resources

import numpy as np

from sizer.crowd.plausible import odd_measures
from sizer.errors import BadInput, Fault
from sizer.paddler.measures import read_paddler

# Drawn columns of the table and the column each is in a list of people.
DRAWN = {"weight_kg": "weight_kg", "stature_mm": "stature_mm",
         "hip_breadth_sitting_mm": "hip_width_mm", "crotch_height_mm": "inseam_mm",
         "sitting_height_mm": "sitting_height_mm", "foot_length_mm": "foot_length_mm",
         "bideltoid_breadth_mm": "shoulder_width_mm"}
AT_ONCE = 256  # drawn together, always, so that a longer crowd begins with a shorter one
MOST_REDRAWN = 100  # times the people wanted; beyond, the shift or spread asks for no bodies
LIMITS = {  # of a Recipe's fields
    "count": (1, 10_000_000), "seed": (0, 2**63), "share_women": (0.0, 1.0),
    "weight_shift_kg": (-40.0, 80.0), "weight_spread": (0.1, 3.0),
}


@dataclass(frozen=True)
class Recipe:
    """What crowd is drawn; LIMITS says within what."""

    count: int
    seed: int
    share_women: float = 0.5
    weight_shift_kg: float = 0.0  # heavier than surveyed, everyone
    weight_spread: float = 1.0  # factor on everyone's way from their sex's mean weight


@dataclass(frozen=True)
class Drawn:
    woman: bool
    measures: dict  # by column of a list of people; weight to 0.1 kg, lengths to 1 mm
    redrawn: int  # bodies drawn before this one that no list of people may hold


def drawn_people(recipe):
    """The people of a Recipe, one by one: the same for the same recipe, however many are wanted.

    A changed weight carries the other measures but stature along, each by the survey's slope on
    weight at equal stature. A body that `read_people` would refuse is drawn anew.

    Yields
    ------
    Drawn

    Raises
    ------
    BadInput with every fault; or where hardly a body drawn is allowed.
    """
    faults = [Fault(f"--{key.replace('_', '-')}", f"{value:g}", f"{low:g} to {high:g}")
              for key, (low, high) in LIMITS.items()
              if not low <= (value := getattr(recipe, key)) <= high]
    if faults:
        raise BadInput(faults)
    random = np.random.default_rng(recipe.seed)
    given = refused = 0
    while given < recipe.count:
        women = random.random(AT_ONCE) < recipe.share_women
        normal = random.standard_normal((AT_ONCE, len(DRAWN)))
        values = np.where(women[:, None], _bodies(normal, "female", recipe),
                          _bodies(normal, "male", recipe))
        for woman, row in zip(women.tolist(), values, strict=True):
            measures = dict(zip(DRAWN.values(), _rounded(row), strict=True))
            if not _allowed(measures):
                refused += 1
                continue
            yield Drawn(woman, measures, refused)
            given += 1
            if given == recipe.count:
                return
        if refused > MOST_REDRAWN * max(given, AT_ONCE):
            raise BadInput([Fault("--weight-shift-kg, --weight-spread", f"{refused} bodies refused",
                                  "nearer to 0 and 1: hardly anyone drawn so can be fitted")])


def _bodies(normal, sex, recipe):
    """(n, 7) measures of one sex, in the table's units and the order of DRAWN."""
    mean, log_mean, factor, carried = _survey(sex)
    bodies = np.exp(log_mean + normal @ factor.T)
    heavier = (recipe.weight_spread - 1.0) * (bodies[:, 0] - mean[0]) + recipe.weight_shift_kg
    return bodies + heavier[:, None] * carried


@cache
def _survey(sex):
    """Means (7,), means of the logarithms, their covariance's factor, and what a kilogram carries.

    For lognormal measures cov(ln a, ln b) = ln(1 + cov(a, b) / (mean a mean b)).
    """
    table = json.loads(
        resources.files("sizer.paddler").joinpath("body_table.json").read_text("utf-8"))
    at = [table["columns"].index(name) for name in DRAWN]
    mean = np.array(table[sex]["mean"])[at]
    covariance = np.array(table[sex]["covariance"])[np.ix_(at, at)]
    of_logs = np.log1p(covariance / np.outer(mean, mean))
    carried = np.linalg.solve(covariance[:2, :2], covariance[:2])[0]  # 1 for weight, 0 for stature
    return mean, np.log(mean) - np.diag(of_logs) / 2.0, np.linalg.cholesky(of_logs), carried


def _rounded(row):
    weight, *lengths = row.tolist()
    return round(weight, 1), *(round(length) for length in lengths)


def _allowed(measures):
    try:
        measured = read_paddler(measures)
    except BadInput:
        return False
    return not odd_measures(measured)[0]


def population_lines(recipe):
    """The crowd as the lines of a CSV that `read_people` reads; # lines say how it was drawn."""
    yield (f"# {recipe.count} people drawn from the ANSUR II survey (Gordon et al. 2014), soldiers "
           f"of 17 to 58 years; seed {recipe.seed}")
    yield (f"# share of women {recipe.share_women:g}; weight shifted by "
           f"{recipe.weight_shift_kg:g} kg; its spread times {recipe.weight_spread:g}")
    yield "# CAUTION: nobody's own measures: for choosing among boats, never to build one by"
    yield ",".join(("id", *DRAWN.values()))
    redrawn = 0
    for number, one in enumerate(drawn_people(recipe), start=1):
        redrawn = one.redrawn
        yield ",".join((f"{'w' if one.woman else 'm'}{number}", *map(str, one.measures.values())))
    yield f"# {redrawn} bodies drawn anew, since no list of people may hold them"
