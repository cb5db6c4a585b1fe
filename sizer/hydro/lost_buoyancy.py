"""How a hull open to the sea floats: only what water cannot enter holds it up.

Lost buoyancy: inside and outside the water stands at one level, so the water inside is no load and
has no free surface to slop on. What is left stands in `sizer.hydro.watertight`. Upright, with
sinkage and trim free; the centre of mass stays where the load says.
"""

from dataclasses import dataclass

import numpy as np
from scipy.optimize import brentq

from sizer.compiled import compiled
from sizer.errors import NotSolved, WillNotFloat
from sizer.hydro import planes
from sizer.hydro.immersion import Outline, planes_at, up_vectors
from sizer.hydro.resting import LEVEL_TOLERANCE, MOST_HALVINGS, moment_aft_m4
from sizer.hydro.watertight import Solids, outline_of, under_of, under_of_sums
from sizer.units import both_mass

MOST_TRIM_DEG = 30.0  # past it the boat hangs by an end; our judgement
MOST_STEPS = 30
VOLUME_TOLERANCE = 1e-8  # of the volume
LEVER_TOLERANCE_M = 1e-7  # lengthwise distance of buoyancy from weight
# Trims looked at where Newton steps from level do not settle; closer where boats rest.
SCANNED_DEG = np.array([0.5, 1.5, 3.0, 5.0, 8.0, 12.0, 17.0, 23.0, MOST_TRIM_DEG])
SCANNED_DEG = np.concatenate([-SCANNED_DEG[::-1], SCANNED_DEG])
START_CLEAR_M = 0.05  # of the side deck, from where the search starts


@dataclass(frozen=True)
class Balance:
    """A flooded hull at rest, upright."""

    sinkage_m: float  # water above the baseline at half the hull's length
    trim_deg: float  # positive: stern deeper
    volume_m3: float  # of everything that holds it up
    gm_m: float


def balance(sections, chambers, solids, load, water):
    """Sinkage and trim at which chambers and solids carry the load.

    Parameters
    ----------
    sections : Sections
    chambers : tuple of Chamber, not overlapping
    solids : Solids outside the chambers
    load : Load, on the centre line
    water : Water

    Returns
    -------
    Balance

    Raises
    ------
    WillNotFloat, where all of it under water carries too little, or an end goes down.
    NotSolved, where the search does not settle.
    """
    hull = _hull(sections, chambers, solids, load, water)
    found, sinks, settled = _balanced(hull, sections, np.zeros(1))
    if sinks[0]:
        most = _most_m3(hull, np.zeros(1))[0]
        raise WillNotFloat(
            "sinks: all in it that keeps water out, wood, gear and whoever sits there, bears "
            f"{both_mass(most * water.density_kgpm3, 0)}, and {both_mass(load.mass_kg, 0)} weigh "
            "on it")
    if settled[0]:
        return Balance(*(float(value[0]) for value in (found.sinkage_m, found.trim_deg)),
                       found.volume_m3, float(found.gm_m[0]))
    sinkage, trim = _scan(hull)
    under = _under(hull, *planes_at(sinkage, np.array([trim]), hull.mid_m))
    return Balance(sinkage, trim, hull.wanted_m3, float(_gm_m(hull, under, np.array([trim]))[0]))


def balance_many(boats, chambers, solids, loads, water):
    """As `balance`, of many boats, or of one with n loads: Sections, Chambers, Solids and Load.

    Returns
    -------
    Balance of arrays (n,), and (n,) bool twice: which boats sink, and which settled; numbers of
    others mean nothing. One that did not settle may still do so by `balance`, which tries more.
    """
    return _balanced(_hull(boats, chambers, solids, loads, water), boats,
                     np.zeros(np.size(loads.lcg_m)))


def _balanced(hull, boats, level):
    """As `balance_many`; `level` are zeros (n,)."""
    sinks = ~(_most_m3(hull, level) > hull.wanted_m3)
    (sinkage, trim), settled, under = _settle(hull, _near_sinking_m(boats) + level, level)
    return Balance(sinkage, trim, hull.wanted_m3, _gm_m(hull, under, trim)), sinks, settled


def _most_m3(hull, level_trim):
    """All that water cannot enter, in m3; `level_trim` are zeros (n,)."""
    deep = planes_at(hull.top_m + hull.length_m, level_trim, hull.mid_m)
    return _under(hull, *deep).volume_m3


def _near_sinking_m(sections):
    """A sinkage to start from: the side deck a little clear."""
    return sections.z_m[..., sections.sheer].min(axis=-1) - START_CLEAR_M


