"""What of a boat displaces water of its own once it floods: sticks, plywood, skin, fittings, body.

Wood lighter than water counts here as buoyancy; its mass is in the boat's weight. Taken dry. The
wood's and the fittings' own waterplanes are left out of the stability (they are small, and leaving
them out is on the careful side).
"""

import numpy as np

from sizer.hull.sections import half_section_at
from sizer.hull.weight import PLYWOOD, sewn_areas_m2, stick_steps
from sizer.hydro.watertight import Solids, joined, no_solids
from sizer.paddler.room import KNEE_TOP_RATIO, foot_rest_ahead_m
from sizer.rows import along

SKIN_KGPM3 = 1150.0  # polyester or nylon with its coating; our judgement
FITTINGS_KGPM3 = 1200.0  # laminated rim, foam, plastic, metal and cord together; our judgement
GEAR_KGPM3 = 1000.0  # packed gear: dry bags float, stoves and water do not; our judgement
LEGS_KGPM3 = 1050.0  # Dempster 1955 has thighs near this and shanks above (from memory)
TRUNK_KGPM3 = 1020.0  # lungs at rest; our judgement, whole bodies are given 980 to 1050 (memory)
# Shares of body mass, both sexes' mean: de Leva, J. Biomechanics 29(9), 1996, Table 4.
THIGHS_SHARE = 14.16e-2 + 14.78e-2
SHANKS_FEET_SHARE = 4.33e-2 + 4.81e-2 + 1.37e-2 + 1.29e-2
TRUNK_SHARE = (43.46e-2 + 42.57e-2) / 2.0
NECK_SHARE = 0.73  # height of the seventh neck bone over the seat by sitting height; from memory
TRUNK_DEEP_M = 0.24  # chest to back; our judgement
SLICES = 8  # of a body part along the boat
FITTING_HIGH_M = 0.02  # our judgement
GEAR_LONG_M, GEAR_HIGH_M = 0.50, 0.16  # of each heap of gear; our judgement


def wood_solids(boat, weight):
    """Sticks step by step, frames from keel to gunwale, stems by their mass."""
    sticks = [_stick(boat, line.stringer) for line in boat.lines.lines]
    plywood = {part.name: part for part in weight.parts}
    frames = [plywood[f"frame {frame.name}"] for frame in boat.design.frames]
    x, mass = _each(frames, "x_m"), _each(frames, "mass_kg")
    _, z = half_section_at(boat.sections, x)
    upright = _even(x, z[..., 0], z[..., boat.sections.sheer], mass / PLYWOOD.density_kgpm3)
    stems = []
    for name, stem in (("bow stem", boat.design.bow), ("stern stem", boat.design.stern)):
        x = boat.map(stem.profile_m[:, 0])
        high = along(boat.scaling.depth, x) * stem.profile_m[:, 1]
        volume = along(plywood[name].mass_kg, x) / PLYWOOD.density_kgpm3
        steps = np.hypot(np.diff(x), np.diff(high))
        stems.append(_even(0.5 * (x[..., 1:] + x[..., :-1]),
                           np.minimum(high[..., 1:], high[..., :-1]),
                           np.maximum(high[..., 1:], high[..., :-1]) + FITTING_HIGH_M,
                           volume * steps / steps.sum(axis=-1, keepdims=True)))
    return joined(*sticks, upright, *stems)


def fitting_solids(weight):
    """Coaming, seat, footbrace and lines, each at its centre."""
    names = ("coaming", "seat and backband", "footbrace", "lashing and lines")
    parts = [part for part in weight.parts if part.name in names]
    x, z, mass = (_each(parts, field) for field in ("x_m", "z_m", "mass_kg"))
    return _even(x, z - FITTING_HIGH_M / 2.0, z + FITTING_HIGH_M / 2.0, mass / FITTINGS_KGPM3)


def skin_solids(boat, weight):
    """Skin strip by strip; it lies outside the moulded hull."""
    sections = boat.sections
    areas = sewn_areas_m2(boat)
    z, x = sections.z_m, sections.x_m
    low, high = np.minimum(z[..., 1:], z[..., :-1]), np.maximum(z[..., 1:], z[..., :-1])
    low = np.minimum(low[..., 1:, :], low[..., :-1, :])
    high = np.maximum(high[..., 1:, :], high[..., :-1, :])
    x = np.broadcast_to((0.5 * (x[..., 1:] + x[..., :-1]))[..., None], areas.shape)
    mass = next(part.mass_kg for part in weight.parts if part.name == "skin")
    shares = areas / areas.sum(axis=(-1, -2), keepdims=True)
    flat = (*areas.shape[:-2], -1)
    return _even(x.reshape(flat), low.reshape(flat), np.maximum(high, low + 0.001).reshape(flat),
                 along(mass / SKIN_KGPM3, x) * shares.reshape(flat))


def body_solids(boat, body):
    """A seated body up to the neck, in even boxes: shanks with feet, thighs, trunk.

    Legs are spread from the seat to the top of the knee, the trunk from the seat to the neck, so
    that what lies low in truth is taken to lie higher, and less of it is under: the careful side.
    Clothes, PFD, arms and head hold nothing up here.
    """
    seat_x, seat_z = boat.seat_x_m, boat.seat_z_m
    knee_z = seat_z + KNEE_TOP_RATIO * body.knee_height.value_m
    knee_x = seat_x - body.buttock_knee.value_m
    foot_x = seat_x - foot_rest_ahead_m(body)
    neck_z = seat_z + NECK_SHARE * body.sitting_height.value_m
    boxes = ((foot_x, knee_x, knee_z, SHANKS_FEET_SHARE / LEGS_KGPM3),
             (knee_x, seat_x, knee_z, THIGHS_SHARE / LEGS_KGPM3),
             (seat_x - TRUNK_DEEP_M, seat_x, neck_z, TRUNK_SHARE / TRUNK_KGPM3))
    return joined(*(_box(front, back, seat_z, top, body.weight_kg * share)
                    for front, back, top, share in boxes))


def gear_solids(gear):
    """Heaps of gear, each a Load, with the volume of as much water."""
    return joined(no_solids(), *(
        _box(heap.lcg_m - GEAR_LONG_M / 2.0, heap.lcg_m + GEAR_LONG_M / 2.0,
             heap.vcg_m - GEAR_HIGH_M / 2.0, heap.vcg_m + GEAR_HIGH_M / 2.0,
             heap.mass_kg / GEAR_KGPM3, steadies=False)
        for heap in gear))


def _stick(boat, stringer):
    lengths, x, z = stick_steps(boat, stringer.name)
    reach = max(stringer.width_m, stringer.depth_m)
    return _even(x, z - reach / 2.0, z + reach / 2.0,
                 stringer.count * stringer.width_m * stringer.depth_m * lengths)


def _box(front_m, back_m, low_m, high_m, volume_m3, steadies=True):
    """A box in slices along the boat; its breadth follows from its volume."""
    edges = np.linspace(front_m, back_m, SLICES + 1, axis=-1)
    breadth = volume_m3 / ((back_m - front_m) * (high_m - low_m)) if steadies else 0.0
    each = (along(value, edges) * np.ones(SLICES)
            for value in (low_m, high_m, volume_m3 / SLICES, breadth))
    return Solids(0.5 * (edges[..., 1:] + edges[..., :-1]), *each)


def _even(x_m, low_m, high_m, volume_m3):
    return Solids(x_m, low_m, high_m, volume_m3, np.zeros_like(x_m))


def _each(parts, field):
    """A number of each part, along the last axis."""
    return np.stack(np.broadcast_arrays(*(getattr(part, field) for part in parts)), axis=-1)
