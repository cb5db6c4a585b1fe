"""Where a boat comes to rest by its ends: slow and sure, for loads that Newton cannot settle.

At each trim one level carries the load, and buoyancy there lies some way aft of the weight. Where
that lever rises through zero as the stern goes deeper, the boat comes back from a touch: it rests.
"""

import numpy as np
from scipy.optimize import brentq

from sizer.errors import WillNotFloat
from sizer.hydro.immersion import immersed, up_vectors
from sizer.hydro.planes import LEAST_AREA_M2, MOST_TRIM_DEG
from sizer.units import MM_PER_M, both_mass, both_text

# Looked at for a place to rest: closer near level, where boats rest; our judgement.
SCANNED_DEG = np.concatenate([np.arange(1.0, 20.0), np.arange(20.0, MOST_TRIM_DEG + 1.0, 2.5)])
SCANNED_DEG = np.concatenate([-SCANNED_DEG[::-1], [0.0], SCANNED_DEG])
MOST_HALVINGS = 100  # of the heights between which the level lies
LEVEL_TOLERANCE = 1e-12  # of the volume


def moment_aft_m4(wet, up, centre_m):
    """Volume times the lever along the water by which buoyancy lies aft of the weight.

    Parameters
    ----------
    wet : Immersed under each of n planes
    up : (n, 3) unit normals
    centre_m : (3,) of mass

    Returns
    -------
    (n,)
    """
    slant = np.hypot(up[:, 1], up[:, 2])
    along = np.array([slant, -up[:, 0] * up[:, 1] / slant, -up[:, 0] * up[:, 2] / slant]).T
    return np.einsum("pi,pi->p", wet.moment_m4 - wet.volume_m3[:, None] * centre_m, along)


def level_and_trim(outline, heel_deg, load, wanted_m3):
    """(level_m, trim_deg) at which a load rests, its heel held: where it goes from level trim.

    Where it finds no rest that way, the nearest to level the other way.

    Parameters
    ----------
    outline : Outline
    heel_deg : float
    load : Load
    wanted_m3 : volume that carries it, less than the outline's own

    Raises
    ------
    WillNotFloat, where no trim up to MOST_TRIM_DEG lets it rest.
    """
    centre = np.array([load.lcg_m, load.tcg_m, load.vcg_m])

    def at(trims_deg):
        up = up_vectors(heel_deg, trims_deg)
        level, wet = levels(lambda up, level: immersed(outline, up, level), up, wanted_m3,
                            *_reach(outline, up))
        return level, moment_aft_m4(wet, up, centre) / wanted_m3

    levers = at(SCANNED_DEG)[1]
    one = _rise(levers, load)
    ends = slice(one, one + 2)
    # asked again alone, a lever of next to nothing may round to the other sign
    known = dict(zip(SCANNED_DEG[ends].tolist(), levers[ends].tolist(), strict=True))
    trim = brentq(lambda trim: known[trim] if trim in known else at(np.array([trim]))[1][0],
                  *known, xtol=1e-12)
    return float(at(np.array([trim]))[0][0]), trim


def _rise(levers, load):
    """Index of the scanned trim after which buoyancy passes the weight, first from level."""
    at_level = levers[SCANNED_DEG == 0.0][0]
    rises = np.flatnonzero((levers[:-1] < 0.0) & (levers[1:] >= 0.0))
    if not rises.size:
        end = "stern" if at_level < 0.0 else "bow"
        raise WillNotFloat(
            f"will not float this: {both_mass(load.mass_kg)} with its centre "
            f"{both_text(load.lcg_m * MM_PER_M)} from the bow finds no trim to rest at, so the "
            f"boat goes down by the {end}; move weight to the middle, take less or a larger boat")
    middles = 0.5 * (SCANNED_DEG[rises] + SCANNED_DEG[rises + 1])
    other_way = middles * at_level > 0.0  # buoyancy ahead of the weight puts the stern deeper
    return rises[np.lexsort((np.abs(middles), other_way))[0]]


def levels(under, up, wanted_m3, low, high):
    """The level between `low` and `high` that carries a volume under each of n planes.

    Newton steps, since the waterplane is the volume's slope; halving where one would leave the
    heights between which the level is known to lie. `under(up, level)` gives an Immersed or Under.
    Returns (n,) and what is under there.
    """
    level = 0.5 * (low + high)
    for _ in range(MOST_HALVINGS):
        wet = under(up, level)
        excess = wet.volume_m3 - wanted_m3
        there = np.abs(excess) < LEVEL_TOLERANCE * wanted_m3
        if np.all(there):
            break
        low, high = np.where(excess < 0.0, level, low), np.where(excess < 0.0, high, level)
        newton = level - excess / np.maximum(wet.plane_area_m2, LEAST_AREA_M2)
        inside = (newton > low) & (newton < high)
        level = np.where(there, level, np.where(inside, newton, 0.5 * (low + high)))
    return level, wet


def _reach(outline, up):
    """Lowest and highest point of the hull over the origin, square to each plane, and over the
    wave where there is one."""
    across = np.abs(up[:, 1, None, None]) * np.abs(outline.y_m)
    middle = up[:, 0, None, None] * outline.x_m[:, None] + up[:, 2, None, None] * outline.z_m
    if outline.rise_m is not None:
        middle = middle - outline.rise_m[:, None]
    return (middle - across).min(axis=(1, 2)), (middle + across).max(axis=(1, 2))
