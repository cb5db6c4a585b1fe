"""Reads a base design file: every fault at once, and nothing half-read is ever used."""

import re
import tomllib
from dataclasses import replace

from pydantic import ValidationError

from sizer.border import record_of
from sizer.design.check import faults_between
from sizer.design.partial import faults_of_rest
from sizer.design.records import BaseDesign, StringerEnd
from sizer.design.schema import FORMAT, DesignFile
from sizer.design.upgrade import upgraded
from sizer.errors import BadInput, Fault
from sizer.spreadsheet import BYTE_ORDER_MARK
from sizer.units import MM_PER_M

# What is allowed, by the kind of pydantic's finding; its own words speak of inputs and items.
_ALLOWED = {
    "float_type": "a number without quotes",
    "int_type": "a whole number without quotes",
    "int_from_float": "a whole number",
    "finite_number": "a number, neither nan nor inf",
    "greater_than": "more than {gt:g}",
    "greater_than_equal": "{ge:g} or more",
    "less_than_equal": "{le:g} or less",
    "literal_error": "one of {expected}",
    "string_type": "text in quotes",
    "string_too_short": "at least one letter",
    "string_too_long": "at most {max_length} letters",
    "list_type": "a list in square brackets",
    "too_short": "at least {min_length} entries",
    "too_long": "at most {max_length} entries",
    "dict_type": "a table, name = value",
    "model_type": "a table, name = value",
}
MOST_BYTES = 2_000_000  # a design of 60 frames is under 30 kB; our judgement


def read_design(text, source="design"):
    """A base design from the text or bytes of a TOML file, at most 2 MB; its name, `source`, starts
    each fault. BadInput with every fault: place, value found, what is allowed."""
    file, assumed = _validated(_parsed(text, source), source)
    return design_from_file(file, source, assumed)


def plain_text(given, source, what):
    """The text of a file given as str or UTF-8 bytes.

    Raises BadInput where it is empty, not UTF-8 or over 2 MB; `what` names what it should be.
    """
    if len(given) > MOST_BYTES:
        raise BadInput([Fault(source, f"{len(given) / 1e6:.1f} MB",
                              f"{what} is at most 2 MB; is this the file?")])
    if isinstance(given, bytes):
        given = utf8_text(given, source)
    text = given.removeprefix(BYTE_ORDER_MARK)
    if not text.strip():
        raise BadInput([Fault(source, "empty", f"{what}; see baselines/README.md")])
    return text


def utf8_text(raw, source):
    """The text of UTF-8 bytes, without the byte order mark that some programs begin it with.

    Raises BadInput at `source`, where it is not UTF-8.
    """
    try:
        return raw.decode("utf-8").removeprefix(BYTE_ORDER_MARK)
    except UnicodeDecodeError as error:
        raise BadInput([Fault(source, f"byte {error.start} is not UTF-8 text",
                              "save it as plain UTF-8 text")]) from error


def _parsed(text, source):
    text = plain_text(text, source, "a design file")
    try:
        return tomllib.loads(text)
    except ValueError as error:  # TOML's own, and Python's on a number of thousands of digits
        raise BadInput([Fault(source, f"not readable as TOML: {error}",
                              _mending(text, str(error)))]) from error
    except RecursionError as error:
        raise BadInput([Fault(source, "not readable as TOML: brackets in brackets in brackets",
                              "a design file nests three deep at most")]) from error


def _mending(text, error):
    """What to do about a line that is no TOML."""
    line = re.search(r"at line (\d+)", error)
    lines = text.splitlines()
    if line and int(line[1]) <= len(lines) and re.search(
            r"=\s*-?\d+,\d+\s*(#.*)?$", lines[int(line[1]) - 1]):
        return "write a decimal point, no comma: 18.5"
    return "mend that line or the one before it; the file may have been cut short"


def _validated(table, source):
    """The DesignFile of a parsed table of any format, and what was assumed for an older one."""
    version, given, assumed = table.get("format"), table, ()
    if type(version) is int and version > FORMAT:
        raise BadInput([Fault(f"{source}: format", str(version),
                              f"this version reads format {FORMAT} and before; "
                              "update the program")])
    if type(version) is int and version == 1:
        table, assumed = upgraded(table)
    try:
        file = DesignFile.model_validate(table)
    except ValidationError as error:
        raise BadInput([*plain_faults(error, table, source),
                        *faults_of_rest(table, error, source, table.keys() - given.keys())
                        ]) from error
    if file.format != FORMAT:
        raise BadInput([Fault(f"{source}: format", str(file.format), f"must be 1 or {FORMAT}")])
    return file, assumed


def plain_faults(error, table, source):
    """A ValidationError's findings in our words, one a place, each begun by the source."""
    faults = {}
    for found in error.errors():
        keys, value = _place(found["loc"], table)
        place, at = f"{source}: {'.'.join(keys)}", (found["loc"][:len(keys)],)
        if found["type"] == "missing" and found["loc"][-1] == keys[-1]:
            faults[place] = Fault(place, "missing", "is needed; see baselines/README.md", at)
        elif keys[-1] in ("start", "end"):
            faults[place] = Fault(place, repr(value), '"stem", "coaming", { x_mm = 1200 } or '
                                  '{ into = "another stringer", x_mm = 1200 }', at)
        elif found["type"] == "extra_forbidden":
            faults[place] = Fault(place, "unknown key",
                                  "remove it, or mend its spelling; see baselines/README.md", at)
        else:
            allowed = _ALLOWED.get(found["type"], found["msg"].lower())
            faults[place] = Fault(place, _short(value), allowed.format(**found.get("ctx", {})), at)
    return list(faults.values())


def _place(loc, table):
    """The keys down to a finding, with a stringer's or frame's name in place of its number."""
    keys, value = [], table
    for key in loc:
        if isinstance(value, dict) and key in value:
            value = value[key]
            keys.append(str(key))
        elif isinstance(value, list) and isinstance(key, int) and key < len(value):
            value = value[key]
            label = value.get("name") if isinstance(value, dict) else None
            keys.append(f"{key + 1} ({label})" if label else str(key + 1))
        elif keys and keys[-1] in ("start", "end"):
            break
        else:
            keys.append(str(key))
            break
    return keys or ["file"], value


def _short(value):
    text = repr(value)
    return text if len(text) <= 60 else text[:57] + "..."


def design_from_file(file, source, assumed=()):
    """The SI record of a validated file; `assumed` holds what was assumed in reading it. BadInput
    when parts of the file do not agree with each other."""
    faults = faults_between(file, source)
    if faults:
        raise BadInput(faults)
    return replace(record_of(BaseDesign, file.model_dump(), {StringerEnd: _end}),
                   assumed=tuple(assumed))


def _end(given):
    if isinstance(given, str):
        return StringerEnd(given)
    return StringerEnd("into" if "into" in given else "free", given["x_mm"] / MM_PER_M,
                       given.get("into"))
