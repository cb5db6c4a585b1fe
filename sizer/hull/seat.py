"""The seat as something that is built: its height and its distance from the skin follow from it.

A panel is bent across the boat and lies on the keel and on chines. Slats run lengthwise from one
frame's floor to the next one's. A sling of webbing hangs between two frames. Nobody types a height.
"""

from dataclasses import dataclass

import numpy as np

from sizer.design.records import SIT_AHEAD_M
from sizer.design.woods import WOODS
from sizer.hull.inside import FLOOR_M, squares
from sizer.hull.sections import half_section_at
from sizer.rows import along, interp
from sizer.units import STANDARD_GRAVITY_MPS2

SIT_APART_M = 0.065  # of a sitting bone from the centre line; our judgement
LEAST_CLEAR_M = 0.012  # of the seat from the skin, the paddler on it; our judgement
OVER_KEEL_M = 0.006  # of a sling over the keel's stick; our judgement
SEATED_SHARE = 0.8  # of the weight that the seat bears; the rest goes down by heels and knees
PANEL_E_PA = 4.0e9  # of thin plywood bent across; our judgement, on the low side
SLAT_WOOD = "western red cedar"
SLAT_E_PA = 7.7e9  # of that wood (USDA Wood Handbook)
SLATS = 4  # side by side; our drawing
SLAT_SHARE = 0.7  # of the seat's width that slats fill; our drawing
WEBBING_KGPM2 = 1.0  # with its buckles; our judgement
BACKBAND_KG = 0.35  # with its line; our judgement
FIXINGS_KG = 0.15  # of the seat; our judgement
ALONG = 5  # places along the seat at which the skin is looked at
ACROSS = 9  # places across it


@dataclass(frozen=True, eq=False)
class SeatPlace:
    """The seat in a boat: its top and, at some places, its underside and the skin below.

    Of many boats every array has a leading axis.
    """

    top_m: float  # under the sitting bones, over the baseline
    x_m: np.ndarray  # (ALONG,) from front to back
    half_m: np.ndarray  # (ALONG, ACROSS) half-breadths from the middle to the seat's edge
    under_m: np.ndarray  # (ALONG, ACROSS) heights of the underside, with nobody on it
    skin_m: np.ndarray  # (ALONG, ACROSS) heights of the skin below
    span_m: float  # that bends under the paddler; 0 for a sling
    clear_m: float  # least from the underside to the skin, square to it, with nobody on it


def seat_place(design, sections, frame_x_m, between_depth_m, seat_x_m):
    """The SeatPlace of a scaled boat with its frames at (..., n_frames), the back of the buttocks
    at `seat_x_m`; {stringer name: (column of the sections, depth_m)} of keel and chines."""
    seat = design.seat
    ahead = np.append(np.linspace(seat.length_m, 0.0, ALONG - 1), SIT_AHEAD_M)
    x = along(seat_x_m, ahead) - ahead
    x = np.clip(x, sections.x_m[..., :1], sections.x_m[..., -1:])
    y, z = half_section_at(sections, x)
    hull = slice(0, sections.sheer + 1)
    make = {"panel": _on_sticks, "slats": _on_frames, "sling": _hung}[seat.kind]
    edge, under_at, span = make(design, sections, frame_x_m, between_depth_m, x,
                                np.stack([y, z], axis=-1))
    half = np.linspace(0.0, 1.0, ACROSS) * edge[..., None]
    skin = interp(half, y[..., hull], z[..., hull])
    under = under_at(half)
    top = under_at(np.full((*x.shape, 1), SIT_APART_M))[..., -1, 0][()] + seat.thickness_m
    slope = np.diff(skin) / np.maximum(np.diff(half), 1e-9)
    slope = np.concatenate([slope, slope[..., -1:]], axis=-1)
    clear = ((under - skin) / np.sqrt(1.0 + slope**2)).min(axis=(-1, -2))
    order = np.argsort(-ahead, kind="stable")
    return SeatPlace(top, x[..., order], half[..., order, :], under[..., order, :],
                     skin[..., order, :], span, clear)


