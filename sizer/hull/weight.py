"""The boat's own weight and centre, from stock, plywood, skin and fittings: never typed in."""

from dataclasses import dataclass

import numpy as np

from sizer.design.woods import WOODS
from sizer.hull.boat import half_section_at
from sizer.hull.sections import strip_areas_m2

PLYWOOD = WOODS["okoume plywood"]
RING_WIDTH_M = 0.045  # of a ring frame, skin side to inside; our drawing
COCKPIT_RING_WIDTH_M = 0.055  # frames that carry the coaming; our drawing
RING_SHARE = 0.68  # of that ring, left after notches and relief; as our patterns cut (tested)
COCKPIT_RING_SHARE = 0.55  # the same of a frame at the cockpit
SOLID_SHARE = 0.65  # of a solid frame's section, after hand holes; as our patterns cut
STEM_WIDTH_M = 0.090  # of a stem piece, edge to inside; our drawing
COAMING_KGPM = 0.55  # laminated rim with its lip, a metre of it; our judgement
SEAT_KG = 1.0  # seat and backband; our judgement
FOOTBRACE_KG = 0.6  # our judgement
LINES_KG = 0.8  # lashing, deck lines, end loops; our judgement


@dataclass(frozen=True)
class Part:
    """One kind of part with its mass and where its centre lies."""

    name: str
    mass_kg: float
    x_m: float
    z_m: float


@dataclass(frozen=True)
class OwnWeight:
    """The boat, ready to paddle, without its paddler."""

    parts: tuple[Part, ...]
    mass_kg: float
    lcg_m: float
    vcg_m: float


def own_weight(boat):
    """Weight and centre of a boat by parts."""
    parts = (*_stringers(boat), *_frames(boat), *_stems(boat), _skin(boat), *_fittings(boat))
    mass = sum(part.mass_kg for part in parts)
    return OwnWeight(parts, mass, sum(part.mass_kg * part.x_m for part in parts) / mass,
                     sum(part.mass_kg * part.z_m for part in parts) / mass)


def stringer_length_m(boat, name):
    """Length of one stick along its moulded line, from start to end."""
    steps, _, _ = stick_steps(boat, name)
    return float(steps.sum())


def stick_steps(boat, name):
    """Length and middle of each step along a stick. Returns three (n,) arrays: length, x, z."""
    column, alive = _column(boat, name)
    keep = alive[1:] & alive[:-1]
    points = np.stack([boat.sections.x_m, boat.sections.y_m[:, column],
                       boat.sections.z_m[:, column]], axis=1)
    steps = np.linalg.norm(np.diff(points, axis=0), axis=1)
    middle = 0.5 * (points[1:] + points[:-1])
    return steps[keep], middle[keep, 0], middle[keep, 2]


def _column(boat, name):
    """Column of a stringer's points, and the rows where it stands."""
    lines = boat.lines
    role = lines.line(name).stringer.role
    if role == "keel":
        return 0, boat.alive[:, 0]
    if role == "ridge":  # fore or after ridge: split at the opening
        front, back = boat.opening.front_x_m, boat.opening.back_x_m
        x = boat.sections.x_m
        if len(lines.ridges) == 1:
            return -1, boat.alive[:, -1]
        here = x <= front if lines.ridges[0].stringer.name == name else x >= back
        return -1, here
    names = [line.stringer.name for line in lines.between]
    column = 1 + names.index(name)
    return column, boat.alive[:, column]


def _stringers(boat):
    for line in boat.lines.lines:
        one = line.stringer
        steps, x, z = stick_steps(boat, one.name)
        mass = (one.count * one.width_m * one.depth_m * WOODS[one.wood].density_kgpm3) * steps
        yield Part(one.name, float(mass.sum()), float(mass @ x / mass.sum()),
                   float(mass @ z / mass.sum()))


def _frames(boat):
    y, z = half_section_at(boat.sections, boat.frame_x_m)
    girth = np.hypot(np.diff(y, axis=1), np.diff(z, axis=1))
    middle = 0.5 * (z[:, 1:] + z[:, :-1])
    areas = np.sum((y[:, 1:] + y[:, :-1]) * np.diff(z, axis=1), axis=1)
    centres = np.sum((y[:, 1:] + y[:, :-1]) * np.diff(z, axis=1) * middle, axis=1) / areas
    open_girth = girth[:, :-2]  # leaves out what spans the opening
    for index, frame in enumerate(boat.design.frames):
        if frame.kind in ("solid", "stem"):
            area, height = SOLID_SHARE * areas[index], centres[index]
        else:
            width, share = ((COCKPIT_RING_WIDTH_M, COCKPIT_RING_SHARE) if frame.kind == "cockpit"
                            else (RING_WIDTH_M, RING_SHARE))
            ring = 2.0 * open_girth[index].sum() * width * share
            area = min(ring, areas[index])
            height = float(open_girth[index] @ middle[index, :-2] / open_girth[index].sum())
        mass = area * frame.thickness_m * PLYWOOD.density_kgpm3
        yield Part(f"frame {frame.name}", float(mass), float(boat.frame_x_m[index]), float(height))


def _stems(boat):
    for name, stem in (("bow stem", boat.design.bow), ("stern stem", boat.design.stern)):
        x = boat.map(stem.profile_m[:, 0])
        z = boat.scaling.depth * stem.profile_m[:, 1]
        steps = np.hypot(np.diff(x), np.diff(z))
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
    rim = _rim_length_m(opening)
    foot = boat.seat_x_m - sum(boat.design.cockpit.footbrace_reach_m) / 2.0
    yield Part("coaming", COAMING_KGPM * rim, middle, sum(opening.rim_z_m) / 2.0)
    yield Part("seat and backband", SEAT_KG, boat.seat_x_m - 0.15, boat.seat_z_m + 0.03)
    yield Part("footbrace", FOOTBRACE_KG, foot, boat.depth_m / 2.0)
    yield Part("lashing and lines", LINES_KG, boat.length_m / 2.0, boat.depth_m / 2.0)


def _rim_length_m(opening):
    """Length round the opening."""
    x = opening.front_x_m + opening.length_m * 0.5 * (1.0 - np.cos(np.linspace(0.0, np.pi, 61)))
    half = opening.half_width_m(x)
    return float(2.0 * np.hypot(np.diff(x), np.diff(half)).sum())
