"""What a value of a design file may be by itself, in the file's own units: mm, kg, g/m²."""

from typing import Annotated, Literal

from pydantic import Field

from sizer.design.woods import WOODS

FARTHEST_MM = 10_000
MOST_LETTERS = 200
# Lowest and highest that we take for a grown paddler. Our judgement: well outside the surveyed
# soldiers (ANSUR II, Gordon et al. 2014), inside what a slipped unit gives.
WEIGHT_KG = (30, 200)
STATURE_MM = (1250, 2200)
HIP_WIDTH_MM = (250, 600)
# Weight over stature squared; our judgement of what a living adult can be.
BODY_MASS_INDEX_KGPM2 = (12, 70)
MOST_GEAR_KG = 150.0  # more than any single kayak carries; our judgement


def between(lowest, highest, title=None):
    """The type of a number in this range, with the title it has on a page."""
    return Annotated[float, Field(strict=True, ge=lowest, le=highest, allow_inf_nan=False,
                                  title=title)]


Millimetres = between(-FARTHEST_MM, FARTHEST_MM)
Positive = Annotated[float, Field(strict=True, gt=0, le=FARTHEST_MM, allow_inf_nan=False)]
GramsPerM2 = between(60, 2000)  # of cloth or coating: no skin is lighter; our judgement
Stock = between(3, 100)  # no stick of a boat is thinner; our judgement
Text = Annotated[str, Field(strict=True, min_length=1, max_length=MOST_LETTERS)]
Pair = Annotated[tuple[Millimetres, ...], Field(min_length=2, max_length=2)]
Range = Annotated[tuple[Positive, ...], Field(min_length=2, max_length=2)]
Wood = Literal[tuple(WOODS)]