def clear_of_skin_m(design, place, body_kg):
    """Least distance of the seat from the skin with a paddler of this weight on it.

    The seat sags by its bending at midspan, which is taken off everywhere.
    """
    return place.clear_m - sag_m(design.seat, place.span_m, body_kg)


def sag_m(seat, span_m, body_kg):
    """How far a seat bends at midspan under a paddler: 5 F L^3 / (384 E I), an evenly laden beam.

    Source: any handbook of strength of materials; E as stated above.
    """
    force = SEATED_SHARE * body_kg * STANDARD_GRAVITY_MPS2
    if seat.kind == "panel":  # two bays, keel to chine; each bears half
        breadth, stiff, force = seat.length_m, PANEL_E_PA, force / 2.0
    elif seat.kind == "slats":
        breadth, stiff = SLAT_SHARE * seat.width_m, SLAT_E_PA
    else:
        return 0.0 * force
    inertia = breadth * seat.thickness_m**3 / 12.0
    return 5.0 * force * span_m**3 / (384.0 * stiff * inertia)


def seat_kg(design, place):
    seat = design.seat
    if seat.kind == "panel":
        own = 2.0 * place.half_m[..., -1].mean(axis=-1) * seat.length_m * seat.thickness_m * WOODS[
            "okoume plywood"].density_kgpm3
    elif seat.kind == "slats":
        own = (np.maximum(place.span_m, seat.length_m) * SLAT_SHARE * seat.width_m
               * seat.thickness_m * WOODS[SLAT_WOOD].density_kgpm3)
    else:
        own = seat.width_m * seat.length_m * WEBBING_KGPM2
    return own + FIXINGS_KG + BACKBAND_KG


def _on_sticks(design, sections, frame_x_m, sticks, x, corners):
    """A panel: straight from the keel's inner face to each chine's, and as wide as they lie."""
    names = design.seat.stands_on
    columns = [sticks[name][0] for name in names]
    depth = np.array([sticks[name][1] for name in names])
    square = squares(corners, max(columns) + 1)[..., columns, :]
    rests = corners[..., columns, :] + depth[:, None] * square
    rests[..., 0, 0] = 0.5 * design.stringer(names[0]).width_m
    span = np.linalg.norm(np.diff(rests, axis=-2), axis=-1).max(axis=(-1, -2))
    return rests[..., -1, 0], lambda half: interp(half, rests[..., 0], rests[..., 1]), span


def _on_frames(design, sections, frame_x_m, sticks, x, corners):
    """Slats: straight from the floor of one frame to that of the next, along the bottom."""
    ends = _frames_x_m(design, frame_x_m)
    y, z = half_section_at(sections, ends)
    hull = slice(0, sections.sheer + 1)
    span = (ends[..., 1] - ends[..., 0])[()]
    share = ((x - ends[..., :1]) / along(span, x))[..., None]

    def under(half):
        floors = []
        for row in (0, 1):
            bottom = y[..., row, None, hull], z[..., row, None, hull]
            heights, over = interp(half, *bottom), interp(half + 0.01, *bottom)
            floors.append(heights + FLOOR_M * np.hypot(1.0, (over - heights) / 0.01))
        return (1.0 - share) * floors[0] + share * floors[1]

    return np.full(x.shape, 0.5 * design.seat.width_m), under, span


def _hung(design, sections, frame_x_m, sticks, x, corners):
    """A sling: level across, as far off the skin as drawn, and clear of the keel's stick."""
    y, z = corners[..., 0], corners[..., 1]
    hull = slice(0, sections.sheer + 1)
    low = interp(np.full((*x.shape, 1), SIT_APART_M), y[..., hull], z[..., hull])
    keel = z[..., :1] + sticks[design.stringers[0].name][1] + OVER_KEEL_M
    height = np.maximum(low + design.seat.clear_of_skin_m, keel)
    return np.full(x.shape, SIT_APART_M), lambda half: height + 0.0 * half, 0.0


def _frames_x_m(design, frame_x_m):
    names = [frame.name for frame in design.frames]
    return frame_x_m[..., [names.index(name) for name in design.seat.stands_on]]
