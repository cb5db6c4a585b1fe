"""What happens when things go wrong: the righting curve and the flooded boat.

Worked out quickly inside the search and in full on the fitted boat. The limits on righting are
cautions: a rigid paddler's curve vanishes early on good boats of this kind, and what a moving one
adds is a model. Bags that cannot keep rim and side deck clear are a failure.
"""

from dataclasses import dataclass, replace

import numpy as np

from sizer.errors import BadInput, NotSolved, WillNotFloat
from sizer.fit.facts import Mishap, facts_of
from sizer.hydro.bags import Bags, smallest_bags
from sizer.hydro.ends import End, end_zones
from sizer.hydro.flooded import Aboard, Flooded, flooded, spare_with_bags_m
from sizer.hydro.mover import MOVER_TO_DEG, upper_body_moment_kgm, upright_mover
from sizer.hydro.stability import (
    HEELS_DEG,
    RightingCurve,
    StabilityParticulars,
    righting_curve,
    stability_particulars,
)
from sizer.rows import one_of
from sizer.units import STANDARD_GRAVITY_MPS2

CANNOT = (WillNotFloat, NotSolved, BadInput)  # BadInput: a centre outside the hull


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


def facts_with(assessed, found):
    """The Facts of a boat with its Mishaps worked out in full."""
    facts, full = facts_of(assessed), flooded_with_bags(assessed)
    return replace(facts, mishap=_mishap(assessed, _reached(found.mover_sums), full.spare_m),
                   says={**facts.says, "flooded": full.says})


def mishap_facts(assessed, near=None):
    """The Mishap of an assessed boat with the largest bags, in a quarter of the time.

    `near` is the `quick_righting` of a like boat, to start from.

    Raises
    ------
    WillNotFloat, NotSolved: see `sizer.hydro.stability` and `sizer.hydro.flooded`.
    """
    sums = stability_particulars(
        upright_mover(quick_righting(assessed, near), upper_body_moment(assessed)))
    return _mishap(assessed, _reached(sums), flooded_with_bags(assessed).spare_m)


def quick_rightings(many, near=None, asked=True):
    """The `quick_righting` of each of many, None where not asked or it cannot be worked out.

    Started from `near`, one for each, or else each from the one before. `asked` is (n,) bool.
    """
    found, last = [], None
    shared = many.boat.sections if many.boat.sections.x_m.ndim == 1 else None
    for index, floats in enumerate((many.floats & asked).tolist()):
        start = last if near is None else near[index]
        found.append(_known(_quick, shared or one_of(many.boat.sections, index), *(
            one_of(each, index) for each in (many.loading.load, many.person.water)), start)
            if floats else None)
        last = found[-1] or last
    return tuple(found)


def mishaps_of_many(many, rigid, smaller_too=True):
    """The Mishap of many assessed boats, arrays (n,); NaN where it cannot be worked out.

    `rigid` are their `quick_rightings`; where that is None only `flooded_spare_m` is known. Where
    the largest bags are not enough, smaller ones may float it level: looked for, which is slow, if
    `smaller_too`.
    """
    spare = spare_with_bags_m(many.boat, many.weight, aboard_of(many), many.person.water)
    unsure = ~(spare >= 0.0) if smaller_too else np.isnan(spare)
    for index in np.flatnonzero(many.floats & unsure):
        kept = _known(flooded_with_bags, many.one(index), smaller_too)
        spare[index] = np.nan if kept is None else kept.spare_m
    moment = np.broadcast_to(upper_body_moment(many), spare.shape)
    rows = [(np.nan,) * 3 if curve is None else _reached(
        stability_particulars(upright_mover(curve, float(own))))
        for curve, own in zip(rigid, moment, strict=True)]
    return _mishap(many, np.array(rows).T, spare)


def _known(work, *given):
    try:
        return work(*given)
    except CANNOT:
        return None


def quick_righting(assessed, near=None):
    """The rigid paddler's RightingCurve to 90 degrees, where that of an upright one ends.

    Its rim angle moves by less than 0.001 degrees (tested).
    """
    return _quick(assessed.boat.sections, assessed.loading.load, assessed.person.water, near)


def _quick(sections, load, water, near):
    heels = tuple(heel for heel in HEELS_DEG if heel <= MOVER_TO_DEG)
    return righting_curve(sections, load, water, heels, near)


def flooded_with_bags(assessed, smaller_too=True):
    """The Flooded boat with the largest bags that fit, or the kept ones of the search for smaller.

    Where the largest keep rim and side deck clear, so do the smallest that do, since the search for
    them ends at the largest: they are not looked for.
    """
    boat, water, aboard = assessed.boat, assessed.person.water, aboard_of(assessed)
    fits = end_zones(boat, aboard.gear)
    largest = (End(float(np.floor(zone.bag_l))) for zone in (fits.bow, fits.stern))
    kept = flooded(boat, assessed.weight, aboard, *largest, water)
    if kept.spare_m >= 0.0 or not smaller_too:
        return kept
    return smallest_bags(boat, assessed.weight, aboard, water).kept  # smaller may float it level


def _mishap(assessed, reached, spare_m):
    """The Mishap of an assessed boat, or of many."""
    # one that sinks is counted as under by the boat's whole depth
    spare_m = np.where(np.isneginf(spare_m), -assessed.boat.depth_m, spare_m)[()]
    range_deg, rim_deg, energy_j = reached
    return Mishap(range_deg, rim_deg,
                  energy_j / (assessed.loading.load.mass_kg * STANDARD_GRAVITY_MPS2), spare_m)


def _reached(sums):
    """Range and rim's angle, deg, and energy, J; an angle never reached within the curve is 90."""
    angles = (90.0 if angle is None else angle for angle in (sums.vanishing_deg, sums.rim_deg))
    return (*angles, sums.energy_open_j)


def mishap_cautions(found):
    """Sentences that go with every fit: what happens without bags, and when one is lost."""
    lost, out = found.bags.larger_lost.says, found.bags.larger_lost_out.says
    return (
        f"Without float bags: {found.bare.says}",
        f"With them: {found.bags.says}",
        f"If the larger bag is lost: {lost} Get out and hold on to the boat: {out}",
    )
