"""The inclining experiment in one line."""

import numpy as np

from sizer.errors import BadInput, Fault

MOST_HEEL_DEG = 15.0  # beyond it a hull's side is no longer the upright one's; our judgement


def gm_of_reading_m(weight_kg, off_centre_m, displacement_kg, heel_deg):
    """GM = w d / (W tan heel), W with the trial weight in it; arrays.

    Raises
    ------
    BadInput outside 0 < |heel| <= 15 degrees.

    Source: Barrass and Derrett, Ship Stability for Students and Mates, the inclining experiment.
    """
    heel = np.asarray(heel_deg, float)
    if not np.all((np.abs(heel) > 0.0) & (np.abs(heel) <= MOST_HEEL_DEG)):
        raise BadInput([Fault("heel_deg", str(heel_deg),
                              f"above 0 and to {MOST_HEEL_DEG:g} degrees to either side")])
    return weight_kg * off_centre_m / (displacement_kg * np.tan(np.radians(heel)))


def heel_of_gm_deg(weight_kg, off_centre_m, displacement_kg, gm_m):
    """The heel at which `gm_of_reading_m` is this GM, above 0; deg."""
    return float(np.degrees(np.arctan(weight_kg * off_centre_m / (displacement_kg * gm_m))))
