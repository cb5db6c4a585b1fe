"""Side areas above and below water, and which way a cross-wind turns the boat.

A still boat in a cross-wind turns about where the water holds it: with the wind's centre aft of
the water's, the stern is blown away and the bow swings into the wind; with it ahead, the bow falls
off. Under way the water's centre moves ahead, so that most kayaks turn into the wind (common
practice, no source): a little lead is wanted. How strongly it turns no areas can say; read the lead
as a comparison between boats and between places of seat and skeg.
"""

from dataclasses import dataclass

import numpy as np

HEAD_M = 0.22  # of head and hat above the shoulders, as a square; our judgement
SHOULDER_SHARE = 0.73  # shoulders over sitting height; our judgement
TRUNK_DEPTH_SHARE = 0.55  # of shoulder width: the trunk and arms seen from the side; our judgement


@dataclass(frozen=True)
class Side:
    """One side area and its centre."""

    area_m2: float
    x_m: float
    height_m: float  # over the water; negative below


@dataclass(frozen=True)
class WindBalance:
    """The boat seen from the side."""

    above: Side  # hull, deck and paddler
    below: Side
    lead_share: float  # the wind's centre ahead of the water's, as a share of waterline length

    @property
    def says(self):
        """Which way it turns, in a sentence."""
        ahead = abs(self.lead_share) * 100.0
        if ahead < 1.0:
            return ("Wind and water pull at nearly the same place: lying still, the boat stays "
                    "across the wind.")
        if self.lead_share < 0.0:
            return (f"The wind's centre lies {ahead:.0f} % of the waterline aft of the water's: "
                    "lying still, the bow swings into the wind; a skeg let down a little balances "
                    "it.")
        return (f"The wind's centre lies {ahead:.0f} % of the waterline ahead of the water's: "
                "lying still, the bow falls off the wind; moving weight forward lessens it.")


def wind_balance(sections, particulars, paddler=(), skeg=None):
    """Side areas of an upright boat.

    Parameters
    ----------
    sections : Sections
    particulars : Particulars of how it floats
    paddler : Side of each part of the paddler above the deck, from `paddler_sides`
    skeg : Side below water, or None
    """
    x = sections.x_m
    water = particulars.sinkage_m + np.tan(np.radians(particulars.trim_deg)) * (
        x - sections.mid_x_m)
    bottom = sections.z_m[:, 0]
    top = np.maximum(sections.z_m.max(axis=1), bottom)
    below = _strip(x, np.minimum(bottom, water), np.minimum(top, water), water)
    above = _strip(x, np.maximum(bottom, water), np.maximum(top, water), water)
    above = _together(above, *paddler)
    if skeg is not None:
        below = _together(below, skeg)
    return WindBalance(above, below,
                       (below.x_m - above.x_m) / particulars.waterline_length_m)


def paddler_sides(body, seat_x_m, seat_z_m, deck_z_m, water_z_m):
    """Trunk and head of a seated paddler over the deck, as rectangles seen from the side.

    Parameters
    ----------
    body : Body
    seat_x_m, seat_z_m : back of the buttocks and top of the seat
    deck_z_m, water_z_m : heights of rim and water at the paddler
    """
    deep = TRUNK_DEPTH_SHARE * body.shoulder_width.value_m
    shoulders = seat_z_m + SHOULDER_SHARE * body.sitting_height.value_m
    crown = seat_z_m + body.sitting_height.value_m
    x = seat_x_m - 0.5 * deep
    low = max(deck_z_m, water_z_m)
    trunk = Side(deep * max(shoulders - low, 0.0), x, 0.5 * (shoulders + low) - water_z_m)
    head = Side(HEAD_M * (crown - shoulders), x, 0.5 * (crown + shoulders) - water_z_m)
    return trunk, head


def _strip(x, low, high, water):
    """The Side between two lines."""
    height = high - low
    area = float(np.trapezoid(height, x))
    return Side(area, float(np.trapezoid(height * x, x)) / area,
                float(np.trapezoid(height * (0.5 * (high + low) - water), x)) / area)


def _together(*sides):
    area = sum(side.area_m2 for side in sides)
    return Side(area, sum(side.area_m2 * side.x_m for side in sides) / area,
                sum(side.area_m2 * side.height_m for side in sides) / area)
