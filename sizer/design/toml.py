"""A design file's table as TOML: written anew, or into a text whose comments and order stay.

For the latter the text is parted at its table headings. Comment lines right above a heading belong
to that table and go with it; all others stay.
"""

import json
import re
import tomllib
from dataclasses import dataclass, replace
from difflib import SequenceMatcher
from itertools import groupby

import tomlkit
from tomlkit.exceptions import TOMLKitError
from tomlkit.items import InlineTable

_BARE_KEY = re.compile(r"[A-Za-z0-9_-]+", re.ASCII)
_HEADING = re.compile(r"\s*\[\[?\s*([\w-]+)\s*(\.[^\[\]=]+)?\]\]?\s*(#.*)?")
_LINE = re.compile(r"[^\n]*\n|[^\n]+")


@dataclass(frozen=True)
class _Block:
    """One table as it is written; the top of the file has no key."""

    key: str
    lead: str  # lines since the table before
    text: str  # from its heading to its last value


def toml_text(table):
    """The text of a design file of a dict as `DesignFile.model_dump()` gives it."""
    table = _without_blanks(table)
    plain = _pairs({key: value for key, value in table.items() if not _headed(value)})
    return "\n".join(plain) + "\n" + "".join(
        block.lead + block.text for key, value in table.items() if _headed(value)
        for block in _new_blocks(key, value))


def toml_like(text, table):
    """The text of a readable design file with another dict's values in it, its comments and order
    kept.

    A text in a layout that cannot be followed, such as headings inside of strings, is written anew
    without its comments.
    """
    try:
        kept = _with_values(text if text.endswith("\n") else text + "\n", table)
        again = tomllib.loads(kept)
    except (TOMLKitError, tomllib.TOMLDecodeError, KeyError):
        return toml_text(table)
    return kept if again == _without_blanks(table) else toml_text(table)


def _with_values(text, table):
    (top, *blocks), tail = _blocks(text)
    table, headed = _without_blanks(table), {block.key for block in blocks}
    in_top = tomlkit.parse(top.text)
    _put(in_top, {key: value for key, value in table.items()
                  if key not in headed and (key in in_top or not _headed(value))})
    kept = [replace(top, text=in_top.as_string())]
    for key, group in groupby(blocks, lambda block: block.key):
        rows = table.get(key) or []
        kept += _rows(list(group), rows if isinstance(rows, list) else [rows])
    for key, value in table.items():
        if _headed(value) and key not in headed and key not in in_top:
            kept += _new_blocks(key, value)
    return "".join(block.lead + block.text for block in kept) + tail


def _blocks(text):
    """The _Blocks of a text, the top first, and the lines after the last of them."""
    parts = [("", [])]
    for line in _LINE.findall(text):
        heading = _HEADING.fullmatch(line.strip())
        if heading and not (heading[2] and heading[1] == parts[-1][0]):
            parts.append((heading[1], []))
        parts[-1][1].append(line)
    blocks, lead = [], ""
    for key, lines in parts:
        end = len(lines)
        while end and lines[end - 1].strip()[:1] in ("", "#"):
            end -= 1
        blocks.append(_Block(key, lead, "".join(lines[:end])))
        lead = "".join(lines[end:])
    return blocks, lead


def _rows(blocks, rows):
    """The blocks of one key with the values of `rows`, each in the place of its like by name."""
    names = [_part(tomlkit.parse(block.text), block.key).get("name") for block in blocks]
    new_names = [row.get("name") for row in rows]
    kept = []
    for _, begin, end, new_begin, new_end in SequenceMatcher(
            None, names, new_names, False).get_opcodes():
        old, new = blocks[begin:end], rows[new_begin:new_end]
        kept += [_edited(block, row) for block, row in zip(old, new, strict=False)]
        kept += [replace(block, lead=_without_own_comments(block.lead), text="")
                 for block in old[len(new):]]
        kept += [block for row in new[len(old):] for block in _new_blocks(blocks[0].key, [row])]
    return kept


def _edited(block, row):
    """The block with the values of a dict."""
    whole = tomlkit.parse(block.text)
    _put(_part(whole, block.key), row)
    return replace(block, text=whole.as_string())


def _part(whole, key):
    """The one table of a parsed block."""
    return whole[key][0] if isinstance(whole[key], list) else whole[key]


def _without_own_comments(lead):
    lines = _LINE.findall(lead)
    while lines and lines[-1].strip():
        lines.pop()
    return "".join(lines[:-1])


def _put(part, values):
    """Gives a table of a parsed text these values, and touches none that is the same."""
    for key in [key for key in part if key not in values]:
        del part[key]
    for key, value in values.items():
        if key in part:
            _change(part, key, value)
        else:
            part[key] = tomlkit.value(_value(value))


def _change(part, key, value):
    old = part[key]
    if old == value:
        return
    if isinstance(old, dict) and isinstance(value, dict) and (
            old.keys() == value.keys() or not isinstance(old, InlineTable)):
        _put(old, value)
    elif isinstance(old, list) and isinstance(value, list) and len(old) == len(value):
        for at, one in enumerate(value):
            _change(old, at, one)
    else:
        part[key] = tomlkit.value(_value(value))


def _without_blanks(table):
    """The table without what is empty, which a file need not say."""
    return {key: value for key, value in table.items() if value != {}}


def _headed(value):
    """Whether a value stands under headings of its own: a table, or a list of tables."""
    return isinstance(value, dict) or (isinstance(value, list) and isinstance(value[0], dict))


def _new_blocks(key, value):
    for row in value if isinstance(value, list) else [value]:
        heading = f"[[{key}]]" if isinstance(value, list) else f"[{key}]"
        yield _Block(key, "\n", "\n".join([heading, *_pairs(row)]) + "\n")


def _pairs(table):
    return [f"{key if _BARE_KEY.fullmatch(key) else _text(key)} = {_value(value)}"
            for key, value in table.items()]


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
