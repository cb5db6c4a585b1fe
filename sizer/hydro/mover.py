"""The paddler who keeps the upper body upright while the boat heels: what that adds to the arm."""

from dataclasses import replace

import numpy as np

from sizer.errors import BadInput, Fault

HIP_HEIGHT_M = 0.09  # hip joint over the seat; our judgement
# The rule of it, one wording everywhere.
UPRIGHT = "the upper body upright, hips loose, so that the boat rolls under you"
MOST_LEAN_DEG = 35.0  # of the upper body against the boat; our judgement
MOVER_TO_DEG = 90.0  # beyond, the body lies in the water; our judgement


def upper_body_moment_kgm(body_kg, centre_height_m):
    """Mass above the hip times its centre's height over the hip joint, in kg m.

    With share s of the body above the hip (0.59: head, trunk and arms, de Leva 1996, Table 4) and
    the legs' centre at the hip joint's height, the whole centre stands at hip + s r, so that the
    moment m s r = m (centre - hip) whatever s is. Clothes, PFD and paddle are not counted: less
    is moved, on the careful side.

    Parameters
    ----------
    body_kg : the undressed body
    centre_height_m : its seated centre above the seat
    """
    if not np.all((body_kg > 0.0) & (body_kg < np.inf) & (centre_height_m > HIP_HEIGHT_M)
                  & (centre_height_m < np.inf)):
        raise BadInput([Fault("body", f"{body_kg:g} kg centred {centre_height_m:g} m over the seat",
                              f"more than 0 kg, centred above the hip at {HIP_HEIGHT_M:g} m")])
    return body_kg * (centre_height_m - HIP_HEIGHT_M)


def upright_mover(curve, moment_kgm):
    """The curve of a paddler whose upper body, hinged at the hip, stays upright to 35 degrees.

    Leant by a towards the high side at heel f, the upper body's centre moves by r sin a across
    and r (1 - cos a) down in the boat, so the arm grows by
    m r (sin a cos f + (1 - cos a) sin f) / M, with a = f up to the most lean, then held there.
    The move has no lengthwise part, so trim changes only by its share on the trimmed boat's
    slope: under 0.1 mm of arm on our boats (tested). The curve ends at 90 degrees.

    Parameters
    ----------
    curve : RightingCurve of the paddler held rigid
    moment_kgm : from `upper_body_moment_kgm`
    """
    keep = curve.heel_deg <= MOVER_TO_DEG
    heel = np.radians(curve.heel_deg[keep])
    lean = np.minimum(heel, np.radians(MOST_LEAN_DEG))
    gain = moment_kgm / curve.mass_kg
    arms = curve.gz_m[keep] + gain * (
        np.sin(lean) * np.cos(heel) + (1.0 - np.cos(lean)) * np.sin(heel))
    rim_deg = curve.rim_deg
    return replace(
        curve, gm_m=curve.gm_m + gain, slope_m_per_rad=curve.slope_m_per_rad + gain,
        heel_deg=curve.heel_deg[keep], gz_m=arms,
        trim_deg=curve.trim_deg[keep], level_m=curve.level_m[keep],
        rim_m=None if curve.rim_m is None else curve.rim_m[keep],
        rim_deg=rim_deg if rim_deg is not None and rim_deg <= MOVER_TO_DEG else None)
