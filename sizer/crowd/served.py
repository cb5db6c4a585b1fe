"""Whom a finished boat serves: every check for many people at once, on the safe side.

Hundreds of boats and thousands of people make millions of pairs; this reads each off the boat's
tables. What is close to a limit counts as short of it, by the allowance of each check, so that
nobody is taken to be served whom the exact engine would refuse (tested on hundreds of pairs).
"""

from dataclasses import dataclass

import numpy as np

from sizer.crowd.tables import FOOT_HEIGHTS_M, TRIMS_DEG, room_table, water_table
from sizer.fit.assess import LEVEL_ENOUGH_DEG, THIGH_AHEAD_M
from sizer.fit.checks import DRAWN_LINES_M, MOST_TRIM_DEG
from sizer.fit.loading import loading
from sizer.fit.uses import FRACTION_BESIDE_SEAT, RESERVE_FREEBOARD_M
from sizer.paddler.room import Room, room_needed
from sizer.paddler.seated import worn_kg
from sizer.units import MM_PER_M

# Name, just-noticeable change (scale), band under which it cautions, hard, allowance of the
# tables; in mm, deg or kg. All but the allowances as `sizer.fit.checks` has them (tested).
COLUMNS = (
    ("hips beside the seat", 10.0, 0.0, True, 0.3),
    ("thighs under the deck", 10.0, 0.0, True, 0.3),
    ("knees under the deck", 10.0, 0.0, True, 0.3),
    ("feet under the deck", 10.0, 0.0, True, 0.3),
    ("feet side by side", 10.0, 0.0, True, 0.5),
    ("footbrace far enough", 10.0, 20.0, True, 0.0),
    ("footbrace near enough", 10.0, 20.0, True, 0.0),
    ("opening long enough", 10.0, 0.0, True, 0.0),
    ("opening wide enough", 10.0, 0.0, True, 0.0),
    ("side-deck freeboard", 10.0, 5.0, True, 0.5),
    ("not too high in the wind", 10.0, 0.0, False, 1.0),
    ("rim freeboard", 10.0, 5.0, True, 0.5),
    ("floats on its lines", 10.0, 0.0, False, 1.0),
    ("trim", 0.2, 0.5, True, 0.02),
    ("initial steadiness (GM)", 10.0, 5.0, True, 0.5),
    ("steadiness sitting tall (GM)", 10.0, 0.0, False, 0.5),
    ("load reserve", 5.0, 2.0, True, 0.3),
)
NAMES = tuple(column[0] for column in COLUMNS)
SCALE, BAND, HARD, ALLOWANCE = (np.array(values) for values in list(zip(*COLUMNS, strict=True))[1:])
"""Arrays (n_checks,)."""


@dataclass(frozen=True, eq=False)
class Crowd:
    """People as arrays (n,), all for one use, water and gear."""

    persons: tuple  # of Person
    weight_kg: np.ndarray
    ahead_m: np.ndarray  # of the seated centre
    height_m: np.ndarray  # of it above the seat
    cautious_height_m: np.ndarray
    room: Room  # each field an array


def crowd_of(persons, entry):
    """The Crowd of some Persons who enter a boat by `entry`."""
    rooms = [room_needed(person.body, entry) for person in persons]
    return Crowd(
        tuple(persons),
        np.array([person.body.weight_kg for person in persons]),
        np.array([person.centre.ahead_m for person in persons]),
        np.array([person.centre.nominal_height_m for person in persons]),
        np.array([person.centre.cautious_height_m for person in persons]),
        Room(**{name: np.array([getattr(room, name) for room in rooms])
                for name in vars(rooms[0])}))


def margins(hull, crowd):
    """Margin of every check for every person in a finished boat, without allowance.

    Parameters
    ----------
    hull : Finished
    crowd : Crowd, at least one person

    Returns
    -------
    (n_people, n_checks) in the unit of COLUMNS; minus infinity in the water's checks where the
    boat carries no such load.
    """
    boat, use = hull.boat, crowd.persons[0].use
    seat_shift, water = _afloat(hull, crowd)
    opening, room = boat.opening, crowd.room
    near, far = (reach * boat.map.legs for reach in boat.design.cockpit.footbrace_reach_m)
    drawn_draft = boat.design.drawn_for.draft_m * boat.scaling.depth
    length_columns = [
        *_room_margins(boat, room, boat.seat_x_m + seat_shift),
        far - room.foot_rest_ahead_m, room.foot_rest_ahead_m - near,
        opening.length_m - room.opening_length_m, opening.width_m - room.opening_width_m,
        water.freeboard_m - use.least_freeboard_m, use.most_freeboard_m - water.freeboard_m,
        water.rim_m - use.least_rim_freeboard_m,
        DRAWN_LINES_M - np.abs(water.draft_m - drawn_draft)]
    steady = [water.gm_m - use.least_gm_m, water.gm_cautious_m - use.least_gm_cautious_m]
    found = np.stack([
        *(column * MM_PER_M for column in length_columns),
        MOST_TRIM_DEG - np.abs(water.trim_deg),
        *(column * MM_PER_M for column in steady),
        water.reserve_kg - use.least_reserve_kg], axis=1)
    found[~water.carried, NAMES.index("side-deck freeboard"):] = -np.inf
    return found


