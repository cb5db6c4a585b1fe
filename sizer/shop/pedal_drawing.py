"""The footbrace's pedal and strap to cut at full size, as seen from astern: the pedal is starboard,
port is it turned over.
"""

import numpy as np

from sizer.drawing.record import Circle, Drawing, Path, Text
from sizer.shop.pedals import BOLT_MM, MOST_OPEN_M, SLOT_WIDE_M, THICK_M
from sizer.units import MM_PER_M

PEDAL, STRAP = "footbrace pedal", "pedal strap"
LETTERS_M = 0.006  # of words on it; our drawing


def pedal_piece(made):
    """The Drawing of a plate of Pedals, its inner edge on the left."""
    at = made.plate_m.min(axis=0)
    bolts = np.array(made.bolts_m) - at
    middle = 0.5 * float(np.ptp(made.plate_m[:, 0])), float(bolts[:, 1].mean())
    return Drawing(PEDAL, (
        Path("cut", made.plate_m - at, closed=True),
        *(Circle("drill", tuple(one), 0.5 * BOLT_MM[0] / MM_PER_M) for one in bolts.tolist()),
        Text("text", middle, LETTERS_M, f"{PEDAL}, 2 off")), tuple(pedal_notes(made)))


def strap_piece(made):
    """The Drawing of the strap of Pedals, a hole at both ends of each bolt's slot."""
    at, hole = made.strap_m.min(axis=0), 0.5 * SLOT_WIDE_M
    holes = [(side * out, up) for (_, up), (inner, outer) in zip(
        made.bolts_m, made.slots_m, strict=True)
        for side in (1.0, -1.0) for out in (inner + hole, outer - hole)]
    middle = tuple((0.5 * np.ptp(made.strap_m, axis=0)).tolist())
    return Drawing(STRAP, (
        Path("cut", made.strap_m - at, closed=True),
        *(Circle("drill", tuple(one), hole) for one in (np.array(holes) - at).tolist()),
        Text("text", middle, LETTERS_M, STRAP)), (
        f"Pedal strap, 1 off, {THICK_M * MM_PER_M:g} mm plywood: ahead of both pedals, as seen "
        "from astern, its notch over the keel. Each two holes at one height are the ends of a "
        "slot: saw out what is between them. Round the upper edge well, over which a foot may "
        "have to come back.",))


def pedal_notes(made):
    """What has to be told of it."""
    yield (f"Footbrace pedal, 2 off, {THICK_M * MM_PER_M:g} mm plywood: starboard as seen from "
           "astern, as it stands in the boat, its upper edge level, the notch on the right, wide "
           "for the cheek and narrow for the rail behind it: saw it no wider there, or toes go "
           "in. Port is the same turned over. Round what a foot or the skin could "
           "touch. It is shaped to the boat for this paddler's place: hold it there in the frame "
           f"before the skin. No bar {MOST_OPEN_M * MM_PER_M:g} mm thick may go by it, under it, "
           "beside it or behind the rail, and it may touch no stick: a foot that goes in there is "
           "held.")
