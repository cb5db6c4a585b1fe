"""One boat with one paddler: weighed, floated and measured for room."""

from dataclasses import dataclass, replace

import numpy as np

from sizer.fit.loading import Loading, loading
from sizer.fit.person import Person
from sizer.hull.boat import Boat, half_section_at, scaled_boat
from sizer.hull.weight import OwnWeight, own_weight, seat_slid
from sizer.hydro.flotation import float_and_wet
from sizer.hydro.particulars import Particulars, gm_long_m, particulars_of
from sizer.paddler.room import Room, room_needed

HIP_HEIGHT_M = 0.10  # of the hips' widest place above the seat; our judgement
THIGH_AHEAD_M = 0.25  # of the back of the buttocks, where a thigh is thickest; our judgement
THIGHS_APART_M = 0.10  # centre line to the middle of a thigh; our judgement
KNEES_APART_M = 0.14  # centre line to the middle of a knee; our judgement
FEET_APART_M = 0.07  # centre line to the middle of a foot; our judgement
DECK_STICK_M = 0.030  # a frame's deck beam under the moulded deck line there; our drawing
LEVEL_ENOUGH_DEG = 0.25  # trim at which the seat is left alone; our judgement


@dataclass(frozen=True)
class Space:
    """Clear space in the boat where the body needs it, m."""

    hip_width_m: float
    thigh_height_m: float  # above the seat
    knee_height_m: float  # above the seat
    foot_height_m: float  # above the floor
    foot_width_m: float
    footbrace_m: tuple[float, float]  # nearest and farthest, ahead of the back of the buttocks


@dataclass(frozen=True, eq=False)
class Assessed:
    """Everything the checks read."""

    person: Person
    room: Room
    boat: Boat
    weight: OwnWeight
    loading: Loading
    particulars: Particulars
    gm_cautious_m: float
    space: Space
    start: tuple[float, float]  # water level and trim, to start a neighbouring solve from


def assess(lines, scaling, person, count, start=None, seat_held=False):
    """Scales, weighs and floats a boat.

    The seat slides as far as level trim needs, or stays where the scaling puts it if it is held.

    Raises
    ------
    WillNotFloat, NotSolved: see `sizer.hydro.flotation.float_at`.
    """
    boat = scaled_boat(lines, scaling, count)
    boat, weight, load, afloat, wet = _levelled(boat, own_weight(boat), person, start, seat_held)
    particulars = particulars_of(boat.sections, load.load, person.water, afloat, wet)
    room = room_needed(person.body, boat.design.cockpit.entry)
    return Assessed(
        person=person,
        room=room,
        boat=boat, weight=weight, loading=load, particulars=particulars,
        gm_cautious_m=particulars.gm_m - (load.cautious.vcg_m - load.load.vcg_m),
        space=_space(boat, room),
        start=(float(afloat.level_m[0]), float(afloat.trim_deg[0])),
    )


def _levelled(boat, weight, person, start, seat_held):
    """Floats the boat, slides the seat within its range towards level trim, floats it again."""
    def floated(boat, weight, start):
        load = loading(boat, weight, person.body, person.centre, person.use, person.gear_kg)
        return load, *float_and_wet(boat.sections, load.load, person.water, 0.0, start)

    load, afloat, wet = floated(boat, weight, start)
    trim = float(afloat.trim_deg[0])
    if seat_held or abs(trim) <= LEVEL_ENOUGH_DEG:
        return boat, weight, load, afloat, wet
    stiffness = _trim_stiffness_kgm(load, afloat, wet)
    wanted = np.sign(trim) * (abs(trim) - LEVEL_ENOUGH_DEG) * stiffness / load.paddler_kg
    forward, aft = boat.design.cockpit.seat_slide_m
    shift = float(np.clip(-wanted, -forward, aft))
    shifted = replace(boat, seat_x_m=boat.seat_x_m + shift,
                      scaling=replace(boat.scaling, seat_shift_m=shift))
    start = (float(afloat.level_m[0]), trim)
    weight = seat_slid(weight, shift)
    return shifted, weight, *floated(shifted, weight, start)


def _trim_stiffness_kgm(load, afloat, wet):
    """Moment to trim one degree: what sliding the paddler has to overcome."""
    return load.load.mass_kg * gm_long_m(load.load, afloat, wet) * np.pi / 180.0


def _space(boat, room):
    """Clear space at the places where the body is."""
    seat_x, seat_z = boat.seat_x_m, boat.seat_z_m
    front = boat.opening.front_x_m
    places = np.array([
        seat_x - 0.10,  # hips: over the sitting bones
        min(seat_x - THIGH_AHEAD_M, front - 0.02),  # first place under the deck
        min(seat_x - room.knee_ahead_m, front - 0.02),
        seat_x - room.foot_rest_ahead_m,
    ])
    y, z = half_section_at(boat.sections, np.clip(places, 0.0, boat.length_m))
    sheer = boat.sections.sheer
    stock = max(line.stringer.depth_m for line in boat.lines.between)
    near, far = boat.design.cockpit.footbrace_reach_m
    foot_height, foot_width = _foot_space(y[3], z[3], sheer, stock, room.foot_height_m)
    return Space(
        hip_width_m=2.0 * (_breadth_at(y[0], z[0], sheer, seat_z + HIP_HEIGHT_M) - stock),
        thigh_height_m=_deck_at(y[1], z[1], sheer, THIGHS_APART_M) - seat_z - DECK_STICK_M,
        knee_height_m=_deck_at(y[2], z[2], sheer, KNEES_APART_M) - seat_z - DECK_STICK_M,
        foot_height_m=foot_height,
        foot_width_m=foot_width,
        footbrace_m=(near * boat.map.legs, far * boat.map.legs),
    )


def _breadth_at(y, z, sheer, height):
    """Half-breadth of the hull at a height; at the gunwale where that is lower."""
    return float(np.interp(height, z[: sheer + 1], y[: sheer + 1]))


def _deck_at(y, z, sheer, half_breadth):
    """Height of the deck over a distance from the centre line."""
    deck_y, deck_z = y[sheer:-2][::-1], z[sheer:-2][::-1]
    return float(np.interp(half_breadth, deck_y, deck_z))


def _floor_at(y, z, sheer, half_breadth):
    """Height of the bottom at a distance from the centre line."""
    return float(np.interp(half_breadth, y[: sheer + 1], z[: sheer + 1]))


def _foot_space(y, z, sheer, stock, foot_height):
    """Height at the feet and width half-way up them."""
    floor = _floor_at(y, z, sheer, FEET_APART_M)
    height = _deck_at(y, z, sheer, FEET_APART_M) - floor - DECK_STICK_M
    width = 2.0 * (_breadth_at(y, z, sheer, floor + 0.5 * foot_height) - stock)
    return height, width
