"""How a hull open to the sea floats: only what water cannot enter holds it up.

Lost buoyancy: inside and outside the water stands at one level, so the water inside is no load and
has no free surface to slop on. What is left stands in `sizer.hydro.watertight`. Upright, with
sinkage and trim free; the centre of mass stays where the load says.
"""

from dataclasses import dataclass

import numpy as np
from scipy.optimize import brentq

from sizer.errors import NotSolved, WillNotFloat
from sizer.hydro.flotation import newton_step
from sizer.hydro.immersion import Outline, immersed, up_vectors
from sizer.hydro.resting import moment_aft_m4
from sizer.hydro.watertight import Solids, chamber_outline, solids_under

MOST_TRIM_DEG = 30.0  # past it the boat hangs by an end; our judgement
MOST_STEPS = 30
VOLUME_TOLERANCE = 1e-8  # of the volume
LEVER_TOLERANCE_M = 1e-7  # lengthwise distance of buoyancy from weight
CUTS = np.array([1.0, 0.5, 0.2, 0.05])  # shares of a Newton step tried together
LEVEL_NUDGE_M, TRIM_NUDGE_DEG = 1e-6, 1e-5  # for slopes
# Trims looked at where Newton steps from level do not settle; closer where boats rest.
SCANNED_DEG = np.array([0.5, 1.5, 3.0, 5.0, 8.0, 12.0, 17.0, 23.0, MOST_TRIM_DEG])
SCANNED_DEG = np.concatenate([-SCANNED_DEG[::-1], SCANNED_DEG])
START_LEVELS = 33
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
    _, most, _ = _off_balance(hull, np.array([hull.top_m + hull.length_m]), np.zeros(1))
    if not most[0] > hull.wanted_m3:
        raise WillNotFloat(
            f"sinks: all that water cannot enter carries {most[0] * water.density_kgpm3:.0f} kg "
            f"of {load.mass_kg:.0f} kg")
    near, settled = _settle(hull, np.array([_near_sinking_m(sections)]))
    sinkage, trim = (float(near[0][0]), float(near[1][0])) if settled[0] else _scan(hull)
    return Balance(sinkage, trim, hull.wanted_m3, float(_gm_m(
        hull, np.array([sinkage]), np.array([trim]))[0]))


def balance_many(boats, chambers, solids, loads, water):
    """As `balance`, of many boats: Sections, Chambers, Solids and Load of n.

    Returns
    -------
    Balance of arrays (n,), and (n,) bool twice: which boats sink, and which settled; numbers of
    others mean nothing. One that did not settle may still do so by `balance`, which tries more.
    """
    hull = _hull(boats, chambers, solids, loads, water)
    _, most, _ = _off_balance(hull, hull.top_m + hull.length_m, np.zeros(len(boats.x_m)))
    (sinkage, trim), settled = _settle(hull, _near_sinking_m(boats))
    return (Balance(sinkage, trim, hull.wanted_m3, _gm_m(hull, sinkage, trim)),
            ~(most > hull.wanted_m3), settled)


def _near_sinking_m(sections):
    """A sinkage to start from: the side deck a little clear."""
    return sections.z_m[..., sections.sheer].min(axis=-1) - START_CLEAR_M


def _settle(hull, sinkage):
    """Newton steps from level trim: (sinkage, trim), and where they came to rest, all (n,)."""
    count = sinkage.size
    trim, settled = np.zeros(count), np.zeros(count, bool)
    up, level = _planes(hull, sinkage, trim)
    for _ in range(MOST_STEPS):
        under = _under(hull, up, level)
        excess = under.volume_m3 - hull.wanted_m3
        moment = moment_aft_m4(under, up, hull.weight_m)
        d_level, d_trim, stiff = newton_step(under, up, excess, moment, hull.weight_m, hull.mid_m)
        settled = ((np.abs(excess) < VOLUME_TOLERANCE * hull.wanted_m3) & (stiff > 0.0)
                   & (np.abs(moment) < LEVER_TOLERANCE_M * hull.wanted_m3))
        if settled.all():
            break
        level = np.where(settled, level, level + d_level)
        trim = np.where(settled, trim, np.clip(trim + d_trim, -MOST_TRIM_DEG, MOST_TRIM_DEG))
        up = up_vectors(np.zeros(count), trim)
    return ((level - up[:, 0] * hull.mid_m) / up[:, 2], trim), settled & (
        np.abs(trim) < MOST_TRIM_DEG)


@dataclass(frozen=True, eq=False)
class _Hull:
    """What the search asks again and again."""

    outlines: tuple[tuple[float, Outline], ...]  # share, half-sections
    solids: Solids
    mid_m: float
    length_m: float
    bottom_m: float
    top_m: float
    wanted_m3: float
    weight_m: np.ndarray  # (3,) centre of mass


def _hull(sections, chambers, solids, load, water):
    outlines = tuple((one.share, chamber_outline(sections, one)) for one in chambers)
    return _Hull(
        outlines=outlines, solids=solids, mid_m=sections.mid_x_m, length_m=sections.length_m,
        bottom_m=np.minimum(sections.z_m.min(axis=(-1, -2)),
                            solids.low_m.min(axis=-1, initial=np.inf)),
        top_m=np.maximum(sections.z_m.max(axis=(-1, -2)),
                         solids.high_m.max(axis=-1, initial=-np.inf)),
        wanted_m3=load.mass_kg / water.density_kgpm3,
        weight_m=np.stack(np.broadcast_arrays(load.lcg_m, 0.0, load.vcg_m), axis=-1))


