"""What would raise the odds: a measure more, or a thing to build, weigh or stow with care.

Each is taken as known exactly, all else as it strays, and the boat as it is: what that does to the
spread of steadiness and to the odds that all hard checks are met.
"""

from dataclasses import dataclass, replace

import numpy as np

from sizer.fit.checks import ROWS
from sizer.fit.odds import Sure, odds_all_hard
from sizer.paddler.spread import INPUTS, OWN, covariance_with

# Measures a tape can take that a fit may go without, and how each is called in a sentence.
TAPED = {"hip_sitting": "hip width, sitting", "sitting_height": "sitting height",
         "inseam": "inseam", "foot_length": "foot length"}
# What to do about everything else that strays, one for each of what strays alike.
CARE = {
    ("centre-height",): "find the height of your seated centre by the heel test at the launch",
    ("centre-ahead",): "sit in the place that was fitted, and trim the boat at the launch",
    ("weight-day", "clothing"): "be weighed dressed as you paddle, paddle and spray deck in hand",
    ("boat-weight",): "weigh the wood and the skin as you build",
    ("build-beam",): "hold the beam to the setting-up marks at the dry fit",
    ("build-depth",): "hold the depth to the setting-up marks at the dry fit",
    ("gear-mass",): "weigh the gear",
    ("gear-ahead", "gear-height"): "stow the gear low and where it was planned",
    ("water-density",): "know the water: fresh, brackish or salt",
}
RANKED = 3
GM = next(place for place, row in enumerate(ROWS) if row.key == "gm")


@dataclass(frozen=True)
class Matter:
    """One thing known exactly, and what it brings."""

    key: str
    what: str
    measured: bool  # with a tape, else by what is done at the bench or at the launch
    gm_sd_m: float  # of steadiness, then
    odds: float  # of all hard checks together, then
    narrows: float  # of the variance of the least sure hard check, the share that goes


def matters(checks, sure, body):
    """Every Matter of a boat and its paddler: those that raise the odds most first.

    Odds that hang on what is known of this paddler can also fall as it is measured: this is what
    they come to where the measure turns out as predicted.

    Parameters
    ----------
    checks : of the boat
    sure : Sure of them
    body : Body of the paddler
    """
    rows = {row.key: place for place, row in enumerate(ROWS[:sure.slopes.shape[0]])}
    least = min((one for one in checks if one.is_hard and one.sd_si and one.key in rows),
                key=lambda one: one.odds, default=None)
    found = []
    for key, what, covariance in _known_better(sure.covariance, body):
        better = Sure(sure.slopes, covariance)
        sd = dict(zip(rows, better.sd.tolist(), strict=True))
        told = [replace(one, sd_si=sd[one.key]) if one.key in sd else one for one in checks]
        narrows = 0.0 if least is None else 1.0 - (sd[least.key] / least.sd_si) ** 2
        found.append(Matter(key, what, key in TAPED, sd["gm"], odds_all_hard(told, better),
                            narrows))
    return tuple(sorted(found, key=lambda one: (-round(one.odds, 2), -one.narrows)))


def worth_measuring(found):
    """Those of some matters that a tape can take."""
    return tuple(one for one in found if one.measured)


def with_care(found):
    """The few things that matter most, of some in order."""
    return tuple(one for one in found if one.narrows > 0.005 or one.key in TAPED)[:RANKED]


def gm_sd_m(sure):
    """One standard deviation of GM as it is known now."""
    return float(sure.sd[GM])


def _known_better(covariance, body):
    """(key, words, covariance) with one thing after another known exactly."""
    for name, words in TAPED.items():
        if not getattr(body, name).measured:
            better = covariance.copy()
            own = len(OWN)  # those that stray by themselves stay as they are
            better[own:, own:] = covariance_with(body, name)[own:, own:]
            yield name, f"measure {words}", better
    for keys, words in CARE.items():
        better = covariance.copy()
        places = [INPUTS.index(key) for key in keys]
        better[places] = 0.0
        better[:, places] = 0.0
        if not np.array_equal(better, covariance):
            yield keys[0], words, better
