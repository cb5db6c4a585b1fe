"""How tightly each stick is bent, against what its wood takes cold."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from sizer.hull.lines import section_places_m
from sizer.rows import along

COUNT = 121  # places along the hull where curvature is taken


@dataclass(frozen=True)
class Bend:
    """The tightest bend of a stick: radius over the thickness that is bent.

    Of many boats the ratio and the place are arrays (n,), the name a tuple.
    """

    name: str
    x_m: float
    ratio: float


def tightest_bend(boat):
    """The tightest bend among all sticks of a boat, between their ends.

    In plan the stick is bent over its depth and in profile over its width; keel and deck sticks lie
    flat, so they are bent over their depth in profile. Radius from the scaled curve's second
    derivatives, slopes being small: 1/R = |d2y/dX2| and |d2z/dX2|, where under the length map
    X(x) with stretch s: d2y/dX2 = y'' / s^2 - y' s' / s^3.
    """
    table = _curvatures(boat.lines)
    strain = _strains(boat)
    worst = strain.argmax(axis=-1)
    name = (table.names[worst] if np.ndim(worst) == 0
            else tuple(table.names[one] for one in worst.tolist()))
    return Bend(name, boat.map(table.x_m[worst][..., None])[..., 0][()],
                1.0 / np.maximum(strain.max(axis=-1), 1e-9))


def _strains(boat):
    """Thickness over radius at the table's places, (..., n)."""
    table = _curvatures(boat.lines)
    x, scaling = table.x_m, boat.scaling
    stretch = boat.map.stretch(table.places_m)
    turn = (boat.map.stretch_slope(table.places_m) / stretch)[..., table.at]
    stretch = stretch[..., table.at]
    plan = along(scaling.beam, x) * np.abs(table.plan_per_m - turn * table.plan_slope)
    profile = along(scaling.depth, x) * np.abs(table.profile_per_m - turn * table.profile_slope)
    return np.maximum(plan * table.plan_thickness_m,
                      profile * table.profile_thickness_m) / stretch**2


@dataclass(frozen=True, eq=False)
class _Curvatures:
    names: tuple[str, ...]
    places_m: np.ndarray  # (m,) that the sticks share
    at: np.ndarray  # (n,) index of each, all sticks in a row
    x_m: np.ndarray  # (n,) the same places
    plan_per_m: np.ndarray  # second derivatives of the base's lines, signed
    profile_per_m: np.ndarray
    plan_slope: np.ndarray
    profile_slope: np.ndarray
    plan_thickness_m: np.ndarray
    profile_thickness_m: np.ndarray


@lru_cache(maxsize=64)
def _curvatures(lines):
    """Curvatures of the base's lines; kept, since scaling only multiplies them."""
    names, columns, at = [], [], []
    places = section_places_m(lines, COUNT)
    for line in lines.lines:
        at.append(np.flatnonzero((places >= line.start_x_m) & (places <= line.end_x_m)))
        x = places[at[-1]]
        flat = line.stringer.lies_flat
        across = line.stringer.width_m if flat else line.stringer.depth_m
        upright = line.stringer.depth_m if flat else line.stringer.width_m
        names += [line.stringer.name] * x.size
        columns.append(np.column_stack([x, line.curve(x, 2), line.curve(x, 1),
                                        np.full(x.size, across),
                                        np.full(x.size, upright)]))
    return _Curvatures(tuple(names), places, np.concatenate(at), *np.concatenate(columns).T)
