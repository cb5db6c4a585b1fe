"""The usual particulars of a boat floating upright."""

from dataclasses import dataclass

import numpy as np

from sizer.errors import WillNotFloat
from sizer.hull.sections import strip_areas_m2
from sizer.hydro.flotation import float_and_wet
from sizer.hydro.immersion import cut_sections, half_outline, immersed, up_vectors
from sizer.hydro.rim import rim_clearance_m, sheer_clearance_m
from sizer.rows import one_of
from sizer.units import MM_PER_M, STANDARD_GRAVITY_MPS2, both_mass, both_text


@dataclass(frozen=True)
class Particulars:
    """An upright boat in the water. Heights are measured square to the water's surface."""

    displacement_kg: float
    volume_m3: float
    sinkage_m: float  # water above the baseline at half the hull's length
    trim_deg: float  # positive: stern deeper
    draft_m: float  # deepest keel below water
    waterline_length_m: float
    waterline_beam_m: float
    wetted_area_m2: float
    waterplane_area_m2: float
    block_coefficient: float
    prismatic_coefficient: float
    midship_coefficient: float
    waterplane_coefficient: float
    lcb_m: float
    lcf_m: float
    kb_m: float
    bm_m: float
    gm_m: float
    bm_long_m: float
    gm_long_m: float
    kg_per_cm: float  # to sink one centimetre deeper
    moment_to_trim_Nm_per_deg: float
    freeboard_m: float  # least, from water to the sheer
    rim_freeboard_m: float | None  # lowest of the cockpit rim; None without a cockpit
    bow_freeboard_m: float
    stern_freeboard_m: float


@dataclass(frozen=True, eq=False)
class Upright:
    """What the checks read of an upright boat, or of many: arrays (n,). As in Particulars."""

    volume_m3: np.ndarray
    trim_deg: np.ndarray
    draft_m: np.ndarray
    gm_m: np.ndarray
    gm_long_m: np.ndarray
    kg_per_cm: np.ndarray
    freeboard_m: np.ndarray
    rim_freeboard_m: np.ndarray | None


def upright_of(sections, load, water, afloat, wet):
    """The Upright of boats at an equilibrium from `float_and_wet` or `float_many`."""
    up, level = up_vectors(afloat.heel_deg, afloat.trim_deg), afloat.level_m
    volume = afloat.volume_m3
    keel = up[:, :1] * sections.x_m + up[:, 2:] * sections.z_m[..., 0] - level[:, None]
    # heights square to the water, so that they hold at the trim found
    centre = np.einsum("pi,pi->p", afloat.centre_m, up)
    over = centre - (up[:, 0] * load.lcg_m + up[:, 2] * load.vcg_m)
    with np.errstate(invalid="ignore"):  # of a boat that does not float
        lcf = wet.plane_x_m3 / wet.plane_area_m2
    bm_long = (wet.plane_x2_m4 - wet.plane_area_m2 * lcf**2) / up[:, 2] ** 2 / volume
    return Upright(
        volume_m3=volume, trim_deg=afloat.trim_deg, draft_m=-keel.min(axis=-1),
        gm_m=over + wet.plane_a2_m4 / volume, gm_long_m=over + bm_long,
        kg_per_cm=wet.plane_area_m2 * water.density_kgpm3 * 0.01,
        freeboard_m=sheer_clearance_m(sections, up, level),
        rim_freeboard_m=rim_clearance_m(sections, up, level))


def float_upright(sections, load, water, start=None):
    """Particulars of the boat upright under its load.

    Parameters and errors as `sizer.hydro.flotation.float_at`; also WillNotFloat where the cockpit
    rim would be under water, since an open boat fills there.
    """
    particulars = particulars_of(
        sections, load, water, *float_and_wet(sections, load, water, 0.0, start))
    rim = particulars.rim_freeboard_m
    if rim is not None and rim <= 0.0:
        raise WillNotFloat(
            f"will not float this: {both_mass(load.mass_kg)} puts the cockpit rim "
            f"{both_text(-rim * MM_PER_M)} under water; take less or a larger boat")
    return particulars


