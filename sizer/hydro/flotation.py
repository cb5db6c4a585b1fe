"""Flotation: the sinkage and trim at which weight meets buoyancy, at any heel."""

from dataclasses import dataclass, replace

import numpy as np

from sizer.compiled import compiled
from sizer.errors import BadInput, Fault, NotSolved, WillNotFloat
from sizer.hull.sections import half_areas_m2
from sizer.hydro import planes
from sizer.hydro.immersion import (
    full_outline,
    half_outline,
    immersed,
    immersed_of,
    up_vectors,
)
from sizer.hydro.planes import LEVER_TOLERANCE_M, VOLUME_TOLERANCE
from sizer.hydro.resting import level_and_trim, moment_aft_m4
from sizer.rows import one_of
from sizer.units import both_mass

MOST_STEPS = 60
MOST_LOAD_SHARE = 0.999  # of what the closed hull displaces


@dataclass(frozen=True)
class Load:
    """Everything that is afloat: mass and its centre in boat axes; of many boats arrays (n,)."""

    mass_kg: float
    lcg_m: float  # x of the centre
    vcg_m: float  # z of the centre
    tcg_m: float = 0.0  # y of the centre


@dataclass(frozen=True, eq=False)
class Afloat:
    """Equilibrium at each of several heel angles; arrays are (n_heels,)."""

    heel_deg: np.ndarray
    trim_deg: np.ndarray  # positive: stern deeper
    level_m: np.ndarray  # the water's plane is u.p = level, see `sizer.hydro.immersion`
    volume_m3: np.ndarray
    centre_m: np.ndarray  # (n_heels, 3) of buoyancy
    righting_arm_m: np.ndarray  # positive: turns the boat back upright


def float_at(sections, load, water, heel_deg=0.0, start=None, rise_m=0.0):
    """Sinkage and trim at which the boat carries its load, for each held heel angle.

    Newton steps on level and trim together; the waterplane gives the slope. All angles advance in
    one go. Where an angle does not settle, `sizer.hydro.resting` looks over all trims.

    Parameters
    ----------
    sections : Sections
    load : Load
    water : Water
    heel_deg : scalar or (n,), held
    start : (level_m, trim_deg) to start from, as a warm start
    rise_m : (n_sections,) of a wave over the water's plane; 0 in calm water

    Returns
    -------
    Afloat

    Raises
    ------
    BadInput, where the mass is not above zero or a centre is not a number inside the hull.
    WillNotFloat, where the closed hull has less volume than the load needs, or no trim carries it.
    NotSolved, where neither search settles.
    """
    return float_and_wet(sections, load, water, heel_deg, start, rise_m)[0]


def float_and_wet(sections, load, water, heel_deg=0.0, start=None, rise_m=0.0):
    """As `float_at`, with the Immersed of that equilibrium beside it."""
    heel = np.atleast_1d(np.asarray(heel_deg, float))
    _refuse_odd_load(sections, load)
    wanted = load.mass_kg / water.density_kgpm3
    upright = heel.size == 1 and heel[0] == 0.0 and load.tcg_m == 0.0
    outline = half_outline(sections) if upright else full_outline(sections)
    if np.any(rise_m):
        outline = replace(outline, rise_m=rise_m)
    _refuse_overload(sections, load, water)
    centre = np.array([load.lcg_m, load.tcg_m, load.vcg_m])
    of = np.zeros(heel.size, int)
    level, trim, wet, settled = _newton(outline, heel, wanted, centre, sections.mid_x_m,
                                        *_start(sections, heel, wanted, start, of), of)
    if not np.all(settled):
        for one in np.flatnonzero(~settled):
            level[one], trim[one] = level_and_trim(outline, heel[one], load, wanted)
        up = up_vectors(heel, trim)
        wet = immersed(outline, up, level)
        settled = _settled(wet.volume_m3 - wanted, moment_aft_m4(wet, up, centre), wanted)
        if not np.all(settled):
            raise NotSolved(f"flotation at heel {heel[np.argmin(settled)]:g} deg did not settle")
    return _afloat(heel, trim, level, up_vectors(heel, trim), wet, centre), wet


