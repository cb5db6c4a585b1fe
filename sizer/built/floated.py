"""The boat as it stands in the water, beside its design.

Displacement, trim, GM and the checks are those of the mean of both half-sections: exact to the
first order in what differs between the sides, which is millimetres. What differs puts the centre of
buoyancy off the centre line, and the boat lies over until it is under the weight again: looked for
among heels of the hull with its true sides, at its own volume and the mean's trim.
"""

from dataclasses import dataclass, replace

import numpy as np

from sizer.fit.assess import Assessed, assess_boat
from sizer.fit.check import Check, overall
from sizer.fit.checks import checks_of
from sizer.fit.mishaps import facts_with, mishaps
from sizer.fit.odds import odds_all_hard, sure_of, together, with_mishaps
from sizer.hydro.immersion import Outline, immersed, up_vectors

HEELS_DEG = np.linspace(-15.0, 15.0, 61)  # farther over, a boat is no longer said to have a list
LIST_SEEN_DEG = 0.5  # what a paddler notices of a boat that lies over; our judgement
LEVEL_STEPS = 12  # Newton on the level; each gains digits


@dataclass(frozen=True, eq=False)
class Floated:
    """One boat afloat with its paddler."""

    assessed: Assessed
    checks: tuple[Check, ...]
    status: str


def floated(boat, person):
    """The Floated of a Boat with its seat where it stands; errors as of `assess_boat`."""
    assessed = assess_boat(boat, person, seat_held=True)
    sure = with_mishaps(sure_of(assessed), assessed)
    assessed = replace(assessed, spread=sure.spread, sure=sure)
    checks = checks_of(facts_with(assessed, mishaps(assessed)))
    checks = (*checks, *together(checks, odds_all_hard(checks, sure)))
    return Floated(assessed, checks, overall(checks))


def both_sides(starboard, port):
    """The closed Outline of a hull whose sides are the half-sections of two Sections."""
    y = np.concatenate([starboard.y_m, -port.y_m[:, -2::-1]], axis=1)
    z = np.concatenate([starboard.z_m, port.z_m[:, -2::-1]], axis=1)
    return Outline(starboard.x_m, y, z, 1.0)


def list_deg(starboard, port, assessed):
    """The angle at which a boat of these Sections lies, positive to starboard, None where none is
    steady; `assessed` is of their mean."""
    load, outline = assessed.loading.load, both_sides(starboard, port)
    level, trim = assessed.start
    up = up_vectors(HEELS_DEG, np.full(HEELS_DEG.size, float(trim)))
    levels = np.full(HEELS_DEG.size, float(level))
    wanted = load.mass_kg / assessed.person.water.density_kgpm3
    for _ in range(LEVEL_STEPS):
        wet = immersed(outline, up, levels)
        levels = levels + (wanted - wet.volume_m3) / wet.plane_area_m2
    off = wet.moment_m4 / wet.volume_m3[:, None] - (load.lcg_m, 0.0, load.vcg_m)
    arm = (up[:, 2] * off[:, 1] - up[:, 1] * off[:, 2]) / np.hypot(up[:, 1], up[:, 2])
    # steady where the arm goes from turning to starboard to turning to port as heel grows
    steady = np.flatnonzero((arm[:-1] <= 0.0) & (arm[1:] > 0.0))
    if not steady.size:
        return None
    at = HEELS_DEG[steady] - arm[steady] * np.diff(HEELS_DEG)[steady] / np.diff(arm)[steady]
    return float(at[np.abs(at).argmin()])
