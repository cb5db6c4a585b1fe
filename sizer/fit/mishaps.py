"""What happens when things go wrong: the righting curve and the flooded boat.

Worked out quickly inside the search and in full on the fitted boat. The limits on righting are
cautions: a rigid paddler's curve vanishes early on good boats of this kind, and what a moving one
adds is a model. Bags that cannot keep rim and side deck clear are a failure.
"""

from dataclasses import dataclass, replace

import numpy as np

from sizer.fit.facts import Mishap, facts_of
from sizer.fit.told import UNTOLD, known, told_by, told_of_many, wave_of, with_told
from sizer.hydro.bags import Bags, smallest_bags
from sizer.hydro.ends import End
from sizer.hydro.flooded import Aboard, Flooded, filled_by_bags, flooded, spare_with_bags_m
from sizer.hydro.mover import MOVER_TO_DEG, upper_body_moment_kgm, upright_mover
from sizer.hydro.on_wave import OnWave
from sizer.hydro.stability import (
    HEELS_DEG,
    RightingCurve,
    StabilityParticulars,
    particulars_of_curves,
    righting_curve,
    righting_curves,
    stability_particulars,
)
from sizer.hydro.swamped import Swamped, filling_ends, swamped, wet_exit_says
from sizer.rows import one_of
from sizer.units import STANDARD_GRAVITY_MPS2

QUICK_DEG = tuple(heel for heel in HEELS_DEG if heel <= MOVER_TO_DEG)
LEAST_BAGS = "Smaller bags: "  # how the caution on them begins
UNKNOWN_WAVE = ("What the boat does on a wave of its own length could not be worked out: take it "
                "as unsteady there.")


@dataclass(frozen=True, eq=False)
class Mishaps:
    """The fitted boat heeled and flooded, with the paddler in the seat."""

    rigid: RightingCurve  # the paddler part of the boat
    mover: RightingCurve  # upper body kept upright
    rigid_sums: StabilityParticulars
    mover_sums: StabilityParticulars
    bare: Flooded  # no bags
    bags: Bags  # the least
    swamped: Swamped  # with bags that fill the ends
    wave: OnWave | None  # None where it could not be worked out


def mishaps(assessed):
    """The Mishaps of an assessed boat.

    Raises
    ------
    WillNotFloat, NotSolved: see `sizer.hydro.stability` and `sizer.hydro.flooded`.
    """
    boat, water, load = assessed.boat, assessed.person.water, assessed.loading
    rigid = righting_curve(boat.sections, load.load, water)
    moment = upper_body_moment(assessed)
    mover = upright_mover(rigid, moment)
    aboard = aboard_of(assessed)
    return Mishaps(rigid, mover, stability_particulars(rigid), stability_particulars(mover),
                   flooded(boat, assessed.weight, aboard, End(), End(), water),
                   smallest_bags(boat, assessed.weight, aboard, water),
                   swamped(boat, assessed.weight, aboard, water), wave_of(assessed, moment, rigid))


def upper_body_moment(assessed):
    """Of the paddler above the hip, in kg m."""
    return upper_body_moment_of(assessed.person)


def upper_body_moment_of(person):
    """Of a Person, or of many, above the hip, in kg m."""
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
    told = told_by(assessed, found.swamped.out, found.wave)
    says = {"flooded": full.says,
            "swamped-out": wet_exit_says(found.swamped.out, found.swamped.left)}
    if found.wave is not None:
        says["wave"] = found.wave.says
    return replace(facts, mishap=_mishap(assessed, _reached(found.mover_sums), full.spare_m, told),
                   says={**facts.says, **says})


def mishap_facts(assessed, near=None):
    """The Mishap of an assessed boat with the largest bags, in a quarter of the time.

    `near` is the `quick_righting` of a like boat, to start from.

    Raises
    ------
    WillNotFloat, NotSolved: see `sizer.hydro.stability` and `sizer.hydro.flooded`.
    """
    rigid = quick_righting(assessed, near)
    sums = stability_particulars(upright_mover(rigid, upper_body_moment(assessed)))
    return with_told(_mishap(assessed, _reached(sums), flooded_with_bags(assessed).spare_m),
                     assessed, upper_body_moment(assessed), rigid)


