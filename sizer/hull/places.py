"""Where everything stands along a boat, whatever its beam, depth and crown."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from sizer.hull.lines import Table, base_table, ridge_m, section_places_m
from sizer.hull.scale import LengthMap, length_map
from sizer.rows import along

PIN_TOLERANCE_M = 1e-6  # closer than this a frame has not moved
SAME_PLACE_M = 1e-7  # nearer places are one; sections stand at least ten times as far apart
NEAR_END_M = 1e-5  # the length map's inverse is good to this
PIN_REACH_M = 0.15  # a cockpit frame this near an end of the opening moves with that end


@dataclass(frozen=True, eq=False)
class Places:
    """All that stands along a boat, or along each of many; arrays then have a leading axis."""

    map: LengthMap
    front_x_m: float  # of the opening
    back_x_m: float
    base_ends_m: np.ndarray  # (2,) the same on the base
    table: Table
    x_m: np.ndarray  # (n,) of the table's rows on the boat
    frame_x_m: np.ndarray
    frame_base_x_m: np.ndarray
    seat_x_m: float  # before any shift


def places_of(lines, count, length, legs, cockpit_length_m):
    """The Places of a boat, or of many: lengths, legs and openings may be arrays (n,)."""
    design, cockpit = lines.design, lines.design.cockpit
    mapped = length_map(design.length_m, body_zone_m(design), length, legs)
    back = mapped(cockpit.back_x_m)
    front = back - (cockpit.length_m if cockpit_length_m is None else cockpit_length_m)
    base_ends = mapped.base_x_m(np.stack([front, back], axis=-1))
    table = _table_with(lines, count, base_ends)
    return Places(mapped, front, back, base_ends, table,
                  along_boat_m(table, mapped, front, back),
                  *_frame_places_m(design, mapped, front, back), mapped(cockpit.seat_x_m))


def along_boat_m(table, mapped, front_x_m, back_x_m):
    """x on the boat of a table's rows; the opening's ends to the last digit: lines end there."""
    x = mapped(table.x_m)
    for end in (along(front_x_m, x), along(back_x_m, x)):
        x = np.where(np.abs(x - end) < NEAR_END_M, end, x)
    return x


def _table_with(lines, count, base_ends):
    """The base's even table with a row at each end of the opening that has none yet.

    Of many boats (n, 2) a row is added where any boat has none; tables are then (n, rows, k).
    """
    even = _even_table(lines, count)
    off = np.abs(even.x_m - base_ends[..., None]).min(axis=-1)
    new = base_ends[..., off.max(axis=tuple(range(off.ndim - 1))) > SAME_PLACE_M]
    rows, last = base_table(lines, new, base_ends), even.x_m.size - 1
    x = np.concatenate([np.broadcast_to(even.x_m, (*new.shape[:-1], last + 1)), new], axis=-1)
    order = np.argsort(x, axis=-1, kind="stable")
    added = order > last
    found = []
    for one, other in ((even.x_m, rows.x_m), (even.y_m, rows.y_m), (even.z_m, rows.z_m),
                       (even.alive, rows.alive)):
        found.append(one[np.minimum(order, last)])
        found[-1][added] = other.reshape(-1, *one.shape[1:])
    found[2][~added, -1] = ridge_m(lines, even.x_m, base_ends).reshape(-1)
    return Table(*found)


@lru_cache(maxsize=64)
def _even_table(lines, count):
    """The base's table at its even places: no scaling moves them."""
    return base_table(lines, section_places_m(lines, count))


def body_zone_m(design):
    """The base's body zone: middle of the footbrace range to the back of the seat."""
    cockpit = design.cockpit
    return cockpit.seat_x_m - sum(cockpit.footbrace_reach_m) / 2.0, cockpit.seat_x_m


def _frame_places_m(design, mapped, front_x_m, back_x_m):
    """Frames move with the map; a cockpit frame at an end of the opening moves with that end.

    Returns two (..., n_frames) arrays: x on the boat, x on the base.
    """
    base_x = np.array([frame.x_m for frame in design.frames])
    unmoved = mapped(base_x)
    x = unmoved
    carries = np.array([frame.kind == "cockpit" for frame in design.frames])
    for base_end, end in ((design.cockpit.front_x_m, front_x_m),
                          (design.cockpit.back_x_m, back_x_m)):
        pinned = np.abs(base_x - base_end) <= PIN_REACH_M
        pinned &= carries
        x = np.where(pinned, along(end, base_x) + base_x - base_end, x)
    return x, np.where(np.abs(unmoved - x) > PIN_TOLERANCE_M, mapped.base_x_m(x), base_x)
