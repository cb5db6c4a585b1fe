"""The paddler as the fit needs one: body, mass centre, use and load, worked out once."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache

from sizer.fit.uses import USES, Use
from sizer.hydro.water import Water, water_at
from sizer.paddler.body import Body, predict
from sizer.paddler.measures import Measured
from sizer.paddler.room import ENTRIES, Room, room_needed
from sizer.paddler.seated import SeatedCentre, seated_centre

COOL_C = 10.0  # of the water that a base is taken to be drawn for; our judgement


@dataclass(frozen=True)
class Person:
    """One paddler for one use on one water."""

    body: Body
    centre: SeatedCentre
    rooms: Mapping[str, Room]  # by the way in
    use: Use
    gear_kg: float
    water: Water
    boat_share: float = 0.0  # by which the shop's boats are heavier than calculated
    own_spread: tuple[tuple[str, float], ...] = ()  # (key, sd) of SPREADS, by the shop's launches
    gear_off_m: tuple[float, float] = (0.0, 0.0)  # ahead of and above its places

    def room_in(self, entry):
        """The Room needed in a boat that is entered this way."""
        return self.rooms[entry]


def person_of(request):
    """The Person that a Request describes."""
    plain, bias = person_on(request.trip, request.measured), request.shop_bias
    centre = plain.centre
    return replace(plain, boat_share=bias.boat_share, own_spread=bias.spreads, centre=SeatedCentre(
        centre.ahead_m + bias.seat_ahead_m, centre.nominal_height_m + bias.seat_up_m,
        centre.cautious_height_m + bias.seat_up_m))


def person_on(trip, measured):
    """The Person of a Measured body on a Trip."""
    return person(measured, trip.use, trip.gear_kg, trip.water)


def person(measured, use_key, gear_kg, water):
    """The Person of a Measured body for one use, gear and water."""
    body = predict(measured)
    return Person(body, seated_centre(body), {entry: room_needed(body, entry) for entry in ENTRIES},
                  USES[use_key], gear_kg, water)


@lru_cache(maxsize=64)
def drawn_person(design):
    """The Person whom a base was drawn for; a use that is not ours is taken as the first of ours.

    Raises BadInput where the file's own figures cannot be one body.
    """
    drawn = design.drawn_for
    return person(Measured(drawn.weight_kg, drawn.stature_m, drawn.hip_width_m),
                  drawn.use if drawn.use in USES else next(iter(USES)), drawn.gear_kg,
                  water_at(drawn.water, COOL_C))


def legs_stretch(design, body):
    """Stretch of the base's body zone: this paddler's leg reach over that of whom it was drawn for.

    Kept between 0.85 and 1.15; beyond that the footbrace range has to serve (our judgement).
    """
    ratio = (room_needed(body, design.cockpit.entry).foot_rest_ahead_m
             / drawn_person(design).room_in(design.cockpit.entry).foot_rest_ahead_m)
    return min(max(ratio, 0.85), 1.15)
