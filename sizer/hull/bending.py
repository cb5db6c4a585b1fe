"""How tightly each stick is bent, against what its wood takes cold."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from sizer.hull.lines import section_places_m

COUNT = 121  # places along the hull where curvature is taken


@dataclass(frozen=True)
class Bend:
    """The tightest bend of a stick: radius over the thickness that is bent."""

    name: str
    x_m: float
    ratio: float


def tightest_bend(boat):
    """The tightest bend among all sticks of a boat, between their ends.

    In plan the stick is bent over its depth and in profile over its width; keel and ridge lie
    flat, so they are bent over their depth in profile. Radius from the scaled curve's second
    derivatives, slopes being small: 1/R = |d2y/dX2| and |d2z/dX2|, where under the length map
    X(x) with stretch s: d2y/dX2 = y'' / s^2 - y' s' / s^3.
    """
    table = _curvatures(boat.lines)
    stretch, turn = _stretches(boat.lines, boat.map)
    plan = boat.scaling.beam * np.abs(table.plan_per_m - turn * table.plan_slope) / stretch**2
    profile = boat.scaling.depth * np.abs(
        table.profile_per_m - turn * table.profile_slope) / stretch**2
    strain = np.maximum(plan * table.plan_thickness_m, profile * table.profile_thickness_m)
    worst = int(np.argmax(strain))
    name = table.names[worst]
    return Bend(name, float(boat.map(table.x_m[worst])), 1.0 / max(float(strain[worst]), 1e-9))


@dataclass(frozen=True, eq=False)
class _Curvatures:
    names: tuple[str, ...]
    x_m: np.ndarray  # (n,) all sticks in a row
    plan_per_m: np.ndarray  # second derivatives of the base's lines, signed
    profile_per_m: np.ndarray
    plan_slope: np.ndarray
    profile_slope: np.ndarray
    plan_thickness_m: np.ndarray
    profile_thickness_m: np.ndarray


@lru_cache(maxsize=16)
def _stretches(lines, mapped):
    """Stretch at the table's places, and its slope over it; the same whatever beam and depth."""
    x = _curvatures(lines).x_m
    stretch = mapped.stretch(x)
    return stretch, mapped.stretch_slope(x) / stretch


@lru_cache(maxsize=64)
def _curvatures(lines):
    """Curvatures of the base's lines; kept, since scaling only multiplies them."""
    names, columns = [], []
    for line in lines.lines:
        places = section_places_m(lines, COUNT)
        x = places[(places >= line.start_x_m) & (places <= line.end_x_m)]
        flat = line.stringer.role in ("keel", "ridge")
        across = line.stringer.width_m if flat else line.stringer.depth_m
        upright = line.stringer.depth_m if flat else line.stringer.width_m
        names += [line.stringer.name] * x.size
        columns.append(np.column_stack([x, line.curve(x, 2), line.curve(x, 1),
                                        np.full(x.size, across),
                                        np.full(x.size, upright)]))
    return _Curvatures(tuple(names), *np.concatenate(columns).T)
