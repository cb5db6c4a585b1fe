"""Writes a base design back as a design file, format 2."""

import json
import re

from sizer.design.read import G_PER_KG
from sizer.design.schema import FORMAT, DesignFile
from sizer.units import MM_PER_M

DECIMALS = 6  # of a millimetre: undoes the rounding of mm to m and back, so reading gives the same
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
    drawn, limits = design.drawn_for, design.limits
    cockpit, seat = design.cockpit, design.seat
    return DesignFile.model_validate({
        "format": FORMAT,
        "name": design.name,
        "character": design.character,
        "suits": list(design.suits),
        "drawn_for": {
            "weight_kg": drawn.weight_kg, "stature_mm": _mm(drawn.stature_m),
            "hip_width_mm": _mm(drawn.hip_width_m), "gear_kg": drawn.gear_kg, "use": drawn.use,
            "water": drawn.water, "waterline_length_mm": _mm(drawn.waterline_length_m),
            "draft_mm": _mm(drawn.draft_m)},
        "lacks": dict(design.lacks),
        "limits": {
            "length": list(limits.length), "beam": list(limits.beam),
            "depth": list(limits.depth), "crown": list(limits.crown),
            "cockpit_length_mm": _mms(limits.cockpit_length_m),
            "cockpit_width_mm": _mms(limits.cockpit_width_m)},
        "skin": {"fabric_gpm2": round(design.fabric_kgpm2 * G_PER_KG, DECIMALS),
                 "coating_gpm2": round(design.coating_kgpm2 * G_PER_KG, DECIMALS)},
        "stringer": [
            {"name": one.name, "role": one.role, "width_mm": _mm(one.width_m),
             "depth_mm": _mm(one.depth_m), "wood": one.wood, "start": _end(one.start),
             "end": _end(one.end)}
            for one in design.stringers],
        "frame": [
            {"name": one.name, "kind": one.kind, "x_mm": _mm(one.x_m),
             "thickness_mm": _mm(one.thickness_m),
             "points_mm": {name: _mms(point) for name, point in one.points_m.items()}}
            for one in design.frames],
        "bow": _stem(design.bow),
        "stern": _stem(design.stern),
        "cockpit": {
            "front_x_mm": _mm(cockpit.front_x_m), "back_x_mm": _mm(cockpit.back_x_m),
            "width_mm": _mm(cockpit.width_m), "rim_front_z_mm": _mm(cockpit.rim_front_z_m),
            "rim_back_z_mm": _mm(cockpit.rim_back_z_m), "entry": cockpit.entry,
            "seat_x_mm": _mm(cockpit.seat_x_m),
            "seat_slide_mm": _mms(cockpit.seat_slide_m),
            "footbrace_reach_mm": _mms(cockpit.footbrace_reach_m),
            "backband_height_mm": _mm(cockpit.backband_height_m)},
        "seat": {
            "kind": seat.kind, "thickness_mm": _mm(seat.thickness_m),
            "width_mm": _mm(seat.width_m), "length_mm": _mm(seat.length_m),
            "stands_on": list(seat.stands_on), "clear_of_skin_mm": _mm(seat.clear_of_skin_m)},
    })


def _tables(value):
    """The tables of a list of tables; none of anything else."""
    return [one for one in value if isinstance(one, dict)] if isinstance(value, list) else []


def _mm(metres):
    return round(float(metres) * MM_PER_M, DECIMALS)


def _mms(pair):
    return [_mm(value) for value in pair]


def _end(end):
    if end.kind == "into":
        return {"into": end.into, "x_mm": _mm(end.x_m)}
    return {"x_mm": _mm(end.x_m)} if end.kind == "free" else end.kind


def _stem(stem):
    return {"thickness_mm": _mm(stem.thickness_m),
            "profile_mm": [_mms(point) for point in stem.profile_m],
            "lands_mm": {name: _mm(x) for name, x in stem.lands_m.items()}}


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
