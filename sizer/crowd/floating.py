"""Many paddlers afloat in one finished boat, each read off its tables; the seat slides for each."""

from dataclasses import replace

import numpy as np

from sizer.crowd.bodies import AT_ONCE
from sizer.crowd.tables import read_off, water_table
from sizer.fit.assess import LEVEL_ENOUGH_DEG, slid
from sizer.fit.facts import Afloat
from sizer.fit.loading import loading
from sizer.fit.uses import FRACTION_BESIDE_SEAT, RESERVE_FREEBOARD_M
from sizer.hull.boat import with_seat_slid, with_still_seats
from sizer.hull.weight import WITH_SEAT
from sizer.hydro.flotation import enclosed_volume_m3
from sizer.paddler.seated import worn_kg
from sizer.rows import one_of

SEAT_PLACES = 17  # over its slide, at which its height is taken
LEVER, CENTRE, LONG_CENTRE, PLANE, FREEBOARD, RIM, DRAFT = range(7)  # of `tables.FIGURES`


def afloat_with(hull, crowd):
    """Seat shifts (n,) of a Crowd in a Finished boat and the Afloat after them; -inf throughout
    where the boat carries no such load."""
    boat, one = hull.boat, crowd.persons[0]
    density = one.water.density_kgpm3
    tops = seat_tops(boat)
    load, day, bare = (Loads(hull, crowd, gear_kg, tops) for gear_kg in (
        one.gear_kg, min(one.gear_kg, boat.design.drawn_for.gear_kg), 0.0))
    least, most = bare.mass_kg.min() / density, load.mass_kg.max() / density
    table = water_table(boat, (float(least), float(most)), one.water)
    shift, trim, here = _levelled(boat, load, table, load.mass_kg / density, crowd)
    _, day_here = read_off(table, day.mass_kg / density, *day.centre(shift))
    volume = load.mass_kg / density
    bare_gm_m = np.full(shift.size, np.nan)
    if one.gear_kg > 0.0:
        bare_trim, bare_here = read_off(table, bare.mass_kg / density, *bare.centre(shift))
        bare_gm_m = bare_here[:, CENTRE] - bare.height(shift, bare_trim)
    found = Afloat(
        load_share=volume / enclosed_volume_m3(boat.sections),
        freeboard_m=here[:, FREEBOARD], rim_freeboard_m=here[:, RIM],
        lines_off_m=day_here[:, DRAFT] - boat.design.drawn_for.draft_m * boat.scaling.depth,
        trim_deg=trim,
        gm_m=here[:, CENTRE] - load.height(shift, trim),
        bare_gm_m=bare_gm_m,
        reserve_kg=(here[:, FREEBOARD] - RESERVE_FREEBOARD_M) * here[:, PLANE] * density)
    low, high = table.volumes_m3
    carried = (bare.mass_kg / density > low) & (volume < high)
    return shift, replace(found, **{name: np.where(carried, value, -np.inf)
                                    for name, value in vars(found).items()})


def seat_tops(boat):
    """(2, SEAT_PLACES): shifts of a boat's seat over its slide, and its height at each."""
    forward, aft = boat.design.cockpit.seat_slide_m
    shifts = np.linspace(-forward, aft, SEAT_PLACES)
    return np.stack([shifts, with_seat_slid(boat, shifts).seat_z_m])


def _levelled(boat, load, table, volume_m3, crowd):
    """Seat shifts towards level trim, as `sizer.fit.assess` slides one; trim and figures there."""
    still = np.zeros(load.mass_kg.size)
    trim, here = read_off(table, volume_m3, *load.centre(still))
    stiffness = load.mass_kg * (here[:, LONG_CENTRE] - load.height(still, trim)) * np.pi / 180.0
    wanted = np.sign(trim) * np.maximum(np.abs(trim) - LEVEL_ENOUGH_DEG, 0.0) * stiffness
    shift = still.copy()
    movers = np.flatnonzero(wanted)
    for first in range(0, movers.size, AT_ONCE):
        some = movers[first:first + AT_ONCE]
        shift[some], _ = slid(with_still_seats(boat, some.size),
                              (-wanted / load.dressed_kg)[some], one_of(crowd.person, some))
    return shift, *read_off(table, volume_m3, *load.centre(shift))


class Loads:
    """What is afloat with each person, as a function of the seat's shift; `tops` of `seat_tops`."""

    def __init__(self, hull, crowd, gear_kg, tops):
        boat, one, own = hull.boat, crowd.persons[0], hull.weight
        of_one = loading(boat, own, one.body, one.centre, one.use, gear_kg)
        self.dressed_kg = crowd.weight_kg + worn_kg()
        self.mass_kg = self.dressed_kg + own.mass_kg + gear_kg
        still = own.mass_kg * np.array([own.lcg_m, own.vcg_m])
        still = still + sum((heap.mass_kg * np.array([heap.lcg_m, heap.vcg_m])
                             for heap in of_one.gear), np.zeros(2))
        self._x = still[0] + self.dressed_kg * (boat.seat_x_m - crowd.ahead_m)
        self._z = still[1] + self.dressed_kg * crowd.height_m
        self._tops = tops
        beside = dict(one.use.gear_places).get(FRACTION_BESIDE_SEAT, 0.0) * gear_kg
        seat = sum(part.mass_kg for part in own.parts if part.name in WITH_SEAT)
        self._slides_kg = self.dressed_kg + beside + seat

    def centre(self, shift_m):
        """x and z of the mass centres, each (n,)."""
        top = np.interp(shift_m, *self._tops)
        return ((self._x + self._slides_kg * shift_m) / self.mass_kg,
                (self._z + self.dressed_kg * top) / self.mass_kg)

    def height(self, shift_m, trim_deg):
        """Of the mass centres square to the water."""
        (x, z), slant = self.centre(shift_m), np.radians(trim_deg)
        return z * np.cos(slant) - x * np.sin(slant)
