"""One finished boat tabulated: afloat over mass and trim, seat and clear room over their places.

Upright, the water's plane is given by trim and level, and everything but the load's lever follows
from the plane alone. So the planes of a grid are worked out once, each trim's figures become
smooth curves over the mass carried, and any paddler is read off them.
"""

from dataclasses import dataclass

import numpy as np
from scipy.interpolate import CubicSpline

from sizer.fit.assess import HIP_HEIGHT_M, THIGH_AHEAD_M, UNDER_DECK_M
from sizer.hull.boat import with_seat_slid
from sizer.hull.inside import DECK_BEAM_M
from sizer.hull.seat import SIT_AHEAD_M, clear_of_skin_m, sag_m
from sizer.hull.sections import half_section_at
from sizer.hydro.immersion import half_outline, immersed, up_vectors
from sizer.hydro.rim import rim_clearance_m
from sizer.paddler.legs import FEET_APART_M, KNEES_APART_M, THIGHS_APART_M

TRIMS_DEG = np.array([-6.0, -4.0, -2.5, -1.5, -1.0, -0.5, 0.0, 0.5, 1.0, 1.5, 2.5, 4.0, 6.0])
LEVELS, ROUGH_LEVELS = 15, 9  # of water at mid-length, for each trim
LEAST_SPAN_M = 0.020  # between the lowest and the highest of them
BEYOND = 0.05  # of the lightest and heaviest load's volume, tabulated past them
SEAT_PLACES = 17  # of the seat over its slide
PLACE_STEP_M = 0.010  # between the places along the boat where room is tabulated
PLACES_M = (-1.60, 0.10)  # of a body, from the seat; the longest legs reach 1.5 m
FOOT_HEIGHTS_M = np.linspace(0.14, 0.36, 12)  # shod feet standing, all that a body can have
FIGURES = ("lever_m", "metacentre_m", "long_metacentre_m", "plane_area_m2", "freeboard_m",
           "rim_m", "draft_m")


@dataclass(frozen=True, eq=False)
class WaterTable:
    """Curves over displaced volume, one for each of TRIMS_DEG, of FIGURES in their order.

    `lever_m`: x + z tan(trim) of buoyancy, which the load's must equal. `metacentre_m` and
    `long_metacentre_m`: heights square to the water, from the same origin as the load's.
    """

    curves: tuple[CubicSpline, ...]
    volumes_m3: tuple[float, float]  # that every curve covers


def water_table(boat, volumes_m3):
    """The WaterTable of a boat between two displaced volumes, or to the rim where that is less."""
    sections = boat.sections
    lowest, rim = float(sections.z_m[:, 0].min()) + 0.01, min(sections.rim_z_m)
    rough = np.tile(np.linspace(lowest, rim, ROUGH_LEVELS), (TRIMS_DEG.size, 1))
    held = immersed(half_outline(sections), *_planes(sections, rough)).volume_m3
    wanted = np.array([1.0 - BEYOND, 1.0 + BEYOND]) * volumes_m3
    ends = np.array([np.interp(wanted, row, heights)
                     for row, heights in zip(held.reshape(rough.shape), rough, strict=True)])
    ends[:, 0] = np.minimum(ends[:, 0], rim - LEAST_SPAN_M)
    ends[:, 1] = np.maximum(ends[:, 1], ends[:, 0] + LEAST_SPAN_M)
    heights = np.linspace(ends[:, 0], ends[:, 1], LEVELS, axis=1)
    volume, figures = _figures(sections, *_planes(sections, heights))
    volume = volume.reshape(heights.shape)
    figures = figures.reshape(*heights.shape, len(FIGURES))
    curves = tuple(CubicSpline(*pair) for pair in zip(volume, figures, strict=True))
    return WaterTable(curves, (float(volume[:, 0].max()), float(volume[:, -1].min())))


def _planes(sections, heights_m):
    """Planes of water (n, 3) and (n,) of heights at mid-length, a row for each of TRIMS_DEG."""
    up = up_vectors(0.0, np.repeat(TRIMS_DEG, heights_m.shape[1]))
    return up, up[:, 2] * heights_m.ravel() + up[:, 0] * sections.mid_x_m


