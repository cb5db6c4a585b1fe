"""Where everything stands along a boat, whatever its beam, depth and crown: once for each length.

A fit tries many breadths and heights at one length, so these places are kept.
"""

from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from sizer.hull.lines import Table, base_table, ridge_m, section_places_m
from sizer.hull.scale import LengthMap, length_map

PIN_TOLERANCE_M = 1e-6  # closer than this a frame has not moved
SAME_PLACE_M = 1e-7  # nearer places are one; sections stand at least ten times as far apart
NEAR_END_M = 1e-5  # the length map's inverse is good to this
PIN_REACH_M = 0.15  # a cockpit frame this near an end of the opening moves with that end


@dataclass(frozen=True, eq=False)
class Places:
    """All that stands along the boat, whatever its beam, depth and crown."""

    map: LengthMap
    front_x_m: float  # of the opening
    back_x_m: float
    base_ends_m: np.ndarray  # (2,) the same on the base
    table: Table
    x_m: np.ndarray  # (n,) of the table's rows on the boat
    frame_x_m: np.ndarray
    frame_base_x_m: np.ndarray
    seat_x_m: float  # before any shift


@lru_cache(maxsize=16)
def places_of(lines, count, length, legs, cockpit_length_m):
    """The Places of a boat; kept, since a fit changes breadth and height far oftener."""
    design, cockpit = lines.design, lines.design.cockpit
    mapped = length_map(design.length_m, body_zone_m(design), length, legs)
    back = float(mapped(cockpit.back_x_m))
    front = back - (cockpit_length_m or cockpit.length_m)
    base_ends = mapped.base_x_m(np.array([front, back]))
    table = _table_with(lines, count, base_ends)
    places = Places(mapped, front, back, base_ends, table,
                    along_boat_m(table, mapped, front, back),
                    *_frame_places_m(design, mapped, front, back),
                    float(mapped(cockpit.seat_x_m)))
    for shared in (table.alive, places.x_m, places.frame_x_m, places.frame_base_x_m):
        shared.flags.writeable = False
    return places


def along_boat_m(table, mapped, front_x_m, back_x_m):
    """x on the boat of a table's rows; the opening's ends to the last digit: lines end there."""
    x = mapped(table.x_m)
    for end in (front_x_m, back_x_m):
        x[np.abs(x - end) < NEAR_END_M] = end
    return x


def _table_with(lines, count, base_ends):
    """The base's even table with a row at each end of the opening that has none yet."""
    even = _even_table(lines, count)
    even = replace(even, z_m=np.column_stack(
        [even.z_m[:, :-1], ridge_m(lines, even.x_m, base_ends)]))
    new = [end for end in base_ends if np.abs(even.x_m - end).min() > SAME_PLACE_M]
    if not new:
        return even
    rows = base_table(lines, np.array(new), base_ends)
    order = np.argsort(np.concatenate([even.x_m, rows.x_m]), kind="stable")
    return Table(*(np.concatenate([one, other])[order] for one, other in
                   ((even.x_m, rows.x_m), (even.y_m, rows.y_m), (even.z_m, rows.z_m),
                    (even.alive, rows.alive))))


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

    Returns two (n_frames,) arrays: x on the boat, x on the base.
    """
    base_x = np.array([frame.x_m for frame in design.frames])
    unmoved = mapped(base_x)
    x = unmoved.copy()
    carries = np.array([frame.kind == "cockpit" for frame in design.frames])
    for base_end, end in ((design.cockpit.front_x_m, front_x_m),
                          (design.cockpit.back_x_m, back_x_m)):
        pinned = np.abs(base_x - base_end) <= PIN_REACH_M
        pinned &= carries
        x[pinned] = end + base_x[pinned] - base_end
    moved = np.abs(unmoved - x) > PIN_TOLERANCE_M
    if moved.any():
        base_x[moved] = mapped.base_x_m(x[moved])
    return x, base_x
