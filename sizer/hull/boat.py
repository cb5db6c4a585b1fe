"""A boat: a base design's lines under one scaling, with its opening, seat and frames in place."""

from dataclasses import dataclass, field, replace
from functools import lru_cache

import numpy as np

from sizer.hull.lines import Lines, base_table, ridge_m
from sizer.hull.places import along_boat_m, places_of
from sizer.hull.scale import LengthMap, Scaling, crown_factor
from sizer.hull.seat import SeatPlace, seat_place
from sizer.hull.sections import Sections
from sizer.rows import SHARED, along, one_of

SECTION_COUNT = 121  # even sections; doubling them moves displacement by under 0.1 % (tested)
WIDEST_SHARE = 0.58  # of the opening's length from its front: where it is widest, our drawing
PLAN_POWER = 2.5  # of the opening's outline: 2 is an ellipse, more is squarer; our drawing


@dataclass(frozen=True, eq=False)
class Opening:
    """The cockpit as scaled; of many boats, arrays (n,) and (n, 2)."""

    front_x_m: float
    back_x_m: float
    width_m: float
    deck_z_m: np.ndarray  # (2,) height of the deck line under the coaming, front and back
    rim_z_m: np.ndarray  # (2,) top of the coaming, front and back

    @property
    def length_m(self):
        """Length of the opening."""
        return self.back_x_m - self.front_x_m

    def half_width_m(self, x_m):
        """Half-width of the opening at each x, zero ahead of and behind it."""
        front, length, width = (along(one, x_m) for one in
                                (self.front_x_m, self.length_m, self.width_m))
        share = (np.asarray(x_m) - front) / length
        from_widest = np.where(share < WIDEST_SHARE, 1.0 - share / WIDEST_SHARE,
                               (share - WIDEST_SHARE) / (1.0 - WIDEST_SHARE))
        return 0.5 * width * np.sqrt(
            np.maximum(1.0 - np.maximum(from_widest, 0.0) ** PLAN_POWER, 0.0))

    def rim_height_m(self, x_m):
        """Top of the coaming at each x."""
        return self._between(x_m, self.rim_z_m)

    def deck_height_m(self, x_m):
        """The deck line under the coaming at each x."""
        return self._between(x_m, self.deck_z_m)

    def _between(self, x_m, ends):
        share = (np.asarray(x_m) - along(self.front_x_m, x_m)) / along(self.length_m, x_m)
        low, high = along(ends[..., 0], x_m), along(ends[..., 1], x_m)
        return low + (high - low) * np.minimum(np.maximum(share, 0.0), 1.0)


@dataclass(frozen=True, eq=False)
class Boat:
    """A scaled boat, ready to be weighed, floated, checked and built.

    Or many, scaled from one base in one go: then numbers are arrays (n,), and arrays have a
    leading axis. `sizer.rows.one_of` takes one out.
    """

    lines: Lines = field(metadata=SHARED)
    scaling: Scaling
    map: LengthMap
    opening: Opening
    sections: Sections
    base_x_m: np.ndarray  # (n_sections,) the sections' places on the base
    alive: np.ndarray  # (n_sections, n_columns) bool: a stick stands there; base columns only
    frame_x_m: np.ndarray  # (n_frames,) of the reference faces
    frame_base_x_m: np.ndarray  # (n_frames,) the same places on the base
    seat_x_m: float  # back of the buttocks
    seat: SeatPlace

    @property
    def design(self):
        return self.lines.design

    @property
    def seat_z_m(self):
        """Top of the seat under the sitting bones."""
        return self.seat.top_m

    @property
    def length_m(self):
        """Hull length."""
        return self.map.length_m

    @property
    def beam_m(self):
        return 2.0 * self.sections.y_m.max(axis=(-1, -2))

    @property
    def depth_m(self):
        """Least height of the sheer above the baseline's lowest keel point."""
        z = self.sections.z_m
        return z[..., self.sections.sheer].min(axis=-1) - z[..., 0].min(axis=-1)


def scaled_boat(lines, scaling, count=SECTION_COUNT):
    """The boat that a base's Lines become under a Scaling, or the boats under one of arrays (n,);
    `count` even sections along the hull, beside those where a line begins or ends."""
    places = places_of(lines, count, scaling.length, scaling.legs, scaling.cockpit_length_m)
    opening = _opening(lines, scaling, places)
    sections = _sections(lines, scaling, opening, places.table, places.x_m)
    seat_x = places.seat_x_m + scaling.seat_shift_m
    return Boat(
        lines=lines, scaling=scaling, map=places.map, opening=opening, sections=sections,
        base_x_m=places.table.x_m, alive=places.table.alive,
        frame_x_m=places.frame_x_m, frame_base_x_m=places.frame_base_x_m,
        seat_x_m=seat_x, seat=_seat(lines, sections, places.frame_x_m, seat_x))


def with_seat_slid(boat, shift_m):
    """The boat with its seat slid aft by `shift_m` from where it is."""
    seat_x = boat.seat_x_m + shift_m
    shifted = boat.scaling.seat_shift_m + shift_m
    return replace(boat, seat_x_m=seat_x, scaling=replace(boat.scaling, seat_shift_m=shifted),
                   seat=_seat(boat.lines, boat.sections, boat.frame_x_m, seat_x))


def with_still_seats(boat, count):
    """The boat with its seat where it is, as one of many."""
    return with_seats(with_seat_slid(boat, np.zeros(1)), np.zeros(count, int))