def _figures(sections, up, level):
    """Volume (n,) and FIGURES (n, 7) of each plane; formulas as `sizer.hydro.particulars`."""
    wet = immersed(half_outline(sections), up, level)
    volume = wet.volume_m3
    centre = wet.moment_m4 / volume[:, None]
    lcf = wet.plane_x_m3 / wet.plane_area_m2
    height = np.einsum("pi,pi->p", centre, up)
    bm_long = (wet.plane_x2_m4 - wet.plane_area_m2 * lcf**2) / up[:, 2] ** 2 / volume
    x = sections.x_m
    sheer, keel = (up[:, :1] * x + up[:, 2:] * sections.z_m[:, column] - level[:, None]
                   for column in (sections.sheer, 0))
    return volume, np.stack([
        centre[:, 0] - centre[:, 2] * up[:, 0] / up[:, 2],
        height + wet.plane_a2_m4 / volume, height + bm_long, wet.plane_area_m2,
        sheer.min(axis=1), rim_clearance_m(sections, up, level), -keel.min(axis=1)], axis=-1)


@dataclass(frozen=True, eq=False)
class SeatTable:
    """What goes with the seat's place alone, over its slide aft of where it is; arrays (n,)."""

    shift_m: np.ndarray
    top_m: np.ndarray
    clear_m: np.ndarray  # of the skin, with nobody on it
    sag_mpkg: np.ndarray  # of the seat under each kilogram of body
    hip_width_m: np.ndarray
    thigh_height_m: np.ndarray  # above the seat


def seat_table(boat):
    """The SeatTable of a boat over all that its seat slides."""
    forward, aft = boat.design.cockpit.seat_slide_m
    shifts = np.linspace(-forward, aft, SEAT_PLACES)
    seats = [with_seat_slid(boat, float(shift)) for shift in shifts]
    top = np.array([one.seat_z_m for one in seats])
    behind = np.array([one.seat_x_m for one in seats])
    front = boat.opening.front_x_m - UNDER_DECK_M
    hips = _Places(boat, behind - SIT_AHEAD_M)
    thighs = _Places(boat, np.minimum(behind - THIGH_AHEAD_M, front))
    return SeatTable(
        shift_m=shifts, top_m=top,
        clear_m=np.array([clear_of_skin_m(boat.design, one.seat, 0.0) for one in seats]),
        sag_mpkg=np.array([sag_m(boat.design.seat, one.seat.span_m, 1.0) for one in seats]),
        hip_width_m=hips.clear_width_m(top + HIP_HEIGHT_M),
        thigh_height_m=thighs.deck_m(THIGHS_APART_M) - top - DECK_BEAM_M)


@dataclass(frozen=True, eq=False)
class FootTable:
    """What goes with a place along the boat, every PLACE_STEP_M; arrays (n,)."""

    x_m: np.ndarray
    knee_deck_m: np.ndarray  # clear of the deck beam, over the baseline
    floor_m: np.ndarray
    foot_height_m: np.ndarray
    foot_width_m: np.ndarray  # (n, n_foot_heights), for feet of FOOT_HEIGHTS_M


def foot_table(boat):
    """The FootTable of a boat."""
    x = np.clip(np.arange(*PLACES_M, PLACE_STEP_M) + boat.seat_x_m, 0.0, boat.length_m)
    there = _Places(boat, x)
    floor = there.bottom_m(FEET_APART_M)
    return FootTable(
        x_m=x, knee_deck_m=there.deck_m(KNEES_APART_M) - DECK_BEAM_M, floor_m=floor,
        foot_height_m=there.deck_m(FEET_APART_M) - floor - DECK_BEAM_M,
        foot_width_m=np.stack([there.clear_width_m(floor + 0.5 * height)
                               for height in FOOT_HEIGHTS_M], axis=1))


class _Places:
    """Sections of a boat at some places, as `sizer.fit.assess.space_in` reads them."""

    def __init__(self, boat, x_m):
        self._rows = list(zip(*half_section_at(boat.sections, x_m), strict=True))
        self._sheer = boat.sections.sheer
        self._stock = max(line.stringer.depth_m for line in boat.lines.between)

    def clear_width_m(self, heights_m):
        """Between the stringers of both sides, at a height for each place."""
        hull = slice(0, self._sheer + 1)
        return 2.0 * (np.array([np.interp(height, z[hull], y[hull]) for (y, z), height in
                                zip(self._rows, heights_m, strict=True)]) - self._stock)

    def deck_m(self, half_breadth_m):
        """Height of the deck at a distance from the centre line."""
        deck = slice(self._sheer, -2)
        return np.array([np.interp(half_breadth_m, y[deck][::-1], z[deck][::-1])
                         for y, z in self._rows])

    def bottom_m(self, half_breadth_m):
        """Height of the bottom at a distance from the centre line."""
        hull = slice(0, self._sheer + 1)
        return np.array([np.interp(half_breadth_m, y[hull], z[hull]) for y, z in self._rows])
