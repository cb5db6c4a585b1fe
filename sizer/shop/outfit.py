"""What holds the paddler beside the seat: the backband behind, the footbrace ahead."""

from dataclasses import dataclass

import numpy as np

from sizer.hull.boat import sections_at
from sizer.shop.stations import setting_up


@dataclass(frozen=True)
class Backband:
    """Where the band crosses behind the back, and where its ties go, one a side."""

    x_m: float
    over_seat_m: float
    z_m: float
    frame: str  # the ties go to the gunwales there
    tie_x_m: float
    tie_half_breadth_m: float
    tie_z_m: float
    tie_m: float  # length of each from the band's end to the gunwale


@dataclass(frozen=True)
class Footbrace:
    """Its places, ahead of the back of the buttocks, and the rails that carry it, one a side."""

    nearest_m: float
    set_m: float  # for this paddler
    farthest_m: float
    fore_frame: str
    aft_frame: str
    rail_m: float  # length of each rail, with its ends on both frames


def backband(boat):
    """The Backband of a boat: its ties go to the first frame behind the seat."""
    height, seat_x = boat.design.cockpit.backband_height_m, boat.seat_x_m
    up = setting_up(boat)
    aft = next((one for one in up.stations if one.faces_x_m[0] >= seat_x), up.stations[-1])
    gunwale = next(one for one in boat.design.stringers if one.role == "gunwale")
    half, z = aft.points_m[gunwale.name]
    z = z - up.baseline_height_m - gunwale.width_m
    half = half - gunwale.depth_m
    at = boat.seat_z_m + height
    away = (aft.faces_x_m[0] - seat_x, half - 0.5 * boat.design.seat.width_m, z - at)
    return Backband(seat_x, height, at, aft.name, aft.faces_x_m[0], half, z,
                    float(np.linalg.norm(away)))


def gunwale_inside_m(boat, x_m):
    """Half-breadth of the gunwale's inner face and height of its upper edge, at a place."""
    gunwale = next(one for one in boat.design.stringers if one.role == "gunwale")
    skin = sections_at(boat, np.array([x_m]))
    row = skin.sheer
    return float(skin.y_m[0, row]) - gunwale.depth_m, float(skin.z_m[0, row])


def footbrace(assessed):
    """The Footbrace of an Assessed boat."""
    near, far = assessed.space.footbrace_m
    return Footbrace(near, assessed.room.foot_rest_ahead_m, far, *rails(assessed.boat))


def rails(boat):
    """Frames fore and aft of the footbrace, and the length of the rails that join them."""
    near = boat.seat_x_m - boat.design.cockpit.footbrace_reach_m[0] * boat.map.legs
    stations = setting_up(boat).stations
    fore = max((one for one in stations if one.faces_x_m[1] < near), key=lambda one: one.x_m,
               default=stations[0])
    aft = next((one for one in stations if one.faces_x_m[1] >= near), stations[-1])
    return fore.name, aft.name, aft.faces_x_m[1] - fore.faces_x_m[0]