def float_many(boats, loads, density_kgpm3, start=None, heels_deg=(0.0,), rise_m=0.0):
    """Many boats, each under its own load and at each of some heels.

    Parameters
    ----------
    boats : Sections of n boats, or of one that all n loads are put into
    loads : Load, arrays (n,), on the centre line
    density_kgpm3 : of the water, one or (n,)
    start : (level_m, trim_deg), each (n * n_heels,), to start from
    heels_deg : (n_heels,) held
    rise_m : of a wave over the water's plane at each section, of one boat or of n

    Returns
    -------
    Afloat and Immersed, and bool: which boats float; numbers of the others mean nothing. All of
    them (n * n_heels,), a boat's heels side by side.
    """
    count, heels = np.size(loads.lcg_m), len(heels_deg)
    none = np.zeros(count)
    carried = enclosed_volume_m3(boats)
    wanted = np.broadcast_to(loads.mass_kg / density_kgpm3, none.shape)
    floats = (wanted > 0.0) & (wanted < MOST_LOAD_SHARE * carried)
    floats &= (loads.lcg_m >= boats.x_m[..., 0]) & (loads.lcg_m <= boats.x_m[..., -1])
    floats &= np.abs(loads.vcg_m) <= boats.length_m
    wanted = np.where(floats, wanted, 0.5 * carried)
    centre = np.stack(np.broadcast_arrays(loads.lcg_m, none, loads.vcg_m), axis=-1)
    middle = np.stack(np.broadcast_arrays(boats.mid_x_m, none, none), axis=-1)
    centre = np.where(floats[:, None], centre, middle)
    heel, middle_x = np.tile(heels_deg, count), np.broadcast_to(boats.mid_x_m, none.shape)
    wanted, centre, floats, middle_x = (
        np.repeat(one, heels, axis=0) for one in (wanted, centre, floats, middle_x))
    outline = half_outline(boats) if heels == 1 and heels_deg[0] == 0.0 else full_outline(boats)
    if np.any(rise_m):
        outline = replace(outline, rise_m=rise_m)
    of = np.repeat(np.arange(count) if boats.x_m.ndim == 2 else np.zeros(count, int), heels)
    level, trim, wet, settled = _newton(outline, heel, wanted, centre, middle_x,
                                        *_start(boats, heel, wanted, start, of), of)
    if not settled.all():
        for one in np.flatnonzero(floats & ~settled):
            alone = outline if outline.y_m.ndim == 2 else one_of(outline, of[one])
            try:
                level[one], trim[one] = level_and_trim(
                    alone, heel[one], Load(1.0, centre[one, 0], centre[one, 2]), wanted[one])
            except WillNotFloat:
                floats[one] = False
        up = up_vectors(heel, trim)
        wet = immersed(outline, up, level, of)
        floats &= _settled(wet.volume_m3 - wanted, moment_aft_m4(wet, up, centre), wanted)
    return _afloat(heel, trim, level, up_vectors(heel, trim), wet, centre), wet, floats


def at_rest(sections, load, trim_deg, level_m):
    """Afloat and Immersed of a boat upright at trims and levels (n,) that are known to carry it."""
    heel = np.zeros(np.shape(trim_deg))
    up = up_vectors(heel, trim_deg)
    wet = immersed(half_outline(sections), up, level_m)
    centre = np.array([load.lcg_m, 0.0, load.vcg_m])
    return _afloat(heel, trim_deg, level_m, up, wet, centre), wet


