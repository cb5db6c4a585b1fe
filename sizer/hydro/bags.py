"""The smallest float bags that keep rim and side deck of a flooded boat clear of the water."""

import math
from dataclasses import dataclass, replace

import numpy as np
from scipy.optimize import brentq

from sizer.hull.sections import half_areas_m2
from sizer.hydro.ends import BAG_SHARE, L_PER_M3, End, EndZones, held_m3, zones_of_one
from sizer.hydro.flooded import (
    RIM_MARGIN_M,
    SIDE_DECK_MARGIN_M,
    Flooded,
    flooded,
    inside_solids,
    load_of,
    skin_of,
    unsteady_says,
)
from sizer.hydro.immersion import cut_sections, half_outline, up_vectors
from sizer.hydro.rim import rim_points_m
from sizer.hydro.watertight import joined, solids_under
from sizer.units import MM_PER_M, both_text

MOST_TRIES = 40  # steps of whole litres
STEP_L_PER_MM = 0.3  # litres tried for each mm of height still missing; our judgement


@dataclass(frozen=True)
class Bags:
    """The smallest, in whole litres; None where none that fit keep rim and side deck clear."""

    bow_l: float | None
    stern_l: float | None
    fits: EndZones  # the largest that fit
    margin_m: float  # of the rim, asked for
    side_deck_margin_m: float  # of the side deck, asked for
    kept: Flooded  # with these bags, or with the largest that fit
    larger_lost: Flooded  # the same with the larger bag gone
    larger_lost_out: Flooded  # and the paddler beside the boat
    says: str


def smallest_bags(boat, weight, aboard, water):
    """The least bow and stern bags that keep rim and side deck clear, as level as they can.

    With level trim the water's place is known: it gives the volume and the lever that both bags
    together must add, and so each bag. Where no such pair fits, the nearest one is enlarged; then
    litres are taken out again as long as both stay clear.

    Parameters
    ----------
    boat : Boat
    weight : OwnWeight
    aboard : Aboard, usually with the paddler seated
    water : Water

    Raises
    ------
    NotSolved as `flooded`.
    """
    fits = zones_of_one(boat, aboard.gear)
    most = fits.bow.whole_l, fits.stern.whole_l
    pair = _level_pair(boat, weight, aboard, water, fits)
    pair = tuple(min(math.ceil(one), top) for one, top in zip(pair, most, strict=True))

    def with_bags(pair):
        return flooded(boat, weight, aboard, End(float(pair[0])), End(float(pair[1])), water)

    pair, kept = _reduced(with_bags, *_enlarged(with_bags, pair, most))
    return _bags(boat, weight, aboard, water, fits, pair, kept)


def _enlarged(with_bags, pair, most):
    """The pair, enlarged by whole litres where it must be, and what it does; at worst the most."""
    kept = with_bags(pair)
    for _ in range(MOST_TRIES):
        if kept.spare_m >= 0.0 or pair == most:
            return pair, kept
        step = _step_l(kept.spare_m)
        tried = {(min(pair[0] + bow, most[0]), min(pair[1] + stern, most[1]))
                 for bow, stern in ((step, 0), (0, step), (step, step))} - {pair}
        pair, kept = _best(with_bags, tried)
    return most, with_bags(most)


def _reduced(with_bags, pair, kept):
    """The pair, less every litre that rim and side deck stay clear without."""
    while kept.spare_m >= 0.0 and any(pair):
        tried = {(max(pair[0] - bow, 0), max(pair[1] - stern, 0))
                 for bow, stern in ((1, 0), (0, 1))} - {pair}
        less, result = _best(with_bags, tried)
        if result.spare_m < 0.0:
            break
        pair, kept = less, result
    return pair, kept


def _best(with_bags, pairs):
    """Of several pairs, that which leaves most to spare, and what it does."""
    results = {one: with_bags(one) for one in sorted(pairs)}
    pair = max(results, key=lambda one: results[one].spare_m)
    return pair, results[pair]


def _step_l(spare_m):
    return 5 if spare_m < -0.1 else max(1, round(STEP_L_PER_MM * -spare_m * MM_PER_M))


