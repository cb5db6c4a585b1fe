"""Reads a base design file: every fault at once, and nothing half-read is ever used."""

import tomllib

import numpy as np
from pydantic import ValidationError

from sizer.design.check import faults_between
from sizer.design.records import (
    BaseDesign,
    Cockpit,
    DrawnFor,
    Frame,
    Limits,
    Stem,
    Stringer,
    StringerEnd,
)
from sizer.design.schema import FORMAT, DesignFile, Into
from sizer.errors import BadInput, Fault
from sizer.units import MM_PER_M

G_PER_KG = 1000.0
MOST_BYTES = 2_000_000  # a design of 60 frames is under 30 kB; our judgement


def read_design(text, source="design"):
    """A base design from the text of a TOML file.

    Parameters
    ----------
    text : str or bytes, at most 2 MB
    source : str, the file's name, to start each fault with

    Raises
    ------
    BadInput, with every fault: place, value found, what is allowed.
    """
    return design_from_file(_validated(_parsed(text, source), source), source)


def _parsed(text, source):
    if len(text) > MOST_BYTES:
        found = f"{len(text) / 1e6:.1f} MB"
        raise BadInput([Fault(source, found, "a design file is at most 2 MB; is this the file?")])
    if isinstance(text, bytes):
        try:
            text = text.decode("utf-8")
        except UnicodeDecodeError as error:
            raise BadInput([Fault(source, f"byte {error.start} is not UTF-8 text",
                                  "save the design as plain UTF-8 text")]) from error
    if not text.strip():
        raise BadInput([Fault(source, "empty", "a design file; see baselines/README.md")])
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise BadInput([Fault(source, f"not readable as TOML: {error}",
                              "mend that line; the file may have been cut short")]) from error


def _validated(table, source):
    version = table.get("format")
    if isinstance(version, int) and not isinstance(version, bool) and version > FORMAT:
        raise BadInput([Fault(f"{source}: format", str(version),
                              f"this version reads format {FORMAT}; update the program")])
    try:
        design = DesignFile.model_validate(table)
    except ValidationError as error:
        raise BadInput(_plain_faults(error, table, source)) from error
    if design.format != FORMAT:
        raise BadInput([Fault(f"{source}: format", str(design.format), f"must be {FORMAT}")])
    return design


def _plain_faults(error, table, source):
    """Pydantic's findings in our words, one a place."""
    faults = {}
    for found in error.errors():
        keys, value = _place(found["loc"], table)
        place = f"{source}: {'.'.join(keys)}"
        if found["type"] == "missing":
            faults[place] = Fault(place, "missing", "is needed; see baselines/README.md")
        elif found["type"] == "extra_forbidden":
            faults[place] = Fault(place, "unknown key",
                                  "remove it, or mend its spelling; see baselines/README.md")
        elif keys[-1] in ("start", "end"):
            faults[place] = Fault(place, repr(value), '"stem", "coaming", { x_mm = 1200 } or '
                                  '{ into = "another stringer", x_mm = 1200 }')
        else:
            faults[place] = Fault(place, _short(value), found["msg"].lower())
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


def design_from_file(file, source):
    """The SI record of a validated file.

    Raises
    ------
    BadInput, when parts of the file do not agree with each other.
    """
    faults = faults_between(file, source)
    if faults:
        raise BadInput(faults)
    drawn, limits, cockpit = file.drawn_for, file.limits, file.cockpit
    return BaseDesign(
        name=file.name,
        character=file.character,
        drawn_for=DrawnFor(
            drawn.weight_kg, drawn.stature_mm / MM_PER_M, drawn.hip_width_mm / MM_PER_M,
            drawn.gear_kg, drawn.use, drawn.water,
            drawn.waterline_length_mm / MM_PER_M, drawn.draft_mm / MM_PER_M),
        limits=Limits(
            tuple(limits.length), tuple(limits.beam), tuple(limits.depth), tuple(limits.crown),
            _pair_m(limits.cockpit_length_mm), _pair_m(limits.cockpit_width_mm)),
        stringers=tuple(
            Stringer(one.name, one.role, one.width_mm / MM_PER_M, one.depth_mm / MM_PER_M,
                     one.wood, _end(one.start), _end(one.end))
            for one in file.stringer),
        frames=tuple(
            Frame(one.name, one.kind, one.x_mm / MM_PER_M, one.thickness_mm / MM_PER_M,
                  {name: _pair_m(point) for name, point in one.points_mm.items()})
            for one in file.frame),
        bow=_stem(file.bow),
        stern=_stem(file.stern),
        cockpit=Cockpit(
            cockpit.front_x_mm / MM_PER_M, cockpit.back_x_mm / MM_PER_M,
            cockpit.width_mm / MM_PER_M,
            cockpit.rim_front_z_mm / MM_PER_M, cockpit.rim_back_z_mm / MM_PER_M, cockpit.entry,
            cockpit.seat_x_mm / MM_PER_M, cockpit.seat_z_mm / MM_PER_M,
            _pair_m(cockpit.seat_slide_mm), _pair_m(cockpit.footbrace_reach_mm),
            cockpit.backband_height_mm / MM_PER_M),
        fabric_kgpm2=file.skin.fabric_gpm2 / G_PER_KG,
        coating_kgpm2=file.skin.coating_gpm2 / G_PER_KG,
    )


def _pair_m(pair):
    return tuple(value / MM_PER_M for value in pair)


def _end(given):
    if isinstance(given, str):
        return StringerEnd(given)
    if isinstance(given, Into):
        return StringerEnd("into", given.x_mm / MM_PER_M, given.into)
    return StringerEnd("free", given.x_mm / MM_PER_M)


def _stem(given):
    return Stem(given.thickness_mm / MM_PER_M, np.array(given.profile_mm) / MM_PER_M,
                {name: x / MM_PER_M for name, x in given.lands_mm.items()})
