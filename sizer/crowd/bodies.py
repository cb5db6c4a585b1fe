"""Many paddlers as arrays, all for one use, water and gear."""

from dataclasses import dataclass

import numpy as np

from sizer.fit.person import Person
from sizer.paddler.legs import legs_of
from sizer.paddler.room import Room


@dataclass(frozen=True, eq=False)
class LegsOfMany:
    """As `sizer.paddler.legs.Legs`, a row for each body: (n, n_places).

    Only under and upper side move with the floor under the heels, in proportion to its height.
    """

    ahead_m: np.ndarray
    under_m: np.ndarray  # of a floor level with the seat
    top_m: np.ndarray
    per_floor: np.ndarray  # of both, for each metre that the floor is higher
    apart_m: np.ndarray
    half_width_m: np.ndarray
    sole_m: np.ndarray  # (n,)


@dataclass(frozen=True, eq=False)
class Crowd:
    """People as arrays (n,)."""

    persons: tuple[Person, ...]
    weight_kg: np.ndarray
    stature_m: np.ndarray
    ahead_m: np.ndarray  # of the seated centre
    height_m: np.ndarray  # of it above the seat
    cautious_height_m: np.ndarray
    room: Room  # each field an array
    legs: LegsOfMany


def crowd_of(persons, entry):
    """The Crowd of some Persons who enter a boat by `entry`."""
    rooms = [person.room_in(entry) for person in persons]
    centres = [person.centre for person in persons]
    return Crowd(
        tuple(persons),
        np.array([person.body.weight_kg for person in persons]),
        np.array([person.body.stature.value_m for person in persons]),
        np.array([centre.ahead_m for centre in centres]),
        np.array([centre.nominal_height_m for centre in centres]),
        np.array([centre.cautious_height_m for centre in centres]),
        Room(**{name: np.array([getattr(room, name) for room in rooms])
                for name in vars(rooms[0])}),
        _legs_of_many([person.body for person in persons]))


def _legs_of_many(bodies):
    level, raised = ([legs_of(body, floor) for body in bodies] for floor in (0.0, 1.0))

    def each(legs, name):
        return np.array([getattr(one, name) for one in legs])

    return LegsOfMany(
        *(each(level, name) for name in ("ahead_m", "under_m", "top_m")),
        each(raised, "top_m") - each(level, "top_m"),
        *(each(level, name) for name in ("apart_m", "half_width_m", "sole_m")))