def _settle(hull, sinkage, trim):
    """Newton steps from near it: (sinkage, trim), and where they came to rest, all (n,); and the
    Under there.

    A place that the boat would leave by the bow or stern at a touch does not count.
    """
    trim = np.array(trim)
    _, level = planes_at(sinkage, trim, hull.mid_m)
    none, sums, settled = np.zeros(trim.size), np.empty((trim.size, 8)), np.empty(trim.size, bool)
    compiled(planes.open_to_rest, planes.clip, planes.add_up, planes.add_solids,
             planes.under_level, planes.moment_aft, planes.newton_step)(
        *hull.outline.points, hull.outline.shares, hull.solids.rows, hull.wanted_m3 + none,
        hull.weight_m + none[:, None], hull.mid_m + none, level, trim,
        (MOST_STEPS, MOST_TRIM_DEG, VOLUME_TOLERANCE, LEVER_TOLERANCE_M), sums, settled)
    up = up_vectors(none, trim)
    return ((level - up[:, 0] * hull.mid_m) / up[:, 2], trim), settled, under_of_sums(sums)


@dataclass(frozen=True, eq=False)
class _Hull:
    """What the search asks again and again."""

    outline: Outline  # of the chambers
    solids: Solids
    mid_m: float
    length_m: float
    bottom_m: float
    top_m: float
    wanted_m3: float
    weight_m: np.ndarray  # (3,) centre of mass


def _hull(sections, chambers, solids, load, water):
    return _Hull(
        outline=outline_of(sections, chambers), solids=solids, mid_m=sections.mid_x_m,
        length_m=sections.length_m,
        bottom_m=np.minimum(sections.z_m.min(axis=(-1, -2)),
                            solids.low_m.min(axis=-1, initial=np.inf)),
        top_m=np.maximum(sections.z_m.max(axis=(-1, -2)),
                         solids.high_m.max(axis=-1, initial=-np.inf)),
        wanted_m3=load.mass_kg / water.density_kgpm3,
        weight_m=np.stack(np.broadcast_arrays(load.lcg_m, 0.0, load.vcg_m), axis=-1))


def _under(hull, up, level):
    """The Under of all that holds the hull up."""
    return under_of(hull.outline, hull.solids, up, level)


def _carried(hull, trims):
    """The sinkage that carries the load at each trim, and buoyancy's lever there."""
    up = up_vectors(np.zeros(trims.size), trims)
    reach, level, sums = (hull.length_m * np.ones(trims.size), np.empty(trims.size),
                          np.empty((trims.size, 8)))
    compiled(planes.open_levels, planes.clip, planes.add_up, planes.add_solids,
             planes.under_level)(
        *hull.outline.points, hull.outline.shares, hull.solids.rows, up, hull.wanted_m3,
        hull.bottom_m - reach, hull.top_m + reach, (MOST_HALVINGS, LEVEL_TOLERANCE), level, sums)
    under = under_of_sums(sums)
    return ((level - up[:, 0] * hull.mid_m) / up[:, 2],
            moment_aft_m4(under, up, hull.weight_m) / hull.wanted_m3)


def _scan(hull):
    """(sinkage, trim) nearest to level at which the hull would come back from a touch.

    Buoyancy must move aft, past the weight, as the stern goes deeper.
    """
    sinkages, levers = _carried(hull, SCANNED_DEG)
    one = _nearest_rise(levers)
    share = levers[one] / (levers[one] - levers[one + 1])
    near = (values[one:one + 1] + share * (values[one + 1] - values[one])
            for values in (sinkages, SCANNED_DEG))
    (sinkage, trim), settled, _ = _settle(hull, *near)
    return (float(sinkage[0]), float(trim[0])) if settled[0] else _bracketed(hull)


def _nearest_rise(levers):
    """Index of the scanned trim nearest to level after which buoyancy passes the weight."""
    rises = np.flatnonzero((levers[:-1] < 0.0) & (levers[1:] >= 0.0))
    if not rises.size:
        end = "stern" if levers[SCANNED_DEG.size // 2] < 0.0 else "bow"
        raise WillNotFloat(f"goes down by the {end}: nothing under water there holds it up")
    return rises[np.argmin(np.abs(SCANNED_DEG[rises] + SCANNED_DEG[rises + 1]))]


def _bracketed(hull):
    """(sinkage, trim) by one search inside another: slow and sure."""
    one = _nearest_rise(_carried(hull, SCANNED_DEG)[1])
    trim = brentq(lambda trim: float(_carried(hull, np.array([trim]))[1][0]),
                  SCANNED_DEG[one], SCANNED_DEG[one + 1], xtol=1e-12)
    (sinkage,), (lever,) = _carried(hull, np.array([trim]))
    if not abs(lever) < LEVER_TOLERANCE_M:
        raise NotSolved("the flooded boat's trim did not settle")
    return float(sinkage), trim


def _gm_m(hull, under, trim):
    """Waterplane of chambers and solids over volume, and the centres' heights over the water."""
    up = up_vectors(np.zeros(trim.size), trim)
    volume = np.maximum(under.volume_m3, np.finfo(float).tiny)  # one that sinks may have none
    over = under.moment_m4 / volume[:, None] - hull.weight_m
    return under.plane_a2_m4 / volume + np.einsum("pi,pi->p", over, up)
