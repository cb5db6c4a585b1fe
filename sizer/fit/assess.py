"""One boat with one paddler: weighed, floated and measured for room."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Any

import numpy as np

from sizer.design.records import SIT_AHEAD_M
from sizer.errors import NotSolved, SizerError
from sizer.fit.facts import Space
from sizer.fit.loading import Loading, loading
from sizer.fit.person import Person
from sizer.hull import weight as hull_weight
from sizer.hull.boat import Boat, scaled_boat, with_seat_slid, with_seats, with_still_seats
from sizer.hull.inside import DECK_BEAM_M, clear_of_frame_m
from sizer.hull.seat import clear_of_skin_m
from sizer.hull.seat_bears import bears_ratio
from sizer.hull.sections import half_section_at
from sizer.hull.spacers import half_room_m
from sizer.hull.weight import OwnWeight, own_weight
from sizer.hydro.flotation import at_rest, float_at, float_many
from sizer.hydro.particulars import Upright, particulars_of, upright_of
from sizer.paddler.legs import AROUND, FEET_APART_M, KNEES_APART_M, THIGHS_APART_M, legs_of
from sizer.paddler.room import Room
from sizer.rows import along, interp, many_of, one_of

HIP_HEIGHT_M = 0.10  # of the hips' widest place above the seat; our judgement
THIGH_AHEAD_M = 0.25  # of the back of the buttocks, where a thigh is thickest; our judgement
UNDER_DECK_M = 0.02  # from the opening's front to the first place under the deck; our judgement
LEVEL_ENOUGH_DEG = 0.25  # trim at which the seat is left alone; our judgement
BRACE_SHORT_M = 0.015  # the footbrace ends this far from the next frame; our judgement
SLID_BRACE_M = 0.030  # that a slid seat leaves the footbrace to go forward; our judgement
SLID_LEGS_M = 0.012  # that it leaves between legs and frames; our judgement
NOTHING_NEAR_M = 0.2  # clearance that counts where the legs pass no frame


@dataclass(frozen=True, eq=False)
class Assessed:
    """Everything the checks read, of one boat with one paddler or of many: then arrays (n, ...)."""

    person: Person
    room: Room
    boat: Boat
    weight: OwnWeight
    loading: Loading
    upright: Upright
    day: Upright  # the same with no more gear than the base was drawn for
    bare: Upright  # the same without any gear
    space: Space
    start: tuple[float, float]  # water level and trim, to start a neighbouring solve from
    floats: bool  # of many, where False, no other number means anything
    # One standard deviation of what each check keeps inside its limit, SI, by the check's key; only
    # of those that it is known of, see `sizer.fit.odds`.
    spread: Mapping[str, float] = field(default_factory=dict)
    sure: Any = None  # the Sure of one fitted boat and of those tried beside it, see there

    def one(self, index):
        """One of many."""
        return replace(one_of(replace(self, boat=None), index), boat=self.boat_of(index))

    def boat_of(self, index):
        """The Boat of one of many."""
        shared = self.boat.sections.x_m.ndim == 1  # by all: only its seat has moved
        return with_seats(self.boat, index) if shared else one_of(self.boat, index)

    @cached_property
    def particulars(self):
        """The Particulars of one boat."""
        load, water = self.loading.load, self.person.water
        level, trim = (np.array([value]) for value in self.start)
        return particulars_of(self.boat.sections, load, water, *at_rest(
            self.boat.sections, load, trim, level))


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
    if start is not None:
        start = tuple(np.array([value]) for value in start)
    many = assess_many(many_of(boat), person, start, seat_held, weight)
    found = one_of(many, 0)
    if not found.floats:
        raise refusal(found)
    return found


def refusal(unfloated):
    """Why a boat that is not among those that float is not: WillNotFloat, NotSolved or BadInput."""
    try:
        float_at(unfloated.boat.sections, unfloated.loading.load, unfloated.person.water)
    except SizerError as error:
        return error
    return NotSolved("flotation did not settle")


def assess_crowd(boat, person, count, weight):
    """One boat that is there already, with its OwnWeight, under each of `count` people in one
    Person: Assessed of many."""
    return assess_many(with_still_seats(boat, count), person, weight=weight)


def assess_many(boats, person, start=None, seat_held=False, weight=None):
    """Weighs and floats many boats, each with its paddler.

    Parameters
    ----------
    boats : Boat of n boats, or one with n places of its seat
    person : Person, one for all or of n people
    start : (level_m, trim_deg), each (n,), to start from
    seat_held : bool
    weight : OwnWeight of the boats where known

    Returns
    -------
    Assessed of many; where `floats` is False the boat could not be floated
    """
    weight = own_weight(boats, person.boat_share) if weight is None else weight
    boats, weight, load, afloat, wet, floats = _levelled(boats, weight, person, start, seat_held)
    upright = upright_of(boats.sections, load.load, person.water, afloat, wet)
    start = (afloat.level_m, afloat.trim_deg)
    (day, day_floats), (bare, bare_floats) = (
        _with_gear(boats, weight, person, gear_kg, upright, start)
        for gear_kg in (np.minimum(person.gear_kg, boats.design.drawn_for.gear_kg), 0.0))
    room = person.room_in(boats.design.cockpit.entry)
    return Assessed(
        person=person, room=room, boat=boats, weight=weight, loading=load, upright=upright, day=day,
        bare=bare, space=space_in(boats, person), start=start,
        floats=floats & day_floats & bare_floats)


def _with_gear(boats, weight, person, gear_kg, laden, start):
    """Upright with so much gear, and whether it floats; `laden` where that is all of it."""
    if np.all(gear_kg == person.gear_kg):
        return laden, True
    load = loading(boats, weight, person.body, person.centre, person.use, gear_kg,
                   person.gear_off_m).load
    afloat, wet, floats = float_many(boats.sections, load, person.water.density_kgpm3, start)
    return upright_of(boats.sections, load, person.water, afloat, wet), floats


def _levelled(boats, weight, person, start, seat_held):
    """Floats the boats, slides seats within their range towards level trim, floats them again.

    A seat goes no farther than where feet and legs keep their room, level or not.
    """
    def floated(boats, weight, start):
        load = loading(boats, weight, person.body, person.centre, person.use, person.gear_kg,
                       person.gear_off_m)
        return load, *float_many(boats.sections, load.load, person.water.density_kgpm3, start)

    load, afloat, wet, floats = floated(boats, weight, start)
    trim = afloat.trim_deg
    over = np.maximum(np.abs(trim) - LEVEL_ENOUGH_DEG, 0.0) * floats
    if seat_held or not over.any():
        return boats, weight, load, afloat, wet, floats
    moment_kgm = load.load.mass_kg * upright_of(  # to trim one degree
        boats.sections, load.load, person.water, afloat, wet).gm_long_m * np.pi / 180.0
    _, shifted = slid(boats, -np.sign(trim) * over * moment_kgm / load.paddler_kg, person)
    weight = hull_weight.seat_slid(weight, shifted)
    return shifted, weight, *floated(shifted, weight, (afloat.level_m, trim))


def slid(boats, wanted_m, person):
    """What seats slide aft of what is wanted (n,), and the boats with them there: as far as the
    base lets them and the feet keep SLID_BRACE_M to the frame ahead, the legs SLID_LEGS_M to those
    they pass."""
    forward, aft = boats.design.cockpit.seat_slide_m
    soles_m = person.room_in(boats.design.cockpit.entry).foot_rest_ahead_m
    ahead_m = footbrace_m(boats, boats.seat_x_m)[1] - soles_m - SLID_BRACE_M
    shift = np.clip(wanted_m, -np.clip(ahead_m, 0.0, forward), aft)
    there = with_seat_slid(boats, shift)
    after = _leg_clear_m(there, person)
    if (after >= SLID_LEGS_M).all():
        return shift, there
    before = _leg_clear_m(boats, person)
    lost = before - after
    short = (lost > 0.0) & (after < SLID_LEGS_M)
    # the least of many distances: between the two it is never less than straight
    share = np.clip((before - SLID_LEGS_M) / np.where(short, lost, 1.0), 0.0, 1.0)
    shift = np.where(short, share, 1.0) * shift
    return shift, with_seat_slid(boats, shift)


def space_in(boats, person):
    """The Space that a Person finds in a boat, the seat where it is; or of many in many."""
    room, sections = person.room_in(boats.design.cockpit.entry), boats.sections
    seat_x, seat_z = boats.seat_x_m, boats.seat_z_m
    front = boats.opening.front_x_m - UNDER_DECK_M
    places = np.stack(np.broadcast_arrays(
        seat_x - SIT_AHEAD_M,  # hips: over the sitting bones
        np.minimum(seat_x - THIGH_AHEAD_M, front),  # first place under the deck
        np.minimum(seat_x - room.knee_ahead_m, front),
        seat_x - room.foot_rest_ahead_m), axis=-1)
    at = half_section_at(sections, np.clip(places, 0.0, along(boats.length_m, places)))
    hips, thighs, knees, feet = ((at[0][..., place, :], at[1][..., place, :])
                                 for place in range(4))
    sheer, stock = sections.sheer, max(line.stringer.depth_m for line in boats.lines.between)
    foot_height, foot_width = _foot_space(*feet, sheer, stock, room.foot_height_m)
    return Space(
        hip_width_m=2.0 * np.minimum(
            _breadth_at(*hips, sheer, seat_z + HIP_HEIGHT_M) - stock,
            half_room_m(boats, places[..., 0], seat_z + HIP_HEIGHT_M)),
        thigh_height_m=_deck_at(*thighs, sheer, THIGHS_APART_M) - seat_z - DECK_BEAM_M,
        knee_height_m=_deck_at(*knees, sheer, KNEES_APART_M) - seat_z - DECK_BEAM_M,
        foot_height_m=foot_height,
        foot_width_m=foot_width,
        footbrace_m=footbrace_m(boats, seat_x),
        leg_clear_m=_leg_clear_m(boats, person),
        seat_clear_m=clear_of_skin_m(boats.design, boats.seat, person.body.weight_kg),
        bears_each=bears_ratio(boats, person.body.weight_kg, np.stack(hips, axis=-1)),
    )


def footbrace_m(boat, seat_x_m):
    """Nearest and farthest place of the footbrace, which ends short of the next frame ahead.

    `seat_x_m` is one place of the back of the buttocks or many (n,).
    """
    near, far = (reach * boat.map.legs for reach in boat.design.cockpit.footbrace_reach_m)
    thick = np.array([frame.thickness_m for frame in boat.design.frames])
    face = np.asarray(seat_x_m)[..., None] - boat.frame_x_m - thick
    beyond = np.where(face > along(near, face), face, np.inf).min(axis=-1)
    return near, np.minimum(far, beyond - BRACE_SHORT_M)


def _legs_in(boats, person):
    """The Legs of a Person, heels on the floor under the feet."""
    soles_m = boats.seat_x_m - person.room_in(boats.design.cockpit.entry).foot_rest_ahead_m
    y, z = half_section_at(boats.sections, np.clip(soles_m, 0.0, boats.length_m)[..., None])
    floor_m = _floor_at(y[..., 0, :], z[..., 0, :], boats.sections.sheer, FEET_APART_M)
    return legs_of(person.body, floor_m - boats.seat_z_m)


def _leg_clear_m(boats, person):
    """Least distance from the legs to the inner edges of the frames between hips and soles."""
    legs = _legs_in(boats, person)
    y, z = half_section_at(boats.sections, boats.frame_x_m)
    corners = np.stack([y[..., :-2], z[..., :-2]], axis=-1)  # to the deck's edge or the ridge
    found = np.full(np.shape(boats.seat_x_m), NOTHING_NEAR_M)
    for index, frame in enumerate(boats.design.frames):
        ahead = boats.seat_x_m - boats.frame_x_m[..., index] - 0.5 * frame.thickness_m
        beyond = ahead > legs.heel_m  # in the feet's way, or ahead of the soles
        before = ahead - 0.5 * frame.thickness_m - legs.sole_m
        found = np.where(beyond, np.minimum(found, before), found)
        passed = (ahead >= legs.ahead_m[..., 0]) & ~beyond
        if not passed.any():
            continue
        faces = ahead[..., None] + 0.5 * frame.thickness_m * np.array([-1.0, 1.0])
        found = np.where(passed, clear_of_frame_m(
            frame.kind, corners[..., index, :, :], boats.sections.sheer, boats.lines.stock_m,
            legs.ovals_m(faces, boats.seat_z_m), AROUND, found), found)
    return found


def _breadth_at(y, z, sheer, height):
    """Half-breadth of the hull at a height; at the gunwale where that is lower."""
    return _at(height, z[..., :sheer + 1], y[..., :sheer + 1])


def _deck_at(y, z, sheer, half_breadth):
    """Height of the deck over a distance from the centre line."""
    return _at(half_breadth, y[..., sheer:-2][..., ::-1], z[..., sheer:-2][..., ::-1])


def _floor_at(y, z, sheer, half_breadth):
    """Height of the bottom at a distance from the centre line."""
    return _at(half_breadth, y[..., :sheer + 1], z[..., :sheer + 1])


def _at(x, places, values):
    return interp(np.asarray(x)[..., None], places, values)[..., 0]


def _foot_space(y, z, sheer, stock, foot_height):
    """Height under the deck at the feet, and width half-way up them."""
    floor = _floor_at(y, z, sheer, FEET_APART_M)
    height = _deck_at(y, z, sheer, FEET_APART_M) - floor - DECK_BEAM_M
    width = 2.0 * (_breadth_at(y, z, sheer, floor + 0.5 * foot_height) - stock)
    return height, width
