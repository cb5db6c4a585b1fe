"""The boat's own weight and centre, from stock, plywood, skin and fittings: never typed in."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from sizer.design.woods import WOODS
from sizer.hull.inside import COCKPIT_RING_WIDTH_M, RING_WIDTH_M
from sizer.hull.seat import seat_kg
from sizer.hull.sections import half_section_at, strip_areas_m2

PLYWOOD = WOODS["okoume plywood"]
RING_SHARE = 0.68  # of that ring, left after notches and relief; as our patterns cut (tested)
COCKPIT_RING_SHARE = 0.43  # the same of a frame at the cockpit, its floor and arms thinner
SOLID_SHARE = 0.65  # of a solid frame's section, after hand holes; as our patterns cut
STEM_WIDTH_M = 0.090  # of a stem piece, edge to inside; our drawing
COAMING_KGPM = 0.55  # laminated rim with its lip, a metre of it; our judgement
FOOTBRACE_KG = 0.6  # our judgement
_ROUND = 0.5 * (1.0 - np.cos(np.linspace(0.0, np.pi, 61)))  # shares along, close at both ends
LINES_KG = 0.8  # lashing, deck lines, end loops; our judgement


@dataclass(frozen=True)
class Part:
    """One kind of part with its mass and where its centre lies."""

    name: str
    mass_kg: float
    x_m: float
    z_m: float


WITH_SEAT = ("seat and backband", "footbrace")  # parts that slide with the paddler


@dataclass(frozen=True)
class OwnWeight:
    """The boat, ready to paddle, without its paddler."""

    parts: tuple[Part, ...]
    mass_kg: float
    lcg_m: float
    vcg_m: float


def own_weight(boat):
    """Weight and centre of a boat by parts."""
    return _weighed((*_stringers(boat), *_frames(boat), *_stems(boat), _skin(boat),
                     *_fittings(boat), *_with_seat(boat)))


def seat_slid(weight, boat):
    """The OwnWeight of `boat`, from that of the same boat with its seat in another place."""
    stays = tuple(part for part in weight.parts if part.name not in WITH_SEAT)
    return _weighed((*stays, *_with_seat(boat)))


def _weighed(parts):
    mass = sum(part.mass_kg for part in parts)
    return OwnWeight(parts, mass, sum(part.mass_kg * part.x_m for part in parts) / mass,
                     sum(part.mass_kg * part.z_m for part in parts) / mass)


def stick_steps(boat, name):
    """Length and middle of each step along a stick. Returns three (n,) arrays: length, x, z."""
    index = next(index for index, line in enumerate(boat.lines.lines)
                 if line.stringer.name == name)
    column, alive = _sticks(boat.lines)[0][index], _stands(boat)[:, index]
    keep = alive[1:] & alive[:-1]
    points = np.stack([boat.sections.x_m, boat.sections.y_m[:, column],
                       boat.sections.z_m[:, column]], axis=1)
    steps = np.linalg.norm(np.diff(points, axis=0), axis=1)
    middle = 0.5 * (points[1:] + points[:-1])
    return steps[keep], middle[keep, 0], middle[keep, 2]


@lru_cache(maxsize=64)
def _sticks(lines):
    """Column of each stick's points among those of a section, and its kilograms a metre."""
    columns, kgpm = [], []
    for line in lines.lines:
        one = line.stringer
        columns.append({"keel": 0, "ridge": -1}[one.role] if one.role in ("keel", "ridge")
                       else 1 + lines.between.index(line))
        kgpm.append(one.count * one.width_m * one.depth_m * WOODS[one.wood].density_kgpm3)
    return np.array(columns), np.array(kgpm)


def _stands(boat):
    """Whether each stick stands at each section. Returns (n_sections, n_sticks) bool."""
    lines = boat.lines
    stands = boat.alive[:, _sticks(lines)[0]]
    if len(lines.ridges) > 1:  # fore and after ridge: split at the opening
        x = boat.sections.x_m
        for index, line in enumerate(lines.lines):
            if line.stringer.role == "ridge":
                stands[:, index] = (x <= boat.opening.front_x_m if line is lines.ridges[0]
                                    else x >= boat.opening.back_x_m)
    return stands


