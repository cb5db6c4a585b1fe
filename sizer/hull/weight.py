"""The boat's own weight and centre, from stock, plywood, skin and fittings: never typed in."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from sizer.design.woods import WOODS
from sizer.hull import spacers
from sizer.hull.inside import COCKPIT_RING_WIDTH_M, RING_WIDTH_M
from sizer.hull.seat import seat_kg
from sizer.hull.sections import half_section_at, strip_areas_m2
from sizer.rows import along

PLYWOOD = WOODS["okoume plywood"]
RING_SHARE = 0.68  # of that ring, left after notches and relief; as our patterns cut (tested)
COCKPIT_RING_SHARE = 0.43  # the same of a frame at the cockpit, its floor and arms thinner
SOLID_SHARE = 0.65  # of a solid frame's section, after hand holes; as our patterns cut
STEM_WIDTH_M = 0.090  # of a stem piece, edge to inside; our drawing
COAMING_KGPM = 0.55  # laminated rim with its lip, a metre of it; our judgement
FOOTBRACE_KG = 1.1  # rails, pedals and strap as they are drawn (tested), rails of the least
# thickness; stouter ones of the heaviest paddlers weigh some 0.2 kg more, which is left out
_ROUND = 0.5 * (1.0 - np.cos(np.linspace(0.0, np.pi, 61)))  # shares along, close at both ends
LINES_KG = 0.8  # lashing, deck lines, end loops; our judgement


@dataclass(frozen=True)
class Part:
    """One kind of part with its mass and where its centre lies; of many boats arrays (n,)."""

    name: str
    mass_kg: float
    x_m: float
    z_m: float


# As a boat is weighed, so that its weight is that of these parts; all else counts as gear.
AS_WEIGHED = (
    "with its seat, backband and footbrace, no bags, no pads but those glued to their boards; less "
    "what the boards weigh")
WITH_SEAT = ("seat and backband", "footbrace")  # parts that slide with the paddler


@dataclass(frozen=True, eq=False)
class OwnWeight:
    """The boat, ready to paddle, without its paddler; of many boats arrays (n,)."""

    parts: tuple[Part, ...]
    mass_kg: float
    lcg_m: float
    vcg_m: float


def own_weight(boat, share=0.0):
    """Weight and centre of a boat by parts; by a share heavier all over where that is known."""
    found = _weighed((*_stringers(boat), *_frames(boat), *_spacers(boat), *_stems(boat),
                      _skin(boat), *_fittings(boat), *_with_seat(boat)))
    if not np.any(share):
        return found
    return _weighed((*found.parts, Part("as this shop builds", share * found.mass_kg, found.lcg_m,
                                        found.vcg_m)))


def seat_slid(weight, boat):
    """The OwnWeight of `boat`, from that of the same boat with its seat in another place."""
    stays = tuple(part for part in weight.parts if part.name not in WITH_SEAT)
    return _weighed((*stays, *_with_seat(boat)))


def _weighed(parts):
    mass = sum(part.mass_kg for part in parts)
    return OwnWeight(parts, mass, sum(part.mass_kg * part.x_m for part in parts) / mass,
                     sum(part.mass_kg * part.z_m for part in parts) / mass)


def stick_steps(boat, name):
    """Length, 0 where it does not stand, and middle of each step along a stick: length, x, z.

    Each (..., n_sections - 1).
    """
    index = next(index for index, line in enumerate(boat.lines.lines)
                 if line.stringer.name == name)
    column, stands = _sticks(boat.lines)[0][index], _stands(boat)[..., index]
    x, y, z = (boat.sections.x_m, boat.sections.y_m[..., column], boat.sections.z_m[..., column])
    steps = np.sqrt(sum(np.diff(one) ** 2 for one in (x, y, z)))
    x, z = (0.5 * (one[..., 1:] + one[..., :-1]) for one in (x, z))
    return steps * (stands[..., 1:] & stands[..., :-1]), x, z


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
    """Whether each stick stands at each section. Returns (..., n_sections, n_sticks) bool."""
    lines = boat.lines
    stands = boat.alive[..., _sticks(lines)[0]]
    if len(lines.ridges) > 1:  # fore and after ridge: split at the opening
        x = boat.sections.x_m
        for index, line in enumerate(lines.lines):
            if line.stringer.role == "ridge":
                stands[..., index] = (
                    x <= along(boat.opening.front_x_m, x) if line is lines.ridges[0]
                    else x >= along(boat.opening.back_x_m, x))
    return stands


def _stringers(boat):
    """Every stick, all at once: a column of steps for each."""
    columns, kgpm = _sticks(boat.lines)
    stands = _stands(boat)
    x = boat.sections.x_m[..., None]
    y, z = boat.sections.y_m[..., columns], boat.sections.z_m[..., columns]
    steps = np.sqrt(sum(np.diff(one, axis=-2) ** 2 for one in (x, y, z)))
    mass = kgpm * steps * (stands[..., 1:, :] & stands[..., :-1, :])
    whole = mass.sum(axis=-2)
    middles = (0.5 * (one[..., 1:, :] + one[..., :-1, :]) for one in (x, z))
    centre_x, centre_z = ((mass * middle).sum(axis=-2) / whole for middle in middles)
    for index, line in enumerate(boat.lines.lines):
        yield Part(line.stringer.name, *(each[..., index][()]
                                         for each in (whole, centre_x, centre_z)))


def _frames(boat):
    y, z = half_section_at(boat.sections, boat.frame_x_m)
    rise = np.diff(z)
    middle = 0.5 * (z[..., 1:] + z[..., :-1])
    strips = (y[..., 1:] + y[..., :-1]) * rise
    areas = strips.sum(axis=-1)
    open_girth = np.hypot(np.diff(y), rise)[..., :-2]  # leaves out what spans the opening
    girths = open_girth.sum(axis=-1)
    ring_heights = (open_girth * middle[..., :-2]).sum(axis=-1) / girths
    centres = (strips * middle).sum(axis=-1) / areas
    for index, frame in enumerate(boat.design.frames):
        if frame.kind in ("solid", "stem"):
            area, height = SOLID_SHARE * areas[..., index], centres[..., index]
        else:
            width, share = ((COCKPIT_RING_WIDTH_M, COCKPIT_RING_SHARE) if frame.kind == "cockpit"
                            else (RING_WIDTH_M, RING_SHARE))
            area = np.minimum(2.0 * girths[..., index] * width * share, areas[..., index])
            height = ring_heights[..., index]
        mass = area * frame.thickness_m * PLYWOOD.density_kgpm3
        yield Part(f"frame {frame.name}", mass, boat.frame_x_m[..., index][()], height[()])


def _spacers(boat):
    """A board a side from each cockpit frame to the next, half way up between chine and gunwale."""
    x, sheer = boat.frame_x_m, boat.sections.sheer
    _, z = half_section_at(boat.sections, x)
    high = 0.5 * (z[..., sheer - 1] + z[..., sheer])
    for place in spacers.spaced(boat.design.frames):
        pair = slice(place, place + 2)
        fore, aft = boat.design.frames[pair]
        area = 2.0 * np.diff(x[..., pair])[..., 0] * spacers.HIGH_M
        yield Part(f"spacers {fore.name} to {aft.name}",
                   area * min(fore.thickness_m, aft.thickness_m) * PLYWOOD.density_kgpm3,
                   x[..., pair].mean(axis=-1), high[..., pair].mean(axis=-1))


def _stems(boat):
    for name, stem in (("bow stem", boat.design.bow), ("stern stem", boat.design.stern)):
        x = boat.map(stem.profile_m[:, 0])
        z = along(boat.scaling.depth, x) * stem.profile_m[:, 1]
        mass = (np.hypot(np.diff(x), np.diff(z)) * STEM_WIDTH_M * stem.thickness_m
                * PLYWOOD.density_kgpm3)
        whole = mass.sum(axis=-1)
        yield Part(name, whole, *((mass * (0.5 * (one[..., 1:] + one[..., :-1]))).sum(axis=-1)
                                  / whole for one in (x, z)))


def _skin(boat):
    sections = boat.sections
    areas = sewn_areas_m2(boat)
    x = 0.5 * (sections.x_m[..., 1:] + sections.x_m[..., :-1])
    z = sections.z_m[..., 1:, :] + sections.z_m[..., :-1, :]
    z = 0.25 * (z[..., 1:] + z[..., :-1])
    total = areas.sum(axis=(-1, -2))
    return Part("skin", 2.0 * total * boat.design.skin_kgpm2,
                (areas.sum(axis=-1) * x).sum(axis=-1) / total,
                (areas * z).sum(axis=(-1, -2)) / total)


def sewn_areas_m2(boat):
    """As `strip_areas_m2`, without the opening and its coaming's side."""
    sections = boat.sections
    areas, x = strip_areas_m2(sections), sections.x_m
    inside = ((x[..., 1:] > along(boat.opening.front_x_m, x))
              & (x[..., :-1] < along(boat.opening.back_x_m, x)))
    areas[..., -2:] *= ~inside[..., None]
    return areas


def _fittings(boat):
    opening = boat.opening
    x = along(opening.front_x_m, _ROUND) + along(opening.length_m, _ROUND) * _ROUND
    rim_m = 2.0 * np.hypot(np.diff(x), np.diff(opening.half_width_m(x))).sum(axis=-1)
    yield Part("coaming", COAMING_KGPM * rim_m, 0.5 * (opening.front_x_m + opening.back_x_m),
               opening.rim_z_m.mean(axis=-1))
    yield Part("lashing and lines", LINES_KG, boat.length_m / 2.0, boat.depth_m / 2.0)


def _with_seat(boat):
    foot = boat.seat_x_m - sum(boat.design.cockpit.footbrace_reach_m) / 2.0
    yield Part(WITH_SEAT[0], seat_kg(boat.design, boat.seat), boat.seat_x_m - 0.15,
               boat.seat_z_m + 0.03)
    yield Part(WITH_SEAT[1], FOOTBRACE_KG, foot, boat.depth_m / 2.0)
