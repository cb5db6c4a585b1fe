"""Writes a base design back as a design file, format 2."""

import json
import re

from sizer.border import DECIMALS, table_of
from sizer.design.records import StringerEnd
from sizer.design.schema import FORMAT, DesignFile
from sizer.units import MM_PER_M

_BARE_KEY = re.compile(r"[A-Za-z0-9_-]+", re.ASCII)


def design_toml(design):
    """The text of a design file that reads back as the same BaseDesign."""
    table = file_of(design).model_dump()
    lines = [f"{key} = {_value(value)}" for key, value in table.items()
             if not isinstance(value, dict) and not _tables(value)]
    for key, value in table.items():
        if isinstance(value, dict) and value:
            lines += ["", f"[{key}]", *_pairs(value)]
        for part in _tables(value):
            lines += ["", f"[[{key}]]", *_pairs(part)]
    return "\n".join(lines) + "\n"


def file_of(design):
    """The DesignFile, in mm, of a BaseDesign."""
    return DesignFile.model_validate(
        {"format": FORMAT} | table_of(design, {StringerEnd: _end}))


def _tables(value):
    """The tables of a list of tables; none of anything else."""
    return [one for one in value if isinstance(one, dict)] if isinstance(value, list) else []


def _end(end):
    if end.x_m is None:
        return end.kind
    place = {"x_mm": round(end.x_m * MM_PER_M, DECIMALS)}
    return {"into": end.into} | place if end.kind == "into" else place


def _pairs(table):
    return [f"{_key(key)} = {_value(value)}" for key, value in table.items()]


def _key(key):
    return key if _BARE_KEY.fullmatch(key) else _text(key)


def _value(value):
    if isinstance(value, dict):
        return "{ " + ", ".join(_pairs(value)) + " }"
    if isinstance(value, list):
        return "[" + ", ".join(_value(one) for one in value) + "]"
    if isinstance(value, str):
        return _text(value)
    return repr(int(value)) if float(value).is_integer() else repr(float(value))


def _text(text):
    """A TOML basic string: JSON's escapes, and the delete sign, which JSON lets through."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")
