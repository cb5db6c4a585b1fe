"""Many paddlers as arrays, all for one use, water and gear."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from sizer.fit.person import Person
from sizer.paddler.room import Room
from sizer.rows import one_of, stacked

AT_ONCE = 3000  # people whose room is measured in one go


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

    @cached_property
    def lots(self):
        """Slices of the people, AT_ONCE each, and each lot as one Person of many."""
        starts = range(0, len(self.persons), AT_ONCE)
        slices = [slice(first, first + AT_ONCE) for first in starts]
        return [(some, one_of(self.person, some)) for some in slices]


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
