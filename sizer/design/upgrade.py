"""Brings a design file of format 1 up to the present one, and says what it had to assume.

Format 1 gave a height for the seat and nothing that the seat stands on, and it named one use only.
What a file has in spite of its number is kept.
"""

import copy
import math
from itertools import pairwise

from pydantic import ValidationError

from sizer.design.check_seat import seat_faults
from sizer.design.records import Seat
from sizer.design.schema import FORMAT, DesignFile, part

# Both are our drawing: common sizes, to be checked by whoever drew the file.
PANEL = {"kind": "panel", "thickness_mm": 6, "width_mm": 320, "length_mm": 330,
         "clear_of_skin_mm": 15}
SLATS = PANEL | {"kind": "slats", "thickness_mm": 12}
_MADE_OF = {"panel": "plywood panel", "slats": "seat of slats"}


def upgraded(table):
    """A parsed format 1 table as a new one of the present format, and sentences on what was
    assumed.

    Nothing is refused here: what is amiss stays so, for the reader to tell. Where no seat can be
    assumed that would stand on anything, it stays missing.
    """
    newer = copy.deepcopy(table) | {"format": FORMAT}
    height, told = _height_taken_out(newer), []
    if "suits" not in table:
        use = _use(newer)
        newer["suits"] = [use]
        told.append("Format 1 file: it does not say what uses the boat suits; it was taken to "
                    f"suit the use it was drawn for, {use}.")
    seat = None if "seat" in table else _seat(newer)
    if seat is not None:
        newer["seat"] = seat
        told.append(f"Format 1 file: the seat's height{height} was left out and "
                    f"{_seat_words(seat)} was assumed; check it.")
    return newer, tuple(told)


def _height_taken_out(table):
    """Takes the seat's height out, and returns it in words."""
    cockpit = table.get("cockpit")
    height = cockpit.pop("seat_z_mm", None) if isinstance(cockpit, dict) else None
    known = type(height) in (int, float) and math.isfinite(height)
    return f" of {height:g} mm" if known else ""


def _use(table):
    """The use that a file was drawn for; "-" where that is no use's name."""
    drawn_for = table.get("drawn_for")
    use = drawn_for.get("use") if isinstance(drawn_for, dict) else None
    return use[:200] or "-" if isinstance(use, str) else "-"


def _seat(table):
    """The first seat that has something to stand on, None where there is none.

    Of a file that cannot be read it is any seat, so that nothing is said of the seat.
    """
    anything = PANEL | {"stands_on": ["-", "-"]}
    try:
        file = DesignFile.model_validate(table | {"seat": anything})
    except ValidationError:
        return anything
    return next((seat for seat in _seats(file) if not [
        *seat_faults(file.model_copy(update={"seat": part(Seat).model_validate(seat)}))]), None)


def _seats(file):
    """Panels on keel and one chine, the lowest first; then slats between neighbouring frames."""
    keels, chines = ([one.name for one in file.stringer if one.role == role]
                     for role in ("keel", "chine"))
    for keel in keels:
        for chine in chines:
            yield PANEL | {"stands_on": [keel, chine]}
    for fore, aft in pairwise(file.frame):
        yield SLATS | {"stands_on": [fore.name, aft.name]}


def _seat_words(seat):
    where = " and ".join(f"the {name}" for name in seat["stands_on"])
    if seat["kind"] == "slats":
        where = "the floors of " + " and ".join(seat["stands_on"])
    return (f"a {seat['thickness_mm']} mm {_MADE_OF[seat['kind']]}, {seat['width_mm']} x "
            f"{seat['length_mm']} mm, on {where}")
