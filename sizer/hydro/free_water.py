"""Water loose in the cockpit: what it takes from the boat's steadiness, litre by litre.

Inside stands a surface of its own, lower than the sea's until the boat is swamped. It is a load at
its own centre, and it runs to the low side: GM loses the second moment of that surface over the
displaced volume (the free surface of every stability handbook). The surface is the real one: the
hull's inside at that height, less float bags, what is behind bulkheads, and all that stands in it.
Upright, trim free; calm water. Water that slops from end to end or rolls in step is left out.
"""

from dataclasses import dataclass

import numpy as np

from sizer.compiled import compiled
from sizer.errors import NotSolved
from sizer.hydro import planes
from sizer.hydro.ends import L_PER_M3
from sizer.hydro.flooded import inside_of, load_of
from sizer.hydro.flotation import Load, float_many
from sizer.hydro.immersion import half_outline, immersed, planes_at, up_vectors
from sizer.hydro.particulars import upright_of
from sizer.hydro.watertight import Under, outline_of, under_of

LEVELS = 17  # heights of the water inside, from the lowest inside to the swamped boat's
TRIM_TOLERANCE_DEG = 1e-5
MOST_NEAR = 30  # Newton steps at each height, to so near as that trim is within the tolerance:
NEAR_SHARE = 1e-8  # of the volume
NEAR_LEVER_M = 1e-7  # lengthwise distance of buoyancy from weight
MOST_ROUNDS = 60
MOST_STRIDE = 4.0  # of a step by the secant, that it stays near


@dataclass(frozen=True, eq=False)
class FreeWater:
    """The boat with rising water inside; arrays are (n,), first without any."""

    inside_m: np.ndarray  # height of the water inside over the baseline, at half the length
    litres: np.ndarray
    gm_m: np.ndarray  # with the free surface taken off
    loss_m: np.ndarray  # what the free surface takes
    trim_deg: np.ndarray
    over_inside_m: np.ndarray  # the sea over the water inside, at half the hull's length

    @property
    def tips_at_l(self):
        """Litres at which GM reaches zero, straight between heights; None where it never does."""
        gone = np.flatnonzero(self.gm_m <= 0.0)
        if not gone.size:
            return None
        last = int(gone[0])
        if last == 0:
            return 0.0
        share = self.gm_m[last - 1] / (self.gm_m[last - 1] - self.gm_m[last])
        return float(self.litres[last - 1] + share * (self.litres[last] - self.litres[last - 1]))


def free_surface_loss_m(second_moment_m4, liquid_kgpm3, displacement_kg):
    """What a liquid's free surface takes from GM: i rho / displacement.

    Source: Barrass & Derrett, Ship Stability for Masters and Mates, the chapter on free surface.
    """
    return second_moment_m4 * liquid_kgpm3 / displacement_kg


def free_water(boat, weight, aboard, ends, water, top_m, count=LEVELS):
    """The FreeWater of a boat with its paddler.

    Parameters
    ----------
    boat, weight, aboard : as `sizer.hydro.flooded.flooded`
    ends : (bow, stern), End each
    water : Water
    top_m : height over the baseline of the highest water inside, at half the hull's length
    count : heights from the lowest inside up, closer where little water spreads far

    Raises
    ------
    BadInput as `flooded`; NotSolved as `water_inside`.
    """
    bottom = float(boat.sections.z_m.min())
    inside_m = bottom + (top_m - bottom) * np.linspace(0.0, 1.0, count) ** 2
    chambers, inside, _ = inside_of(boat, weight, aboard, *ends)
    return water_inside(boat.sections, chambers, inside, load_of(weight, aboard), water, inside_m)


