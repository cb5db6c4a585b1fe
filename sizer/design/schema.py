"""The base design file, format 2, as it is written: millimetres, kilograms, plain names.

Its tables are the records of `sizer.design.records`, by the rule of `sizer.border`; only what the
records do not have stands here. `baselines/README.md` defines every key. What has to agree with
something else is checked in `sizer.design.check`.
"""

from collections.abc import Mapping
from dataclasses import is_dataclass
from functools import cache
from typing import Annotated, Literal, get_args, get_origin

import numpy as np
from pydantic import BaseModel, ConfigDict, Field, create_model

from sizer.border import border_fields
from sizer.design.allowed import Millimetres, Pair, Text
from sizer.design.records import BaseDesign, StringerEnd

FORMAT = 2


class Part(BaseModel):
    """A table of the file: no key beyond the known ones."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class AtX(Part):
    x_mm: Millimetres


class Into(Part):
    into: Text
    x_mm: Millimetres


@cache
def part(kind):
    """The table of the file that holds a record, a pydantic model."""
    return create_model(f"{kind.__name__}Part", __base__=Part, **_keys(kind))


def _keys(kind, may_lack=()):
    return {key: (_in_file(given), {} if key in may_lack else ...)
            for _, key, given, _ in border_fields(kind)}


def _in_file(kind):
    """The type in the file of a record's type: lists for tuples, tables for records."""
    origin, inner = get_origin(kind), get_args(kind)
    if origin is Annotated:
        return Annotated[_in_file(inner[0]), *inner[1:]]
    if kind is StringerEnd:
        return Literal["stem", "coaming"] | Into | AtX
    if kind is np.ndarray:
        return Annotated[list[_in_file(Pair)], Field(min_length=2)]
    if is_dataclass(kind):
        return part(kind)
    if origin is tuple:
        return list[_in_file(inner[0])]
    return dict[inner[0], _in_file(inner[1])] if origin is Mapping else kind


DesignFile = create_model(
    "DesignFile", __base__=Part, format=(Annotated[int, Field(strict=True)], ...),
    **_keys(BaseDesign, may_lack=("lacks",)))
