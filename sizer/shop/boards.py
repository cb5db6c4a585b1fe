"""Where a seat lies in its boat: its ends, the skin and the sticks under it, and a board of it."""

from dataclasses import dataclass

import numpy as np
import shapely

from sizer.hull.boat import sections_at
from sizer.hull.inside import squares
from sizer.hull.seat import SIT_AHEAD_M
from sizer.shop.shapes import both_sides
from sizer.shop.stations import setting_up


@dataclass(frozen=True, eq=False)
class Board:
    """One board or strap, to starboard."""

    name: str
    plan_m: np.ndarray  # (4, 2) x from the bow and half-breadth, all round
    section_m: np.ndarray  # (n, 2) half-breadth and height across it at one place, all round
    flat_m: np.ndarray  # (4, 2) as cut: aft and outward from its inner forward corner
    holes_m: tuple[tuple[float, float], ...] = ()  # middles, on that outline

    @property
    def size_m(self):
        """Width and length of the rectangle round it as cut."""
        return tuple(np.ptp(self.flat_m, axis=0)[::-1].tolist())


def sit_x_m(boat):
    """Where the sitting bones are."""
    return boat.seat_x_m - SIT_AHEAD_M


def ends_m(boat):
    """x of the seat's front and back edge: a panel's own, else the two frames' outer faces."""
    if boat.design.seat.kind == "panel":
        return boat.seat_x_m - boat.design.seat.length_m, boat.seat_x_m
    fore, aft = stands_m(boat)
    return fore.faces_x_m[0], aft.faces_x_m[1]


def stands_m(boat):
    """The two Stations that slats or a sling stand on."""
    stations = {one.name: one for one in setting_up(boat).stations}
    return tuple(stations[name] for name in boat.design.seat.stands_on)


def hull_at(boat, x_m):
    """Corners of the skin from keel to gunwale at rising places: (n, n_corners, 2) m."""
    return corners_of(sections_at(boat, np.asarray(x_m, float)))


def corners_of(sections):
    return np.stack([sections.y_m, sections.z_m], axis=-1)[:, :sections.sheer + 1]


def sticks_at(boat, x_m):
    """The sticks of the bottom and sides at one place, both sides of the boat, as one shape."""
    return sticks_on(boat, hull_at(boat, [x_m]))


def sticks_on(boat, skins):
    """The same on the skin's corners at some places (n, n_corners, 2), each stick's middle on its
    corner, the gunwale's upper edge."""
    stock = boat.lines.stock_m[:skins.shape[1]]
    up, corners = squares(skins, len(stock)), skins[:, :len(stock)]
    out = np.stack([up[..., 1], -up[..., 0]], axis=-1)
    over = np.where(np.arange(len(stock)) < skins.shape[1] - 1, 0.5, 0.0)[:, None]
    wide, deep = stock[:, :1], stock[:, 1:]
    low, high = corners - (1.0 - over) * wide * out, corners + over * wide * out
    boxes = np.stack([low, high, high + deep * up, low + deep * up], axis=-2)
    return both_sides(shapely.union_all(shapely.polygons(boxes)))


def strip_m(front, back, inner, outer):
    """Corners of a strip that runs straight aft, (4, 2)."""
    return np.array([(front, inner), (back, inner), (back, outer), (front, outer)])


def thick_m(under, thickness_m):
    """The section all round over an underside from the middle outward, (n, 2)."""
    run = under[-1] - under[0]
    up = np.array([-run[1], run[0]]) / np.hypot(*run)
    return np.concatenate([under, (under + thickness_m * up)[::-1]])
