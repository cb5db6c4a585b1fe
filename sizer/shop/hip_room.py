"""Whether the hips go between the spacers as they are sawn.

The fit's own check works with where the spacers stand in any hull (`sizer.hull.spacers`); a tenon
that had to be short or moved for a lashing hole's sake puts its board a little higher or lower.
"""

import numpy as np

from sizer.fit.assess import HIP_HEIGHT_M
from sizer.shop.boards import sit_x_m
from sizer.shop.pattern_checks import length_check
from sizer.shop.spacers import ends_x_m, face_m, leaning_at, spacers


def hip_checks(patterns, assessed):
    """A tuple of the check of an Assessed boat's hips among its FramePatterns; empty where no
    spacer stands beside them."""
    frames = {one.name: one for one in patterns}
    spacer = beside_hips(assessed.boat, frames, spacers(patterns))
    if spacer is None:
        return ()
    return (length_check(
        spacer.name, "both hips", "hips between the spacers", between_m(assessed, frames, spacer),
        "at least", assessed.room.hip_width_m,
        "clear width between the spacers where the hips are widest, against hips, clothing and "
        "what they need to roll; less pinches and holds"),)


def beside_hips(boat, frames, made):
    """The one of some Spacers that the sitting bones are beside, among FramePatterns by name; None
    where none is."""
    x = sit_x_m(boat)
    for one in made:
        fore, aft = ends_x_m(one, frames)
        if fore < x < aft:
            return one
    return None


def between_m(assessed, frames, spacer):
    """Clear width between a Spacer and its twin at the height where the hips are widest, or at the
    edge of the boards that is nearest to it."""
    leaning = leaning_at(spacer, frames, sit_x_m(assessed.boat))
    _, middle, lean_deg = leaning
    reach = 0.5 * spacer.high_m * np.cos(np.radians(lean_deg))
    at = np.clip(assessed.boat.seat_z_m + HIP_HEIGHT_M, middle - reach, middle + reach)
    return 2.0 * face_m(leaning, at, 0.5 * spacer.thickness_m)
