"""One rule leads from a record in SI to a table in the shop's units and back."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Annotated

import numpy as np
import pytest

from sizer.border import INSIDE, border_fields, record_of, table_of, typed_json, unknown_keys


@dataclass(frozen=True)
class Plank:
    name: str
    x_m: Annotated[float, "in the file's own unit"]
    coating_kgpm2: float
    mass_kg: float


@dataclass(frozen=True)
class Knot:
    x_m: float


@dataclass(frozen=True, eq=False)
class Stack:
    planks: Annotated[tuple[Plank, ...], "some"]
    best: Plank
    tied: Knot
    share: tuple[float, float]
    reach_m: tuple[float, float]
    points_m: Mapping[str, tuple[float, float]]
    profile_m: np.ndarray
    ours: int = field(default=3, metadata=INSIDE)


PLANK = {"name": "a", "x_mm": 1250.5, "coating_gpm2": 280.0, "mass_kg": 1.5}
TABLE = {
    "plank": [PLANK, PLANK | {"name": "b"}], "best": PLANK, "tied": "at 40", "share": [0.9, 1.1],
    "reach_mm": [700.0, 1000.0], "points_mm": {"keel": [0.0, 23.5]},
    "profile_mm": [[0.0, 345.0], [430.0, 28.0]]}
READ = {Knot: lambda text: Knot(float(text.removeprefix("at ")) / 1000.0)}
WRITTEN = {Knot: lambda knot: f"at {knot.x_m * 1000.0:g}"}


def test_a_table_arrives_in_si_units():
    stack = record_of(Stack, TABLE, READ)
    assert stack.best == Plank("a", 1.2505, 0.28, 1.5)
    assert [one.name for one in stack.planks] == ["a", "b"]
    assert (stack.tied.x_m, stack.share, stack.reach_m) == (0.04, (0.9, 1.1), (0.7, 1.0))
    assert stack.points_m == {"keel": (0.0, 0.0235)}
    assert np.array_equal(stack.profile_m, [[0.0, 0.345], [0.43, 0.028]])
    assert stack.ours == 3


def test_a_record_is_written_as_it_was_read():
    assert table_of(record_of(Stack, TABLE, READ), WRITTEN) == TABLE


def test_keys_outside_carry_the_outer_unit_and_what_stays_inside_has_none():
    assert [key for _, key, _, _ in border_fields(Stack)] == list(TABLE)


@pytest.mark.parametrize(("key", "meant"), [
    ("statur_mm", "did you mean stature_mm?"), ("Weight_kg", "did you mean weight_kg?"),
    ("foo", "known are weight_kg, stature_mm")])
def test_an_unknown_key_is_told_with_what_may_be_meant(key, meant):
    [fault] = unknown_keys({key: 1, "weight_kg": 2}, ("weight_kg", "stature_mm"), "paddler.")
    assert (fault.place, fault.allowed) == (f"paddler.{key}", meant)


@pytest.mark.parametrize(("text", "said"), [
    ('{"a": 1, "b": {"c": 1, "c": 1}}', "^c stands twice$"),
    ('{"\\ud800": 1, "\\ud800": 2}', "ud800 stands"),
    ("[" * 100_000, "^brackets in brackets in brackets$"), ("{", "line 1 column 2")])
def test_typed_json_says_in_words_what_is_wrong(text, said):
    with pytest.raises(ValueError, match=said):
        typed_json(text)


def test_typed_json_reads_any_whole_number():
    assert typed_json('[12, -3, "' + "9" * 5000 + '"]') == [12, -3, "9" * 5000]
    assert typed_json("9" * 5000) == float("inf")
    assert typed_json("-" + "9" * 5000) == -float("inf")