def particulars_of(sections, load, water, afloat, wet=None):
    """Particulars at an upright equilibrium from `float_at`.

    `wet` is its Immersed where that is known already, from `float_and_wet`.
    """
    up = up_vectors(afloat.heel_deg, afloat.trim_deg)
    if wet is None:
        wet = immersed(half_outline(sections), up, afloat.level_m)
    own = one_of(upright_of(sections, load, water, afloat, wet), 0)
    areas, breadths = cut_sections(half_outline(sections), up, afloat.level_m)
    up, level = up[0], float(afloat.level_m[0])
    area = float(wet.plane_area_m2[0])
    keel_depth = level - up[0] * sections.x_m - up[2] * sections.z_m[:, 0]
    sheer = up[0] * sections.x_m + up[2] * sections.z_m[:, sections.sheer] - level
    breadth = float(breadths.max())
    length = _waterline_length_m(sections, keel_depth) / up[2]
    midship = float(areas.max())
    bm = float(wet.plane_a2_m4[0]) / own.volume_m3
    centre = afloat.centre_m[0]
    kb = float(centre @ up) - (level - own.draft_m)
    load_height = float(up @ (load.lcg_m, 0.0, load.vcg_m)) - (level - own.draft_m)
    return Particulars(
        displacement_kg=own.volume_m3 * water.density_kgpm3,
        volume_m3=own.volume_m3,
        sinkage_m=level / up[2] - up[0] / up[2] * sections.mid_x_m,
        trim_deg=own.trim_deg,
        draft_m=own.draft_m,
        waterline_length_m=length,
        waterline_beam_m=breadth,
        wetted_area_m2=_wetted_area_m2(sections, up, level),
        waterplane_area_m2=area,
        block_coefficient=own.volume_m3 / (length * breadth * own.draft_m),
        prismatic_coefficient=own.volume_m3 / (midship * length),
        midship_coefficient=midship / (breadth * own.draft_m),
        waterplane_coefficient=area / (length * breadth),
        lcb_m=float(centre[0]),
        lcf_m=float(wet.plane_x_m3[0]) / area,
        kb_m=kb,
        bm_m=bm,
        gm_m=own.gm_m,
        bm_long_m=own.gm_long_m + load_height - kb,
        gm_long_m=own.gm_long_m,
        kg_per_cm=own.kg_per_cm,
        moment_to_trim_Nm_per_deg=own.volume_m3 * water.density_kgpm3 * STANDARD_GRAVITY_MPS2
        * own.gm_long_m * np.pi / 180.0,
        freeboard_m=own.freeboard_m,
        rim_freeboard_m=own.rim_freeboard_m,
        bow_freeboard_m=float(sheer[0]),
        stern_freeboard_m=float(sheer[-1]),
    )


def _waterline_length_m(sections, keel_depth):
    """Foremost to aftmost place where the bottom line goes under, along the hull's x."""
    x = sections.x_m
    wet = np.flatnonzero(keel_depth > 0.0)
    first, last = wet[0], wet[-1]
    front, back = x[first], x[last]
    if first > 0:
        front -= (x[first] - x[first - 1]) * keel_depth[first] / (
            keel_depth[first] - keel_depth[first - 1])
    if last < x.size - 1:
        back += (x[last + 1] - x[last]) * keel_depth[last] / (
            keel_depth[last] - keel_depth[last + 1])
    return float(back - front)


def _wetted_area_m2(sections, up, level):
    """Skin under water: immersed girth of each strip times the strip's true area per girth."""
    height = up[0] * sections.x_m[:, None] + up[2] * sections.z_m - level
    low, high = height[:, :-1], height[:, 1:]
    level_strip = low == high
    share = np.minimum(np.maximum(
        -np.minimum(low, high) / np.where(level_strip, 1.0, np.abs(high - low)), 0.0), 1.0)
    share = np.where(level_strip, low < 0.0, share)
    y, z = sections.y_m, sections.z_m
    girth = np.hypot(y[:, 1:] - y[:, :-1], z[:, 1:] - z[:, :-1])
    mean_girth = 0.5 * (girth[1:] + girth[:-1])
    wet_girth = 0.5 * ((girth * share)[1:] + (girth * share)[:-1])
    areas = strip_areas_m2(sections)
    ends = 2.0 * _end_area_m2(sections, share)
    return 2.0 * float(np.sum(areas * np.divide(wet_girth, mean_girth,
                                                out=np.zeros_like(areas),
                                                where=mean_girth > 0.0))) + ends


def _end_area_m2(sections, share):
    """Flat ends, such as a box's: zero on a boat that closes on its stems."""
    y, z = sections.y_m[[0, -1]], sections.z_m[[0, -1]]
    if not y.any():
        return 0.0
    rise = np.diff(z, axis=1) * share[[0, -1]]
    return float(np.sum(0.5 * (y[:, 1:] + y[:, :-1]) * rise))