def _bags(boat, weight, aboard, water, fits, pair, kept):
    found = kept.spare_m >= 0.0
    bow, stern = (0, pair[1]) if pair[0] > pair[1] else (pair[0], 0)
    left = End(float(bow)), End(float(stern))
    out = replace(aboard, paddler=None, body=None)
    return Bags(
        *((float(one) for one in pair) if found else (None, None)), fits, RIM_MARGIN_M,
        SIDE_DECK_MARGIN_M, kept,
        larger_lost=flooded(boat, weight, aboard, *left, water),
        larger_lost_out=flooded(boat, weight, out, *left, water),
        says=_found_says(fits, pair, kept, aboard) if found else _short_says(fits, kept))


def _found_says(fits, pair, kept, aboard):
    heights = _both(kept.rim_clearance_m, kept.freeboard_m)
    return (f"Fit none smaller than those that fill the ends. With {pair[0]} litres in the bow and "
            f"{pair[1]} in the stern it is at its limit: flooded, they {heights} of calm water; "
            f"with less they are too near it.{unsteady_says(kept.gm_m, aboard)}")


def _short_says(fits, kept):
    return (f"No bags that fit ({fits.bow.whole_l} litres in the bow, {fits.stern.whole_l} in "
            f"the stern) {_both(RIM_MARGIN_M, SIDE_DECK_MARGIN_M)}. {kept.says}")


def _both(rim_m, side_deck_m):
    return (f"keep the rim {both_text(rim_m * MM_PER_M)} and the side deck "
            f"{both_text(side_deck_m * MM_PER_M)} clear")


def _level_pair(boat, weight, aboard, water, fits):
    """Litres of both bags at level trim, or the nearest within what fits."""
    level = min(rim_points_m(boat.sections)[:, 2].min() - RIM_MARGIN_M,
                boat.sections.z_m[:, boat.sections.sheer].min() - SIDE_DECK_MARGIN_M)
    up, level = up_vectors([0.0], [0.0]), np.array([level])
    others = joined(inside_solids(boat, weight, aboard), skin_of(boat, weight))
    under = solids_under(others, up, level)
    load = load_of(weight, aboard)
    wanted = load.mass_kg / water.density_kgpm3
    need = wanted - under.volume_m3[0]
    need_x = wanted * load.lcg_m - under.moment_m4[0, 0]
    (wet,), _ = cut_sections(half_outline(boat.sections), up, level)
    bow = _table(boat, wet, fits.bow, fits.bow.back_x_m)
    stern = _table(boat, wet, fits.stern, fits.stern.front_x_m)
    low, high = max(0.0, need - stern[1][-1]), min(need, bow[1][-1])
    if low >= high:
        return (0.0, 0.0) if need <= 0.0 else (bow[0][-1], stern[0][-1])

    def lever(carried):
        at = np.interp(carried, bow[1], bow[2]) + np.interp(need - carried, stern[1], stern[2])
        return at - need_x

    if lever(low) <= 0.0:
        carried = low
    elif lever(high) >= 0.0:
        carried = high
    else:
        carried = brentq(lever, low, high)
    return (float(np.interp(carried, bow[1], bow[0])),
            float(np.interp(need - carried, stern[1], stern[0])))


def _table(boat, wet_m2, zone, inner_x_m):
    """Litres of ever larger bags in one end, the volume under water of each, and its moment."""
    sections = boat.sections
    x, held = held_m3(sections, zone.nose_x_m, inner_x_m)
    full = 2.0 * np.interp(x, sections.x_m, half_areas_m2(sections))
    under = np.interp(x, sections.x_m, wet_m2)
    share = np.divide(under, full, out=np.ones_like(full), where=full > 0.0)
    steps = BAG_SHARE * np.diff(held) * 0.5 * (share[1:] + share[:-1])
    middle = 0.5 * (x[1:] + x[:-1])
    litres = BAG_SHARE * held * L_PER_M3
    keep = litres <= zone.bag_l + 1e-9
    wet = np.concatenate([[0.0], np.cumsum(steps)])
    moment = np.concatenate([[0.0], np.cumsum(steps * middle)])
    return litres[keep], wet[keep], moment[keep]
