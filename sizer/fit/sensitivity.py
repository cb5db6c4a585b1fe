"""What a small change does to the fitted boat: central differences, everything else held."""

from dataclasses import dataclass, replace

from sizer.fit.loading import loading
from sizer.hull.boat import scaled_boat
from sizer.hull.weight import own_weight
from sizer.hydro.drag import drag_curve, drag_sections, wetted
from sizer.hydro.flotation import float_at
from sizer.hydro.particulars import particulars_of
from sizer.units import KN_PER_MPS

SPEEDS_KN = (3.0, 4.0)


@dataclass(frozen=True)
class Figures:
    """What is watched."""

    freeboard_m: float
    trim_deg: float
    gm_m: float
    drag_N: tuple[float, ...]  # at SPEEDS_KN, an estimate


@dataclass(frozen=True)
class Change:
    """One small change and what it does; half the difference of one up and one down."""

    words: str
    effect: Figures


def sensitivity(assessed):
    """The Changes of an assessed boat: 5 kg of paddler, 10 kg of gear, the seat, the beam.

    The seat stays where the fit put it but for the change itself, the body keeps its measures.

    Parameters
    ----------
    assessed : Assessed
    """
    person, boat = assessed.person, assessed.boat

    def seat(aft_m=0.0, up_m=0.0):
        return replace(boat, seat_x_m=boat.seat_x_m + aft_m, seat_z_m=boat.seat_z_m + up_m)

    def beam(sign):
        factor = boat.scaling.beam * (1.0 + sign * 0.010 / boat.beam_m)
        return replace(scaled_boat(boat.lines, replace(boat.scaling, beam=factor)),
                       seat_x_m=boat.seat_x_m)

    def heavier(sign):
        return replace(person, body=replace(
            person.body, weight_kg=person.body.weight_kg + sign * 5.0))

    # 10 kg less gear may be less than none: half the step down and up gives the same slope
    gear_step = min(10.0, person.gear_kg) or 10.0
    gear_low = max(person.gear_kg - gear_step, 0.0)
    return (
        Change("5 kg heavier paddler", _half(_figures(boat, heavier(1)),
                                             _figures(boat, heavier(-1)))),
        Change("10 kg more gear", _half(
            _figures(boat, replace(person, gear_kg=person.gear_kg + gear_step)),
            _figures(boat, replace(person, gear_kg=gear_low)),
            10.0 / (person.gear_kg + gear_step - gear_low))),
        Change("seat 20 mm farther aft", _half(_figures(seat(aft_m=0.02), person),
                                               _figures(seat(aft_m=-0.02), person))),
        Change("seat 20 mm higher", _half(_figures(seat(up_m=0.02), person),
                                          _figures(seat(up_m=-0.02), person))),
        Change("beam 10 mm wider", _half(_figures(beam(1), person), _figures(beam(-1), person))),
    )


def _half(up, down, share=0.5):
    return Figures(
        share * (up.freeboard_m - down.freeboard_m), share * (up.trim_deg - down.trim_deg),
        share * (up.gm_m - down.gm_m),
        tuple(share * (a - b) for a, b in zip(up.drag_N, down.drag_N, strict=True)))


def _figures(boat, person):
    """The watched figures with the seat exactly where it is."""
    load = loading(boat, own_weight(boat), person.body, person.centre, person.use,
                   person.gear_kg).load
    afloat = float_at(boat.sections, load, person.water)
    found = particulars_of(boat.sections, load, person.water, afloat)
    hull = wetted(drag_sections(boat), found, person.water)
    drag = drag_curve(hull, [speed / KN_PER_MPS for speed in SPEEDS_KN]).total_N
    return Figures(found.freeboard_m, found.trim_deg, found.gm_m, tuple(drag.tolist()))
