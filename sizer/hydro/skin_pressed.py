"""Skin pressed in between the sticks by the water: litres lost, and how much deeper the boat sits.

A strip of cloth held along both sticks under an even pressure p takes the curve of a shallow
parabola: p L^2 / (8 T) deep at its middle, for free width L and tension T across it, and p L^3 /
(12 T) of section area is lost. The pressure is the mean over the strip of what the water's height
gives. L runs from stick to stick, corner to corner; the sticks' own widths and what frames far
apart hold are left out, on the careful side. Tension is not known: slack and tight stand for its
range. An estimate; pressed-in skin is not carried into the other figures.
"""

from dataclasses import dataclass

import numpy as np

from sizer.hydro.ends import L_PER_M3
from sizer.units import STANDARD_GRAVITY_MPS2

SLACK_NPM, TIGHT_NPM = 500.0, 2000.0  # tension across the strip; our judgement


@dataclass(frozen=True)
class SkinPressed:
    """What one tension leaves."""

    tension_npm: float  # N per m of skin
    lost_l: float
    deeper_m: float
    deepest_m: float  # of the skin at the middle of a strip
    deepest_x_m: float  # where along the boat


def pressed_in_m(pressure_pa, width_m, tension_npm):
    """How deep an evenly pressed strip of cloth is at its middle: p L^2 / (8 T)."""
    return pressure_pa * width_m**2 / (8.0 * tension_npm)


def area_lost_m2(pressure_pa, width_m, tension_npm):
    """Between the strip and its chord, a parabola's two thirds: p L^3 / (12 T)."""
    return 2.0 / 3.0 * width_m * pressed_in_m(pressure_pa, width_m, tension_npm)


def mean_pressure_pa(low_z_m, high_z_m, water_z_m, density_kgpm3):
    """Over strips between two heights under water at `water_z_m`, straight from edge to edge."""
    deep, shallow = (water_z_m - edge for edge in (np.minimum(low_z_m, high_z_m),
                                                   np.maximum(low_z_m, high_z_m)))
    wet = np.where(shallow >= 0.0, 0.5 * (deep + shallow),
                   0.5 * np.maximum(deep, 0.0) ** 2 / np.maximum(deep - shallow, 1e-9))
    return density_kgpm3 * STANDARD_GRAVITY_MPS2 * wet


def strips_m(sections, alive):
    """Strips between the sticks that stand at each section, keel to gunwale, one side.

    Parameters
    ----------
    sections : Sections of one boat
    alive : (n_sections, at least sheer + 1) bool, where each column's stick stands

    Returns
    -------
    (n_strips, n_sections, 2) lower and upper edge twice: (y, z) each; no width where there is none
    """
    points = np.stack([sections.y_m, sections.z_m], axis=-1)
    last, low, high = points[:, 0], [], []
    for column in range(1, sections.sheer + 1):
        here = (alive[:, column] if column < sections.sheer
                else np.ones(len(points), bool))[:, None]
        low.append(last)
        high.append(np.where(here, points[:, column], last))
        last = np.where(here, points[:, column], last)
    return np.array(low), np.array(high)


def skin_pressed(sections, alive, afloat, water, tension_npm):
    """The SkinPressed of a boat upright at rest, for one tension.

    Parameters
    ----------
    sections, alive : as `strips_m`
    afloat : Particulars
    water : Water
    tension_npm : above 0, N per m of skin
    """
    low, high = strips_m(sections, alive)
    level = afloat.sinkage_m + np.tan(np.radians(afloat.trim_deg)) * (
        sections.x_m - sections.mid_x_m)
    width = np.hypot(*(high - low).transpose(2, 0, 1))
    pressure = mean_pressure_pa(low[..., 1], high[..., 1], level, water.density_kgpm3)
    area = area_lost_m2(pressure, width, tension_npm).sum(axis=0)
    lost = 2.0 * float(np.trapezoid(area, sections.x_m))
    deep = pressed_in_m(pressure, width, tension_npm).max(axis=0)
    where = int(np.argmax(deep))
    return SkinPressed(tension_npm, lost * L_PER_M3, lost / afloat.waterplane_area_m2,
                       float(deep[where]), float(sections.x_m[where]))


def slack_and_tight(boat, afloat, water):
    """The SkinPressed of a boat for slack and for tight skin."""
    return tuple(skin_pressed(boat.sections, boat.alive, afloat, water, tension)
                 for tension in (SLACK_NPM, TIGHT_NPM))
