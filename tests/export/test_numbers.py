"""Fields of a record as plain JSON values under their keys outside."""

import json
from dataclasses import dataclass

import numpy as np
import pytest

from sizer.export.numbers import json_text, named


@dataclass(frozen=True)
class Part:
    name: str
    x_m: float
    mass_kg: float
    count: int
    open: bool
    gm_m: float | None


def test_named_fields_carry_the_outer_unit_and_are_plain():
    part = Part("keel", np.float64(1.23456789), 2.5, np.int64(2), np.bool_(True), None)
    told = named(part, "name", "x_m", "mass_kg", "count", "open", "gm_m")
    assert json.loads(json_text(told)) == {
        "name": "keel", "x_mm": 1234.5679, "mass_kg": 2.5, "count": 2, "open": True, "gm_mm": None}


def test_a_number_that_is_none_is_refused():
    with pytest.raises(ValueError, match="JSON"):
        json_text(named(Part("keel", float("nan"), 1.0, 1, True, None), "x_m"))