def _stringers(boat):
    """Every stick, all at once: a column of steps for each."""
    columns, kgpm = _sticks(boat.lines)
    stands = _stands(boat)
    x = boat.sections.x_m[:, None]
    y, z = boat.sections.y_m[:, columns], boat.sections.z_m[:, columns]
    steps = np.sqrt((x[1:] - x[:-1]) ** 2 + (y[1:] - y[:-1]) ** 2 + (z[1:] - z[:-1]) ** 2)
    mass = kgpm * steps * (stands[1:] & stands[:-1])
    whole = mass.sum(axis=0)
    centre_x = (mass * (0.5 * (x[1:] + x[:-1]))).sum(axis=0) / whole
    centre_z = (mass * (0.5 * (z[1:] + z[:-1]))).sum(axis=0) / whole
    for line, *values in zip(boat.lines.lines, whole.tolist(), centre_x.tolist(),
                             centre_z.tolist(), strict=True):
        yield Part(line.stringer.name, *values)


def _frames(boat):
    y, z = half_section_at(boat.sections, boat.frame_x_m)
    rise = z[:, 1:] - z[:, :-1]
    middle = 0.5 * (z[:, 1:] + z[:, :-1])
    strips = (y[:, 1:] + y[:, :-1]) * rise
    areas = strips.sum(axis=1)
    open_girth = np.hypot(y[:, 1:] - y[:, :-1], rise)[:, :-2]  # leaves out what spans the opening
    girths = open_girth.sum(axis=1)
    ring_heights = ((open_girth * middle[:, :-2]).sum(axis=1) / girths).tolist()
    centres = ((strips * middle).sum(axis=1) / areas).tolist()
    areas, girths = areas.tolist(), girths.tolist()
    places = boat.frame_x_m.tolist()
    for index, frame in enumerate(boat.design.frames):
        if frame.kind in ("solid", "stem"):
            area, height = SOLID_SHARE * areas[index], centres[index]
        else:
            width, share = ((COCKPIT_RING_WIDTH_M, COCKPIT_RING_SHARE) if frame.kind == "cockpit"
                            else (RING_WIDTH_M, RING_SHARE))
            area = min(2.0 * girths[index] * width * share, areas[index])
            height = ring_heights[index]
        mass = area * frame.thickness_m * PLYWOOD.density_kgpm3
        yield Part(f"frame {frame.name}", mass, places[index], height)


def _stems(boat):
    for name, stem in (("bow stem", boat.design.bow), ("stern stem", boat.design.stern)):
        x = boat.map(stem.profile_m[:, 0])
        z = boat.scaling.depth * stem.profile_m[:, 1]
        steps = np.hypot(x[1:] - x[:-1], z[1:] - z[:-1])
        mass = steps * STEM_WIDTH_M * stem.thickness_m * PLYWOOD.density_kgpm3
        yield Part(name, float(mass.sum()),
                   float(mass @ (0.5 * (x[1:] + x[:-1])) / mass.sum()),
                   float(mass @ (0.5 * (z[1:] + z[:-1])) / mass.sum()))


def _skin(boat):
    sections = boat.sections
    areas = strip_areas_m2(sections)
    inside = ((sections.x_m[1:] > boat.opening.front_x_m)
              & (sections.x_m[:-1] < boat.opening.back_x_m))
    areas[inside, -2:] = 0.0  # the opening and its coaming's side
    x = 0.5 * (sections.x_m[1:] + sections.x_m[:-1])[:, None]
    z = 0.25 * (sections.z_m[1:, 1:] + sections.z_m[1:, :-1]
                + sections.z_m[:-1, 1:] + sections.z_m[:-1, :-1])
    total = areas.sum()
    return Part("skin", float(2.0 * total * boat.design.skin_kgpm2),
                float((areas * x).sum() / total), float((areas * z).sum() / total))


def _fittings(boat):
    opening = boat.opening
    middle = 0.5 * (opening.front_x_m + opening.back_x_m)
    yield Part("coaming", COAMING_KGPM * _rim_length_m(opening), middle,
               sum(opening.rim_z_m) / 2.0)
    yield Part("lashing and lines", LINES_KG, boat.length_m / 2.0, boat.depth_m / 2.0)


def _with_seat(boat):
    foot = boat.seat_x_m - sum(boat.design.cockpit.footbrace_reach_m) / 2.0
    yield Part(WITH_SEAT[0], seat_kg(boat.design, boat.seat), boat.seat_x_m - 0.15,
               boat.seat_z_m + 0.03)
    yield Part(WITH_SEAT[1], FOOTBRACE_KG, foot, boat.depth_m / 2.0)


def _rim_length_m(opening):
    """Length round the opening."""
    x = opening.front_x_m + opening.length_m * _ROUND
    half = opening.half_width_m(x)
    return float(2.0 * np.hypot(x[1:] - x[:-1], half[1:] - half[:-1]).sum())
