"""What small changes of load, seat or breadth do to one boat, as differences about where it is."""

from dataclasses import dataclass, replace

from sizer.fit.loading import loading
from sizer.fit.told import known
from sizer.hull.boat import SECTION_COUNT, scaled_boat
from sizer.hull.weight import own_weight
from sizer.hydro.drag import drag_curve, drag_sections, wetted
from sizer.hydro.flotation import float_at
from sizer.hydro.particulars import particulars_of
from sizer.units import KN_PER_MPS, MM_PER_M

SPEEDS_KN = (3.0, 4.0)


@dataclass(frozen=True)
class Figures:
    """One boat's figures, or how they change."""

    freeboard_m: float
    trim_deg: float  # positive: stern deeper
    gm_m: float
    drag_3kn_N: float
    drag_4kn_N: float


@dataclass(frozen=True)
class Change:
    """One change of so much and what it does, None where the boat changed so does not float."""

    words: str  # with {size} where its size is said
    unit: str  # of the size, "m" or "kg"
    size: float
    change: Figures | None

    @property
    def name(self):
        """What changes, by how much, in mm or kg."""
        return self.told(lambda size, unit: f"{size * MM_PER_M:g} mm" if unit == "m"
                         else f"{size:g} kg")

    def told(self, text):
        """The same by a function that writes a size of a unit."""
        return self.words.format(size=text(self.size, self.unit))


@dataclass(frozen=True)
class Sensitivity:
    """The boat as it is, and a table of changes."""

    now: Figures
    changes: tuple[Change, ...]


@dataclass(frozen=True)
class _Step:
    """How far each thing is moved from where it is."""

    paddler_kg: float = 0.0
    gear_kg: float = 0.0
    seat_aft_m: float = 0.0
    seat_up_m: float = 0.0
    beam_m: float = 0.0

    def times(self, share):
        """This step, shortened or turned round."""
        return _Step(*(share * value for value in vars(self).values()))


STEPS = (
    ("{size} more paddler", "paddler_kg", 5.0), ("{size} more gear", "gear_kg", 10.0),
    ("seat {size} further aft", "seat_aft_m", 0.020), ("seat {size} higher", "seat_up_m", 0.020),
    ("{size} more beam", "beam_m", 0.010),
)


def sensitivity(lines, scaling, person, count=SECTION_COUNT):
    """What each of STEPS changes, by central differences.

    change = f(+half the step) - f(-half the step): the step's whole change, centred on the boat as
    it is, so exact where f is a parabola; with under 5 kg of gear, from no gear up. All else is
    held: the seat does not slide back to level trim, heavier paddlers keep their other measures,
    the opening stays, and the seat's own kilogram does too, as where a fit slides the seat.

    Parameters
    ----------
    lines : Lines
    scaling : Scaling, of the boat as fitted, its seat shift included
    person : Person
    count : even sections that float each boat

    Returns
    -------
    Sensitivity

    Raises
    ------
    WillNotFloat, NotSolved: see `sizer.hydro.flotation.float_at`; of the boat as it is.
    """
    boat = scaled_boat(lines, scaling, count)
    weighed = _weighed(boat, person.boat_share)
    now, start = _figures(*weighed, person, _Step())
    changes = []
    for words, field, size in STEPS:
        step = _Step(**{field: size})
        low = max(-0.5, -person.gear_kg / step.gear_kg) if step.gear_kg else -0.5  # never below 0
        sides = [
            known(_figures, *(_wider(lines, boat, part, count, person.boat_share) if step.beam_m
                              else weighed), person, part, start)
            for part in (step.times(low + 1.0), step.times(low))]
        changes.append(Change(words, field.rpartition("_")[2], size,
                              None if None in sides else _between(*sides)))
    return Sensitivity(now, tuple(changes))


def _between(more, less):
    """Figures by which one differs from the other, each as `_figures` gives it."""
    return Figures(*(high - low for high, low in zip(*(
        vars(figures).values() for figures, _ in (more, less)), strict=True)))


def _wider(lines, boat, step, count, boat_share):
    """The boat rescaled to a step's beam, and weighed."""
    beam = boat.scaling.beam * (boat.beam_m + step.beam_m) / boat.beam_m
    return _weighed(scaled_boat(lines, replace(boat.scaling, beam=beam), count), boat_share)


def _weighed(boat, boat_share):
    """What all steps of one shape share: the boat, its weight, its sections for drag."""
    return boat, own_weight(boat, boat_share), drag_sections(boat)


def _figures(boat, weight, fine, person, step, start=None):
    """Figures of a boat one step from where it is, and the level and trim it floats at."""
    seat = replace(boat.seat, top_m=boat.seat.top_m + step.seat_up_m)
    boat = replace(boat, seat_x_m=boat.seat_x_m + step.seat_aft_m, seat=seat)
    body = replace(person.body, weight_kg=person.body.weight_kg + step.paddler_kg)
    load = loading(boat, weight, body, person.centre, person.use,
                   person.gear_kg + step.gear_kg).load
    afloat = float_at(boat.sections, load, person.water, 0.0, start)
    at_rest = particulars_of(boat.sections, load, person.water, afloat)
    drag = drag_curve(wetted(fine, at_rest, person.water),
                      [speed / KN_PER_MPS for speed in SPEEDS_KN]).total_N
    figures = Figures(at_rest.freeboard_m, at_rest.trim_deg, at_rest.gm_m, *map(float, drag))
    return figures, (float(afloat.level_m[0]), float(afloat.trim_deg[0]))
