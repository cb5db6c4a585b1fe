"""baselines/README.md defines every key of the schema, and names every choice."""

import re
import types
import typing
from pathlib import Path

from pydantic import BaseModel

from sizer.design.records import ENTRIES, FRAME_KINDS, ROLES, SEAT_KINDS, Seat
from sizer.design.schema import FORMAT, DesignFile, part
from sizer.design.woods import WOODS

README = (Path(__file__).parents[2] / "baselines" / "README.md").read_text("utf-8")


def models_in(kind):
    """Every model named in a type, however it is wrapped."""
    if isinstance(kind, type) and not isinstance(kind, types.GenericAlias):
        return [kind] if issubclass(kind, BaseModel) else []
    return [model for inner in typing.get_args(kind) for model in models_in(inner)]


def sections():
    """{heading: body} of the README."""
    parts = re.split(r"^## (.*)$", README, flags=re.MULTILINE)
    return dict(zip(parts[1::2], parts[2::2], strict=True))


def defined_in(body):
    """Keys that head a row of a table."""
    return set(re.findall(r"^\| `(\w+)` \|", body, flags=re.MULTILINE))


def section_of(name):
    return next(body for heading, body in sections().items()
                if f"[{name}]" in heading)


def test_every_key_is_defined_in_its_own_section():
    tables = {}
    for name, field in DesignFile.model_fields.items():
        models = models_in(field.annotation)
        if models:
            tables[name] = set(models[0].model_fields)
    plain = set(DesignFile.model_fields) - set(tables)
    assert defined_in(sections()["Top of the file"]) == plain
    assert len(tables) == 9
    for name, keys in tables.items():
        assert defined_in(section_of(name)) == keys, name


def test_keys_inside_stringer_ends_are_defined():
    body = section_of("stringer")
    ends = models_in(DesignFile.model_fields["stringer"].annotation)[0].model_fields["start"]
    keys = {key for model in models_in(ends.annotation) for key in model.model_fields}
    assert keys == {"into", "x_mm"}
    for key in keys:
        assert f"`{key}`" in body, key


def test_every_choice_is_named():
    for choice in (*ROLES, *FRAME_KINDS, *ENTRIES, *SEAT_KINDS, *WOODS, "fresh", "salt", "stem",
                   "coaming"):
        assert f'"{choice}"' in README, choice


def test_format_is_this_one_and_the_one_before_is_read():
    assert f"version of this format: {FORMAT}" in README
    assert "A file of format 1 is still read." in README


def test_ranges_of_the_seat_are_those_that_are_checked():
    told = dict(re.findall(r"^\| `(\w+)` .*, (\d+ to \d+) \|$", section_of("seat"), re.MULTILINE))
    bounds = {}
    for key, field in part(Seat).model_fields.items():
        ends = [getattr(one, end) for end in ("ge", "le") for one in field.metadata
                if hasattr(one, end)]
        if ends:
            bounds[key] = "{} to {}".format(*ends)
    assert len(bounds) == 4
    assert told == bounds
