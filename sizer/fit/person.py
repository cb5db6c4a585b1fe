"""The paddler as the fit needs one: body, mass centre, use and load, worked out once."""

from dataclasses import dataclass

from sizer.fit.uses import USES, Use
from sizer.hydro.water import Water
from sizer.paddler.body import Body, predict
from sizer.paddler.measures import Measured
from sizer.paddler.room import room_needed
from sizer.paddler.seated import SeatedCentre, seated_centre


@dataclass(frozen=True)
class Person:
    """One paddler for one use on one water."""

    body: Body
    centre: SeatedCentre
    use: Use
    gear_kg: float
    water: Water


def person_of(request):
    """The Person that a Request describes."""
    body = predict(request.measured)
    return Person(body, seated_centre(body), USES[request.use], request.gear_kg, request.water)


def legs_stretch(design, body):
    """Stretch of the base's body zone: this paddler's leg reach over that of whom it was drawn for.

    Kept between 0.85 and 1.15; beyond that the footbrace range has to serve (our judgement).
    """
    drawn = design.drawn_for
    drawn_body = predict(Measured(drawn.weight_kg, drawn.stature_m, drawn.hip_width_m))
    entry = design.cockpit.entry
    ratio = (room_needed(body, entry).foot_rest_ahead_m
             / room_needed(drawn_body, entry).foot_rest_ahead_m)
    return min(max(ratio, 0.85), 1.15)