def _planes(hull, sinkage, trim):
    up = up_vectors(np.zeros(len(trim)), trim)
    return up, up[:, 2] * sinkage + up[:, 0] * hull.mid_m


def _under(hull, up, level):
    """The Under of all that holds the hull up."""
    under = solids_under(hull.solids, up, level)
    for share, outline in hull.outlines:
        under = under.with_share(share, immersed(outline, up, level))
    return under


def _off_balance(hull, sinkage, trim):
    """Share of volume too much, volume, and buoyancy's lengthwise lever aft of weight, m."""
    up, level = _planes(hull, sinkage, trim)
    under = _under(hull, up, level)
    volume = under.volume_m3
    lever = moment_aft_m4(under, up, hull.weight_m)
    return volume / hull.wanted_m3 - 1.0, volume, lever / hull.wanted_m3


def _settled(volume_off, lever_m):
    return abs(volume_off) < VOLUME_TOLERANCE and abs(lever_m) < LEVER_TOLERANCE_M


def _newton(hull, sinkage, trim):
    """(sinkage, trim) by Newton steps cut back to what helps; None where they do not settle.

    A place that the boat would leave by the bow or stern at a touch does not count.
    """
    for _ in range(MOST_STEPS):
        nudged = [sinkage, sinkage + LEVEL_NUDGE_M, sinkage], [trim, trim, trim + TRIM_NUDGE_DEG]
        off, _, lever = _off_balance(hull, *map(np.array, nudged))
        a, b = (off[1] - off[0]) / LEVEL_NUDGE_M, (off[2] - off[0]) / TRIM_NUDGE_DEG
        c, d = (lever[1] - lever[0]) / LEVEL_NUDGE_M, (lever[2] - lever[0]) / TRIM_NUDGE_DEG
        determinant = a * d - b * c
        if _settled(off[0], lever[0]):
            return (sinkage, trim) if determinant > 0.0 else None
        if not determinant > 0.0:
            return None
        steps = CUTS * ((b * lever[0] - d * off[0]) / determinant)
        turns = CUTS * ((c * off[0] - a * lever[0]) / determinant)
        off_then, _, lever_then = _off_balance(hull, sinkage + steps, trim + turns)
        best = int(np.argmin(np.abs(off_then) + np.abs(lever_then) / hull.length_m))
        sinkage, trim = float(sinkage + steps[best]), float(trim + turns[best])
        if abs(trim) > MOST_TRIM_DEG:
            return None
    return None


def _volume_right(hull, trims):
    """About the sinkage that carries the load at each trim, and buoyancy's lever there."""
    rise = hull.length_m * np.sin(np.radians(np.abs(trims)))
    shares = np.linspace(0.0, 1.0, START_LEVELS)[:, None]
    tried = hull.bottom_m - rise + shares * (hull.top_m - hull.bottom_m + 2.0 * rise)
    off, _, lever = (values.reshape(tried.shape) for values in _off_balance(
        hull, tried.ravel(), np.broadcast_to(trims, tried.shape).ravel()))
    columns = range(trims.size)
    return (np.array([np.interp(0.0, off[:, j], tried[:, j]) for j in columns]),
            np.array([np.interp(0.0, off[:, j], lever[:, j]) for j in columns]))


def _scan(hull):
    """(sinkage, trim) nearest to level at which the hull would come back from a touch.

    Buoyancy must move aft, past the weight, as the stern goes deeper.
    """
    sinkages, levers = _volume_right(hull, SCANNED_DEG)
    one = _nearest_rise(levers)
    share = levers[one] / (levers[one] - levers[one + 1])
    found = _newton(hull, *(float(values[one] + share * (values[one + 1] - values[one]))
                            for values in (sinkages, SCANNED_DEG)))
    return _bracketed(hull) if found is None else found


def _nearest_rise(levers):
    """Index of the scanned trim nearest to level after which buoyancy passes the weight."""
    rises = np.flatnonzero((levers[:-1] < 0.0) & (levers[1:] >= 0.0))
    if not rises.size:
        end = "stern" if levers[SCANNED_DEG.size // 2] < 0.0 else "bow"
        raise WillNotFloat(f"goes down by the {end}: nothing under water there holds it up")
    return rises[np.argmin(np.abs(SCANNED_DEG[rises] + SCANNED_DEG[rises + 1]))]


def _bracketed(hull):
    """(sinkage, trim) by one search inside another: slow and sure."""
    def off(sinkage, trim):
        return _off_balance(hull, np.array([sinkage]), np.array([trim]))

    def sinkage_at(trim):
        reach = hull.length_m
        return brentq(lambda sinkage: float(off(sinkage, trim)[0][0]),
                      hull.bottom_m - reach, hull.top_m + reach, xtol=1e-13)

    def lever_at(trim):
        return float(off(sinkage_at(trim), trim)[2][0])

    one = _nearest_rise(np.array([lever_at(trim) for trim in SCANNED_DEG]))
    trim = brentq(lever_at, SCANNED_DEG[one], SCANNED_DEG[one + 1], xtol=1e-12)
    sinkage = sinkage_at(trim)
    volume_off, _, lever = (float(value[0]) for value in off(sinkage, trim))
    if not _settled(volume_off, lever):
        raise NotSolved("the flooded boat's trim did not settle")
    return sinkage, trim


def _gm_m(hull, sinkage, trim):
    """Waterplane of chambers and solids over volume, and the centres' heights over the water."""
    up, level = _planes(hull, sinkage, trim)
    under = _under(hull, up, level)
    over = under.moment_m4 / under.volume_m3[:, None] - hull.weight_m
    return under.plane_a2_m4 / under.volume_m3 + np.einsum("pi,pi->p", over, up)