def with_seats(boat, index):
    """The boat with some of the many places of its seat."""
    return replace(boat, seat_x_m=boat.seat_x_m[index], seat=one_of(boat.seat, index),
                   scaling=one_of(boat.scaling, index))


def _seat(lines, sections, frame_x_m, seat_x_m):
    return seat_place(lines.design, sections, frame_x_m, lines.hull_sticks, seat_x_m)


@lru_cache(maxsize=64)
def _deck_under_coaming_m(lines):
    """Heights of the base's deck line at the opening's ends."""
    cockpit = lines.design.cockpit
    return ridge_m(lines, np.array([cockpit.front_x_m, cockpit.back_x_m]))


def _opening(lines, scaling, places):
    """Back end moves with the map; length and width are given; rim height over deck is kept."""
    design = lines.design
    cockpit = design.cockpit
    width = cockpit.width_m if scaling.cockpit_width_m is None else scaling.cockpit_width_m
    base_ends = places.base_ends_m
    ahead, behind = lines.ridges[0], lines.ridges[-1]
    deck = np.stack([ahead.curve(base_ends[..., 0])[..., 1],
                     behind.curve(base_ends[..., 1])[..., 1]], axis=-1)
    deck = _raised(deck, lines.gunwale.curve(base_ends)[..., 1], base_ends, design, scaling)
    lips = np.array([cockpit.rim_front_z_m, cockpit.rim_back_z_m]) - _deck_under_coaming_m(lines)
    return Opening(places.front_x_m, places.back_x_m, width, deck, deck + lips)


def _raised(deck_z, sheer_z, base_x, design, scaling):
    """Deck heights under the depth and crown factors."""
    crown = crown_factor(scaling.crown, base_x, design.cockpit.front_x_m,
                         design.cockpit.back_x_m)
    return along(scaling.depth, base_x) * (sheer_z + crown * (deck_z - sheer_z))


def _sections(lines, scaling, opening, table, x):
    """Scales a base table and closes it over the deck, with the cockpit closed at the rim."""
    sheer = 1 + lines.between.index(lines.gunwale)
    columns = len(lines.between) + 1  # all but the ridge's, which three close
    y, z = np.empty((2, *x.shape, columns + 3))
    y[..., :columns] = np.asarray(scaling.beam)[..., None, None] * table.y_m[..., :-1]
    z[..., :sheer + 1] = np.asarray(scaling.depth)[..., None, None] * table.z_m[..., :sheer + 1]
    base_sheer_z = table.z_m[..., sheer]
    for column in range(sheer + 1, columns + 1):  # deck stringers, and the ridge for a while
        z[..., column] = _raised(table.z_m[..., column], base_sheer_z, table.x_m, lines.design,
                                 scaling)
    inside = (x > along(opening.front_x_m, x)) & (x < along(opening.back_x_m, x))
    half = np.where(inside, opening.half_width_m(x), 0.0)
    ridge_z = z[..., columns]
    edge_z = np.where(inside, opening.deck_height_m(x), ridge_z)
    rim_z = np.where(inside, opening.rim_height_m(x), ridge_z)
    for column in range(sheer + 1, columns):
        _inside_coaming(column, inside, table.alive, y, z, half, edge_z)
    y[..., columns:-1], y[..., -1] = half[..., None], 0.0
    z[..., columns], z[..., columns + 1:] = edge_z, rim_z[..., None]
    ends = np.stack(np.broadcast_arrays(opening.front_x_m, opening.back_x_m), axis=-1)
    return Sections(x, y, z, sheer, ends, opening.rim_z_m)


def _inside_coaming(column, inside, alive, y, z, half, edge_z):
    """Beside the opening the deck runs from gunwale to coaming, over the sticks still there."""
    there = inside & alive[..., column]
    gone = inside & ~there
    for values, to in ((y, half), (z, edge_z)):
        values[..., column] = np.where(gone, 0.5 * (values[..., column - 1] + to),
                                       values[..., column])
    y[..., column] = np.where(there, np.maximum(y[..., column], half), y[..., column])


def sections_at(boat, x_m):
    """Exact sections of a boat at any rising x from bow to stern, such as evenly spaced ones."""
    base_x = np.clip(boat.map.base_x_m(np.asarray(x_m)), 0.0, boat.design.length_m)
    opening = boat.opening
    ends = boat.map.base_x_m(np.array([opening.front_x_m, opening.back_x_m]))
    table = base_table(boat.lines, base_x, ends)
    return _sections(boat.lines, boat.scaling, opening, table,
                     along_boat_m(table, boat.map, opening.front_x_m, opening.back_x_m))


def frame_points_m(boat, index):
    """Moulded points of one frame: {stringer name: (half-breadth, height)} in m.

    Exact on the curves; a stringer that the base's frame carries is carried on, so a deck stringer
    that ends on a cockpit frame follows that frame when the opening moves it.
    """
    return moulded_points_m(boat, boat.design.frames[index].points_m, boat.frame_base_x_m[index])


def moulded_points_m(boat, names, base_x_m):
    """Points of some stringers at one place of the base: {name: (half-breadth, height)} in m.

    Their curves are carried on beyond their ends.
    """
    sheer_z = boat.lines.gunwale.curve(base_x_m)[1]
    points = {}
    for name in names:
        line = boat.lines.line(name)
        y, z = line.curve(base_x_m)
        if line.stringer.role in ("deck", "ridge"):
            z = _raised(z, sheer_z, base_x_m, boat.design, boat.scaling)
        else:
            z = boat.scaling.depth * z
        points[name] = (float(boat.scaling.beam * y), float(z))
    return points
