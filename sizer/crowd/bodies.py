"""Many paddlers as arrays, all for one use, water and gear."""

from dataclasses import dataclass

import numpy as np

from sizer.fit.person import Person
from sizer.paddler.room import Room
from sizer.rows import stacked


@dataclass(frozen=True, eq=False)
class Crowd:
    """People as arrays (n,)."""

    persons: tuple[Person, ...]
    person: Person  # all of them as one record of many
    weight_kg: np.ndarray
    stature_m: np.ndarray
    ahead_m: np.ndarray  # of the seated centre
    height_m: np.ndarray  # of it above the seat
    room: Room  # each field an array


def crowd_of(persons, entry):
    """The Crowd of some Persons who enter a boat by `entry`."""
    every = stacked(persons)

    def each(value):
        return np.broadcast_to(value, len(persons))

    room, centre = every.room_in(entry), every.centre
    return Crowd(
        tuple(persons), every, each(every.body.weight_kg), each(every.body.stature.value_m),
        each(centre.ahead_m), each(centre.nominal_height_m),
        Room(**{name: each(value) for name, value in vars(room).items()}))