@dataclass(frozen=True, eq=False)
class _Water:
    """The boat afloat with each person; arrays (n,)."""

    carried: np.ndarray  # bool: within the table
    trim_deg: np.ndarray
    freeboard_m: np.ndarray
    rim_m: np.ndarray
    draft_m: np.ndarray
    gm_m: np.ndarray
    gm_cautious_m: np.ndarray
    reserve_kg: np.ndarray


def _afloat(hull, crowd):
    """Seat shifts (n,) and the _Water after them."""
    boat, density = hull.boat, crowd.persons[0].water.density_kgpm3
    load = _Loads(hull, crowd)
    volume = load.mass_kg / density
    table = water_table(boat, (float(volume.min()), float(volume.max())))
    low, high = table.volumes_m3
    carried = (volume > low) & (volume < high)
    within = np.clip(volume, low, high)
    figures = np.stack([curve(within) for curve in table.curves], axis=1)  # (n, n_trims, 7)
    x, z = load.centre(np.zeros(volume.size))
    trim, here = _at_rest(figures, x, z)
    slant = np.radians(trim)
    long_gm = here[:, 2] - (z * np.cos(slant) - x * np.sin(slant))
    stiffness = load.mass_kg * long_gm * np.pi / 180.0
    wanted = np.sign(trim) * np.maximum(np.abs(trim) - LEVEL_ENOUGH_DEG, 0.0) * stiffness
    forward, aft = boat.design.cockpit.seat_slide_m
    shift = np.clip(-wanted / load.dressed_kg, -forward, aft)
    x, z = load.centre(shift)
    trim, here = _at_rest(figures, x, z)
    slant = np.radians(trim)
    gm = here[:, 1] - (z * np.cos(slant) - x * np.sin(slant))
    raised = load.dressed_kg * (crowd.cautious_height_m - crowd.height_m) / load.mass_kg
    reserve = (here[:, 4] - RESERVE_FREEBOARD_M) * here[:, 3] * density
    return shift, _Water(carried, trim, here[:, 4], here[:, 5], here[:, 6], gm, gm - raised,
                         reserve)


class _Loads:
    """What is afloat with each person, as a function of the seat's shift."""

    def __init__(self, hull, crowd):
        boat, one = hull.boat, crowd.persons[0]
        of_one = loading(boat, hull.weight, one.body, one.centre, one.use, one.gear_kg)
        self.dressed_kg = crowd.weight_kg + worn_kg()
        self.mass_kg = self.dressed_kg + hull.weight.mass_kg + one.gear_kg
        still = hull.weight.mass_kg * np.array([hull.weight.lcg_m, hull.weight.vcg_m])
        still = still + sum((heap.mass_kg * np.array([heap.lcg_m, heap.vcg_m])
                             for heap in of_one.gear), np.zeros(2))
        self._x = still[0] + self.dressed_kg * (boat.seat_x_m - crowd.ahead_m)
        self._z = still[1] + self.dressed_kg * (boat.seat_z_m + crowd.height_m)
        beside = dict(one.use.gear_places).get(FRACTION_BESIDE_SEAT, 0.0) * one.gear_kg
        self._slides_kg = self.dressed_kg + beside

    def centre(self, shift_m):
        """x and z of the mass centres, each (n,)."""
        return (self._x + self._slides_kg * shift_m) / self.mass_kg, self._z / self.mass_kg


def _at_rest(figures, x, z):
    """Trim (n,) at which buoyancy's lever meets the load's, and the figures (n, 7) there."""
    off = figures[:, :, 0] - x[:, None] - z[:, None] * np.tan(np.radians(TRIMS_DEG))
    after = np.clip(np.sum(off < 0.0, axis=1), 1, TRIMS_DEG.size - 1)
    rows = np.arange(x.size)
    low, high = off[rows, after - 1], off[rows, after]
    share = np.clip(-low / (high - low), 0.0, 1.0)
    trim = TRIMS_DEG[after - 1] + share * (TRIMS_DEG[after] - TRIMS_DEG[after - 1])
    share = share[:, None]
    return trim, (1.0 - share) * figures[rows, after - 1] + share * figures[rows, after]


def _room_margins(boat, room, seat_x):
    """Margins of hips, thighs, knees, feet's height and width, in m."""
    table = room_table(boat)
    under_deck = boat.opening.front_x_m - 0.02
    feet_x = seat_x - room.foot_rest_ahead_m

    def at(x, values):
        return np.interp(x, table.x_m, values)

    heights = np.clip(room.foot_height_m, FOOT_HEIGHTS_M[0], FOOT_HEIGHTS_M[-1])
    share = (heights - FOOT_HEIGHTS_M[0]) / (FOOT_HEIGHTS_M[1] - FOOT_HEIGHTS_M[0])
    below = np.minimum(share.astype(int), FOOT_HEIGHTS_M.size - 2)
    widths = np.stack([at(feet_x, column) for column in table.foot_width_m.T], axis=1)
    rows = np.arange(feet_x.size)
    width = widths[rows, below] + (share - below) * (widths[rows, below + 1] - widths[rows, below])
    return (
        at(seat_x - 0.10, table.hip_width_m) - room.hip_width_m,
        at(np.minimum(seat_x - THIGH_AHEAD_M, under_deck), table.thigh_height_m)
        - room.thigh_height_m,
        at(np.minimum(seat_x - room.knee_ahead_m, under_deck), table.knee_height_m)
        - room.knee_top_m,
        at(feet_x, table.foot_height_m) - room.foot_height_m,
        width - room.foot_width_m)
