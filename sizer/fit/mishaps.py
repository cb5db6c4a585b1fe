"""What happens when things go wrong: the righting curve and the flooded boat, with their checks.

Worked out once on the fitted boat, not inside the search. The limits on righting are cautions:
a rigid paddler's curve vanishes early on good boats of this kind, and what a moving one adds is a
model. Bags that cannot keep the rim clear are a failure.
"""

from dataclasses import dataclass, replace

import numpy as np

from sizer.fit.checks import JUDGEMENT, Check, overall
from sizer.fit.reasons import shortfall_sentence
from sizer.hydro.bags import RIM_MARGIN_M, Bags, smallest_bags
from sizer.hydro.ends import End, end_zones
from sizer.hydro.flooded import Aboard, Flooded, flooded
from sizer.hydro.mover import MOVER_TO_DEG, upper_body_moment_kgm, upright_mover
from sizer.hydro.stability import (
    HEELS_DEG,
    RightingCurve,
    StabilityParticulars,
    righting_curve,
    stability_particulars,
)
from sizer.units import MM_PER_M

RIGHTING_SOURCE = ("calm water, paddler upright to 35 degrees of lean: our model; "
                   "limit: our judgement")


@dataclass(frozen=True, eq=False)
class Mishaps:
    """The fitted boat heeled and flooded, with the paddler in the seat."""

    rigid: RightingCurve  # the paddler part of the boat
    mover: RightingCurve  # upper body kept upright
    rigid_sums: StabilityParticulars
    mover_sums: StabilityParticulars
    bare: Flooded  # no bags
    bags: Bags


def mishaps(assessed):
    """The Mishaps of an assessed boat.

    Raises
    ------
    WillNotFloat, NotSolved: see `sizer.hydro.stability` and `sizer.hydro.flooded`.
    """
    boat, water, load = assessed.boat, assessed.person.water, assessed.loading
    rigid = righting_curve(boat.sections, load.load, water)
    mover = upright_mover(rigid, upper_body_moment(assessed))
    aboard = aboard_of(assessed)
    return Mishaps(rigid, mover, stability_particulars(rigid), stability_particulars(mover),
                   flooded(boat, assessed.weight, aboard, End(), End(), water),
                   smallest_bags(boat, assessed.weight, aboard, water))


def upper_body_moment(assessed):
    """Of the paddler above the hip, in kg m."""
    person = assessed.person
    return upper_body_moment_kgm(person.body.weight_kg, person.centre.nominal_height_m)


def aboard_of(assessed, paddler=True):
    """Who and what is in the flooded boat; without the paddler, who is beside it."""
    load = assessed.loading
    if not paddler:
        return Aboard(load.gear)
    return Aboard(load.gear, load.paddler, assessed.person.body)


def mishap_checks(assessed, found):
    """The checks that Mishaps feed."""
    return _checks(assessed, found.mover_sums, found.bags.kept, found.bags.margin_m,
                   found.bags.says)


def quick_mishap_checks(assessed, near=None):
    """The checks of `mishap_checks` with the same statuses, in a quarter of the time.

    `near` is the `quick_righting` of a like boat, to start from.
    """
    sums = stability_particulars(
        upright_mover(quick_righting(assessed, near), upper_body_moment(assessed)))
    kept, says = flooded_with_bags(assessed)
    return _checks(assessed, sums, kept, RIM_MARGIN_M, says)


def quick_righting(assessed, near=None):
    """The rigid paddler's RightingCurve to 90 degrees, where that of an upright one ends.

    Its rim angle moves by less than 0.001 degrees (tested).
    """
    heels = tuple(heel for heel in HEELS_DEG if heel <= MOVER_TO_DEG)
    return righting_curve(assessed.boat.sections, assessed.loading.load, assessed.person.water,
                          heels, near)


def flooded_with_bags(assessed):
    """(Flooded, what it says) with the largest bags that fit, or the kept ones of the search.

    Where the largest keep the rim clear, so do the smallest that do, since the search for them
    ends at the largest: they are not looked for, and the rim's height is that with the largest.
    """
    boat, water, aboard = assessed.boat, assessed.person.water, aboard_of(assessed)
    fits = end_zones(boat, aboard.gear)
    largest = (End(float(np.floor(zone.bag_l))) for zone in (fits.bow, fits.stern))
    kept = flooded(boat, assessed.weight, aboard, *largest, water)
    if kept.rim_clearance_m is not None and kept.rim_clearance_m >= RIM_MARGIN_M:
        return kept, kept.says
    bags = smallest_bags(boat, assessed.weight, aboard, water)  # smaller may float it level
    return bags.kept, bags.says


def _checks(assessed, sums, kept, margin_m, says):
    use = assessed.person.use
    clear_m = kept.rim_clearance_m
    if clear_m is None:  # it sinks: counted as under by the boat's whole depth
        clear_m = -assessed.boat.depth_m
    return (
        _soft("range of stability", _reached(sums.vanishing_deg), "deg", use.least_range_deg,
              "heel to which a paddler who keeps the upper body upright is still righted; beyond "
              "it the boat capsizes by itself", 5.0),
        _soft("rim goes under", _reached(sums.rim_deg), "deg", use.least_rim_deg,
              "heel at which water comes over the cockpit rim when the spray deck is off", 5.0),
        _soft("energy of a knock", sums.energy_open_j, "J", use.least_energy_j,
              "work a wave or a slip must do to capsize or fill the boat, paddler upright", 10.0),
        Check("flooded rim with float bags", clear_m * MM_PER_M, margin_m * MM_PER_M,
              "at least", "mm", 0.0, True, 10.0,
              f"{says} Calm water, the paddler in the seat",
              f"lost buoyancy, worked examples in Barrass & Derrett; margin: {JUDGEMENT}"),
    )


def _reached(angle_deg):
    """An angle that is never reached within the curve counts as 90 degrees."""
    return 90.0 if angle_deg is None else angle_deg


def _soft(name, value, unit, limit, meaning, scale):
    return Check(name, value, limit, "at least", unit, 0.0, False, scale, meaning,
                 RIGHTING_SOURCE)


def with_checks(fitted, more):
    """The Fitted boat with checks that were worked out after the search."""
    checks = (*fitted.checks, *more)
    failing = tuple(shortfall_sentence(check, ("take less aboard", "take another base"))
                    for check in more if check.status == "fail")
    return replace(fitted, checks=checks, status=overall(checks), unmet=fitted.unmet + failing)


def mishap_cautions(found):
    """Sentences that go with every fit: what happens without bags, and when one is lost."""
    lost, out = found.bags.larger_lost.says, found.bags.larger_lost_out.says
    return (
        f"Without float bags: {found.bare.says}",
        f"With them: {found.bags.says}",
        f"If the larger bag is lost: {lost} Get out and hold on to the boat: {out}",
    )