def quick_rightings(many, near=None, asked=True):
    """The `quick_righting` of each of many, None where not asked or it cannot be worked out.

    Started from `near`, one for each, where given. `asked` is (n,) bool.
    """
    found = [None] * many.floats.size
    which = np.flatnonzero(many.floats & asked)
    sections = many.boat.sections
    curves = righting_curves(
        sections if sections.x_m.ndim == 1 else one_of(sections, which),
        *(one_of(each, which) for each in (many.loading.load, many.person.water)), QUICK_DEG,
        near and [near[one] for one in which])
    for index, curve in zip(which.tolist(), curves, strict=True):
        found[index] = curve
    return tuple(found)


def mishaps_of_many(many, rigid, smaller_too=True, told=False):
    """The Mishap of many assessed boats, arrays (n,); NaN where it cannot be worked out.

    `rigid` are their `quick_rightings`; where that is None only `flooded_spare_m` is known. Where
    the largest bags are not enough, smaller ones may float it level: looked for, which is slow, if
    `smaller_too`. What is told and not sought is left out unless `told` asks for it.
    """
    bags = filled_by_bags(many.boat, many.loading.gear)
    spare = spare_with_bags_m(many.boat, many.weight, aboard_of(many), many.person.water, bags)
    unsure = ~(spare >= 0.0) if smaller_too else np.isnan(spare)
    for index in np.flatnonzero(many.floats & unsure):
        kept = known(flooded_with_bags, many.one(index), smaller_too)
        spare[index] = np.nan if kept is None else kept.spare_m
    moment = np.broadcast_to(upper_body_moment(many), spare.shape)
    curved = [curve is not None for curve in rigid]
    movers = [upright_mover(curve, float(own))
              for curve, own in zip(rigid, moment, strict=True) if curve is not None]
    rows = np.full((spare.size, 3), np.nan)
    rows[curved] = np.reshape([_reached(sums) for sums in particulars_of_curves(movers)], (-1, 3))
    each = told_of_many(many, moment, rigid, bags) if told else UNTOLD
    return _mishap(many, rows.T, spare, each)


def quick_righting(assessed, near=None):
    """The rigid paddler's RightingCurve to 90 degrees, where that of an upright one ends.

    Its rim angle moves by less than 0.001 degrees (tested).
    """
    return righting_curve(assessed.boat.sections, assessed.loading.load, assessed.person.water,
                          QUICK_DEG, near)


def flooded_with_bags(assessed, smaller_too=True):
    """The Flooded boat with the largest bags that fit, or the kept ones of the search for smaller.

    Where the largest keep rim and side deck clear, so do the smallest that do, since the search for
    them ends at the largest: they are not looked for.
    """
    boat, water, aboard = assessed.boat, assessed.person.water, aboard_of(assessed)
    largest = filling_ends(boat, aboard.gear)
    kept = flooded(boat, assessed.weight, aboard, *largest, water)
    if kept.spare_m >= 0.0 or not smaller_too:
        return kept
    return smallest_bags(boat, assessed.weight, aboard, water).kept  # smaller may float it level


def _mishap(assessed, reached, spare_m, told=UNTOLD):
    """The Mishap of an assessed boat, or of many."""
    # one that sinks is counted as under by the boat's whole depth
    spare_m = np.where(np.isneginf(spare_m), -assessed.boat.depth_m, spare_m)[()]
    range_deg, rim_deg, energy_j = reached
    return Mishap(range_deg, rim_deg,
                  energy_j / (assessed.loading.load.mass_kg * STANDARD_GRAVITY_MPS2), spare_m,
                  *told)


def _reached(sums):
    """Range and rim's angle, deg, and energy, J; an angle never reached within the curve is 90."""
    angles = (90.0 if angle is None else angle for angle in (sums.vanishing_deg, sums.rim_deg))
    return (*angles, sums.energy_open_j)


def mishap_cautions(found):
    """Sentences that go with every fit: swamped with and without bags, a bag lost, on a wave."""
    swamped = found.swamped
    wave = (UNKNOWN_WAVE if found.wave is None else
            f"{found.wave.says} Static balance in a stated wave, the opening shut by a spray deck, "
            "an estimate: no promise at sea.")
    first, *others = swamped.says
    return (
        f"Without float bags: {found.bare.says}",
        f"With them: {first}",
        *others,
        f"{LEAST_BAGS}{found.bags.says}",
        f"If the larger bag is lost: {swamped.larger_lost.says} Once you are out: "
        f"{wet_exit_says(swamped.larger_lost_out, swamped.larger_lost_left)}",
        wave,
    )
