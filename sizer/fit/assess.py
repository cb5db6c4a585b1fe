"""One boat with one paddler: weighed, floated and measured for room."""

from dataclasses import dataclass

import numpy as np

from sizer.design.records import SIT_AHEAD_M
from sizer.fit.facts import Space
from sizer.fit.loading import Loading, loading
from sizer.fit.person import Person
from sizer.hull import weight as hull_weight
from sizer.hull.boat import Boat, scaled_boat, with_seat_slid
from sizer.hull.inside import DECK_BEAM_M, clear_of_frame_m
from sizer.hull.seat import clear_of_skin_m
from sizer.hull.sections import half_section_at
from sizer.hull.weight import OwnWeight, own_weight
from sizer.hydro.flotation import float_and_wet
from sizer.hydro.particulars import Particulars, gm_long_m, particulars_of
from sizer.paddler.legs import FEET_APART_M, KNEES_APART_M, THIGHS_APART_M, legs_of
from sizer.paddler.room import Room

HIP_HEIGHT_M = 0.10  # of the hips' widest place above the seat; our judgement
THIGH_AHEAD_M = 0.25  # of the back of the buttocks, where a thigh is thickest; our judgement
UNDER_DECK_M = 0.02  # from the opening's front to the first place under the deck; our judgement
LEVEL_ENOUGH_DEG = 0.25  # trim at which the seat is left alone; our judgement
BRACE_SHORT_M = 0.015  # the footbrace ends this far from the next frame; our judgement
NOTHING_NEAR_M = 0.2  # clearance that counts where the legs pass no frame


@dataclass(frozen=True, eq=False)
class Assessed:
    """Everything the checks read."""

    person: Person
    room: Room
    boat: Boat
    weight: OwnWeight
    loading: Loading
    particulars: Particulars
    day: Particulars  # the same with no more gear than the base was drawn for
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
    return assess_boat(scaled_boat(lines, scaling, count), person, start, seat_held)


def assess_boat(boat, person, start=None, seat_held=False, weight=None):
    """As `assess`, of a boat that is there already; `weight` is its OwnWeight where known."""
    boat, weight, load, afloat, wet = _levelled(
        boat, own_weight(boat) if weight is None else weight, person, start, seat_held)
    particulars = particulars_of(boat.sections, load.load, person.water, afloat, wet)
    start = (float(afloat.level_m[0]), float(afloat.trim_deg[0]))
    return Assessed(
        person=person, room=person.room_in(boat.design.cockpit.entry),
        boat=boat, weight=weight, loading=load, particulars=particulars,
        day=_with_day_load(boat, weight, person, particulars, start),
        gm_cautious_m=particulars.gm_m - (load.cautious.vcg_m - load.load.vcg_m),
        space=space_in(boat, person), start=start)


def _with_day_load(boat, weight, person, laden, start):
    """Particulars with no more gear than the base was drawn for; a load never draws the lines."""
    day_kg = min(person.gear_kg, boat.design.drawn_for.gear_kg)
    if day_kg == person.gear_kg:
        return laden
    load = loading(boat, weight, person.body, person.centre, person.use, day_kg).load
    return particulars_of(boat.sections, load, person.water,
                          *float_and_wet(boat.sections, load, person.water, 0.0, start))


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
    shifted = with_seat_slid(boat, shift)
    start = (float(afloat.level_m[0]), trim)
    weight = hull_weight.seat_slid(weight, shifted)
    return shifted, weight, *floated(shifted, weight, start)


def _trim_stiffness_kgm(load, afloat, wet):
    """Moment to trim one degree: what sliding the paddler has to overcome."""
    return load.load.mass_kg * gm_long_m(load.load, afloat, wet) * np.pi / 180.0


def space_in(boat, person):
    """The Space that a Person finds in a boat, the seat where it is."""
    room = person.room_in(boat.design.cockpit.entry)
    seat_x, seat_z = boat.seat_x_m, boat.seat_z_m
    front = boat.opening.front_x_m - UNDER_DECK_M
    places = np.array([
        seat_x - SIT_AHEAD_M,  # hips: over the sitting bones
        min(seat_x - THIGH_AHEAD_M, front),  # first place under the deck
        min(seat_x - room.knee_ahead_m, front),
        seat_x - room.foot_rest_ahead_m,
    ])
    y, z = half_section_at(boat.sections, np.clip(places, 0.0, boat.length_m))
    sheer = boat.sections.sheer
    stock = max(line.stringer.depth_m for line in boat.lines.between)
    floor, foot_height, foot_width = _foot_space(y[3], z[3], sheer, stock, room.foot_height_m)
    return Space(
        hip_width_m=2.0 * (_breadth_at(y[0], z[0], sheer, seat_z + HIP_HEIGHT_M) - stock),
        thigh_height_m=_deck_at(y[1], z[1], sheer, THIGHS_APART_M) - seat_z - DECK_BEAM_M,
        knee_height_m=_deck_at(y[2], z[2], sheer, KNEES_APART_M) - seat_z - DECK_BEAM_M,
        foot_height_m=foot_height,
        foot_width_m=foot_width,
        footbrace_m=tuple(map(float, footbrace_m(boat, boat.seat_x_m))),
        leg_clear_m=_leg_clear_m(boat, legs_of(person.body, floor - seat_z)),
        seat_clear_m=clear_of_skin_m(boat.design, boat.seat, person.body.weight_kg),
    )


def footbrace_m(boat, seat_x_m):
    """Nearest and farthest place of the footbrace, which ends short of the next frame ahead.

    `seat_x_m` is one place of the back of the buttocks or many (n,).
    """
    near, far = (reach * boat.map.legs for reach in boat.design.cockpit.footbrace_reach_m)
    thick = np.array([frame.thickness_m for frame in boat.design.frames])
    face = np.asarray(seat_x_m)[..., None] - boat.frame_x_m - thick
    beyond = np.where(face > near, face, np.inf).min(axis=-1)
    return near, np.minimum(far, beyond - BRACE_SHORT_M)


def _leg_clear_m(boat, legs):
    """Least distance from the legs to the inner edges of the frames between hips and soles."""
    sections, lines = boat.sections, boat.lines
    found = NOTHING_NEAR_M
    for index, frame in enumerate(boat.design.frames):
        ahead = boat.seat_x_m - boat.frame_x_m[index] - 0.5 * frame.thickness_m
        if ahead < legs.ahead_m[0]:
            continue
        if ahead > legs.heel_m:  # in the feet's way, or ahead of the soles
            found = min(found, ahead - 0.5 * frame.thickness_m - legs.sole_m)
            continue
        y, z = half_section_at(sections, boat.frame_x_m[index])
        corners = np.stack([y[:-2], z[:-2]], axis=1)  # to the deck's edge or the ridge
        faces = ahead + 0.5 * frame.thickness_m * np.array([-1.0, 1.0])
        found = min(found, float(clear_of_frame_m(
            frame.kind, corners, sections.sheer, lines.stock_m,
            legs.outlines_m(faces, seat_m=boat.seat_z_m)).min()))
    return found


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
    """Floor under the feet, height there, and width half-way up them."""
    floor = _floor_at(y, z, sheer, FEET_APART_M)
    height = _deck_at(y, z, sheer, FEET_APART_M) - floor - DECK_BEAM_M
    width = 2.0 * (_breadth_at(y, z, sheer, floor + 0.5 * foot_height) - stock)
    return floor, height, width