def _newton(outline, heel, wanted, centre, mid_x_m, level, trim, of):
    """Newton steps on level and trim together: both, the Immersed there, and where it settled."""
    none, sums = np.zeros(heel.size), np.empty((heel.size, 9))
    centre = centre + none[:, None]
    wanted, mid_x_m, level, trim = (  # each its own, which a loop may write
        one + none for one in (wanted, mid_x_m, level, trim))
    compiled(planes.to_rest, planes.clip, planes.add_up, planes.newton_step)(
        *outline.points, outline.shares, of, outline.sides, heel, wanted, centre, mid_x_m, level,
        trim, MOST_STEPS, sums)
    wet = immersed_of(sums)
    return level, trim, wet, _settled(
        wet.volume_m3 - wanted, moment_aft_m4(wet, up_vectors(heel, trim), centre), wanted)


def _settled(excess, moment, wanted):
    return (np.abs(excess) < VOLUME_TOLERANCE * wanted) & (
        np.abs(moment) < LEVER_TOLERANCE_M * wanted)


def enclosed_volume_m3(sections):
    """Volume of the whole closed hull, cockpit closed at the rim."""
    return 2.0 * np.trapezoid(half_areas_m2(sections), sections.x_m, axis=-1)


def _refuse_odd_load(sections, load):
    """BadInput with every number of the load that cannot be one, NaN included."""
    front, back = float(sections.x_m[0]), float(sections.x_m[-1])
    reach = back - front  # no centre lies a hull's length above, below or beside the hull
    faults = [] if 0.0 < load.mass_kg < np.inf else [
        Fault("load", f"{load.mass_kg:g} kg", "more than 0 kg")]
    for place, value, low, high in (("aft of the foremost point", load.lcg_m, front, back),
                                    ("to starboard", load.tcg_m, -reach, reach),
                                    ("above the baseline", load.vcg_m, -reach, reach)):
        if not low <= value <= high:
            faults.append(Fault(f"centre of the load, {place}", f"{value:g} m",
                                f"{low:g} to {high:g} m"))
    if faults:
        raise BadInput(faults)


def _refuse_overload(sections, load, water):
    carried = enclosed_volume_m3(sections) * water.density_kgpm3
    if not load.mass_kg < MOST_LOAD_SHARE * carried:
        raise WillNotFloat(
            f"will not float this: {both_mass(load.mass_kg)} is more than the closed hull "
            f"displaces, {both_mass(carried, 0)}; take less or a larger boat")


def _start(sections, heel, wanted, start, of):
    """A level near the answer, no trim: share of the hull's height by share of its volume."""
    if start is not None:
        return np.full(heel.shape, start[0]), np.full(heel.shape, start[1])
    y, z, carried = (np.ascontiguousarray(one if sections.y_m.ndim == 3 else one[None]) for one in (
        sections.y_m, sections.z_m, np.asarray(enclosed_volume_m3(sections))))
    ends = np.empty((2, heel.size))
    compiled(_bottom_and_top)(y, z, of, up_vectors(heel, np.zeros_like(heel)), ends)
    bottom, top = ends
    return (bottom + (wanted / carried[of]) ** 0.7 * 0.9 * (top - bottom), np.zeros_like(heel))


def _bottom_and_top(y_m, z_m, of, ups, found):
    """Fills `found` (2, n_planes) with the least and greatest height of each plane's hull."""
    for plane in range(of.size):
        boat, side, up = of[plane], abs(ups[plane, 1]), ups[plane, 2]
        low, high = np.inf, -np.inf
        for section in range(y_m.shape[1]):
            for point in range(y_m.shape[2]):
                across, upwards = side * y_m[boat, section, point], up * z_m[boat, section, point]
                low, high = min(low, upwards - across, across + upwards), max(
                    high, across + upwards)
        found[0, plane], found[1, plane] = low, high


def _afloat(heel, trim, level, up, wet, centre):
    buoyancy = wet.moment_m4 / wet.volume_m3[:, None]
    off = buoyancy - centre  # its part along the water, across the boat: up x (1, 0, 0)
    arm = (up[:, 2] * off[:, 1] - up[:, 1] * off[:, 2]) / np.hypot(up[:, 1], up[:, 2])
    return Afloat(heel, trim, level, wet.volume_m3, buoyancy, arm)
