"""Where the seated paddler's mass lies, and what is worn and held besides.

Posture: torso leant back 7.5 degrees, knees bent 25 degrees, hands at chest height. The rules are
a pooled fit of our own body-segment model: segment masses and centres of de Leva, J. Biomechanics
29(9), 1996, Table 4, on ANSUR II bodies (Gordon et al. 2014). No measured value for a seated
kayaker was found.
"""

from dataclasses import dataclass

# Nominal height over modelled height; our judgement: paddlers slump and drop their hands.
NOMINAL_OF_MODEL = 0.95
HEIGHT_PER = {"stature": 0.0624, "sitting_height": 0.2890}  # of the modelled height, per m of each

# (item, kg), carried with the paddler and taken to lie at the paddler's centre; our judgement.
CLOTHING = "clothing and shoes"
WORN = (
    (CLOTHING, 2.5),
    ("PFD", 0.9),
    ("paddle", 0.9),
    ("spray deck", 0.7),
)
DRYSUIT_KG = 4.0  # of clothing and shoes that keep warm in cold water; our judgement


@dataclass(frozen=True)
class SeatedCentre:
    """The seated body's mass centre, forward of the back of the buttocks and above the seat."""

    ahead_m: float
    nominal_height_m: float
    cautious_height_m: float  # for stability


def seated_centre(body):
    """The SeatedCentre of a Body on a hard seat.

    In mm: height = -74.2 + 0.0624 stature + 0.2890 sitting height (the cautious value; nominal is
    0.95 of it, both good to about ±25); ahead = 44.2 - 0.2532 stature + 1.0716 buttock-knee
    (±35). Both ± are our judgement from changing the posture. Source: the module's text.
    """
    stature_m = body.stature.value_m
    height_m = -0.0742 + (HEIGHT_PER["stature"] * stature_m
                          + HEIGHT_PER["sitting_height"] * body.sitting_height.value_m)
    ahead_m = 0.0442 - 0.2532 * stature_m + 1.0716 * body.buttock_knee.value_m
    return SeatedCentre(ahead_m, NOMINAL_OF_MODEL * height_m, height_m)


def worn_kg():
    """The mass of everything in WORN, kg."""
    return sum(kg for _, kg in WORN)
