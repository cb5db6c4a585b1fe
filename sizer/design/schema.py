"""The base design file, format 2, as it is written: millimetres, kilograms, plain names.

`baselines/README.md` defines every key. Types and single values are checked here; what has to
agree with something else is checked in `sizer.design.check`.
"""

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

from sizer.design.records import SEAT_KINDS
from sizer.design.woods import WOODS

FORMAT = 2

Millimetres = Annotated[float, Field(strict=True, ge=-10_000, le=10_000, allow_inf_nan=False)]
Positive = Annotated[float, Field(strict=True, gt=0, le=10_000, allow_inf_nan=False)]
Text = Annotated[str, Field(strict=True, min_length=1, max_length=200)]
Pair = Annotated[list[Millimetres], Field(min_length=2, max_length=2)]
Range = Annotated[list[Positive], Field(min_length=2, max_length=2)]
WoodName = Literal[tuple(WOODS)]


class Part(BaseModel):
    """A table of the file: no key beyond the known ones."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class DrawnForPart(Part):
    weight_kg: Annotated[float, Field(strict=True, ge=30, le=200, allow_inf_nan=False)]
    stature_mm: Annotated[float, Field(strict=True, ge=1250, le=2200, allow_inf_nan=False)]
    hip_width_mm: Annotated[float, Field(strict=True, ge=250, le=600, allow_inf_nan=False)]
    gear_kg: Annotated[float, Field(strict=True, ge=0, le=150, allow_inf_nan=False)]
    use: Text
    water: Literal["fresh", "salt"]
    waterline_length_mm: Positive
    draft_mm: Positive


class LimitsPart(Part):
    length: Range
    beam: Range
    depth: Range
    crown: Range
    cockpit_length_mm: Range
    cockpit_width_mm: Range


class SkinPart(Part):
    fabric_gpm2: Positive
    coating_gpm2: Positive


class AtX(Part):
    x_mm: Millimetres


class Into(Part):
    into: Text
    x_mm: Millimetres


class StringerPart(Part):
    name: Text
    role: Literal["keel", "chine", "gunwale", "deck", "ridge"]
    width_mm: Annotated[float, Field(strict=True, gt=0, le=100, allow_inf_nan=False)]
    depth_mm: Annotated[float, Field(strict=True, gt=0, le=100, allow_inf_nan=False)]
    wood: WoodName
    start: Literal["stem", "coaming"] | Into | AtX
    end: Literal["stem", "coaming"] | Into | AtX


class FramePart(Part):
    name: Text
    kind: Literal["stem", "solid", "ring", "cockpit", "footbrace"]
    x_mm: Millimetres
    thickness_mm: Annotated[float, Field(strict=True, ge=3, le=40, allow_inf_nan=False)]
    points_mm: dict[str, Pair]


class StemPart(Part):
    thickness_mm: Annotated[float, Field(strict=True, ge=3, le=80, allow_inf_nan=False)]
    profile_mm: Annotated[list[Pair], Field(min_length=2)]
    lands_mm: dict[str, Millimetres]


class CockpitPart(Part):
    front_x_mm: Positive
    back_x_mm: Positive
    width_mm: Positive
    rim_front_z_mm: Positive
    rim_back_z_mm: Positive
    entry: Literal["slide", "sit"]
    seat_x_mm: Positive
    seat_slide_mm: Annotated[list[Annotated[float, Field(strict=True, ge=0, le=300)]],
                             Field(min_length=2, max_length=2)]
    footbrace_reach_mm: Range
    backband_height_mm: Positive


class SeatPart(Part):
    kind: Literal[SEAT_KINDS]
    thickness_mm: Annotated[float, Field(strict=True, ge=1, le=40, allow_inf_nan=False)]
    width_mm: Annotated[float, Field(strict=True, ge=150, le=600, allow_inf_nan=False)]
    length_mm: Annotated[float, Field(strict=True, ge=150, le=900, allow_inf_nan=False)]
    stands_on: Annotated[list[Text], Field(min_length=2)]
    clear_of_skin_mm: Annotated[float, Field(strict=True, ge=12, le=100, allow_inf_nan=False)]


class DesignFile(Part):
    format: Annotated[int, Field(strict=True)]
    name: Text
    character: Text
    suits: Annotated[list[Text], Field(min_length=1)]
    drawn_for: DrawnForPart
    lacks: dict[str, Text] = {}
    limits: LimitsPart
    skin: SkinPart
    stringer: Annotated[list[StringerPart], Field(min_length=3, max_length=30)]
    frame: Annotated[list[FramePart], Field(min_length=3, max_length=60)]
    bow: StemPart
    stern: StemPart
    cockpit: CockpitPart
    seat: SeatPart