def water_inside(sections, chambers, solids, load, water, inside_m):
    """The FreeWater of a hull with water inside at rising heights; those too heavy are left out.

    Parameters
    ----------
    sections : Sections
    chambers, solids : tuple of Chamber, Solids, that keep the water out
    load : Load, all but the water
    water : Water, inside as outside
    inside_m : (n,) heights over the baseline at half the hull's length

    Raises
    ------
    NotSolved, where trim and water inside do not come to rest.
    """
    outline = outline_of(sections, chambers)
    trim, start = _near(sections, outline, solids, load, water, inside_m)
    before, off_before = trim, np.zeros(trim.size)
    for _ in range(MOST_ROUNDS):
        up, level = planes_at(inside_m, trim, sections.mid_x_m)
        pool = _pool(sections, outline, solids, up, level)
        total = _with_water(load, pool, water)
        afloat, wet, floats = float_many(sections, total, water.density_kgpm3, start)
        off, start = np.where(floats, afloat.trim_deg - trim, 0.0), (afloat.level_m,
                                                                     afloat.trim_deg)
        if np.abs(off).max(initial=0.0) < TRIM_TOLERANCE_DEG:
            trim = trim + off
            break
        before, off_before, trim = trim, off, trim + off * _stride(trim - before, off_before - off)
    else:
        raise NotSolved("the trim of the boat with water inside did not settle")
    upright = upright_of(sections, total, water, afloat, wet)
    loss = free_surface_loss_m(pool.plane_a2_m4, water.density_kgpm3, total.mass_kg)
    up = up_vectors(np.zeros(trim.size), trim)
    over = (afloat.level_m - up[:, 0] * sections.mid_x_m) / up[:, 2] - inside_m
    first = max(int(np.count_nonzero(pool.volume_m3 <= 0.0)) - 1, 0)  # the last that is dry
    return FreeWater(*(one[first:][floats[first:]] for one in (
        inside_m, pool.volume_m3 * L_PER_M3, upright.gm_m - loss, loss, trim, over)))


def _near(sections, outline, solids, load, water, inside_m):
    """Trim (n,), and level and trim, to start from: where Newton steps on level and trim together
    come to rest, else level trim."""
    hull, none = half_outline(sections), np.zeros(inside_m.size)
    level, trim, rests = inside_m.copy(), none.copy(), np.zeros(none.size, bool)
    compiled(planes.loose_to_rest, planes.clip, planes.add_up, planes.add_solids,
             planes.under_level, planes.moment_aft, planes.newton_step)(
        *hull.points, hull.shares, *outline.points, outline.shares, solids.rows,
        load.mass_kg / water.density_kgpm3, np.array([load.lcg_m, 0.0, load.vcg_m]),
        sections.mid_x_m, inside_m, level, trim,
        (MOST_NEAR, planes.MOST_TRIM_DEG, NEAR_SHARE, NEAR_LEVER_M), rests)
    trim = np.where(rests, trim, 0.0)
    return trim, (level, trim) if rests.all() else None


def _stride(moved, less):
    """How many times what trim is off it is to move, by the secant through the last two rounds."""
    known = np.abs(less) > TRIM_TOLERANCE_DEG
    return np.clip(np.where(known, moved / np.where(known, less, 1.0), 1.0), 1.0, MOST_STRIDE)


def _pool(sections, outline, solids, up, level):
    """The Under of the water inside: the hull's inside below a plane, less what is dry."""
    whole = immersed(half_outline(sections), up, level)
    dry = under_of(outline, solids, up, level)
    pool = {name: getattr(whole, name) - value for name, value in vars(dry).items()}
    wet = pool["volume_m3"] > planes.LEAST_POOL_M3  # sticks lie lower than any water
    return Under(**{name: np.where(wet, value.T, 0.0).T for name, value in pool.items()})


def _with_water(load, pool, water):
    """Boat, crew and the water inside as one Load."""
    mass = water.density_kgpm3 * pool.volume_m3
    total = load.mass_kg + mass
    held = np.array([load.lcg_m, 0.0, load.vcg_m]) * load.mass_kg
    moment = (held + water.density_kgpm3 * pool.moment_m4) / total[:, None]
    return Load(total, moment[:, 0], moment[:, 2])
