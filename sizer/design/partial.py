"""What of a faulty design file can still be checked, so that all its faults are told at once."""

import copy
from dataclasses import replace
from typing import Literal, get_args, get_origin

from pydantic import ValidationError

from sizer.design.check import faults_between
from sizer.design.check_seat import STANDS_ON
from sizer.design.schema import DesignFile


def _some(field):
    """Some value that may stand in a field of the file."""
    kind, origin = field.annotation, get_origin(field.annotation)
    least = {name: getattr(one, name) for one in field.metadata for name in ("ge", "min_length")
             if hasattr(one, name)}
    if origin is Literal:
        return get_args(kind)[0]
    if origin is list:
        return ["-"] * least["min_length"]
    if origin is dict:
        return {}
    if kind is str:
        return "-"
    if kind is float:
        return least.get("ge", 1.0)
    return {key: _some(one) for key, one in kind.model_fields.items()}


# In place of what cannot be read, for the checks between the other parts.
_STAND_INS = {key: _some(DesignFile.model_fields[key]) for key in (
    "name", "character", "suits", "drawn_for", "lacks", "skin", "seat")}
# What a check compares; where one of these merely stands in, its finding would mislead.
_COMPARES = {
    ("drawn_for", "use"): {"drawn_for.use", "suits"},
    ("drawn_for", "weight_kg"): {"drawn_for", "drawn_for.weight_kg", "drawn_for.stature_mm"},
    STANDS_ON: {"seat", "seat.kind", "seat.length_mm", "seat.stands_on", "frame"},
}


def faults_of_rest(table, error, source, assumed):
    """Faults between the sound parts of a parsed file of which a ValidationError tells what is
    amiss, a list; empty where that is too much.

    Its source begins each fault; `assumed` are keys that the file itself does not have.
    """
    rest, stood_in = _sound_rest(table, error)
    if rest is None:
        return []
    stood_in |= set(assumed)
    if rest.seat.kind == "panel":  # which leans on no frame
        stood_in.discard("frame")
    misleading = {path for path, leans_on in _COMPARES.items() if leans_on & stood_in}
    sound = [at for at in range(len(table["frame"])) if at not in _unreadable_frames(error)]
    return [replace(fault, at=tuple(_as_given(path, sound) for path in fault.at))
            for fault in faults_between(rest, source) if misleading.isdisjoint(fault.at)]


def _unreadable_frames(error):
    return {found["loc"][1] for found in error.errors() if found["loc"][0] == "frame"
            and len(found["loc"]) > 1}


def _as_given(path, sound):
    """A path into the rest as one into the file, where `sound` are its readable frames."""
    return (*path[:1], sound[path[1]], *path[2:]) if path[:1] == ("frame",) else path


def _sound_rest(table, error):
    """The file without unknown keys and unreadable frames, and what has a stand-in or is gone.

    The file is None where what is amiss has no stand-in.
    """
    rest, stood_in, unreadable = copy.deepcopy(table), set(), _unreadable_frames(error)
    for found in error.errors():
        first, *path = found["loc"]
        if first in _STAND_INS:
            stood_in.add(_stand_in(rest, first, path))
        elif found["type"] == "extra_forbidden" and first != "frame":
            _take_out(rest, found["loc"])
    if unreadable:
        rest["frame"] = [one for at, one in enumerate(rest["frame"]) if at not in unreadable]
        stood_in.add("frame")
    try:
        return DesignFile.model_validate(rest), stood_in
    except ValidationError:
        return None, stood_in


def _stand_in(rest, first, path):
    """Puts a stand-in for one value, or for the whole part, and returns its place."""
    given, whole = rest.get(first), _STAND_INS[first]
    if not path or not isinstance(given, dict):
        rest[first] = copy.deepcopy(whole)
        return first
    key = path[0]
    given.pop(key, None)
    if key in whole:
        given[key] = whole[key]
    return f"{first}.{key}"


def _take_out(rest, loc):
    """Removes an unknown key."""
    *path, last = loc
    part = rest
    for key in path:  # a pydantic union's own steps are no keys of the file
        part = part if isinstance(part, dict) and key not in part else part[key]
    part.pop(last, None)
